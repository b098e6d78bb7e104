//! The page as one file that works from a disk: scripts, styles, font, icon and core inside.
//!
//! From a `file:` address a browser imports no module, fetches nothing and starts no worker from a
//! neighbouring file. So the modules become one script, the worker starts from a blob of the text in
//! `#worker-text`, and the core is compiled from the text in `#core-base64`.

use crate::bindings::Bindings;
use crate::files::{Files, resolve};
use crate::html::{self, Tag};
use crate::page::{INDEX, catalogues, insert_policy};
use crate::{bundle, css, digest, mime, policy};
use anyhow::{Context, Result, ensure};
use std::collections::BTreeMap;

/// The file's name in `dist/`.
pub(crate) const NAME: &str = "crestrail.html";

/// The script that says so where one of the page's files does not come.
const BOOT: &str = "boot.js";

/// Modules that load something from beside the page, and those that take it from inside.
const STAND_INS: [(&str, &str); 3] = [
    ("start-worker.js", "start-worker-inline.js"),
    ("sheet-fonts.js", "sheet-fonts-inline.js"),
    ("words-source.js", "words-source-inline.js"),
];

/// Fonts that scripts ask for, by the ids of the elements that hold them.
const FONTS: [(&str, &str); 2] = [
    ("font-regular-base64", "fonts/crestrail-sans-regular.ttf"),
    ("font-medium-base64", "fonts/crestrail-sans-medium.ttf"),
];

/// The one self-contained page.
pub(crate) fn page(page: &Files, bindings: &Bindings) -> Result<String> {
    let index = page.text(INDEX)?;
    let mut made = Inliner { page, bindings, entries: 0, scripts: Vec::new(), styles: Vec::new() };
    let mut html = String::with_capacity(2 * bindings.whole.wasm.len());
    let mut at = 0;
    for tag in html::tags(index) {
        let Some(replacement) = made.replacement(&tag)? else { continue };
        html.push_str(&index[at..tag.range.start]);
        html.push_str(&replacement);
        at = end_of_element(index, &tag)?;
    }
    html.push_str(&index[at..]);
    ensure!(made.entries == 1, "index.html must have one module, not {}", made.entries);
    insert_policy(&html, &policy::single(&made.scripts, &made.styles))
}

struct Inliner<'a> {
    page: &'a Files,
    bindings: &'a Bindings,
    /// How many modules the page names.
    entries: usize,
    /// The texts whose hashes the policy must name.
    scripts: Vec<String>,
    styles: Vec<String>,
}

impl Inliner<'_> {
    /// What takes an element's place; `None` when it stays as it is.
    fn replacement(&mut self, tag: &Tag) -> Result<Option<String>> {
        let rel = tag.get("rel").unwrap_or_default();
        match (tag.name.as_str(), rel) {
            ("link", "stylesheet") => self.style(linked(tag, "href")?, tag.get("media")).map(Some),
            ("link", "icon") => self.icon(tag).map(Some),
            // A file on a disk is not installed and has nothing to load ahead.
            ("link", "manifest" | "modulepreload" | "preload" | "apple-touch-icon") => {
                Ok(Some(String::new()))
            }
            ("link", _) => {
                anyhow::bail!("index.html has a link rel={rel:?} that the single file knows no place for")
            }
            // Nothing of a file on a disk can stay away from it.
            ("script", _) if tag.get("src") == Some(BOOT) => Ok(Some(String::new())),
            ("script", _) if tag.get("type") == Some("module") => self.script(linked(tag, "src")?).map(Some),
            ("script", _) => self.early(linked(tag, "src")?).map(Some),
            _ => Ok(None),
        }
    }

    fn style(&mut self, name: String, media: Option<&str>) -> Result<String> {
        let text = css::with_urls(self.page.text(&name)?, |address| self.data_address(&name, address))?;
        ensure!(!text.contains("</style"), "{name} would end its own element");
        let media = media.map(|media| format!(" media=\"{media}\"")).unwrap_or_default();
        let element = format!("<style{media}>{text}</style>");
        self.styles.push(text);
        Ok(element)
    }

    fn icon(&self, tag: &Tag) -> Result<String> {
        let href = tag.get("href").context("the icon has no href")?;
        Ok(format!("<link rel=\"icon\" href=\"{}\">", self.data_address(INDEX, href)?))
    }

    /// A file's contents as an address.
    fn data_address(&self, from: &str, address: &str) -> Result<String> {
        if address.starts_with("data:") || address.starts_with('#') {
            return Ok(address.to_owned());
        }
        let name = resolve(from, address)
            .with_context(|| format!("{from} names {address}, which leaves the page"))?;
        let bytes = self
            .page
            .get(&name)
            .with_context(|| format!("{from} names {name}, which the page does not have"))?;
        let kind = mime::of(&name).with_context(|| format!("{name} has no known media type"))?;
        // In an address a space would have to be escaped.
        let kind = kind.replace("; ", ";");
        Ok(format!("data:{kind};base64,{}", digest::base64(bytes)))
    }

    /// A script that runs before anything is painted.
    fn early(&mut self, name: String) -> Result<String> {
        let text = inside_script(self.page.text(&name)?);
        let element = format!("<script>{text}</script>");
        self.scripts.push(text);
        Ok(element)
    }

    fn script(&mut self, entry: String) -> Result<String> {
        self.entries += 1;
        let bundle = bundle::bundle(self.page, &entry, &BTreeMap::from(STAND_INS))?;
        let worker = self.worker()?;
        let text = inside_script(&bundle);
        let elements = format!(
            "<script type=\"text/plain\" id=\"worker-text\">{}</script>\n\
             <script type=\"text/plain\" id=\"core-base64\">{}</script>\n\
             {}{}<script type=\"module\">{text}</script>",
            inside_script(&worker),
            digest::base64(&self.bindings.whole.wasm),
            self.fonts()?,
            self.words()?,
        );
        self.scripts.push(text);
        Ok(elements)
    }

    fn fonts(&self) -> Result<String> {
        let element = |(id, name): (&str, &str)| {
            let bytes = self.page.get(name).with_context(|| format!("the page has no file {name}"))?;
            Ok(format!("<script type=\"text/plain\" id=\"{id}\">{}</script>\n", digest::base64(bytes)))
        };
        FONTS.into_iter().map(element).collect()
    }

    /// The words of each language but English, which is part of the scripts and of the core.
    fn words(&self) -> Result<String> {
        let element = |name: &str| {
            let text = self.page.text(name)?;
            ensure!(inside_script(text) == text, "{name} would end its own element");
            let id = name.trim_end_matches(".json").replace('/', "-");
            Ok(format!("<script type=\"text/plain\" id=\"{id}\">{text}</script>\n"))
        };
        catalogues(self.page).map(element).collect()
    }

    /// The worker as one classic script. The glue's name is lexical; `worker-inline.js` asks for a
    /// property of the worker's global object.
    fn worker(&self) -> Result<String> {
        let own = bundle::bundle(self.page, "worker-inline.js", &BTreeMap::new())?;
        Ok(format!("{}\nself.wasm_bindgen = wasm_bindgen;\n{}", self.bindings.whole.script, own))
    }
}

