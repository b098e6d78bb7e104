//! Drawings to a scale, each on one sheet of paper with frame and title block: the chair from three sides, sections
//! through its joints, and the chair taken apart beside its parts list.
//!
//! Lines after ISO 128, dimensions after ISO 129-1, scales of ISO 5455 or to the foot, papers of ISO 216 or ANSI/ASME Y14.1, fields of ISO
//! 7200. The way of a view: edges seen and hidden (`crestrail_geometry::view::draft`), put onto paper and made clear of each
//! other (`lines`), what is measured (`measure`), where its figures stand (`figures`).

mod block;
mod cut;
mod exploded;
mod figures;
mod format;
mod ink;
mod lines;
mod list;
mod measure;
mod views;

pub use block::Label;

pub use measure::Measure;

use super::FullSize;
use crate::chair::Chair;
use crate::length::Lengths;
use crate::service::Service;
use crate::unbuildable::Unbuildable;
use block::Entries;
use crestrail_sheet::paper::Paper;
use crestrail_sheet::{Align, Sheet, Unit};
use cut::Cut;
use format::{Format, scales};
use ink::{Ink, Words};
use kurbo::{Point, Rect, Size};
use views::{Projection, Views};

/// What is drawn, and for whom.
#[derive(Clone, Copy, Debug)]
pub struct Order<'a> {
    /// The chair.
    pub chair: &'a Chair,
    /// What it is meant to serve.
    pub service: &'a Service,
    /// What it is drawn on.
    pub paper: &'static Paper,
    /// What its figures are written in.
    pub lengths: Lengths,
    /// What is written in the title block.
    pub label: Label<'a>,
}

/// Names of the sheets, in their order, with their titles.
pub(super) const NAMES: [(&str, &str); 3] = [
    ("drawing-views", "Drawing: front, side and plan"),
    ("drawing-sections", "Drawing: sections through the joints"),
    ("drawing-parts", "Drawing: taken apart, with the parts list"),
];

/// Whether a name means sheets of the drawing: `drawing` all of them, else one.
pub fn is_drawing(name: &str) -> bool {
    name == DRAWING || NAMES.iter().any(|row| row.0 == name)
}

/// The name that means the whole drawing.
const DRAWING: &str = "drawing";

/// The sheets that a chair's drawing has, as rows of [`NAMES`].
pub(super) fn names(chair: &Chair) -> Vec<(&'static str, &'static str)> {
    let has_cuts = !cut::cuts(chair, Lengths::Millimetres).is_empty();
    NAMES.into_iter().filter(|row| has_cuts || row.0 != NAMES[1].0).collect()
}

/// Room kept above the title block for what must be said about the scale, and about how figures are written, mm each.
const NOTE: f64 = 5.0;

/// Height at the foot of a sheet that is kept from what is drawn, mm; `scaled` where something may be said about the scale.
fn below(order: &Order<'_>, scaled: bool) -> f64 {
    let notes = usize::from(scaled) + usize::from(order.lengths.note().is_some());
    block::HEIGHT + NOTE * notes as f64
}

/// A sheet of the drawing.
struct Made {
    ink: Ink,
    format: Format,
    scale: Option<u32>,
    note: Option<String>,
}

