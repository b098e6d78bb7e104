//! What is put on paper or taken away as a file, and orders, which are both. Orders, quotes and the plan speak the language that
//! is spoken; papers for the bench and files are in English, whatever it is (`in_english`).

mod book;
mod exchange;
mod file;
mod orders;
mod plan;
mod publishing;
mod quotes;
mod scaled;
mod sheets;
mod work;

pub use book::bench_book;
pub use exchange::{exchange, shapes};
pub use publishing::{checked_in, publish_showroom};
pub use quotes::{quote, quote_print, read_attached};
pub use work::{work, work_on_paper};

use crate::progress::Progress;
use crate::refused::Refused;
use crate::reply;
use crate::request::{self, Request};
use crestrail_chair::order::Order;
use crestrail_phrases::in_english;
use file::handed_over;
use js_sys::Function;
use serde_json::json;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

/// A file to take away: `{ok: {name, type, bytes}}` for `{kind, design, name?, shop?, view?}`.
#[wasm_bindgen]
pub fn file(request: JsValue, progress: &Function) -> JsValue {
    let request = Request::read(request).map_err(Refused::from);
    in_english(|| {
        handed_over(request.and_then(|request| self::file::file(&request, &Progress::new(progress))))
    })
}

/// The sheets for the bench that a design has: `{ok: [{name, title, width, height, pages: [{paper, label, count}…]}…]}` for
/// `{design, shop?}`.
#[wasm_bindgen]
pub fn sheets(request: JsValue) -> JsValue {
    let list =
        || Request::read(request).map_err(Refused::from).and_then(|request| self::sheets::list(&request));
    in_english(|| reply::answer(list()))
}

/// A file of sheets: `{ok: {name, type, bytes, missing}}` for `{sheet, format, paper?, design, name?, shop?}` and the two
/// font files that a PDF takes in, which may be empty for SVG.
#[wasm_bindgen]
pub fn sheet(request: JsValue, regular: Vec<u8>, medium: Vec<u8>) -> JsValue {
    let request = Request::read(request).map_err(Refused::from);
    in_english(|| handed_over(request.and_then(|request| self::sheets::file(&request, regular, medium))))
}

/// What an order costs and when it is ready: `{ok: report}` for `{order, shop?, want?}`; the tables of prices by number
/// come where `want` is left out or holds `"breaks"`.
#[wasm_bindgen]
pub fn order(request: JsValue) -> JsValue {
    reply::answer(
        Request::read(request).map_err(Refused::from).and_then(|request| self::orders::order(&request)),
    )
}

/// What moves the price: `{ok: tornado}` for `{design, shop?}`. It takes a second or more.
#[wasm_bindgen]
pub fn tornado(request: JsValue, progress: &Function) -> JsValue {
    let request = Request::read(request).map_err(Refused::from);
    reply::answer(request.and_then(|request| self::orders::moves(&request, &Progress::new(progress))))
}

/// How to saw the timber: `{ok: {plan, boards: [[svg…]…]}}` for `{order, shop?, effort?, view?}`, of which `view` tells
/// the scheme; `effort` is `"quick"` or `"good"`, which takes up to a second.
#[wasm_bindgen]
pub fn plan(request: JsValue, progress: &Function) -> JsValue {
    let request = Request::read(request).map_err(Refused::from);
    reply::answer(request.and_then(|request| self::plan::plan(&request, &Progress::new(progress))))
}

/// What sets of chairs take: `{ok: [row…]}` for `{design, shop?}`.
#[wasm_bindgen]
pub fn sets(request: JsValue, progress: &Function) -> JsValue {
    let request = Request::read(request).map_err(Refused::from);
    reply::answer(request.and_then(|request| self::plan::sets_of(&request, &Progress::new(progress))))
}

/// The plan as a file to take away: `{ok: {name, type, bytes}}` for what [`plan`] takes and `{kind, name?}`; the kind is
/// `plan_svg`, `plan_csv` or `plan_json`.
#[wasm_bindgen(js_name = planFile)]
pub fn plan_file(request: JsValue, progress: &Function) -> JsValue {
    let request = Request::read(request).map_err(Refused::from);
    in_english(|| {
        handed_over(request.and_then(|request| self::plan::file(&request, &Progress::new(progress))))
    })
}

/// Reads the text of an `order.json`, or of a quote, which holds one: `{ok: {order}}`.
#[wasm_bindgen(js_name = readOrder)]
pub fn read_order(text: &JsValue) -> JsValue {
    reply::answer(
        request::text(text, "text").and_then(|text| Ok(json!({ "order": Order::read(&text)?.to_value() }))),
    )
}
