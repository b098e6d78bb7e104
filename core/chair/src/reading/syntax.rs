//! From text to JSON values, refusing what is not JSON, too large, or says a name twice.

use super::clipped;
use crate::refusal::Refusal;
use core::fmt;
use crestrail_phrases::{say, word};
use serde::de::{Deserialize, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde_json::error::Category;
use serde_json::{Map, Number, Value};

/// The longest file that is read, bytes: a thousand times a usual one, and still read at once.
pub const MAX_BYTES: usize = 1_000_000;

/// Reads the text of the file that people call `file`, such as `shop.json`. A byte order mark is passed
/// over. Nesting is limited by the parser (128 levels).
pub fn parse(file: &str, text: &str) -> Result<Value, Refusal> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.len() > MAX_BYTES {
        let why =
            say!("The file has {} bytes; a {file} has at most {MAX_BYTES}. Choose another file.", text.len());
        return Err(Refusal::new(file, why));
    }
    if text.trim().is_empty() {
        return Err(Refusal::new(file, word("The file is empty. Choose another file.")));
    }
    serde_json::from_str::<Once>(text).map(|once| once.0).map_err(|e| unreadable(file, &e))
}

fn unreadable(file: &str, error: &serde_json::Error) -> Refusal {
    let at = say!("line {}, column {}", error.line(), error.column());
    let why = match error.classify() {
        Category::Eof => {
            say!("The file ends too early, at {at}: it was cut short. Save or download it once more.")
        }
        Category::Data => say!("{}, at {at}. Mend that place.", bare(error)),
        Category::Syntax | Category::Io => {
            say!("This is not JSON: {} at {at}. Mend that place or choose another file.", bare(error))
        }
    };
    Refusal::new(file, why)
}

/// The parser's words without the position that it appends.
fn bare(error: &serde_json::Error) -> String {
    let full = error.to_string();
    full.rsplit_once(" at line ").map_or(full.clone(), |(words, _)| words.to_owned())
}

/// A JSON value in which no object says a name twice.
struct Once(Value);

impl<'de> Deserialize<'de> for Once {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(OnceVisitor).map(Once)
    }
}

struct OnceVisitor;

impl<'de> Visitor<'de> for OnceVisitor {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a JSON value")
    }

    fn visit_bool<E>(self, v: bool) -> Result<Value, E> {
        Ok(Value::Bool(v))
    }

    fn visit_i64<E>(self, v: i64) -> Result<Value, E> {
        Ok(Value::Number(v.into()))
    }

    fn visit_u64<E>(self, v: u64) -> Result<Value, E> {
        Ok(Value::Number(v.into()))
    }

    fn visit_f64<E: Error>(self, v: f64) -> Result<Value, E> {
        Number::from_f64(v).map(Value::Number).ok_or_else(|| E::custom("A number is not finite"))
    }

    fn visit_str<E>(self, v: &str) -> Result<Value, E> {
        Ok(Value::String(v.to_owned()))
    }

    fn visit_unit<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut from: A) -> Result<Value, A::Error> {
        let mut list = Vec::new();
        while let Some(Once(item)) = from.next_element()? {
            list.push(item);
        }
        Ok(Value::Array(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut from: A) -> Result<Value, A::Error> {
        let mut map = Map::new();
        while let Some(name) = from.next_key::<String>()? {
            if map.contains_key(&name) {
                return Err(A::Error::custom(say!(
                    "The name \"{name}\" is given twice",
                    name = clipped(&name)
                )));
            }
            let Once(value) = from.next_value()?;
            map.insert(name, value);
        }
        Ok(Value::Object(map))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn why(text: &str) -> String {
        parse("shop.json", text).expect_err(text).why
    }

    #[test]
    fn reads_json_with_a_byte_order_mark() {
        let value = parse("shop.json", "\u{feff}{\"a\":[1,-2,0.1,\"é\",null,true]}").expect("good JSON");
        assert_eq!(value.to_string(), "{\"a\":[1,-2,0.1,\"é\",null,true]}");
    }

    #[test]
    fn names_the_place_where_it_is_cut_short() {
        let said = why("{\n  \"a\": [1, 2");
        assert_eq!(
            said,
            "The file ends too early, at line 2, column 12: it was cut short. Save or download it once more."
        );
    }

    #[test]
    fn names_the_place_that_is_not_json() {
        assert_eq!(
            why("{\n  \"a\": NaN}"),
            "This is not JSON: expected value at line 2, column 8. Mend that place or choose another file."
        );
        assert!(why("{\"a\": 1e999}").contains("number out of range at line 1"));
        assert!(why("<html>").starts_with("This is not JSON"));
        assert!(why("{} {}").contains("trailing characters at line 1, column 4"));
    }

    #[test]
    fn refuses_a_name_given_twice_at_any_depth() {
        let said = why("{\"a\":[{\"b\":1,\n\"b\":2}]}");
        assert!(said.starts_with("The name \"b\" is given twice, at line 2"), "{said}");
        let name = "x".repeat(100_000);
        assert!(why(&format!("{{\"{name}\":1,\"{name}\":2}}")).len() < 300);
    }

    #[test]
    fn refuses_the_empty_the_huge_and_the_deep() {
        assert!(why(" \n").contains("empty"));
        assert!(why(&" ".repeat(MAX_BYTES + 1)).contains("1000001 bytes"));
        assert!(why(&"[".repeat(5000)).contains("recursion limit"));
    }

    /// Whatever is cut off a file, the rest is refused.
    #[test]
    fn every_cut_of_a_file_is_refused() {
        let text = "{\"crestrail\":\"shop/1\",\"é\":[1,2.5]}";
        for (end, _) in text.char_indices() {
            assert!(parse("shop.json", &text[..end]).is_err(), "cut at {end}");
        }
    }
}
