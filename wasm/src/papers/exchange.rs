//! Solids for other programs.

use super::file::{Made, file_name, handed_over};
use crate::refused::Refused;
use crate::reply;
use crate::request::Request;
use crestrail_chair::chair::Chair;
use crestrail_chair::export::{self, Exchange, Format, ShapeRow, Wanted};
use crestrail_phrases::in_english;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

/// The shapes of a chair that can be taken away one by one: `{ok: [{name, title, count}…]}` for `{design, shop?}`.
#[wasm_bindgen]
pub fn shapes(request: JsValue) -> JsValue {
    in_english(|| reply::answer(listed(request)))
}

fn listed(request: JsValue) -> Result<Vec<ShapeRow>, Refused> {
    let request = Request::read(request)?;
    Ok(export::shapes(&Chair::resolve(&request.design()?, &request.bench()?)?))
}

/// A file of solids: `{ok: {name, type, bytes}}` for `{format, part?, stamp?, design, name?, shop?}`. The format is `glb`, `stl`
/// or `step`, the part the name of a shape, absent for the whole chair.
#[wasm_bindgen]
pub fn exchange(request: JsValue) -> JsValue {
    in_english(|| handed_over(made(request)))
}

fn made(request: JsValue) -> Result<Made, Refused> {
    let request = Request::read(request)?;
    let format = Format::named(request.text("format"))?;
    let (name, part) = (request.text("name"), request.text("part"));
    let wanted = if part.is_empty() { Wanted::Chair } else { Wanted::Part(part) };
    let chair = Chair::resolve(&request.design()?, &request.bench()?)?;
    let bytes = export::exchange(&chair, &Exchange { name, format, wanted, stamp: request.text("stamp") })?;
    let what = if part.is_empty() { "chair" } else { part };
    let ending = format!("{}.{}", what.to_lowercase(), request.text("format"));
    Ok(Made::new(file_name(name, &ending), format.media(), bytes))
}
