//! The language of the core's texts: the one thing that a module of the binding keeps between calls.

use crate::refused::Refused;
use crate::reply;
use crate::request;
use crestrail_chair::refusal::Refusal;
use crestrail_phrases::{Catalogue, language, speak as put_in_force};
use serde_json::json;
use std::cell::RefCell;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

thread_local! {
    /// Catalogues that were handed over; none is given back, so each language is kept once.
    static KEPT: RefCell<Vec<&'static Catalogue>> = const { RefCell::new(Vec::new()) };
}

/// Speaks by this text of a catalogue from now on, or English where it is null: `{ok: {language}}`. What is asked for
/// afterwards depends on the request and on this alone.
#[wasm_bindgen]
pub fn speak(catalogue: &JsValue) -> JsValue {
    if catalogue.is_null() {
        put_in_force(None);
    } else if let Err(refused) = request::text(catalogue, "catalogue").and_then(|text| Ok(spoken(&text)?)) {
        return reply::refused(&refused);
    }
    reply::answer(Ok::<_, Refused>(json!({ "language": language() })))
}

fn spoken(text: &str) -> Result<(), Refusal> {
    let read = Catalogue::read(text).map_err(|unread| Refusal::new(unread.place, unread.why))?;
    let kept = KEPT.with_borrow_mut(|all| {
        if let Some(kept) = all.iter().find(|kept| kept.language() == read.language()) {
            return *kept;
        }
        let kept = read.kept();
        all.push(kept);
        kept
    });
    put_in_force(Some(kept));
    Ok(())
}
