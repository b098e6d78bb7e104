//! The order of work, as data and on paper.

use crate::Refused;
use crate::sheets::faces;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use crestrail_chair::chair::Chair;
use crestrail_chair::design::Design;
use crestrail_chair::reading::Fields;
use crestrail_chair::report::{report, service};
use crestrail_chair::sheets::{Bound, WorkSheets, bound_work, work_card, work_pages, work_paper};
use crestrail_chair::shop::Shop;
use crestrail_chair::work::{WorkStep, order_of_work};
use crestrail_sheet::{pdf, svg};
use serde_json::{Value, json};

/// Longest name of a design or a paper, characters.
const LONGEST: usize = 60;

/// What there is to print.
type Write = for<'a> fn(&WorkSheets<'a>) -> Bound;

/// The steps.
pub(crate) fn steps(design: &Design, chair: &Chair, shop: &Shop) -> Vec<WorkStep> {
    let labour = report(design, chair, shop).labour;
    order_of_work(chair, shop, labour.as_ref())
}

/// Pages or the card, as SVG a page and as one PDF.
pub(crate) fn sheets(
    fields: &Fields<'_>,
    design: &Design,
    chair: &Chair,
    shop: &Shop,
) -> Result<Value, Refused> {
    let write = fields.choice("print", &[("pages", work_pages as Write), ("card", work_card as Write)])?;
    let name = if fields.has("name") { fields.text("name", LONGEST)? } else { String::new() };
    let (steps, service) = (steps(design, chair, shop), service(design));
    let paper = work_paper(&fields.text("paper", LONGEST)?)?;
    let made = write(&WorkSheets { name: &name, chair, service: &service, steps: &steps, paper, foot: true });
    let svgs: Vec<String> = made.sheets.iter().map(svg::write).collect();
    let written =
        pdf::write(&bound_work(made), &faces()?).map_err(|error| Refused::new("file", error.to_string()))?;
    Ok(json!({"svgs": svgs, "pdf_base64": STANDARD.encode(&written.bytes)}))
}
