//! The quote of an order, and files got back out of a PDF file.

use super::file::{Made, faces, handed_over, stem};
use super::orders::order_of;
use crate::refused::Refused;
use crate::reply;
use crate::request::Request;
use crestrail_chair::export::{QuoteAsked, quote_html, quote_pdf};
use crestrail_chair::refusal::Refusal;
use crestrail_chair::sheets::paper;
use crestrail_phrases::word;
use crestrail_sheet::pdf::{self, Unread};
use serde_json::json;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

/// The quote of an order: `{ok: text}` for `{order, number, date, shop?, view?}`, of which `view` tells from where the
/// chairs are seen.
#[wasm_bindgen]
pub fn quote(request: JsValue) -> JsValue {
    reply::answer(Request::read(request).map_err(Refused::from).and_then(|request| html(&request)))
}

/// The quote as PDF, which carries the order: `{ok: {name, type, bytes, missing}}` for what [`quote`] takes and
/// `paper`, and the two font files that it takes in.
#[wasm_bindgen(js_name = quotePdf)]
pub fn quote_print(request: JsValue, regular: Vec<u8>, medium: Vec<u8>) -> JsValue {
    let request = Request::read(request).map_err(Refused::from);
    handed_over(request.and_then(|request| print(&request, regular, medium)))
}

/// The file of this program that a PDF file carries, a quote its order and sheets their design: `{ok: {text}}`.
#[wasm_bindgen(js_name = readAttached)]
pub fn read_attached(bytes: &[u8]) -> JsValue {
    reply::answer(attached(bytes).map(|text| json!({ "text": text })))
}

fn html(request: &Request) -> Result<String, Refused> {
    let (order, shop, view) = (order_of(request)?, request.shop()?, request.view()?);
    let (number, date) = (request.text("number"), request.text("date"));
    Ok(quote_html(&QuoteAsked { order: &order, number, date, shop: &shop, view: &view })?)
}

fn print(request: &Request, regular: Vec<u8>, medium: Vec<u8>) -> Result<Made, Refused> {
    let (order, shop, view) = (order_of(request)?, request.shop()?, request.view()?);
    let (number, date) = (request.text("number"), request.text("date"));
    let faces = faces(regular, medium)?;
    let asked = QuoteAsked { order: &order, number, date, shop: &shop, view: &view };
    let document = quote_pdf(&asked, paper(request.text("paper"))?, &faces)?;
    Made::pdf(format!("{}.pdf", stem(&format!("quote {number}"))), &document, &faces)
}

/// What every file of this program begins with says which it is; the last one that was attached counts.
fn attached(bytes: &[u8]) -> Result<String, Refusal> {
    let refuse = |why: &str| Refusal::new("file", why);
    let files = pdf::attached(bytes).map_err(|why| match why {
        Unread::NoPdf => refuse(word("It is called PDF, but is no PDF file.")),
        Unread::Locked => refuse(word("It is locked, so what is in it cannot be read. Open it with its password in another program, save it without one, and open that here.")),
    })?;
    let ours = |file: Vec<u8>| String::from_utf8(file).ok().filter(|text| text.contains("\"crestrail\""));
    files.into_iter().filter_map(ours).next_back().ok_or_else(|| {
        refuse(word("No order or design of this program is in it. Programs that print a PDF anew leave such files out: choose the PDF as it was saved here."))
    })
}
