//! The order of work, as data and on paper.

use crate::Refused;
use crate::sheets::faces;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use crestrail_chair::chair::Chair;
use crestrail_chair::design::{Design, NamedDesign};
use crestrail_chair::length::Lengths;
use crestrail_chair::reading::Fields;
use crestrail_chair::report::{report, service};
use crestrail_chair::sheets::{
    Bound, WorkSheets, bound_work, of_pages, one_below_the_other, paper, work_card, work_pages,
};
use crestrail_chair::shop::Shop;
use crestrail_chair::work::{WorkStep, order_of_work};
use crestrail_sheet::{pdf, svg};
use serde_json::{Value, json};

/// Longest name of a design or a paper, characters.
const LONGEST: usize = 60;

/// What there is to print.
type Write = for<'a> fn(&WorkSheets<'a>) -> Bound;

/// The steps.
pub(crate) fn steps(
    fields: &Fields<'_>,
    design: &Design,
    chair: &Chair,
    shop: &Shop,
) -> Result<Vec<WorkStep>, Refused> {
    let labour = report(design, chair, shop).labour;
    Ok(order_of_work(chair, shop, labour.as_ref(), lengths(fields)?))
}

fn lengths(fields: &Fields<'_>) -> Result<Lengths, Refused> {
    let unit = if fields.has("unit") { fields.text("unit", LONGEST)? } else { String::new() };
    Ok(Lengths::named(&unit)?)
}

/// Pages or the card: as SVG a page and one of all, and as one PDF.
pub(crate) fn sheets(
    fields: &Fields<'_>,
    design: &Design,
    chair: &Chair,
    shop: &Shop,
) -> Result<Value, Refused> {
    let write = fields.choice("print", &[("pages", work_pages as Write), ("card", work_card as Write)])?;
    let name = if fields.has("name") { fields.text("name", LONGEST)? } else { String::new() };
    let (steps, service) = (steps(fields, design, chair, shop)?, service(design));
    let (paper, lengths, faces) = (paper(&fields.text("paper", LONGEST)?)?, lengths(fields)?, faces()?);
    of_pages(paper)?;
    let (service, steps, faces_of) = (&service, &steps, &faces);
    let made = write(&WorkSheets {
        name: &name,
        chair,
        service,
        steps,
        lengths,
        faces: faces_of,
        paper,
        foot: true,
    });
    let svgs: Vec<String> = made.sheets.iter().map(svg::write).collect();
    let whole = svg::write(&one_below_the_other(&made));
    let named = NamedDesign { name: name.clone(), design: design.clone() }.write();
    let written = pdf::write(&bound_work(made, &named), &faces)
        .map_err(|error| Refused::new("file", error.to_string()))?;
    Ok(json!({"svgs": svgs, "svg": whole, "pdf_base64": STANDARD.encode(&written.bytes)}))
}
