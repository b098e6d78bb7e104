//! The bench book.

use super::file::{Made, file_name, unwritten};
use crate::progress::Progress;
use crate::refused::Refused;
use crate::reply;
use crate::request::Request;
use crestrail_chair::chair::Chair;
use crestrail_chair::export::{self, Book};
use crestrail_chair::length::Lengths;
use crestrail_chair::sheets::paper;
use crestrail_sheet::{Faces, pdf};
use js_sys::Function;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

/// The bench book as PDF: `{ok: {name, type, bytes, missing}}` for `{design, paper, name?, shop?, unit?, date?}` and the two font
/// files that it takes in. The callback hears `(done, total, words)` before each chapter.
#[wasm_bindgen(js_name = benchBook)]
pub fn bench_book(request: JsValue, progress: &Function, regular: Vec<u8>, medium: Vec<u8>) -> JsValue {
    let request = Request::read(request).map_err(Refused::from);
    match request.and_then(|request| made(&request, &Progress::new(progress), regular, medium)) {
        Ok((made, missing)) => {
            let made = made.to_js();
            reply::set(&made, "missing", &JsValue::from_str(&missing));
            reply::keyed("ok", &made.into())
        }
        Err(refused) => reply::refused(&refused),
    }
}

fn made(
    request: &Request,
    progress: &Progress<'_>,
    regular: Vec<u8>,
    medium: Vec<u8>,
) -> Result<(Made, String), Refused> {
    let (design, shop) = (request.design()?, request.shop()?);
    let (paper, lengths) = (paper(request.text("paper"))?, Lengths::named(request.text("unit"))?);
    let chair = Chair::resolve(&design, &shop.bench())?;
    let faces = Faces::read(regular, medium).map_err(|error| unwritten(&error))?;
    let (name, date) = (request.text("name"), request.text("date"));
    let book = Book { name, design: &design, chair: &chair, shop: &shop, paper, lengths, date };
    let document =
        export::bench_book(&book, &faces, &mut |done, total, words| progress.tell(done, total, words))?;
    let written = pdf::write(&document, &faces).map_err(|error| unwritten(&error))?;
    let ending = format!("bench-book-{}.pdf", paper.name);
    let made = Made::new(file_name(name, &ending), "application/pdf", written.bytes);
    Ok((made, written.missing.into_iter().collect()))
}