/// The name of the file in an attribute that must be there.
fn linked(tag: &Tag, attribute: &str) -> Result<String> {
    let link =
        tag.get(attribute).with_context(|| format!("index.html has a <{}> without {attribute}", tag.name))?;
    resolve(INDEX, link).with_context(|| format!("index.html names {link}, which leaves the page"))
}

/// A script has a closing tag, a link has none.
fn end_of_element(html: &str, tag: &Tag) -> Result<usize> {
    if tag.name != "script" {
        return Ok(tag.range.end);
    }
    let close = "</script>";
    let at = html[tag.range.end..].find(close).context("index.html has a script that is not closed")?;
    Ok(tag.range.end + at + close.len())
}

/// Script text that cannot end its element or open a comment in it. In strings, templates and
/// regular expressions, the only places where these can stand, a backslash before `/` or `!`
/// changes nothing.
fn inside_script(text: &str) -> String {
    text.replace("</script", "<\\/script").replace("<!--", "<\\!--")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::tests::sample;

    fn made() -> String {
        let (files, bindings) = sample();
        page(&files, &bindings).unwrap()
    }

    #[test]
    fn nothing_is_left_to_load() {
        let html = made();
        for tag in html::tags(&html) {
            for attribute in ["src", "href"] {
                let link = tag.get(attribute).unwrap_or("data:");
                assert!(link.starts_with("data:"), "{tag:?}");
            }
        }
        assert!(
            html.contains("<style>@font-face{src:url(\"data:font/woff2;base64,Zm9udA==\")}</style>"),
            "{html}"
        );
        assert!(html.contains("data:image/svg+xml;base64,"), "{html}");
        assert!(html.ends_with("</head><p>chair"), "{html}");
    }

    #[test]
    fn the_worker_and_the_core_lie_inside() {
        let html = made();
        let worker = html.split("id=\"worker-text\">").nth(1).unwrap().split("</script>").next().unwrap();
        assert!(worker.starts_with("let wasm_bindgen;\nself.wasm_bindgen = wasm_bindgen;\n"), "{worker}");
        assert!(worker.contains("function serve() {}") && worker.contains("serve(self);"), "{worker}");
        assert!(html.contains("id=\"core-base64\">AGFzbQ==</script>"));
        assert!(html.contains("id=\"font-regular-base64\">cm9tYW4=</script>"));
        assert!(html.contains("'inside'") && !html.contains("'beside'"));
    }

    #[test]
    fn the_words_of_other_languages_lie_inside() {
        let (mut files, bindings) = sample();
        files.put("words/fr.json", "{\"chair\":\"chaise\"}");
        files.put("words-core/fr.json", "{\"leg\":\"pied\"}");
        let html = page(&files, &bindings).unwrap();
        assert!(html.contains("id=\"words-fr\">{\"chair\":\"chaise\"}</script>"), "{html}");
        assert!(html.contains("id=\"words-core-fr\">{\"leg\":\"pied\"}</script>"), "{html}");
        files.put("words/fr.json", "{\"chair\":\"</script>\"}");
        assert!(page(&files, &bindings).is_err());
    }

    #[test]
    fn a_style_for_paper_stays_for_paper() {
        let (mut files, bindings) = sample();
        let index =
            files.text(INDEX).unwrap().replace("rel=\"stylesheet\"", "rel=\"stylesheet\" media=\"print\"");
        files.put(INDEX, index);
        assert!(page(&files, &bindings).unwrap().contains("<style media=\"print\">@font-face"));
    }

    #[test]
    fn a_script_cannot_end_its_element() {
        assert!(made().contains("startWorker('<\\/script>');"));
    }

    #[test]
    fn the_policy_names_the_script_by_its_hash() {
        let html = made();
        let script =
            html.split("<script type=\"module\">").nth(1).unwrap().split("</script>").next().unwrap();
        assert!(html.contains(&digest::source(script)), "{html}");
    }

    #[test]
    fn a_link_that_has_no_place_inside_is_refused() {
        let (mut files, bindings) = sample();
        let index = files.text(INDEX).unwrap().replace("rel=\"icon\"", "rel=\"prefetch\"");
        files.put(INDEX, index);
        assert!(page(&files, &bindings).is_err());
    }
}
