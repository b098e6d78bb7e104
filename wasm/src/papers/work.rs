//! The order of work: the steps with their pictures, and the same on paper.

use super::file::{Made, faces, file_name, handed_over};
use crate::refused::Refused;
use crate::reply;
use crate::request::Request;
use crestrail_chair::chair::Chair;
use crestrail_chair::drawing::{self, View};
use crestrail_chair::labour::Labour;
use crestrail_chair::lists::cutting_list;
use crestrail_chair::refusal::Refusal;
use crestrail_chair::report::{allowances, service};
use crestrail_chair::sheets::{WorkSheets, bound_work, work_card, work_pages, work_paper};
use crestrail_chair::work::{WorkStep, order_of_work};
use crestrail_phrases::in_english;
use crestrail_sheet::svg;
use serde_json::{Value, json};
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

/// The order of work: `{ok: [{step, picture}…]}` for `{design, shop?, view?}`; the picture is SVG, or null where there is none.
#[wasm_bindgen]
pub fn work(request: JsValue) -> JsValue {
    in_english(|| reply::answer(told(request)))
}

/// The order of work on paper, as PDF: `{ok: {name, type, bytes, missing}}` for `{print, paper, design, name?, shop?}` and the two
/// font files; `print` is `pages` or `card`.
#[wasm_bindgen(js_name = workPages)]
pub fn work_on_paper(request: JsValue, regular: Vec<u8>, medium: Vec<u8>) -> JsValue {
    in_english(|| handed_over(printed(request, regular, medium)))
}

/// The chair and its steps.
fn steps(request: &Request) -> Result<(Chair, Vec<WorkStep>), Refused> {
    let (design, shop) = (request.design()?, request.shop()?);
    let chair = Chair::resolve(&design, &shop.bench())?;
    let rows = cutting_list(&chair, &allowances(&design), shop.thicknesses);
    let labour = Labour::of(&chair, &rows, &shop, 1);
    let steps = order_of_work(&chair, &shop, labour.as_ref());
    Ok((chair, steps))
}

fn told(request: JsValue) -> Result<Vec<Value>, Refused> {
    let request = Request::read(request)?;
    let (chair, steps) = steps(&request)?;
    let (view, service) = (request.view()?, service(&request.design()?));
    let picture = |step: &WorkStep| {
        let own = chair.assembly.steps.iter().find(|own| Some(own.number) == step.assembly)?;
        let view =
            View { title: Some(step.title.clone()), description: step.say.first().cloned(), ..view.clone() };
        Some(svg::write(&drawing::step(&chair, own, &view, &service)))
    };
    Ok(steps.iter().map(|step| json!({ "step": step, "picture": picture(step) })).collect())
}

fn printed(request: JsValue, regular: Vec<u8>, medium: Vec<u8>) -> Result<Made, Refused> {
    let request = Request::read(request)?;
    let (chair, steps) = steps(&request)?;
    let (name, service) = (request.text("name"), service(&request.design()?));
    let paper = work_paper(request.text("paper"))?;
    let sheets = WorkSheets { name, chair: &chair, service: &service, steps: &steps, paper, foot: true };
    let (made, what) = match request.text("print") {
        "pages" => (work_pages(&sheets), "order-of-work"),
        "card" => (work_card(&sheets), "bench-card"),
        _ => return Err(Refusal::new("print", "There is nothing else to print but pages and card.").into()),
    };
    let ending = format!("{what}-{}.pdf", paper.name);
    Made::pdf(file_name(name, &ending), &bound_work(made), &faces(regular, medium)?)
}
