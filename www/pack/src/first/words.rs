//! The page's words, read from where the page has them.

use crate::files::Files;
use crate::page::WORDS;
use anyhow::{Context, Result};
use serde_json::Value;
use std::collections::BTreeMap;

/// The words of a language, by key.
pub(super) struct Words {
    tag: String,
    words: BTreeMap<String, String>,
}

impl Words {
    /// Those that stand in the page's own modules.
    pub(super) fn english(page: &Files) -> Result<Self> {
        let mut words = BTreeMap::new();
        for (name, _) in page.iter().filter(|(name, _)| name.starts_with("words-") && name.ends_with(".js")) {
            words.extend(page.text(name)?.lines().filter_map(row));
        }
        Ok(Self { tag: "en".to_owned(), words })
    }

    /// Those of a language; what its catalogue counts in several forms is not needed here.
    pub(super) fn of(page: &Files, tag: &str) -> Result<Self> {
        let mut own = Self { tag: tag.to_owned(), ..Self::english(page)? };
        let code = tag.split('-').next().unwrap_or(tag);
        if code != "en" {
            let name = format!("{WORDS}{code}.json");
            let catalogue: BTreeMap<String, Value> = serde_json::from_str(page.text(&name)?)
                .with_context(|| format!("{name} is no catalogue of words"))?;
            own.words.extend(
                catalogue.into_iter().filter_map(|(key, said)| Some((key, said.as_str()?.to_owned()))),
            );
        }
        Ok(own)
    }

    /// The language and its region.
    pub(super) fn tag(&self) -> &str {
        &self.tag
    }

    pub(super) fn say(&self, key: &str) -> Result<String> {
        self.words.get(key).cloned().with_context(|| format!("the page has no words for `{key}`"))
    }

    /// `one|other` of English, with the count in its place.
    pub(super) fn counted(&self, key: &str, count: usize) -> Result<String> {
        let both = self.say(key)?;
        let (one, other) = both.split_once('|').unwrap_or((&both, &both));
        Ok(if count == 1 { one } else { other }.replace("{count}", &count.to_string()))
    }

    /// A value as `words.js` keeps it apart in text from right to left.
    pub(super) fn isolated(&self, value: &str) -> String {
        if self.tag.starts_with("ar") { format!("\u{2068}{value}\u{2069}") } else { value.to_owned() }
    }
}

/// `  key: 'words',`
fn row(line: &str) -> Option<(String, String)> {
    let (key, rest) = line.strip_prefix("  ")?.split_once(": '")?;
    let text = rest.strip_suffix("',")?;
    Some((key.to_owned(), text.replace("\\'", "'")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_those_of_the_modules_and_the_catalogues() {
        let page = crate::page::read().unwrap();
        let english = Words::english(&page).unwrap();
        assert_eq!(english.say("price").unwrap(), "Price");
        assert_eq!(english.counted("verdict_fails", 1).unwrap(), "1 fails");
        assert_eq!(english.counted("verdict_fails", 3).unwrap(), "3 fail");
        assert!(english.say("no such key").is_err());
        let german = Words::of(&page, "de-AT").unwrap();
        assert_eq!((german.say("label_price").unwrap().as_str(), german.tag()), ("Preis", "de-AT"));
        assert!(Words::of(&page, "xx").is_err());
    }
}
