//! Setting-out sheets: of each part the four faces of its blank, unrolled, with everything that is marked on them as
//! distances from one end and from the face edge or the face side; then gauges, cutters and labels of the whole chair.
//!
//! `blank` chooses the faces, `marks` finds what lies on them, `figures` makes distances of it; all three are plain data
//! and draw nothing. `drawing` and `joints` put them on paper.

mod axis;
mod blank;
mod curves;
mod drawing;
mod figures;
mod gauges;
mod joints;
mod labels;
mod limits;
mod marks;
mod shop_list;
mod signs;
mod subject;
mod table;

#[cfg(test)]
mod tests;

pub use blank::{Blank, Face};
pub use curves::{Curve, curves};
pub use figures::{Figure, Way};
pub use gauges::{Cutter, Gauges, Setting, cutters, from_sawn, gauges};
pub use joints::offsets;
pub use limits::{Checked, Limit, Limits, limits};
pub use marks::{Mark, Marked, What};
pub use subject::{Subject, subjects};

use super::FullSize;
use super::pens;
use crate::chair::Chair;
use crate::length::Lengths;
use crate::unbuildable::Unbuildable;
use crestrail_sheet::{Align, Item, Sheet, Unit, Weight};
use joints::Tables;
use kurbo::{Point, Size};
use table::{Block, words};

/// What A4 and Letter both hold, lying on their sides and upright, within the margins of `tiling`, mm.
const PAGES: [Size; 2] = [Size::new(263.0, 166.0), Size::new(194.0, 236.0)];
/// Drawn smaller than 1 to so many, a joint is hard to read.
const SMALLEST: f64 = 3.0;
/// Room at the edges, mm.
const EDGE: f64 = 2.0;

/// All setting-out sheets of a chair.
pub fn setting_out(chair: &Chair, lengths: Lengths) -> Result<Vec<FullSize>, Unbuildable> {
    let subjects = subjects(chair)?;
    let mut made: Vec<FullSize> =
        subjects.iter().flat_map(|subject| sheets(chair, subject, lengths)).collect();
    let page = PAGES[1];
    let shop = shop_list::blocks(chair, &subjects, lengths, page.width - 2.0 * EDGE);
    made.extend(paged("gauges", "Gauges and cutters", page, &shop));
    made.extend(paged("labels", "Labels", page, &labels::rows(chair, lengths)));
    Ok(made)
}

fn paged(name: &str, title: &str, page: Size, blocks: &[Block]) -> Vec<FullSize> {
    let mut pages = Pages::new(name, title, page);
    blocks.iter().for_each(|block| pages.put(block));
    pages.done()
}

/// The faces, then the tables below them, on as many sheets as they take.
fn sheets(chair: &Chair, subject: &Subject<'_>, lengths: Lengths) -> Vec<FullSize> {
    let name = format!("setting-{}", subject.key());
    let inside = |page: Size| page.width - 2.0 * EDGE;
    let notes =
        |times: f64, broken: bool, page: Size| words(&notes(subject, lengths, times, broken), inside(page));
    let room = |page: Size, tables: f64| {
        let head = notes(2.5, true, page).height + HEAD;
        Size::new(inside(page), page.height - head - EDGE - tables)
    };
    let tables = |page: Size| Tables { chair, subject, lengths, width: inside(page) }.all();
    let below = |page: Size| tables(page).iter().map(|block| block.height).sum();
    // On one sheet with the tables, else on one sheet, else on two: unless that would make the drawing too small to read.
    let drawn = |tables: bool, parted: bool| {
        let rooms = PAGES.map(|page| room(page, if tables { below(page) } else { 0.0 }));
        // Plain parts stand below each other on one page, so they all lie on an upright one.
        if subject.is_plain() {
            let (faces, _) = drawing::faces(subject, lengths, &rooms[1..], parted);
            return (faces, 1);
        }
        drawing::faces(subject, lengths, &rooms, parted)
    };
    let readable = |(faces, _): &(drawing::Faces, usize)| faces.times <= SMALLEST;
    let together = Some(drawn(true, false)).filter(readable);
    let apart = together.or_else(|| Some(drawn(false, false)).filter(readable));
    let (faces, page) = apart.unwrap_or_else(|| drawn(false, true));
    let page = PAGES[page];
    let mut pages = Pages::new(&name, &subject.title(), page);
    pages.put(&notes(faces.times, faces.broken, page));
    faces.blocks.iter().for_each(|block| pages.put(block));
    for block in tables(page) {
        pages.put(&block);
    }
    pages.done()
}

