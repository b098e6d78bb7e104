//! The order of work: the steps with their pictures, and the same on paper.

use super::file::{Made, faces, file_name, handed_over};
use crate::refused::Refused;
use crate::reply;
use crate::request::Request;
use crestrail_chair::chair::Chair;
use crestrail_chair::design::NamedDesign;
use crestrail_chair::drawing::{self, View};
use crestrail_chair::labour::Labour;
use crestrail_chair::lists::cutting_list;
use crestrail_chair::refusal::Refusal;
use crestrail_chair::report::{allowances, service};
use crestrail_chair::sheets::{
    Bound, WorkSheets, bound_work, of_pages, one_below_the_other, paper, work_card, work_pages,
};
use crestrail_chair::work::{WorkStep, order_of_work};
use crestrail_phrases::in_english;
use crestrail_sheet::svg;
use serde_json::{Value, json};
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

/// The order of work: `{ok: [{step, picture}…]}` for `{design, shop?, view?, unit?}`; the picture is SVG, or null where there is none.
#[wasm_bindgen]
pub fn work(request: JsValue) -> JsValue {
    in_english(|| reply::answer(told(request)))
}

/// The order of work on paper: `{ok: {name, type, bytes, missing}}` for `{print, format?, paper, design, name?, shop?, unit?}` and
/// the two font files; `print` is `pages` or `card`, `format` is `pdf` or `svg`.
#[wasm_bindgen(js_name = workPages)]
pub fn work_on_paper(request: JsValue, regular: Vec<u8>, medium: Vec<u8>) -> JsValue {
    in_english(|| handed_over(printed(request, regular, medium)))
}

/// The chair and its steps, with lengths as the request wants them written.
fn steps(request: &Request) -> Result<(Chair, Vec<WorkStep>), Refused> {
    let lengths = request.lengths()?;
    let (design, shop) = (request.design()?, request.shop()?);
    let chair = Chair::resolve(&design, &shop.bench())?;
    let rows = cutting_list(&chair, &allowances(&design), shop.thicknesses);
    let labour = Labour::of(&chair, &rows, &shop, 1);
    let steps = order_of_work(&chair, &shop, labour.as_ref(), lengths);
    Ok((chair, steps))
}

fn told(request: JsValue) -> Result<Vec<Value>, Refused> {
    let request = Request::read(request)?;
    let (chair, steps) = steps(&request)?;
    let (view, service) = (request.view()?, service(&request.design()?));
    let picture = |step: &WorkStep| {
        let view =
            View { title: Some(step.title.clone()), description: step.say.first().cloned(), ..view.clone() };
        drawing::work_step(&chair, step, &view, &service).map(|sheet| svg::write(&sheet))
    };
    Ok(steps.iter().map(|step| json!({ "step": step, "picture": picture(step) })).collect())
}

fn printed(request: JsValue, regular: Vec<u8>, medium: Vec<u8>) -> Result<Made, Refused> {
    let request = Request::read(request)?;
    let (chair, steps) = steps(&request)?;
    let (name, design) = (request.text("name"), request.design()?);
    let (service, lengths) = (service(&design), request.lengths()?);
    let paper = paper(request.text("paper"))?;
    of_pages(paper)?;
    let (write, what): (fn(&WorkSheets<'_>) -> Bound, _) = match request.text("print") {
        "pages" => (work_pages, "order-of-work"),
        "card" => (work_card, "bench-card"),
        _ => return Err(Refusal::new("print", "There is nothing else to print but pages and card.").into()),
    };
    let faces = faces(regular, medium)?;
    let sheets = WorkSheets {
        name,
        chair: &chair,
        service: &service,
        steps: &steps,
        lengths,
        faces: &faces,
        paper,
        foot: true,
    };
    let made = write(&sheets);
    if request.text("format") == "svg" {
        return Ok(Made::svg(file_name(name, &format!("{what}.svg")), &one_below_the_other(&made)));
    }
    let text = NamedDesign { name: name.to_owned(), design }.write();
    let ending = format!("{what}-{}.pdf", paper.name);
    Made::pdf(file_name(name, &ending), &bound_work(made, &text), &faces)
}
