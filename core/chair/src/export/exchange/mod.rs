//! Solids for other programs: glTF 2.0 for viewers, STL for printers of models and milling, STEP for drawing programs.
//!
//! All three are written from one [`Catalogue`], tell no time but what they are handed, and hold the same bytes for the
//! same chair on every machine.

mod catalogue;
mod gltf;
mod step;
mod stl;

#[cfg(test)]
mod tests;

use crate::chair::Chair;
use crate::refusal::Refusal;
use catalogue::Catalogue;

pub use catalogue::ShapeRow;

/// Kinds of files of solids.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Format {
    /// glTF 2.0, binary (ISO/IEC 12113): metres, y up, the front of the chair towards +z; one mesh for each shape.
    Glb,
    /// STL, binary: millimetres, z up. It has neither names nor units.
    Stl,
    /// STEP (ISO 10303-21) after AP214: millimetres, z up; a product for each shape and an assembly of them.
    Step,
}

/// What of the chair is to be in a file.
#[derive(Clone, Copy, Debug)]
pub enum Wanted<'a> {
    /// The whole chair.
    Chair,
    /// One shape in its own frame, by its name in [`shapes`].
    Part(&'a str),
}

/// What a file is written from besides the chair.
#[derive(Clone, Copy, Debug)]
pub struct Exchange<'a> {
    /// The design's name.
    pub name: &'a str,
    /// Which kind of file.
    pub format: Format,
    /// What of the chair.
    pub wanted: Wanted<'a>,
    /// When, as ISO 8601, or nothing. Only STEP has a place for it.
    pub stamp: &'a str,
}

/// Letters in which ISO 8601 writes a moment.
const STAMP: &str = "0123456789-:.TZ+";
/// Longest such moment: date, time, thousandths and zone.
const LONGEST_STAMP: usize = 32;

impl Format {
    /// All, by the name that requests use, which is the end of the file's name too.
    pub const NAMED: [(&'static str, Self); 3] =
        [("glb", Self::Glb), ("stl", Self::Stl), ("step", Self::Step)];

    /// The media type: those registered with IANA for glTF, STL and STEP.
    pub fn media(self) -> &'static str {
        match self {
            Self::Glb => "model/gltf-binary",
            Self::Stl => "model/stl",
            Self::Step => "model/step",
        }
    }

    /// The format of this name.
    pub fn named(name: &str) -> Result<Self, Refusal> {
        let found = Self::NAMED.iter().find(|(own, _)| *own == name);
        let why = "There are no solids in this format; it can be glb, stl or step.";
        Ok(found.ok_or_else(|| Refusal::new("format", why))?.1)
    }
}

/// The shapes of a chair that can be taken away one by one. Pieces made alike share one; a left piece has its own, for it
/// is a mirror image, unless the shape is its own mirror image.
pub fn shapes(chair: &Chair) -> Vec<ShapeRow> {
    Catalogue::right_handed(chair).rows()
}

/// A file of solids. It is refused where the chair has no such part or the stamp is no moment.
pub fn exchange(chair: &Chair, wish: &Exchange<'_>) -> Result<Vec<u8>, Refusal> {
    if wish.stamp.len() > LONGEST_STAMP || !wish.stamp.chars().all(|c| STAMP.contains(c)) {
        let why = "The stamp must be a moment as in 2026-05-04T12:30:00, or nothing.";
        return Err(Refusal::new("stamp", why));
    }
    let shared = wish.format == Format::Glb && matches!(wish.wanted, Wanted::Chair);
    let catalogue = if shared { Catalogue::of(chair) } else { Catalogue::right_handed(chair) };
    let chosen = catalogue.only(wish.wanted)?;
    let title = title(wish, &chosen);
    Ok(match wish.format {
        Format::Glb => gltf::write(&chosen, &title),
        Format::Stl => stl::write(&chosen, &title),
        Format::Step => step::write(&chosen, &title, wish.stamp),
    })
}

/// The design's name, and the part's where it is one alone.
fn title(wish: &Exchange<'_>, chosen: &Catalogue) -> String {
    let whole = if wish.name.trim().is_empty() { "Chair" } else { wish.name.trim() };
    match (wish.wanted, chosen.shapes.first()) {
        (Wanted::Part(name), Some(shape)) => format!("{whole}: {name} {}", shape.title),
        _ => whole.to_owned(),
    }
}
