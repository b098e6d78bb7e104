//! The fields of one JSON object, taken one by one.

use crate::refusal::Refusal;
use crestrail_phrases::{phrase, say, word};
use serde_json::{Map, Value};

/// The fields of one object of a file.
#[derive(Clone, Debug)]
pub struct Fields<'a> {
    path: String,
    map: &'a Map<String, Value>,
}

/// What a number may be, and what to call it.
#[derive(Clone, Copy, Debug)]
pub struct Limits {
    /// What people call it, such as "Saw kerf".
    pub label: &'static str,
    /// Least value.
    pub min: f64,
    /// Greatest value.
    pub max: f64,
    /// Unit written behind it, such as " mm"; may be empty.
    pub unit: &'static str,
}

impl<'a> Fields<'a> {
    /// The outermost object of the file that people call `file`.
    pub fn top(file: &str, value: &'a Value) -> Result<Self, Refusal> {
        let wrong = || {
            Refusal::new(
                file,
                say!("The file holds {}, not an object {{…}}. Choose another file.", kind(value)),
            )
        };
        value.as_object().map(|map| Self { path: String::new(), map }).ok_or_else(wrong)
    }

    /// The object `value`, which stands at `path`.
    pub fn at(path: impl Into<String>, value: &'a Value) -> Result<Self, Refusal> {
        let path = path.into();
        match value {
            Value::Object(map) => Ok(Self { path, map }),
            other => Err(wrong_kind(path, phrase("an object {…}"), other)),
        }
    }

    /// The path of a field of this object.
    pub fn path(&self, name: &str) -> String {
        if self.path.is_empty() { name.to_owned() } else { format!("{}.{name}", self.path) }
    }

    /// Whether the field is there.
    pub fn has(&self, name: &str) -> bool {
        self.map.contains_key(name)
    }

    /// The field as it stands.
    pub fn value(&self, name: &str) -> Option<&'a Value> {
        self.map.get(name)
    }

    /// All fields in the order of their names.
    pub fn all(&self) -> impl Iterator<Item = (&'a String, &'a Value)> {
        self.map.iter()
    }

    /// Refuses any field that is not among these.
    pub fn only(&self, names: &[&str]) -> Result<(), Refusal> {
        match self.map.keys().find(|k| !names.contains(&k.as_str())) {
            None => Ok(()),
            Some(stray) => {
                let stray = clipped(stray);
                let why = say!(
                    "The name \"{stray}\" is not known here. Take it out; known are: {}.",
                    names.join(", ")
                );
                Err(Refusal::new(self.path(&stray), why))
            }
        }
    }

    /// A field that must be there.
    pub fn needed(&self, name: &str) -> Result<&'a Value, Refusal> {
        let missing = || Refusal::new(self.path(name), say!("\"{name}\" is missing. Add it."));
        self.map.get(name).ok_or_else(missing)
    }

    /// A number within limits.
    pub fn number(&self, name: &str, limits: &Limits) -> Result<f64, Refusal> {
        number(self.path(name), self.needed(name)?, limits)
    }

    /// A whole number within limits.
    pub fn count(&self, name: &str, limits: &Limits) -> Result<u32, Refusal> {
        let value = self.number(name, limits)?;
        if value.fract() == 0.0 && (0.0..=f64::from(u32::MAX)).contains(&value) {
            return Ok(value as u32);
        }
        let why = say!("{} is {value}; it must be a whole number.", word(limits.label));
        Err(Refusal::new(self.path(name), why))
    }

    /// A text of 1 to `longest` characters without control characters (see [`is_stray`]); spaces around it are dropped.
    pub fn text(&self, name: &str, longest: usize) -> Result<String, Refusal> {
        text(self.path(name), self.needed(name)?, longest)
    }

    /// One of a few names.
    pub fn choice<T: Copy>(&self, name: &str, choices: &[(&str, T)]) -> Result<T, Refusal> {
        let path = self.path(name);
        let Value::String(said) = self.needed(name)? else {
            return Err(wrong_kind(path, phrase("a text"), self.needed(name)?));
        };
        choices.iter().find(|(n, _)| n == said).map(|(_, t)| *t).ok_or_else(|| {
            let names: Vec<&str> = choices.iter().map(|(n, _)| *n).collect();
            Refusal::new(
                path,
                say!("\"{}\" is not known here. Choose one of: {}.", clipped(said), names.join(", ")),
            )
        })
    }

    /// A list of at most `most` items, each with its path.
    pub fn list(&self, name: &str, most: usize) -> Result<Vec<(String, &'a Value)>, Refusal> {
        let path = self.path(name);
        match self.needed(name)? {
            Value::Array(items) if items.len() > most => {
                Err(Refusal::new(path, say!("The list has {} items; at most {most} are read.", items.len())))
            }
            Value::Array(items) => {
                Ok(items.iter().enumerate().map(|(i, v)| (format!("{path}[{i}]"), v)).collect())
            }
            other => Err(wrong_kind(path, phrase("a list […]"), other)),
        }
    }

    /// An object within this one.
    pub fn object(&self, name: &str) -> Result<Fields<'a>, Refusal> {
        Fields::at(self.path(name), self.needed(name)?)
    }
}

