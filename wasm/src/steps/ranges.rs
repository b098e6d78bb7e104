//! The search for safe ranges, cut into slices by whoever runs it.

use crate::refused::Refused;
use crate::reply;
use crate::request::Request;
use crestrail_chair::ranges::{RangeSearch, SafeRange};
use serde::Serialize;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

/// A search under way; its owner frees it.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Ranges(RangeSearch);

/// What a slice brings.
#[derive(Serialize)]
struct Slice {
    /// The ranges that were finished by it.
    ranges: Vec<SafeRange>,
    /// Whether all are.
    done: bool,
    /// How many checks fail at the design itself.
    failing: usize,
    /// Trials made so far.
    tried: usize,
}

#[wasm_bindgen]
impl Ranges {
    /// Makes at most so many trials: `{ranges, done, failing, tried}`.
    pub fn step(&mut self, trials: u32) -> JsValue {
        let ranges = self.0.step(trials as usize);
        let Self(search) = self;
        let (done, failing, tried) = (search.is_done(), search.failing(), search.tried());
        reply::plain(&Slice { ranges, done, failing, tried })
    }
}

/// Begins a search: `{ok: Ranges}` for `{design, shop?}`.
#[wasm_bindgen]
pub fn ranges(request: JsValue) -> JsValue {
    match begun(request) {
        Ok(search) => reply::keyed("ok", &Ranges(search).into()),
        Err(refused) => reply::refused(&refused),
    }
}

fn begun(request: JsValue) -> Result<RangeSearch, Refused> {
    let request = Request::read(request)?;
    Ok(RangeSearch::new(&request.design()?, &request.shop()?.bench())?)
}
