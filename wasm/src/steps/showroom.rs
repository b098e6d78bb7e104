//! The Showroom, as customers see it.

use crate::refused::Refused;
use crate::reply;
use crate::request::{self, Request};
use crestrail_chair::chair::Chair;
use crestrail_chair::drawing::exploded;
use crestrail_chair::link;
use crestrail_chair::reading;
use crestrail_chair::refusal::Refusal;
use crestrail_chair::report::service;
use crestrail_chair::shop::Shop;
use crestrail_chair::showroom::{Colour, DEMO_SHOWROOM, Offer, SHOWROOM_FILE, Seen, Showroom};
use crestrail_chair::told::ToldLabel;
use crestrail_phrases::word;
use crestrail_sheet::svg;
use serde::Serialize;
use serde_json::{Value, json};
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

/// Reads the text of a `showroom.json`, or the invented workshop's where it is null: `{ok: {showroom, …, offers}}`, of which
/// `showroom` is to be handed back in requests as it is.
#[wasm_bindgen(js_name = readShowroom)]
pub fn read_showroom(text: &JsValue) -> JsValue {
    let text = if text.is_null() { Ok(DEMO_SHOWROOM.to_owned()) } else { request::text(text, "text") };
    reply::answer(text.and_then(|text| Ok(read(&text)?)))
}

fn read(text: &str) -> Result<Value, Refusal> {
    let value = reading::parse(SHOWROOM_FILE.file, text)?;
    let showroom = Showroom::from_value(&value)?;
    let colour = |colour: Colour| json!({"colour": colour.hex(), "words": colour.words_on_it().hex()});
    Ok(json!({
        "brand": showroom.brand,
        "line": showroom.line,
        "contact": {"mail": showroom.contact.mail, "lines": showroom.contact.lines},
        "colours": {"light": colour(showroom.colours.light), "dark": colour(showroom.colours.dark)},
        "language": showroom.language,
        "price_note": showroom.price_note,
        "is_published": showroom.bench.is_some(),
        "offers": showroom.offers.iter().map(offer).collect::<Vec<_>>(),
        "showroom": value,
    }))
}

fn offer(offer: &Offer) -> Value {
    json!({"name": offer.name, "kind": offer.kind(), "design": offer.design.to_map(), "knobs": offer.rows()})
}

/// The offer that a design can have been made of: `{ok: offer}`, its place, for `{showroom, design, offer?}`. The offer that is
/// named is tried first, and its refusal is told where none allows the design.
#[wasm_bindgen(js_name = offerOf)]
pub fn offer_of(request: JsValue) -> JsValue {
    let place = |request: &Request| -> Result<usize, Refusal> {
        let (showroom, design) = (request.needed_showroom()?, request.design()?);
        let named = request.place("offer").filter(|place| *place < showroom.offers.len());
        let order = named.into_iter().chain(0..showroom.offers.len());
        let mut refusal = None;
        for place in order {
            match showroom.offers[place].allows(&design) {
                Ok(()) => return Ok(place),
                Err(why) if refusal.is_none() || why.where_ != "family" => refusal.get_or_insert(why),
                Err(_) => continue,
            };
        }
        Err(refusal.unwrap_or_else(|| Refusal::new("offers", word("No chair is on offer."))))
    };
    reply::answer(Request::read(request).and_then(|request| place(&request)))
}

/// What a step of the Showroom brings; what was not wanted is left out.
#[derive(Serialize)]
struct Looked {
    #[serde(skip_serializing_if = "Option::is_none")]
    seen: Option<Seen>,
    #[serde(skip_serializing_if = "Option::is_none")]
    picture: Option<String>,
}

/// What customers see of a design: `{ok: {seen, picture}}` for `{showroom, offer, design, shop?, view, want?}`.
#[wasm_bindgen(js_name = lookAt)]
pub fn look_at(request: JsValue) -> JsValue {
    reply::answer(Request::read(request).map_err(Refused::from).and_then(|request| looked(&request)))
}

fn looked(request: &Request) -> Result<Looked, Refused> {
    let (showroom, design, view) = (request.needed_showroom()?, request.design()?, request.view()?);
    let offer = request.place("offer").and_then(|place| showroom.offers.get(place));
    let offer = offer.ok_or_else(|| Refusal::new("offer", word("There is no such offer.")))?;
    offer.allows(&design)?;
    // A published showroom stands alone: no book is near, and none is made up.
    let shop: Option<Shop> = if showroom.bench.is_some() { None } else { Some(request.shop()?) };
    let chair = Chair::resolve(&design, &request.bench()?)?;
    let seen = request
        .wants("want", "seen")
        .then(|| showroom.seen(offer, &design, &chair, shop.as_ref()))
        .transpose()?;
    let picture =
        request.wants("want", "picture").then(|| svg::write(&exploded(&chair, &view, &service(&design))));
    Ok(Looked { seen, picture })
}

/// What follows the `#` of a customer's link: `{ok: text}` for `{design, label?}`, of which `label` is what was told of the
/// price: `{from, price_minor, currency}`.
#[wasm_bindgen(js_name = writeToldLink)]
pub fn write_told_link(request: JsValue) -> JsValue {
    let made = |request: &Request| -> Result<String, Refusal> {
        Ok(link::write_told(&request.design()?, label(request.value().get("label")).as_ref()))
    };
    reply::answer(Request::read(request).and_then(|request| made(&request)))
}

fn label(value: Option<&Value>) -> Option<ToldLabel> {
    let value = value?;
    let way = if value.get("from")?.as_bool()? { "from" } else { "shown" };
    let minor = value.get("price_minor")?.as_f64()?;
    ToldLabel::read(&format!("{way}.{}.{minor}", value.get("currency")?.as_str()?))
}
