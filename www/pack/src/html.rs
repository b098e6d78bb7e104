//! Start tags of an HTML text: as much of HTML as it takes to swap the page's links for contents.

use std::ops::Range;

/// A start tag as written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Tag {
    /// Lower-case element name.
    pub(crate) name: String,
    /// Attributes in their order; one without a value has an empty one.
    pub(crate) attributes: Vec<(String, String)>,
    /// Bytes from `<` to `>`.
    pub(crate) range: Range<usize>,
}

impl Tag {
    /// An attribute's value.
    pub(crate) fn get(&self, name: &str) -> Option<&str> {
        self.attributes.iter().find(|(n, _)| n == name).map(|(_, v)| v.as_str())
    }
}

/// All start tags outside comments and outside the text of scripts and styles.
pub(crate) fn tags(html: &str) -> Vec<Tag> {
    let mut tags = Vec::new();
    let mut at = 0;
    while let Some(open) = html[at..].find('<').map(|i| at + i) {
        let rest = &html[open..];
        if rest.starts_with("<!--") {
            at = rest.find("-->").map_or(html.len(), |i| open + i + 3);
        } else if let Some(tag) = start_tag(html, open) {
            at = end_of_raw_text(html, &tag);
            tags.push(tag);
        } else {
            at = open + 1;
        }
    }
    tags
}

fn end_of_raw_text(html: &str, tag: &Tag) -> usize {
    if tag.name != "script" && tag.name != "style" {
        return tag.range.end;
    }
    let close = format!("</{}", tag.name);
    html[tag.range.end..].find(&close).map_or(html.len(), |i| tag.range.end + i)
}

fn start_tag(html: &str, open: usize) -> Option<Tag> {
    let mut text = Reader { text: html, at: open + 1 };
    let name = text.take(|c| c.is_ascii_alphanumeric() || c == '-').to_ascii_lowercase();
    if name.is_empty() {
        return None;
    }
    let mut attributes = Vec::new();
    loop {
        text.take(|c| c.is_ascii_whitespace() || c == '/');
        if text.eat('>') {
            return Some(Tag { name, attributes, range: open..text.at });
        }
        let key =
            text.take(|c| !c.is_ascii_whitespace() && !matches!(c, '=' | '>' | '/')).to_ascii_lowercase();
        if key.is_empty() {
            return None;
        }
        text.take(|c| c.is_ascii_whitespace());
        let value = if text.eat('=') { text.value()? } else { String::new() };
        attributes.push((key, value));
    }
}

struct Reader<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Reader<'a> {
    fn take(&mut self, wanted: impl Fn(char) -> bool) -> &'a str {
        let rest = &self.text[self.at..];
        let end = rest.find(|c| !wanted(c)).unwrap_or(rest.len());
        self.at += end;
        &rest[..end]
    }

    fn eat(&mut self, c: char) -> bool {
        let there = self.text[self.at..].starts_with(c);
        self.at += if there { c.len_utf8() } else { 0 };
        there
    }

    fn value(&mut self) -> Option<String> {
        self.take(|c| c.is_ascii_whitespace());
        for quote in ['"', '\''] {
            if self.eat(quote) {
                let value = self.take(|c| c != quote).to_owned();
                return self.eat(quote).then_some(value);
            }
        }
        Some(self.take(|c| !c.is_ascii_whitespace() && c != '>').to_owned())
    }
}

/// Text as it stands between tags.
pub(crate) fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tags_are_found_with_their_attributes() {
        let html = r#"<!doctype html><link rel=stylesheet href='a b.css'><script type="module" src="x.js"></script><input disabled/>"#;
        let found = tags(html);
        let names: Vec<&str> = found.iter().map(|t| t.name.as_str()).collect();
        assert_eq!(names, ["link", "script", "input"]);
        assert_eq!(found[0].get("href"), Some("a b.css"));
        assert_eq!(found[0].get("rel"), Some("stylesheet"));
        assert_eq!(found[1].get("src"), Some("x.js"));
        assert_eq!(found[2].get("disabled"), Some(""));
        assert_eq!(&html[found[1].range.clone()], r#"<script type="module" src="x.js">"#);
    }

    #[test]
    fn comments_and_scripts_hold_no_tags() {
        let html = "<!-- <link href=a> --><script>if (1 <b) { '<link href=c>' }</script><p>";
        let names: Vec<String> = tags(html).into_iter().map(|t| t.name).collect();
        assert_eq!(names, ["script", "p"]);
    }

    #[test]
    fn a_tag_cut_short_is_no_tag() {
        assert_eq!(tags("<link rel=\"style"), []);
        assert_eq!(tags("a < b"), []);
    }
}
