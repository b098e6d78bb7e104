//! Sheets of the drawing to a scale.

use super::file::{Made, faces, file_name};
use super::sheets::as_svg;
use crate::refused::Refused;
use crate::request::Request;
use crestrail_chair::chair::Chair;
use crestrail_chair::design::NamedDesign;
use crestrail_chair::link;
use crestrail_chair::report::service;
use crestrail_chair::sheets::{Label, Order, bound, drawing, paper};

/// The file of one sheet as SVG, or of one or all as PDF.
pub(crate) fn file(request: &Request, regular: Vec<u8>, medium: Vec<u8>) -> Result<Made, Refused> {
    let (design, shop) = (request.design()?, request.shop()?);
    let chair = Chair::resolve(&design, &shop.bench())?;
    let (service, name) = (service(&design), request.text("name"));
    let (number, paper) = (link::number(&design), paper(request.text("paper"))?);
    let label = Label { title: name, owner: &shop.name, number: &number, date: request.text("date") };
    let wanted = request.text("sheet");
    let order = Order { chair: &chair, service: &service, paper, lengths: request.lengths()?, label };
    let drawings = drawing(&order, wanted)?;
    if request.text("format") == "svg" {
        return as_svg(request, &drawings);
    }
    let text = NamedDesign { name: name.to_owned(), design }.write();
    let ending = format!("{wanted}-{}.pdf", paper.name);
    Made::pdf(file_name(name, &ending), &bound(name, &drawings, Some(&text)), &faces(regular, medium)?)
}
