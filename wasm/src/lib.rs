//! The core for a browser: plain data in, plain data out.
//!
//! Every call that can fail returns `{ok: …}` or `{error: {where, why, mend?}}`. The binding knows
//! nothing of chairs: it reads a request, calls the core, and writes the answer.

mod exchange;
mod file;
mod orders;
mod panic;
mod plan;
mod progress;
mod ranges;
mod refused;
mod reply;
mod request;
mod sheets;
mod showroom;
mod step;
mod stopwatch;
mod timing;
mod work;

pub use exchange::{exchange, shapes};
pub use ranges::{Ranges, ranges};
pub use showroom::{checked_in, look_at, offer_of, publish_showroom, read_showroom, write_told_link};
pub use timing::check_times;
pub use work::{work, work_on_paper};

use crestrail_chair::chair::Chair;
use crestrail_chair::choices::{Choice, Family};
use crestrail_chair::design::{Design, NamedDesign};
use crestrail_chair::fitting::{Fitted, make_it_fit};
use crestrail_chair::knob::Knob;
use crestrail_chair::order::Order;
use crestrail_chair::refusal::{Mend, Refusal};
use crestrail_chair::shop::{DEMO_SHOP, SHOP_FILE, Shop};
use crestrail_chair::{link, nearest, reading, turning};
use js_sys::Function;
use progress::Progress;
use refused::Refused;
use request::Request;
use serde_json::{Value, json};
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

/// Runs once, when the module is loaded.
#[wasm_bindgen(start)]
pub fn start() {
    panic::install();
}

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
    reply::plain(&Family::picks())
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

/// A design's report and picture: `{ok: {report, picture, marks}}` for `{design, shop?, view, want?}`.
#[wasm_bindgen]
pub fn step(request: JsValue) -> JsValue {
    reply::answer(Request::read(request).map_err(Refused::from).and_then(|request| step::step(&request)))
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
        return Err(Refusal::new("design", "This chair can be built as it is.").into());
    };
    progress.tell(0, 1, "Trying other sizes");
    let found = nearest::mend(&design, &clash, &bench);
    progress.tell(1, 1, "Done");
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
    progress.tell(0, 1, "Trying sizes");
    let fitted = make_it_fit(&design, &bench)?;
    progress.tell(1, 1, "Done");
    Ok(fitted)
}

/// A file to take away: `{ok: {name, type, bytes}}` for `{kind, design, name?, shop?, view?}`.
#[wasm_bindgen]
pub fn file(request: JsValue, progress: &Function) -> JsValue {
    let made = Request::read(request).map_err(Refused::from);
    match made.and_then(|request| file::file(&request, &Progress::new(progress))) {
        Ok(made) => reply::keyed("ok", &made.to_js().into()),
        Err(refused) => reply::refused(&refused),
    }
}

/// The sheets for the bench that a design has: `{ok: [{name, title, width, height, pages: [{paper, label, count}…]}…]}` for
/// `{design, shop?}`.
#[wasm_bindgen]
pub fn sheets(request: JsValue) -> JsValue {
    reply::answer(Request::read(request).map_err(Refused::from).and_then(|request| sheets::list(&request)))
}

/// A file of sheets: `{ok: {name, type, bytes, missing}}` for `{sheet, format, paper?, design, name?, shop?}` and the two
/// font files that a PDF takes in, which may be empty for SVG.
#[wasm_bindgen]
pub fn sheet(request: JsValue, regular: Vec<u8>, medium: Vec<u8>) -> JsValue {
    let request = Request::read(request).map_err(Refused::from);
    match request.and_then(|request| sheets::file(&request, regular, medium)) {
        Ok((made, missing)) => {
            let made = made.to_js();
            reply::set(&made, "missing", &JsValue::from_str(&missing));
            reply::keyed("ok", &made.into())
        }
        Err(refused) => reply::refused(&refused),
    }
}

/// Reads the text of a `design.json`: `{ok: {design, name, notes}}`.
#[wasm_bindgen(js_name = readDesign)]
pub fn read_design(text: &JsValue) -> JsValue {
    reply::answer(request::text(text, "text").and_then(|text| {
        let NamedDesign { name, design } = NamedDesign::read(&text)?;
        Ok(json!({ "design": design.to_map(), "name": name, "notes": [] }))
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

/// What an order costs and when it is ready: `{ok: report}` for `{order, shop?}`.
#[wasm_bindgen]
pub fn order(request: JsValue) -> JsValue {
    reply::answer(Request::read(request).map_err(Refused::from).and_then(|request| orders::order(&request)))
}

/// The quote of an order: `{ok: text}` for `{order, number, date, shop?, view?}`.
#[wasm_bindgen]
pub fn quote(request: JsValue) -> JsValue {
    reply::answer(Request::read(request).map_err(Refused::from).and_then(|request| orders::quote(&request)))
}

/// What moves the price: `{ok: tornado}` for `{design, shop?}`. It takes a second or more.
#[wasm_bindgen]
pub fn tornado(request: JsValue, progress: &Function) -> JsValue {
    let request = Request::read(request).map_err(Refused::from);
    reply::answer(request.and_then(|request| orders::moves(&request, &Progress::new(progress))))
}

/// How to saw the timber: `{ok: {plan, boards: [[svg…]…]}}` for `{order, shop?, effort?, view?}`, of which `view` tells
/// the scheme; `effort` is `"quick"` or `"good"`, which takes up to a second.
#[wasm_bindgen]
pub fn plan(request: JsValue, progress: &Function) -> JsValue {
    let request = Request::read(request).map_err(Refused::from);
    reply::answer(request.and_then(|request| plan::plan(&request, &Progress::new(progress))))
}

/// What sets of chairs take: `{ok: [row…]}` for `{design, shop?}`.
#[wasm_bindgen]
pub fn sets(request: JsValue, progress: &Function) -> JsValue {
    let request = Request::read(request).map_err(Refused::from);
    reply::answer(request.and_then(|request| plan::sets_of(&request, &Progress::new(progress))))
}

/// The plan as a file to take away: `{ok: {name, type, bytes}}` for what [`plan`] takes and `{kind, name?}`; the kind is
/// `plan_svg`, `plan_csv` or `plan_json`.
#[wasm_bindgen(js_name = planFile)]
pub fn plan_file(request: JsValue, progress: &Function) -> JsValue {
    let made = Request::read(request).map_err(Refused::from);
    match made.and_then(|request| plan::file(&request, &Progress::new(progress))) {
        Ok(made) => reply::keyed("ok", &made.to_js()),
        Err(refused) => reply::refused(&refused),
    }
}

/// Reads the text of an `order.json`, or of a quote, which holds one: `{ok: {order}}`.
#[wasm_bindgen(js_name = readOrder)]
pub fn read_order(text: &JsValue) -> JsValue {
    reply::answer(
        request::text(text, "text").and_then(|text| Ok(json!({ "order": Order::read(&text)?.to_value() }))),
    )
}
