//! Sheets at full size, as SVG or as PDF over paper.

use crate::Refused;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use crestrail_chair::chair::Chair;
use crestrail_chair::design::{Design, NamedDesign};
use crestrail_chair::reading::Fields;
use crestrail_chair::sheets::{FullSize, Print, chosen, full_size, listed, paper, print};
use crestrail_sheet::paper::Paper;
use crestrail_sheet::{Faces, pdf, svg};
use serde_json::{Value, json};

/// The typefaces of the page.
const REGULAR: &[u8] = include_bytes!("../../www/page/fonts/crestrail-sans-regular.ttf");
const MEDIUM: &[u8] = include_bytes!("../../www/page/fonts/crestrail-sans-medium.ttf");

/// Longest name of a design, characters.
const LONGEST_NAME: usize = 60;

/// What there is.
pub(crate) fn list(chair: &Chair) -> Result<Value, Refused> {
    Ok(json!(listed(&made(chair)?)))
}

fn made(chair: &Chair) -> Result<Vec<FullSize>, Refused> {
    full_size(chair).map_err(|clash| Refused::new("build", clash.why))
}

/// One drawing as SVG; or with a paper in the options one or several as PDF.
pub(crate) fn drawing(
    fields: &Fields<'_>,
    name: &str,
    design: &Design,
    chair: &Chair,
) -> Result<Value, Refused> {
    let drawings = chosen(made(chair)?, name)?;
    let empty = json!({});
    let options = Fields::top("options", fields.value("options").unwrap_or(&empty))?;
    options.only(&["paper", "name"])?;
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

/// The page's own typefaces.
pub(crate) fn typefaces() -> Result<Faces, Refused> {
    Faces::read(REGULAR.to_vec(), MEDIUM.to_vec()).map_err(|error| Refused::new("font", error.to_string()))
}

fn written(drawings: &[FullSize], paper: &Paper, name: &str, design: &Design) -> Result<Value, Refused> {
    let named = NamedDesign { name: name.to_owned(), design: design.clone() }.write();
    let faces = typefaces()?;
    let document = print(&Print { name, drawings, paper, design: Some(&named) });
    let made = pdf::write(&document, &faces).map_err(|error| Refused::new("file", error.to_string()))?;
    let missing: String = made.missing.iter().collect();
    Ok(json!({"pdf_base64": STANDARD.encode(&made.bytes), "pages": document.pages.len(), "missing": missing}))
}
