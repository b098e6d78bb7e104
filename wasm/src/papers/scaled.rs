//! Sheets of the drawing to a scale.

use super::file::{Made, file_name, unwritten};
use super::sheets::as_svg;
use crate::refused::Refused;
use crate::request::Request;
use crestrail_chair::chair::Chair;
use crestrail_chair::design::NamedDesign;
use crestrail_chair::link;
use crestrail_chair::report::service;
use crestrail_chair::sheets::{Label, Order, bound, drawing, paper};
use crestrail_sheet::{Faces, pdf};

/// The file of one sheet as SVG, or of one or all as PDF; and the characters that the typefaces do not have.
pub(crate) fn file(request: &Request, regular: Vec<u8>, medium: Vec<u8>) -> Result<(Made, String), Refused> {
    let (design, shop) = (request.design()?, request.shop()?);
    let chair = Chair::resolve(&design, &shop.bench())?;
    let (service, name) = (service(&design), request.text("name"));
    let (number, paper) = (link::number(&design), paper(request.text("paper"))?);
    let label = Label { title: name, owner: &shop.name, number: &number, date: request.text("date") };
    let wanted = request.text("sheet");
    let drawings = drawing(&Order { chair: &chair, service: &service, paper, label }, wanted)?;
    if request.text("format") == "svg" {
        return as_svg(request, &drawings).map(|made| (made, String::new()));
    }
    let text = NamedDesign { name: name.to_owned(), design }.write();
    let faces = Faces::read(regular, medium).map_err(|error| unwritten(&error))?;
    let written =
        pdf::write(&bound(name, &drawings, Some(&text)), &faces).map_err(|error| unwritten(&error))?;
    let ending = format!("{wanted}-{}.pdf", paper.name);
    let made = Made::new(file_name(name, &ending), "application/pdf", written.bytes);
    Ok((made, written.missing.into_iter().collect()))
}
