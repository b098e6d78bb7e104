//! A catalogue: what one language says for each English pattern.

use crate::fill::{Piece, holes, is_open, pieces, put};
use crate::plural::{categories, category};
use core::fmt::{self, Display};
use serde_json::Value;
use std::borrow::Cow;
use std::collections::BTreeMap;

/// What the file of a catalogue begins with.
const FORMAT: &str = "phrases/1";
/// Names the hole by which a form is chosen.
const COUNT: &str = "count";
/// Keeps what is put into a text from right to left apart from it (Unicode Standard Annex 9: first strong isolate, and its end).
const ISOLATE: [char; 2] = ['\u{2068}', '\u{2069}'];

/// What one language says for each English pattern.
///
/// ```json
/// { "crestrail": "phrases/1", "language": "de", "decimal": ",", "right_to_left": false,
///   "phrases": { "{0} in {1}": "{0} in {1}",
///                "{steps} steps": { "count": "steps", "one": "ein Schritt", "other": "{steps} Schritte" } } }
/// ```
#[derive(Clone, Debug)]
pub struct Catalogue {
    language: String,
    decimal: String,
    right_to_left: bool,
    phrases: BTreeMap<String, Entry>,
}

/// A pattern's translation.
#[derive(Clone, Debug)]
struct Entry {
    phrase: Phrase,
    /// The names of the English pattern's holes, in the order of the values.
    holes: Vec<String>,
}

/// What is said for one pattern.
#[derive(Clone, Debug)]
enum Phrase {
    /// One text for all values.
    One(String),
    /// A text for each plural category, chosen by the value of the hole `count`.
    Plural { count: String, forms: BTreeMap<String, String> },
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
        let value: Value = serde_json::from_str(text).map_err(|why| unread("catalogue", why.to_string()))?;
        let field = |name: &str| value.get(name).and_then(Value::as_str).map(str::to_owned);
        let needed = |name: &str| field(name).ok_or_else(|| unread(name, "It must be a text.".to_owned()));
        if field("crestrail").as_deref() != Some(FORMAT) {
            return Err(unread("crestrail", format!("It is no catalogue: it must say {FORMAT}.")));
        }
        let (language, decimal) = (needed("language")?, needed("decimal")?);
        let phrases = value.get("phrases").and_then(Value::as_object);
        let phrases = phrases.ok_or_else(|| unread("phrases", "It must be an object.".to_owned()))?;
        let phrase = |(english, said): (&String, &Value)| {
            let read = Phrase::read(said).ok_or("It must be a text, or a text for each form.".to_owned());
            let read = read.and_then(|phrase| phrase.check(&language, english).map(|()| phrase));
            let holes = || holes(english).into_iter().map(str::to_owned).collect();
            read.map(|phrase| (english.clone(), Entry { phrase, holes: holes() }))
                .map_err(|why| unread(english, why))
        };
        let phrases = phrases.iter().map(phrase).collect::<Result<_, _>>()?;
        let right_to_left = value.get("right_to_left").and_then(Value::as_bool).unwrap_or_default();
        Ok(Self { language, decimal, right_to_left, phrases })
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
        match &self.phrases.get(english)?.phrase {
            Phrase::One(text) => Some(text),
            Phrase::Plural { .. } => None,
        }
    }

    /// All texts it has for a pattern: one, or one for each plural category.
    pub fn texts(&self, english: &str) -> Vec<&str> {
        match self.phrases.get(english).map(|entry| &entry.phrase) {
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

    /// The pattern of this language for the English one, filled with the values of its holes, one for each in the order of
    /// the English pattern.
    pub fn filled(&self, english: &str, values: &[&dyn Display]) -> String {
        let values: Vec<String> = values.iter().map(|value| shown(*value)).collect();
        let entry = self.phrases.get(english);
        // A pattern of holes and signs alone needs no translation, only the decimal sign.
        let own: Vec<&str> = if entry.is_none() { holes(english) } else { Vec::new() };
        let place = |name: &str| match entry {
            Some(entry) => entry.holes.iter().position(|known| known == name),
            None => own.iter().position(|known| *known == name),
        };
        let value = |name: &str| place(name).map_or("", |place| values[place].as_str());
        let pattern = match entry.map(|entry| &entry.phrase) {
            None => english,
            Some(Phrase::One(text)) => text,
            // The reader has seen to it that every category has its form.
            Some(Phrase::Plural { count, forms }) => {
                forms.get(category(&self.language, value(count))).map_or(english, String::as_str)
            }
        };
        let mut text = String::with_capacity(pattern.len() + 16);
        for piece in pieces(pattern) {
            match piece {
                Piece::Text(letters) => text.push_str(letters),
                Piece::Hole(name) => self.put(&mut text, value(name)),
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

fn unread(place: &str, why: String) -> Unread {
    Unread { place: place.to_owned(), why }
}

impl Phrase {
    fn read(value: &Value) -> Option<Self> {
        if let Value::String(text) = value {
            return Some(Self::One(text.clone()));
        }
        let count = value.get(COUNT)?.as_str()?.to_owned();
        let forms = value.as_object()?.iter().filter(|(name, _)| *name != COUNT);
        let forms = forms.map(|(name, text)| Some((name.clone(), text.as_str()?.to_owned())));
        Some(Self::Plural { count, forms: forms.collect::<Option<_>>()? })
    }

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
    if let Some(open) = [english, text].into_iter().find(|pattern| is_open(pattern)) {
        return Err(format!("A brace is left open in \"{open}\"."));
    }
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
