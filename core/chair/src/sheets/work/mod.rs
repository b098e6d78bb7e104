//! The order of work on paper: pages with the picture of each step (`step`), and one card to pin up at the bench (`card`).

mod card;
mod step;

pub use card::work_card;

use super::pens;
use super::print::attached;
use crate::chair::Chair;
use crate::length::Lengths;
use crate::service::Service;
use crate::work::WorkStep;
use crestrail_sheet::paper::Paper;
use crestrail_sheet::pdf::{Bookmark, Document, Page};
use crestrail_sheet::setting::{Frame, Piece, Type, dealt, paged, paragraph};
use crestrail_sheet::{Faces, Fill, Item, Path, Sheet, Unit, Weight};
use kurbo::{Point, Vec2};

/// What the sheets are made from.
#[derive(Clone, Copy, Debug)]
pub struct WorkSheets<'a> {
    /// The design's name; may be empty.
    pub name: &'a str,
    /// The chair.
    pub chair: &'a Chair,
    /// What it is meant to serve; pictures need it.
    pub service: &'a Service,
    /// The steps, with lengths in their sentences written as `lengths` says.
    pub steps: &'a [WorkStep],
    /// What lengths are written in.
    pub lengths: Lengths,
    /// The typefaces by which lines are broken.
    pub faces: &'a Faces,
    /// The paper; whoever chooses it asks [`super::of_pages`] first.
    pub paper: &'static Paper,
    /// Whether each page tells its number at its foot; a book numbers its pages itself.
    pub foot: bool,
}

/// Pages to be bound as one document.
#[derive(Clone, Debug)]
pub struct Bound {
    /// What they are called.
    pub title: String,
    /// The pages in order.
    pub sheets: Vec<Sheet>,
    /// What readers jump to, pages counted from the first of these.
    pub bookmarks: Vec<Bookmark>,
}

/// Room at the edges of a page, mm: printers leave up to 5 mm blank, and a page is filed or pinned.
const MARGIN: f64 = 14.0;
/// Free room below the text, in which the foot stands, mm.
const BELOW: f64 = 17.0;
/// Sizes of letters, mm.
const BODY: Type = kind(3.3, Weight::Regular);
const STRONG: Type = kind(3.3, Weight::Medium);
const HEAD: Type = kind(4.4, Weight::Medium);
const TITLE: Type = kind(5.3, Weight::Medium);
const SMALL: Type = kind(2.8, Weight::Regular);

const fn kind(size: f64, weight: Weight) -> Type {
    Type { size, weight, colour: pens::INK, leading: 1.36 }
}

/// Pages with all steps, each with its picture, tools, clamps, lengths, checks and cautions.
pub fn work_pages(sheets: &WorkSheets<'_>) -> Bound {
    let title = format!("{}: order of work", named(sheets.name));
    let frame = sheets.frame(&title);
    let mut pieces = vec![sheets.said(&title, frame.room().0, &TITLE).kept()];
    let defers = format!("{DEFERS} {}", sheets.lengths.rounding());
    pieces.push(sheets.said(&defers, frame.room().0, &BODY).below(1.0));
    pieces.extend(sheets.steps.iter().map(|step| sheets.step(step, frame.room().0)));
    sheets.bound(title, &pieces, &frame, "Each step of the work with a picture of it")
}

const DEFERS: &str = "Pictures are not to scale. Local rules, licensed practice and the data sheets of glue, finish and machines come first. Lengths for tape and clamps are rounded to the whole millimetre, or to the fraction of an inch.";

fn named(name: &str) -> &str {
    if name.trim().is_empty() { "Chair" } else { name.trim() }
}

impl WorkSheets<'_> {
    fn frame(&self, title: &str) -> Frame {
        let foot = if self.foot { title.to_owned() } else { String::new() };
        Frame {
            paper: self.paper,
            level: false,
            sides: MARGIN,
            above: MARGIN,
            below: BELOW,
            foot,
            small: SMALL,
        }
    }

    /// A paragraph that is not parted.
    fn said(&self, words: &str, width: f64, kind: &Type) -> Piece {
        Piece::joined(paragraph(words, width, kind, self.faces))
    }

    fn bound(&self, title: String, pieces: &[Piece], frame: &Frame, description: &str) -> Bound {
        let (width, height) = frame.size();
        let named = |sheet: Sheet| {
            let items = core::iter::once(ground(width, height)).chain(sheet.items).collect();
            Sheet { items, title: title.clone(), description: description.to_owned(), ..sheet }
        };
        let bare = |items: Vec<Item>| Sheet {
            width,
            height,
            unit: Unit::Millimetre,
            decimals: 2,
            title: String::new(),
            description: String::new(),
            items,
        };
        let (sheets, bookmarks): (Vec<Sheet>, _) = if self.foot {
            let (pages, bookmarks) = paged(pieces.to_vec(), frame);
            (pages.into_iter().map(|page| page.sheet).collect(), bookmarks)
        } else {
            let (pages, bookmarks) = dealt(pieces, frame);
            (pages.into_iter().map(bare).collect(), bookmarks)
        };
        let sheets = sheets.into_iter().map(named).collect();
        Bound { title, sheets, bookmarks }
    }
}

/// White paper, so that a page saved as a picture has a ground.
fn ground(width: f64, height: f64) -> Item {
    let corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)].map(Point::from);
    Item::Path(Path {
        traces: vec![pens::closed(&corners)],
        fill: Some(Fill::solid(pens::PAPER)),
        stroke: None,
    })
}

/// The pages as a document, with the text of the `design.json` inside.
pub fn bound_work(bound: Bound, design: &str) -> Document {
    let Bound { title, sheets, bookmarks } = bound;
    let label = |(i, sheet): (usize, Sheet)| Page { sheet, label: (i + 1).to_string() };
    Document {
        bookmarks: vec![Bookmark { title: title.clone(), page: 0, children: bookmarks }],
        title,
        language: "en".to_owned(),
        full_size: false,
        pages: sheets.into_iter().enumerate().map(label).collect(),
        attachments: vec![attached(design)],
    }
}

/// All pages below each other as one drawing, for whoever wants a picture and no pages.
pub fn one_below_the_other(bound: &Bound) -> Sheet {
    let mut whole = Sheet {
        width: 0.0,
        height: 0.0,
        unit: Unit::Millimetre,
        decimals: 2,
        title: bound.title.clone(),
        description: bound.sheets.first().map(|sheet| sheet.description.clone()).unwrap_or_default(),
        items: Vec::new(),
    };
    for sheet in &bound.sheets {
        let by = Vec2::new(0.0, whole.height);
        whole.items.extend(sheet.items.iter().map(|item| item.moved(by)));
        whole.width = whole.width.max(sheet.width);
        whole.height += sheet.height;
    }
    whole
}