/// A number at `path` within limits.
pub fn number(path: String, value: &Value, limits: &Limits) -> Result<f64, Refusal> {
    let Some(n) = value.as_f64().filter(|n| n.is_finite()) else {
        return Err(wrong_kind(path, phrase("a number"), value));
    };
    let Limits { label, min, max, unit } = *limits;
    if (min..=max).contains(&n) {
        return Ok(n);
    }
    let label = word(label);
    Err(Refusal::new(path, say!("{label} is {n}{unit}; it must be from {min} to {max}{unit}.")))
}

/// Whether a character has no place in a text of one line: control characters, separators of lines, and those that turn the direction of
/// the text after them, so that it reads as something else (Unicode Standard Annex 9, 2; Unicode Technical Report 36, 3.5).
pub fn is_stray(c: char) -> bool {
    const TURNING: [core::ops::RangeInclusive<char>; 3] =
        ['\u{2028}'..='\u{202e}', '\u{2066}'..='\u{2069}', '\u{feff}'..='\u{feff}'];
    c.is_control() || TURNING.iter().any(|range| range.contains(&c))
}

/// A text at `path`; see [`Fields::text`].
pub fn text(path: String, value: &Value, longest: usize) -> Result<String, Refusal> {
    let Value::String(said) = value else {
        return Err(wrong_kind(path, phrase("a text"), value));
    };
    let said = said.trim();
    let length = said.chars().count();
    if said.chars().any(is_stray) {
        return Err(Refusal::new(
            path,
            word("The text has control characters such as line breaks in it. Take them out."),
        ));
    }
    if !(1..=longest).contains(&length) {
        let why = say!("The text has {length} characters; it must have from 1 to {longest}.");
        return Err(Refusal::new(path, why));
    }
    Ok(said.to_owned())
}

fn wrong_kind(path: String, wanted: &'static str, found: &Value) -> Refusal {
    Refusal::new(path, say!("Here must be {}, but there is {}.", word(wanted), kind(found)))
}

fn kind(value: &Value) -> String {
    match value {
        Value::Null => say!("nothing (null)"),
        Value::Bool(b) => say!("the word {b}"),
        Value::Number(n) => say!("the number {n}"),
        Value::String(s) => say!("the text \"{}\"", clipped(s)),
        Value::Array(_) => say!("a list"),
        Value::Object(_) => say!("an object"),
    }
}

