//! What the maker does for his Showroom: publishing it, and checking in what its customers send.

use crate::reply;
use crate::request::Request;
use crestrail_chair::checkin::{CheckedIn, check_in};
use crestrail_chair::refusal::Refusal;
use crestrail_chair::showroom::published;
use serde_json::{Value, json};
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

/// The showroom as it is published: `{ok: {showroom}}` for `{showroom, shop?}`. It takes a second or more.
#[wasm_bindgen(js_name = publishShowroom)]
pub fn publish_showroom(request: JsValue) -> JsValue {
    let made = |request: &Request| -> Result<Value, Refusal> {
        Ok(
            json!({ "showroom": published(request.value().get("showroom").unwrap_or(&Value::Null), &request.shop()?)? }),
        )
    };
    reply::answer(Request::read(request).and_then(|request| made(&request)))
}

/// Checks in what a customer sent: `{ok: checked}` for `{text, shop?, showroom?}`.
#[wasm_bindgen(js_name = checkIn)]
pub fn checked_in(request: JsValue) -> JsValue {
    let checked = |request: &Request| -> Result<CheckedIn, Refusal> {
        check_in(request.text("text"), &request.shop()?, request.showroom()?.as_ref())
    };
    reply::answer(Request::read(request).and_then(|request| checked(&request)))
}
