//! Sheets for the bench: what there is, and one file of them.

use super::file::{Made, faces, file_name};
use super::scaled;
use crate::refused::Refused;
use crate::request::Request;
use crestrail_chair::chair::Chair;
use crestrail_chair::design::NamedDesign;
use crestrail_chair::refusal::Refusal;
use crestrail_chair::sheets::{FullSize, Listed, Print, chosen, full_size, is_drawing, listed, paper, print};

/// The sheets of a design.
pub(crate) fn list(request: &Request) -> Result<Vec<Listed>, Refused> {
    let (chair, drawings) = made(request)?;
    Ok(listed(&chair, &drawings))
}

fn made(request: &Request) -> Result<(Chair, Vec<FullSize>), Refused> {
    let chair = Chair::resolve(&request.design()?, &request.shop()?.bench())?;
    let drawings = full_size(&chair, request.lengths()?)?;
    Ok((chair, drawings))
}

/// The file of a sheet as SVG, or of one or several sheets over paper as PDF.
pub(crate) fn file(request: &Request, regular: Vec<u8>, medium: Vec<u8>) -> Result<Made, Refused> {
    let sheet = request.text("sheet");
    if is_drawing(sheet) {
        return scaled::file(request, regular, medium);
    }
    let drawings = chosen(made(request)?.1, sheet)?;
    if request.text("format") == "svg" {
        return as_svg(request, &drawings);
    }
    let name = request.text("name").to_owned();
    let design = NamedDesign { name: name.clone(), design: request.design()? }.write();
    let paper = paper(request.text("paper"))?;
    let faces = faces(regular, medium)?;
    let document = print(&Print { name: &name, drawings: &drawings, paper, design: Some(&design) });
    let ending = format!("{}-{}.pdf", sheet.to_lowercase(), paper.name);
    Made::pdf(file_name(&name, &ending), &document, &faces)
}

pub(crate) fn as_svg(request: &Request, drawings: &[FullSize]) -> Result<Made, Refused> {
    let [one] = drawings else {
        return Err(Refusal::new("sheet", "Several sheets make one PDF file; as SVG choose one.").into());
    };
    let ending = format!("{}.svg", one.name.to_lowercase());
    Ok(Made::svg(file_name(request.text("name"), &ending), &one.sheet))
}
