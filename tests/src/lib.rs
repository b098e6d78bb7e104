//! The core for other programs: one JSON request a line in, one JSON answer a line out.

mod asks;
mod bodies;
mod book;
mod exchange;
mod files;
mod frames;
mod measures;
mod moves;
mod orders;
mod packing;
pub mod phrases;
mod setting;
mod sheets;
mod sitters;
mod solids;
mod work;

use serde_json::{Value, json};

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

/// The answer to one line: `{"ok": …}` or `{"error": {"where", "why"}}`.
pub fn answer(line: &str) -> Value {
    let request = crestrail_chair::reading::parse("request", line).map_err(Refused::from);
    match request.and_then(|request| asks::answer(&request)) {
        Ok(answer) => json!({"ok": answer}),
        Err(Refused(error)) => json!({"error": error}),
    }
}