/// What the sheet is and how it is read.
fn notes(subject: &Subject<'_>, lengths: Lengths, times: f64, broken: bool) -> String {
    let size = &subject.part.size;
    let [length, width, thickness] = [size.length, size.width, size.thickness].map(|v| lengths.write(v));
    let over = lengths.write(subject.marked.blank.length);
    let material = capital(subject.part.material.name());
    let scale = if times == 1.0 { "full size".to_owned() } else { format!("1:{times}") };
    let left_out = if broken { ", plain lengths left out at the zigzags" } else { "" };
    format!(
        "{material}, {length} × {width} × {thickness} {}, between shoulders and ends; {over} over all. Datum end at the left; figures above a face run from it, figures beside a face from where 0 stands. Drawn {scale}{left_out}: work to the figures, do not measure the drawing. {} {}",
        lengths.unit(),
        labels::faces(subject),
        lengths.rounding()
    )
}

/// With a capital letter first.
fn capital(words: &str) -> String {
    let mut words = words.to_owned();
    if let Some(first) = words.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    words
}

/// From the upper edge to below the title, mm.
const HEAD: f64 = 9.0;

/// What stands below the title of a sheet that is the next of a part: for a page on which the one before it stands.
pub fn without_title(sheet: &Sheet) -> Vec<Item> {
    let by = kurbo::Vec2::new(0.0, -HEAD);
    sheet.items.iter().skip(1).map(|item| item.moved(by)).collect()
}

/// Blocks below each other, sheet after sheet.
struct Pages {
    name: String,
    title: String,
    page: Size,
    sheets: Vec<(Vec<Item>, Size)>,
}

impl Pages {
    fn new(name: &str, title: &str, page: Size) -> Self {
        Self { name: name.to_owned(), title: title.to_owned(), page, sheets: Vec::new() }
    }

    fn put(&mut self, block: &Block) {
        let full =
            self.sheets.last().is_none_or(|(_, size)| size.height + block.height > self.page.height - EDGE);
        if full {
            self.open();
        }
        if let Some((items, size)) = self.sheets.last_mut() {
            items.extend(block.at(Point::new(EDGE, size.height)));
            size.height += block.height;
            size.width = size.width.max(block.width + 2.0 * EDGE);
        }
    }

    fn open(&mut self) {
        let title = pens::words(
            &self.heading(self.sheets.len()),
            Point::new(EDGE, 6.5),
            Align::Start,
            pens::TITLE,
            Weight::Medium,
        );
        self.sheets.push((vec![title], Size::new(self.page.width, HEAD)));
    }

    fn heading(&self, page: usize) -> String {
        if page == 0 { self.title.clone() } else { format!("{}: sheet {}", self.title, page + 1) }
    }

    fn done(self) -> Vec<FullSize> {
        let made = |(i, (items, size)): (usize, &(Vec<Item>, Size))| {
            let title = self.heading(i);
            let name = if i == 0 { self.name.clone() } else { format!("{}-{}", self.name, i + 1) };
            let sheet = Sheet {
                width: size.width,
                height: size.height.max(self.page.height),
                unit: Unit::Millimetre,
                decimals: 2,
                title: title.clone(),
                description: format!("Setting-out sheet. {title}."),
                items: items.clone(),
            };
            FullSize { name, title, is_full_size: false, sheet }
        };
        self.sheets.iter().enumerate().map(made).collect()
    }
}
