//! A catalogue: what one language says for each English pattern.

use crate::fill::{Piece, holes, pieces, put};
use crate::plural::{categories, category};
use core::fmt::{self, Display};
use serde::Deserialize;
use std::borrow::Cow;
use std::collections::BTreeMap;

/// What the file of a catalogue begins with.
const FORMAT: &str = "phrases/1";
/// Keeps what is put into a text from right to left apart from it (Unicode Standard Annex 9: first strong isolate, and its end).
const ISOLATE: [char; 2] = ['\u{2068}', '\u{2069}'];

/// What one language says for each English pattern.
///
/// ```json
/// { "crestrail": "phrases/1", "language": "de", "decimal": ",", "right_to_left": false,
///   "phrases": { "{0} in {1}": "{0} in {1}",
///                "{steps} steps": { "count": "steps", "one": "ein Schritt", "other": "{steps} Schritte" } } }
/// ```
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Catalogue {
    crestrail: String,
    language: String,
    decimal: String,
    #[serde(default)]
    right_to_left: bool,
    phrases: BTreeMap<String, Phrase>,
}

/// What is said for one pattern.
#[derive(Clone, Debug, Deserialize)]
#[serde(untagged)]
enum Phrase {
    /// One text for all values.
    One(String),
    /// A text for each plural category, chosen by the value of the hole `count`.
    Plural {
        count: String,
        #[serde(flatten)]
        forms: BTreeMap<String, String>,
    },
}

/// Why a catalogue is not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unread {
    /// The phrase, or the field of the file.
    pub place: String,
    /// What is wrong with it.
    pub why: String,
}

impl Display for Unread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.place, self.why)
    }
}

impl core::error::Error for Unread {}

impl Catalogue {
    /// Reads the text of a catalogue.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let unread = |place: &str, why: String| Unread { place: place.to_owned(), why };
        let catalogue: Self =
            serde_json::from_str(text).map_err(|why| unread("catalogue", why.to_string()))?;
        if catalogue.crestrail != FORMAT {
            return Err(unread("crestrail", format!("It is no catalogue: it must say {FORMAT}.")));
        }
        for (english, phrase) in &catalogue.phrases {
            phrase.check(&catalogue.language, english).map_err(|why| unread(english, why))?;
        }
        Ok(catalogue)
    }

    /// The same for as long as the program runs, as [`crate::speak`] wants it. It is never given back, so a program does
    /// this once for each language.
    pub fn kept(self) -> &'static Self {
        Box::leak(Box::new(self))
    }

    /// Its language, as `de`.
    pub fn language(&self) -> &str {
        &self.language
    }

    /// Whether it is written from right to left.
    pub fn is_right_to_left(&self) -> bool {
        self.right_to_left
    }

    /// The English patterns it knows, in the order of their letters.
    pub fn patterns(&self) -> impl Iterator<Item = &str> {
        self.phrases.keys().map(String::as_str)
    }

    /// What it says for a text without holes.
    pub fn word(&self, english: &str) -> Option<&str> {
        match self.phrases.get(english)? {
            Phrase::One(text) => Some(text),
            Phrase::Plural { .. } => None,
        }
    }

    /// All texts it has for a pattern: one, or one for each plural category.
    pub fn texts(&self, english: &str) -> Vec<&str> {
        match self.phrases.get(english) {
            None => Vec::new(),
            Some(Phrase::One(text)) => vec![text],
            Some(Phrase::Plural { forms, .. }) => forms.values().map(String::as_str).collect(),
        }
    }

    /// A figure with its decimal sign; what is no plain number stays as it is.
    pub(crate) fn figure<'a>(&self, text: &'a str) -> Cow<'a, str> {
        if self.decimal == "." || !is_decimal(text) {
            return Cow::Borrowed(text);
        }
        Cow::Owned(text.replacen('.', &self.decimal, 1))
    }

    /// The pattern of this language, filled.
    pub(crate) fn filled(&self, english: &str, values: &[&dyn Display]) -> String {
        let names = holes(english);
        let values: Vec<String> = values.iter().map(|value| shown(*value)).collect();
        let value = |name: &str| names.iter().position(|known| *known == name).map(|place| &values[place]);
        let pattern = match self.phrases.get(english) {
            None => english,
            Some(Phrase::One(text)) => text,
            Some(Phrase::Plural { count, forms }) => {
                let count = value(count).map_or("", String::as_str);
                // The reader has seen to it that every category has its form.
                forms.get(category(&self.language, count)).map_or(english, String::as_str)
            }
        };
        let mut text = String::with_capacity(pattern.len() + 16);
        for piece in pieces(pattern) {
            match piece {
                Piece::Text(letters) => text.push_str(letters),
                Piece::Hole(name) => self.put(&mut text, value(name).map_or("", String::as_str)),
            }
        }
        let begins = |at: &str| matches!(pieces(at).next(), Some(Piece::Hole(_)));
        // A sentence that begins with what was put in begins with a large letter all the same.
        if begins(pattern) && !begins(english) && english.starts_with(|c: char| c.is_uppercase()) {
            return capital(&text);
        }
        text
    }

    fn put(&self, text: &mut String, value: &str) {
        let value = self.figure(value);
        // Latin letters among Arabic ones would otherwise turn the order of what stands beside them.
        let apart = self.right_to_left && value.contains(|c: char| c.is_ascii_alphabetic());
        if apart {
            text.push(ISOLATE[0]);
        }
        text.push_str(&value);
        if apart {
            text.push(ISOLATE[1]);
        }
    }
}

impl Phrase {
    /// What is wrong with what is said for an English pattern.
    fn check(&self, language: &str, english: &str) -> Result<(), String> {
        match self {
            Self::One(text) => same_holes(english, text, None),
            Self::Plural { count, forms } => {
                if !holes(english).contains(&count.as_str()) {
                    return Err(format!("It counts by {{{count}}}, which the English text does not have."));
                }
                let wanted = categories(language);
                if let Some(missing) = wanted.iter().find(|name| !forms.contains_key(**name)) {
                    return Err(format!("The form \"{missing}\" is missing."));
                }
                if let Some(other) = forms.keys().find(|name| !wanted.contains(&name.as_str())) {
                    return Err(format!("The language has no form \"{other}\"."));
                }
                forms.iter().try_for_each(|(form, text)| {
                    // One, two and none may be said in words.
                    let in_words = matches!(form.as_str(), "zero" | "one" | "two").then_some(count.as_str());
                    same_holes(english, text, in_words)
                })
            }
        }
    }
}

/// Whether both have the same holes, but for the one that may be missing.
fn same_holes(english: &str, text: &str, may_miss: Option<&str>) -> Result<(), String> {
    let (wanted, found) = (holes(english), holes(text));
    if let Some(name) = wanted.iter().find(|name| !found.contains(*name) && Some(**name) != may_miss) {
        return Err(format!("The hole {{{name}}} is missing in \"{text}\"."));
    }
    match found.iter().find(|name| !wanted.contains(*name)) {
        Some(name) => Err(format!("The English text has no hole {{{name}}}, as \"{text}\" does.")),
        None => Ok(()),
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

fn shown(value: &dyn Display) -> String {
    let mut text = String::new();
    put(&mut text, value);
    text
}

/// Whether it is digits, a point and digits, perhaps with a sign before them.
fn is_decimal(text: &str) -> bool {
    let digits = |part: &str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
    let unsigned = text.strip_prefix(['-', '+']).unwrap_or(text);
    unsigned.split_once('.').is_some_and(|(whole, rest)| digits(whole) && digits(rest))
}
