//! What the first view and each step of a knob ask for.

mod ranges;
mod showroom;
mod step;
mod stopwatch;
mod timing;

pub use ranges::{Ranges, ranges};
pub use showroom::{look_at, offer_of, read_showroom, write_told_link};
pub use timing::check_times;

use crate::progress::Progress;
use crate::refused::Refused;
use crate::reply;
use crate::request::{self, Request};
use crestrail_chair::chair::Chair;
use crestrail_chair::choices::{Choice, Family};
use crestrail_chair::design::{Design, NamedDesign};
use crestrail_chair::fitting::{Fitted, make_it_fit};
use crestrail_chair::knob::{Knob, Pick};
use crestrail_chair::refusal::{Mend, Refusal};
use crestrail_chair::shop::{DEMO_SHOP, SHOP_FILE, Shop};
use crestrail_chair::{link, nearest, reading, turning};
use crestrail_phrases::word;
use js_sys::Function;
use serde_json::{Value, json};
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

/// The table of knobs of a kind of chair: `{ok: [row…]}` for its name, or for nothing, which is a side chair.
#[wasm_bindgen]
pub fn knobs(family: &JsValue) -> JsValue {
    reply::answer(kind(family).map(|design| design.knobs().iter().map(Knob::row).collect::<Vec<_>>()))
}

/// A new design of the kind that is named.
fn kind(family: &JsValue) -> Result<Design, Refused> {
    if family.is_undefined() || family.is_null() {
        return Ok(Design::default());
    }
    Ok(Design::default().with("family", &Value::String(request::text(family, "family")?))?)
}

/// The kinds of chair: `[{name, label}…]`.
#[wasm_bindgen]
pub fn families() -> JsValue {
    reply::plain(&Family::picks().into_iter().map(Pick::spoken).collect::<Vec<_>>())
}

/// A design turned into another kind of chair: `{ok: {design, dropped: [{knob, was, now}…]}}` for
/// `{design, family}`.
#[wasm_bindgen(js_name = turnInto)]
pub fn turn_into(request: JsValue) -> JsValue {
    reply::answer(turned(request))
}

fn turned(request: JsValue) -> Result<Value, Refused> {
    let request = Request::read(request)?;
    let family = request.value().get("family").unwrap_or(&Value::Null);
    let turned = turning::turn(&request.design()?, family)?;
    Ok(json!({ "design": turned.design.to_map(), "dropped": turned.dropped }))
}

/// A design's report and picture: `{ok: {report, picture, marks}}` for `{design, shop?, view, want?, leave?}`; `leave: ['sound']`
/// leaves out the findings that are sound, which are counted.
#[wasm_bindgen]
pub fn step(request: JsValue) -> JsValue {
    reply::answer(
        Request::read(request).map_err(Refused::from).and_then(|request| self::step::step(&request)),
    )
}

/// The nearest value that makes a design buildable: `{ok: {knob, value, say}}` for `{design, shop?, showroom?}`.
#[wasm_bindgen(js_name = nearest)]
pub fn nearest_mend(request: JsValue, progress: &Function) -> JsValue {
    reply::answer(mended(request, &Progress::new(progress)))
}

fn mended(request: JsValue, progress: &Progress<'_>) -> Result<Mend, Refused> {
    let request = Request::read(request)?;
    let (design, bench) = (request.design()?, request.bench()?);
    let Err(clash) = Chair::resolve(&design, &bench) else {
        return Err(Refusal::new("design", word("This chair can be built as it is.")).into());
    };
    progress.tell(0, 1, word("Trying other sizes"));
    let found = nearest::mend(&design, &clash, &bench);
    progress.tell(1, 1, word("Done"));
    // The search leaves out the solids, which take most of the time; what it found is tried whole.
    let works =
        |mend: &Mend| design.with(&mend.knob, &mend.value).is_ok_and(|d| Chair::resolve(&d, &bench).is_ok());
    found.filter(works).ok_or(Refused::Clash(clash))
}

/// The values that suit the sitter best: `{ok: {design, changed: [{knob, was, now}…], unmet: [row…], worse: [finding…]}}`
/// for `{design, shop?}`.
#[wasm_bindgen(js_name = makeItFit)]
pub fn fit_sitter(request: JsValue, progress: &Function) -> JsValue {
    reply::answer(fitted(request, &Progress::new(progress)))
}

fn fitted(request: JsValue, progress: &Progress<'_>) -> Result<Fitted, Refused> {
    let request = Request::read(request)?;
    let (design, bench) = (request.design()?, request.shop()?.bench());
    progress.tell(0, 1, word("Trying sizes"));
    let fitted = make_it_fit(&design, &bench)?;
    progress.tell(1, 1, word("Done"));
    Ok(fitted)
}

/// Reads the text of a `design.json`: `{ok: {design, name, notes}}`.
#[wasm_bindgen(js_name = readDesign)]
pub fn read_design(text: &JsValue) -> JsValue {
    reply::answer(request::text(text, "text").and_then(|text| {
        let (NamedDesign { name, design }, notes) = NamedDesign::read_with_notes(&text)?;
        Ok(json!({ "design": design.to_map(), "name": name, "notes": notes }))
    }))
}

/// Writes the text of a `design.json`: `{ok: text}`.
#[wasm_bindgen(js_name = writeDesign)]
pub fn write_design(design: JsValue, name: &JsValue) -> JsValue {
    reply::answer(values(design).and_then(|design| {
        let name = request::text(name, "name")?;
        Ok(NamedDesign { name, design }.write())
    }))
}

/// Reads what follows the `#` of a link: `{ok: {design}}`.
#[wasm_bindgen(js_name = readLink)]
pub fn read_link(fragment: &JsValue) -> JsValue {
    reply::answer(request::text(fragment, "link").and_then(|fragment| {
        let design = link::read(&fragment)?;
        Ok(json!({ "design": design.to_map() }))
    }))
}

/// Writes what follows the `#` of a link: `{ok: text}`.
#[wasm_bindgen(js_name = writeLink)]
pub fn write_link(design: JsValue) -> JsValue {
    reply::answer(values(design).map(|design| link::write(&design)))
}

fn values(design: JsValue) -> Result<Design, Refused> {
    Ok(Design::from_value(Request::read(design)?.value())?)
}

/// Reads the text of a `shop.json`: `{ok: {shop}}`, to be handed back in requests as it is.
#[wasm_bindgen(js_name = readShop)]
pub fn read_shop(text: &JsValue) -> JsValue {
    reply::answer(request::text(text, "text").and_then(|text| Ok(json!({ "shop": shop(&text)? }))))
}

/// The invented workshop that comes with the program.
#[wasm_bindgen(js_name = demoShop)]
pub fn demo_shop() -> JsValue {
    match shop(DEMO_SHOP) {
        Ok(shop) => reply::plain(&shop),
        // It is compiled in, and the core's tests read it.
        Err(refusal) => wasm_bindgen::throw_str(&refusal.to_string()),
    }
}

/// The file's own object, after the core has found nothing wrong with it.
fn shop(text: &str) -> Result<Value, Refusal> {
    let value = reading::parse(SHOP_FILE.file, text)?;
    Shop::from_value(&value).map(|_| value)
}