/// The sheets of a chair's drawing that a name means: `drawing` all, `drawing-views` one. Empty where there is none.
pub fn drawing(order: &Order<'_>, wanted: &str) -> Result<Vec<FullSize>, Unbuildable> {
    let cuts = cut::cuts(order.chair, order.lengths);
    let projection = projection(order.paper);
    let names = names(order.chair);
    let is_wanted = |name: &str| wanted == DRAWING || wanted == name;
    let mut found = Vec::new();
    for (i, &(name, title)) in names.iter().enumerate().filter(|(_, (name, _))| is_wanted(name)) {
        let made = match name {
            n if n == NAMES[0].0 => front_side_plan(order, projection, &cuts),
            n if n == NAMES[1].0 => sections(order, &cuts)?,
            _ => taken_apart(order),
        };
        let kind = ["Arrangement", "Sections", "Exploded view, parts list"];
        let at = NAMES.iter().position(|row| row.0 == name).unwrap_or_default();
        let subject = capital(title.trim_start_matches("Drawing: "));
        let entries = Entries {
            label: &order.label,
            subject: &subject,
            kind: kind[at],
            lengths: order.lengths.told(),
            scale: made.scale.map_or_else(|| "–".to_owned(), |scale| format!("1:{scale}")),
            sheet: (i + 1, names.len()),
            projection,
        };
        found.push(FullSize {
            name: name.to_owned(),
            title: title.to_owned(),
            is_full_size: false,
            sheet: sheet(&made, &entries, title, order.lengths),
        });
    }
    Ok(found)
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// First angle on the papers of ISO, third angle on those of ANSI.
fn projection(paper: &Paper) -> Projection {
    if paper.is_ansi() { Projection::ThirdAngle } else { Projection::FirstAngle }
}

/// All that is measured on the sheet of views and on that of sections.
pub fn measures(chair: &Chair, paper: &Paper) -> Vec<Measure> {
    let cuts = cut::cuts(chair, Lengths::Millimetres);
    let views = Views::of(chair, projection(paper), &cuts, Lengths::Millimetres);
    views.measures().cloned().chain(cuts.iter().flat_map(Cut::measures)).collect()
}

/// The edges of the three views, by the views' names: for whoever checks what is hidden.
pub fn view_edges(
    chair: &Chair,
    paper: &Paper,
) -> [(&'static str, crestrail_geometry::view::Camera, Vec<crestrail_geometry::view::Stretch>); 3] {
    let views = Views::of(chair, projection(paper), &[], Lengths::Millimetres);
    let [front, side, plan] = views.all.map(|view| (view.camera, view.stretches));
    [("front", front.0, front.1), ("side", side.0, side.1), ("plan", plan.0, plan.1)]
}

fn front_side_plan(order: &Order<'_>, projection: Projection, cuts: &[Cut<'_>]) -> Made {
    let views = Views::of(order.chair, projection, cuts, order.lengths);
    let (stood, scale, format, fits) =
        format::chosen(order.paper, scales(order.lengths), below(order, true), |scale| views.stood(scale));
    let field = format.field(below(order, true));
    let at = middle(field, stood.size());
    let note = note((scale, order.lengths), &format, fits, "The views");
    Made { ink: views.ink(&stood, at), format, scale: Some(scale), note }
}

fn sections(order: &Order<'_>, cuts: &[Cut<'_>]) -> Result<Made, Unbuildable> {
    let opened = cuts.iter().map(Cut::drawn).collect::<Result<Vec<_>, _>>()?;
    let make = |scale: u32| {
        let inks: Vec<Ink> = opened.iter().map(|one| one.ink(scale)).collect();
        let ways = [true, false].map(|level| cut::beside(&inks, level));
        (ways.clone(), ways[0].1.min(ways[1].1))
    };
    // Beside each other or one below the other, as the paper lies.
    let below = below(order, true);
    let mut last = None;
    for &scale in scales(order.lengths) {
        let (ways, _) = make(scale);
        let formats = Format::both(order.paper);
        let fitting = ways.into_iter().find_map(|(ink, size)| {
            let format = formats.iter().rev().find(|f| fits(size, f.field(below)))?;
            Some((ink, size, *format))
        });
        if let Some((ink, size, format)) = fitting {
            let by = middle(format.field(below), size) - Point::ORIGIN;
            let note = note((scale, order.lengths), &format, true, "The sections");
            return Ok(Made { ink: placed(&ink, by), format, scale: Some(scale), note });
        }
        last = Some((scale, formats[1]));
    }
    let (scale, format) = last.unwrap_or((1, Format::both(order.paper)[1]));
    let note = note((scale, order.lengths), &format, false, "The sections");
    Ok(Made { ink: Ink::default(), format, scale: Some(scale), note })
}

fn placed(ink: &Ink, by: kurbo::Vec2) -> Ink {
    let origin = ink.room.map_or(Point::ORIGIN, |room| room.origin());
    ink.moved(by - origin.to_vec2())
}

fn fits(size: Size, field: Rect) -> bool {
    size.width <= field.width() && size.height <= field.height()
}

fn taken_apart(order: &Order<'_>) -> Made {
    let [upright, level] = Format::both(order.paper);
    let format = if order.paper.short < 250.0 { upright } else { level };
    let ink = exploded::exploded(order, format.field(below(order, false)));
    Made { ink, format, scale: None, note: None }
}

/// Where what has this size stands in the middle of a field.
fn middle(field: Rect, size: Size) -> Point {
    field.origin() + ((field.size() - size).to_vec2() / 2.0)
}

/// What is said where a larger scale had no room.
fn note((scale, lengths): (u32, Lengths), format: &Format, fits: bool, what: &str) -> Option<String> {
    let paper = format.name();
    if !fits {
        return Some(format!("{what} have no room on {paper} even at 1:{scale}. Choose a larger paper."));
    }
    let scales = scales(lengths);
    let at = scales.iter().position(|&one| one == scale)?;
    let larger = scales[at.checked_sub(1)?];
    Some(format!("{what} are drawn at 1:{scale}: at 1:{larger} they have no room on {paper}."))
}

fn sheet(made: &Made, entries: &Entries<'_>, title: &str, lengths: Lengths) -> Sheet {
    let format = &made.format;
    let mut ink = format.border();
    ink.add(block::block(format, entries));
    ink.add(made.ink.clone());
    let frame = format.frame();
    for (i, note) in lengths.note().iter().chain(&made.note).enumerate() {
        let at = Point::new(frame.x0 + 4.0, frame.y1 - block::HEIGHT - 2.0 - NOTE * i as f64);
        ink.words(&Words::new(note, at, Align::Start).sized(3.0));
    }
    let scale = made.scale.map_or_else(String::new, |scale| format!(" Scale 1:{scale}."));
    Sheet {
        width: format.width,
        height: format.height,
        unit: Unit::Millimetre,
        decimals: 2,
        title: title.to_owned(),
        description: format!("{}.{scale} On {}. {}", entries.kind, format.name(), lengths.rounding()),
        items: ink.items,
    }
}
