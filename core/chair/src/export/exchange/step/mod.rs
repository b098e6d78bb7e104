//! STEP: ISO 10303-21 after AP214, `automotive_design`, which every drawing program for solids reads.
//!
//! Each shape is a product with its solids of flat faces; the chair is an assembly that uses them, each piece by its name.
//! Placements in STEP cannot mirror, so every piece must stand in a right-handed place.

mod brep;
mod colour;
mod data;
mod product;
mod shells;

use super::catalogue::{Catalogue, Shape};
use crestrail_geometry::Place;
use data::{Data, Id, text};
use product::{Frame, Product, Use, placement, stand};

/// The schema and the identifiers of its edition (ISO 10303-214:2003).
const SCHEMA: &str = "AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }";

/// The file.
pub(super) fn write(catalogue: &Catalogue, title: &str, stamp: &str) -> Vec<u8> {
    let mut data = Data::default();
    let frame = Frame::write(&mut data);
    let mut parts = Vec::with_capacity(catalogue.shapes.len());
    let mut styled = Vec::new();
    for shape in used(catalogue) {
        parts.push(shape.map(|shape| part(&mut data, &frame, shape, &mut styled)));
    }
    if !is_alone(catalogue) {
        assemble(&mut data, &frame, catalogue, &parts, title);
    }
    colour::gather(&mut data, &styled, frame.units);
    format!("{}DATA;\n{}ENDSEC;\nEND-ISO-10303-21;\n", head(title, stamp), data.into_text()).into_bytes()
}

fn head(title: &str, stamp: &str) -> String {
    let title = text(title);
    format!(
        "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION(('Parts of a chair, flat-faced solids'),'2;1');\nFILE_NAME({title},'{stamp}',(''),(''),'Crestrail','Crestrail','');\nFILE_SCHEMA(('{SCHEMA}'));\nENDSEC;\n"
    )
}

/// The shapes that a piece has; those that only mirrored pieces had are left out.
fn used(catalogue: &Catalogue) -> impl Iterator<Item = Option<&Shape>> {
    let is_used = |i: usize| catalogue.pieces.iter().any(|piece| piece.shape == i);
    catalogue.shapes.iter().enumerate().map(move |(i, shape)| is_used(i).then_some(shape))
}

/// Whether there is one shape in its own frame and nothing else.
fn is_alone(catalogue: &Catalogue) -> bool {
    matches!(catalogue.pieces.as_slice(), [only] if only.place == Place::HOME)
}

/// A shape's product, and its own frame.
fn part(data: &mut Data, frame: &Frame, shape: &Shape, styled: &mut Vec<Id>) -> (Product, Id) {
    let own = placement(data, &Place::HOME);
    let solids = brep::solids(data, &shape.title, &shape.solid);
    styled.extend(colour::paint(data, shape.material, &solids));
    let items: Vec<Id> = core::iter::once(own).chain(solids).collect();
    let names = (shape.name.as_str(), format!("{} {}", shape.name, shape.title));
    let kind = "ADVANCED_BREP_SHAPE_REPRESENTATION";
    (frame.product(data, (names.0, &names.1), kind, &items), own)
}

fn assemble(
    data: &mut Data,
    frame: &Frame,
    catalogue: &Catalogue,
    parts: &[Option<(Product, Id)>],
    title: &str,
) {
    let home = placement(data, &Place::HOME);
    let places: Vec<Id> = catalogue.pieces.iter().map(|piece| placement(data, &piece.place)).collect();
    let items: Vec<Id> = core::iter::once(home).chain(places.iter().copied()).collect();
    let whole = frame.product(data, ("chair", title), "SHAPE_REPRESENTATION", &items);
    for (i, (piece, &to)) in catalogue.pieces.iter().zip(&places).enumerate() {
        if let Some((part, from)) = &parts[piece.shape] {
            stand(data, &whole, part, &Use { number: i + 1, name: &piece.name, from: *from, to });
        }
    }
}
