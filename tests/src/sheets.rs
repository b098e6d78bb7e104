//! Sheets at full size, as SVG or as PDF over paper.

use crate::Refused;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use crestrail_chair::chair::Chair;
use crestrail_chair::design::{Design, NamedDesign};
use crestrail_chair::length::Lengths;
use crestrail_chair::link;
use crestrail_chair::reading::Fields;
use crestrail_chair::report::service;
use crestrail_chair::sheets::{
    FullSize, Label, Measure, Order, Print, bound, chosen, drawing as scaled, full_size, is_drawing, listed,
    measures, paper, print, view_edges,
};
use crestrail_geometry::Vec3;
use crestrail_geometry::view::Stretch;
use crestrail_sheet::paper::Paper;
use crestrail_sheet::pdf::{self, Document};
use crestrail_sheet::{Faces, svg};
use serde_json::{Value, json};

/// The typefaces of the page.
const REGULAR: &[u8] = include_bytes!("../../www/page/fonts/crestrail-sans-regular.ttf");
const MEDIUM: &[u8] = include_bytes!("../../www/page/fonts/crestrail-sans-medium.ttf");

/// Longest name of a design, characters.
const LONGEST_NAME: usize = 60;

/// What there is.
pub(crate) fn list(chair: &Chair) -> Result<Value, Refused> {
    Ok(json!(listed(chair, &made(chair, Lengths::Millimetres)?)))
}

fn made(chair: &Chair, lengths: Lengths) -> Result<Vec<FullSize>, Refused> {
    full_size(chair, lengths).map_err(|clash| Refused::new("build", clash.why))
}

/// One drawing as SVG; or with a paper in the options one or several as PDF.
pub(crate) fn drawing(
    fields: &Fields<'_>,
    name: &str,
    design: &Design,
    chair: &Chair,
) -> Result<Value, Refused> {
    if is_drawing(name) {
        return to_scale(fields, name, design, chair);
    }
    let empty = json!({});
    let options = Fields::top("options", fields.value("options").unwrap_or(&empty))?;
    options.only(&["paper", "name", "unit"])?;
    let unit = if options.has("unit") { options.text("unit", LONGEST_NAME)? } else { String::new() };
    let drawings = chosen(made(chair, Lengths::named(&unit)?)?, name)?;
    match (options.has("paper"), drawings.as_slice()) {
        (true, _) => {}
        (false, [one]) => return Ok(json!({"svg": svg::write(&one.sheet)})),
        (false, _) => {
            return Err(Refused::new("options", "Several sheets make one PDF file. Say on which paper."));
        }
    }
    let paper = paper(&options.text("paper", LONGEST_NAME)?)?;
    let name = if options.has("name") { options.text("name", LONGEST_NAME)? } else { String::new() };
    written(&drawings, paper, &name, design)
}

/// Sheets of the drawing to a scale: as `svgs` with the option `format` `svg`, else as PDF.
fn to_scale(fields: &Fields<'_>, wanted: &str, design: &Design, chair: &Chair) -> Result<Value, Refused> {
    let empty = json!({"paper": "a4"});
    let options = Fields::top("options", fields.value("options").unwrap_or(&empty))?;
    options.only(&["paper", "name", "format", "date", "unit"])?;
    let text =
        |name: &str| if options.has(name) { options.text(name, LONGEST_NAME) } else { Ok(String::new()) };
    let (name, date, service) = (text("name")?, text("date")?, service(design));
    let (number, lengths) = (link::number(design), Lengths::named(&text("unit")?)?);
    let label = Label { title: &name, owner: "", number: &number, date: &date };
    let paper = paper(&options.text("paper", LONGEST_NAME)?)?;
    let order = Order { chair, service: &service, paper, lengths, label };
    let drawings = scaled(&order, wanted).map_err(|clash| Refused::new("build", clash.why))?;
    if text("format")? == "svg" {
        let svgs: Vec<String> = drawings.iter().map(|drawing| svg::write(&drawing.sheet)).collect();
        return Ok(json!({ "svgs": svgs }));
    }
    let named = NamedDesign { name: name.clone(), design: design.clone() }.write();
    pdf_answer(&bound(&name, &drawings, Some(&named)))
}

/// What is measured on the drawing.
pub(crate) fn dimensions(chair: &Chair, paper: &Paper) -> Value {
    let xyz = |v: Vec3| [v.x, v.y, v.z];
    let row = |m: &Measure| json!({"name": m.name, "from": xyz(m.from), "to": xyz(m.to), "along": xyz(m.along), "value": m.value});
    json!(measures(chair, paper).iter().map(row).collect::<Vec<_>>())
}

/// Every edge of front, side and plan, in stretches that are seen or hidden.
pub(crate) fn edges(chair: &Chair, paper: &Paper) -> Value {
    let xyz = |v: Vec3| [v.x, v.y, v.z];
    let views = view_edges(chair, paper).into_iter().map(|(name, camera, stretches)| {
        let row = |s: &Stretch| {
            let part = chair.parts[s.owner].id.to_string();
            json!({"part": part, "from": xyz(s.from), "to": xyz(s.to), "seen": s.seen})
        };
        let rows: Vec<Value> = stretches.iter().map(row).collect();
        json!({"view": name, "right": xyz(camera.right), "up": xyz(camera.up), "edges": rows})
    });
    json!(views.collect::<Vec<_>>())
}

fn written(drawings: &[FullSize], paper: &Paper, name: &str, design: &Design) -> Result<Value, Refused> {
    let named = NamedDesign { name: name.to_owned(), design: design.clone() }.write();
    pdf_answer(&print(&Print { name, drawings, paper, design: Some(&named) }))
}

/// The typefaces of the page.
pub(crate) fn faces() -> Result<Faces, Refused> {
    Faces::read(REGULAR.to_vec(), MEDIUM.to_vec()).map_err(|error| Refused::new("font", error.to_string()))
}

/// A document as its file.
pub(crate) fn pdf_answer(document: &Document) -> Result<Value, Refused> {
    let made = pdf::write(document, &faces()?).map_err(|error| Refused::new("file", error.to_string()))?;
    let missing: String = made.missing.iter().collect();
    Ok(json!({"pdf_base64": STANDARD.encode(&made.bytes), "pages": document.pages.len(), "missing": missing}))
}
