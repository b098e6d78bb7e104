//! The core for other programs: one JSON request a line in, one JSON answer a line out.

mod asks;
mod bodies;
mod book;
pub mod diff;
pub mod doors;
mod exchange;
mod files;
mod frames;
pub mod goldens;
mod laps;
mod measures;
mod moves;
pub mod mutate;
mod orders;
mod packing;
pub mod page;
pub mod phrases;
pub mod random;
pub mod review;
mod setting;
mod sheets;
mod sitters;
mod solids;
pub mod stopwatch;
pub mod sweep;
mod work;

pub use laps::lap;

use crestrail_phrases::{in_english, speak};
use serde_json::{Map, Value, json};

/// Why a request was not answered.
#[derive(Clone, Debug, PartialEq)]
pub struct Refused(Value);

impl Refused {
    fn new(place: &str, why: impl Into<String>) -> Self {
        Self(json!({"where": place, "why": why.into()}))
    }
}

impl From<crestrail_chair::refusal::Refusal> for Refused {
    fn from(refusal: crestrail_chair::refusal::Refusal) -> Self {
        Self(json!(refusal))
    }
}

/// Requests whose answers are papers for the bench or files, which stay English whatever is spoken.
const PAPERS: [&str; 8] =
    ["file", "work", "shapes", "exchange", "drawing", "setting", "sheets", "dimensions"];

/// The answer to one line: `{"ok": …}` or `{"error": {"where", "why"}}`. A request may name the `language` of the texts in
/// its answer, such as `de`.
pub fn answer(line: &str) -> Value {
    match answered(line) {
        Ok(answer) => json!({"ok": answer}),
        Err(Refused(error)) => json!({"error": error}),
    }
}

fn answered(line: &str) -> Result<Value, Refused> {
    answer_in(crestrail_chair::reading::parse("request", line)?)
}

/// The answer to a request in the language that it names.
fn answer_in(mut request: Value) -> Result<Value, Refused> {
    let language =
        request.as_object_mut().and_then(|fields: &mut Map<String, Value>| fields.remove("language"));
    let Some(language) = language else { return asks::answer(&request) };
    let known = phrases::LANGUAGES.into_iter().find(|known| language == **known);
    let known = known.ok_or_else(|| {
        let why = format!(
            "There is no catalogue for {language}. Ask for one of: {}.",
            phrases::LANGUAGES.join(", ")
        );
        Refused::new("language", why)
    })?;
    let is_paper = request.get("ask").and_then(Value::as_str).is_some_and(|ask| PAPERS.contains(&ask));
    speak(Some(phrases::kept(known)));
    let answer = if is_paper { in_english(|| asks::answer(&request)) } else { asks::answer(&request) };
    speak(None);
    answer
}
