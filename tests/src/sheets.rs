//! Sheets at full size, as SVG or as PDF over paper.

use crate::Refused;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use crestrail_chair::chair::Chair;
use crestrail_chair::design::{Design, NamedDesign};
use crestrail_chair::reading::Fields;
use crestrail_chair::sheets::{FullSize, Print, full_size, print};
use crestrail_sheet::paper::{PAPERS, Paper};
use crestrail_sheet::{Faces, pdf, svg};
use serde_json::{Value, json};

/// The typefaces of the page.
const REGULAR: &[u8] = include_bytes!("../../www/page/fonts/crestrail-sans-regular.ttf");
const MEDIUM: &[u8] = include_bytes!("../../www/page/fonts/crestrail-sans-medium.ttf");

/// Longest name of a design, characters.
const LONGEST_NAME: usize = 60;

/// What there is.
pub(crate) fn list(chair: &Chair) -> Result<Value, Refused> {
    let row = |drawing: FullSize| {
        let sheet = drawing.sheet;
        json!({"name": drawing.name, "title": drawing.title, "width": sheet.width, "height": sheet.height})
    };
    Ok(made(chair)?.into_iter().map(row).collect())
}

fn made(chair: &Chair) -> Result<Vec<FullSize>, Refused> {
    full_size(chair).map_err(|clash| Refused::new("build", clash.why))
}

/// One drawing by its name, or those whose names begin with it: `template`, `rod`; all of them for `sheets`.
pub(crate) fn drawing(
    fields: &Fields<'_>,
    name: &str,
    design: &Design,
    chair: &Chair,
) -> Result<Value, Refused> {
    let all = made(chair)?;
    let wanted = |drawing: &FullSize| {
        name == "sheets" || drawing.name == name || drawing.name.starts_with(&format!("{name}-"))
    };
    let drawings: Vec<FullSize> = all.into_iter().filter(wanted).collect();
    let Some(first) = drawings.first() else {
        return Err(Refused::new(
            "sheet",
            "There is no such sheet. Ask for exploded, sheets, template, rod, or a name that the request \"sheets\" lists.",
        ));
    };
    let null = Value::Null;
    let options = fields.value("options").unwrap_or(&null);
    let empty = json!({});
    let options = Fields::top("options", if options.is_null() { &empty } else { options })?;
    options.only(&["paper", "name"])?;
    if !options.has("paper") {
        return Ok(json!({"svg": svg::write(&first.sheet)}));
    }
    let papers: Vec<(&str, &Paper)> = PAPERS.iter().map(|paper| (paper.name, paper)).collect();
    let paper = options.choice("paper", &papers)?;
    let name = if options.has("name") { options.text("name", LONGEST_NAME)? } else { String::new() };
    written(&drawings, paper, &name, design)
}

fn written(drawings: &[FullSize], paper: &Paper, name: &str, design: &Design) -> Result<Value, Refused> {
    let named = NamedDesign { name: name.to_owned(), design: design.clone() }.write();
    let faces = Faces::read(REGULAR.to_vec(), MEDIUM.to_vec())
        .map_err(|error| Refused::new("font", error.to_string()))?;
    let document = print(&Print { name, drawings, paper, design: Some(&named) });
    let made = pdf::write(&document, &faces).map_err(|error| Refused::new("file", error.to_string()))?;
    let missing: String = made.missing.iter().collect();
    Ok(json!({"pdf_base64": STANDARD.encode(&made.bytes), "pages": document.pages.len(), "missing": missing}))
}