/// The beginning of a text from a file, short enough for a message.
pub(crate) fn clipped(text: &str) -> String {
    let mut chars = text.chars();
    let start: String = chars.by_ref().take(40).map(|c| if is_stray(c) { ' ' } else { c }).collect();
    if chars.next().is_some() { format!("{start}…") } else { start }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    const KERF: Limits = Limits { label: "Saw kerf", min: 0.0, max: 10.0, unit: " mm" };

    fn refused<T>(result: Result<T, Refusal>) -> String {
        result.map(|_| ()).expect_err("refused").to_string()
    }

    #[test]
    fn numbers_within_limits() {
        let value = json!({"kerf": 3, "wide": 11.5, "minus": -1, "text": "3", "none": null});
        let f = Fields::top("shop.json", &value).expect("object");
        assert_eq!(f.number("kerf", &KERF), Ok(3.0));
        assert_eq!(
            refused(f.number("wide", &KERF)),
            "wide: Saw kerf is 11.5 mm; it must be from 0 to 10 mm."
        );
        assert!(refused(f.number("minus", &KERF)).contains("-1 mm"));
        assert_eq!(
            refused(f.number("text", &KERF)),
            "text: Here must be a number, but there is the text \"3\"."
        );
        assert!(refused(f.number("none", &KERF)).contains("nothing (null)"));
        assert_eq!(refused(f.number("absent", &KERF)), "absent: \"absent\" is missing. Add it.");
        assert_eq!(f.count("kerf", &KERF), Ok(3));
        let half = json!({"kerf": 2.5});
        assert!(
            refused(Fields::top("shop.json", &half).expect("object").count("kerf", &KERF))
                .contains("whole number")
        );
    }

    #[test]
    fn paths_name_the_field() {
        let value = json!({"timber": {"rows": [{"price": true}]}});
        let f = Fields::top("shop.json", &value).expect("object");
        let rows = f.object("timber").and_then(|t| t.list("rows", 9)).expect("list");
        let row = Fields::at(rows[0].0.clone(), rows[0].1).expect("object");
        assert_eq!(
            refused(row.number("price", &KERF)),
            "timber.rows[0].price: Here must be a number, but there is the word true."
        );
        assert!(refused(f.object("timber").and_then(|t| t.list("rows", 0))).contains("1 items"));
        assert!(refused(f.only(&["currency", "kerf"])).contains("known are: currency, kerf"));
        let nameless = json!({"": 1});
        assert!(
            refused(Fields::top("shop.json", &nameless).expect("object").only(&[])).starts_with("\"\": ")
        );
        let endless = json!({"x".repeat(100_000): 1});
        let said = refused(Fields::top("shop.json", &endless).expect("object").only(&["kerf"]));
        assert!(said.len() < 300, "{} characters", said.len());
    }

    #[test]
    fn texts_and_choices() {
        let value = json!({"name": "  Ann\u{e9} ", "lines": "a\nb", "long": "x".repeat(99), "blank": " "});
        let f = Fields::top("shop.json", &value).expect("object");
        assert_eq!(f.text("name", 10), Ok("Anné".to_owned()));
        assert!(refused(f.text("lines", 10)).contains("control characters"));
        for turning in ["\u{202e}gnp.exe", "a\u{2066}b", "a\u{2028}b"] {
            let value = json!({"turned": turning});
            let f = Fields::top("shop.json", &value).expect("object");
            assert!(refused(f.text("turned", 40)).contains("control characters"), "{turning:?}");
            assert!(!refused(f.number("turned", &KERF)).contains(super::is_stray), "{turning:?}");
        }
        let value = json!({"joined": "\u{646}\u{645}\u{6cc}\u{200c}\u{62e}"});
        let joined = Fields::top("shop.json", &value).expect("object").text("joined", 10);
        assert!(joined.is_ok(), "scripts that need it may join and part letters");
        assert!(refused(f.text("long", 10)).contains("99 characters"));
        assert!(refused(f.text("blank", 10)).contains("0 characters"));
        assert!(
            refused(f.choice("long", &[("each", 1), ("metre", 2)]))
                .ends_with("…\" is not known here. Choose one of: each, metre.")
        );
    }
}
