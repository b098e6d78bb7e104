//! The bench book.

use super::file::{Made, faces, file_name, handed_over};
use crate::progress::Progress;
use crate::refused::Refused;
use crate::request::Request;
use crestrail_chair::chair::Chair;
use crestrail_chair::export::{self, Book};
use crestrail_chair::sheets::paper;
use crestrail_phrases::in_english;
use js_sys::Function;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

/// The bench book as PDF: `{ok: {name, type, bytes, missing}}` for `{design, paper, name?, shop?, unit?, date?}` and the two font
/// files that it takes in. The callback hears `(done, total, words)` before each chapter.
#[wasm_bindgen(js_name = benchBook)]
pub fn bench_book(request: JsValue, progress: &Function, regular: Vec<u8>, medium: Vec<u8>) -> JsValue {
    let request = Request::read(request).map_err(Refused::from);
    let progress = Progress::new(progress);
    in_english(|| handed_over(request.and_then(|request| made(&request, &progress, regular, medium))))
}

fn made(
    request: &Request,
    progress: &Progress<'_>,
    regular: Vec<u8>,
    medium: Vec<u8>,
) -> Result<Made, Refused> {
    let (design, shop) = (request.design()?, request.shop()?);
    let (paper, lengths) = (paper(request.text("paper"))?, request.lengths()?);
    let chair = Chair::resolve(&design, &shop.bench())?;
    let faces = faces(regular, medium)?;
    let (name, date) = (request.text("name"), request.text("date"));
    let book = Book { name, design: &design, chair: &chair, shop: &shop, paper, lengths, date };
    let document =
        export::bench_book(&book, &faces, &mut |done, total, words| progress.tell(done, total, words))?;
    Made::pdf(file_name(name, &format!("bench-book-{}.pdf", paper.name)), &document, &faces)
}
