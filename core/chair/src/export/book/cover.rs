//! The first pages: what it is, how it looks, what stands where, and what can hurt.

use super::Content;
use super::binding::Entry;
use super::chapter::{self, Leaf};
use crate::choices::Choice;
use crate::drawing::{View, exploded};
use crate::export::set::{AFTER, BODY, INK, MUTED, STRONG, Set, TITLE, columns, without_ground};
use crate::link;
use crate::report::Report;
use crestrail_sheet::setting::{Cell, Piece, beside, figure, pairs, points, rule, table};
use crestrail_sheet::{Align, Sheet};

/// Size of the picture in pixels, its share of the text's width, and its height, mm.
const PIXELS: (f64, f64) = (460.0, 420.0);
const PICTURE: (f64, f64) = (0.52, 80.0);

/// What stands before the cautions.
const DEFERS: &str = "Local rules, licensed practice, and the instructions of the makers of machines, glues and finishes come first. What can hurt at a step is said there once more.";

/// Where the sheets at full size are.
const FULL_SIZE: &str = "Templates and the rod, the whole chair at full size, are not bound in: they are true only when printed at 100 % and taped together. Print them from Sheets on the page where this book was made; the offset tables on the setting-out sheets give the same outlines in figures. The design itself lies inside the PDF file: drop the file on that page, and it is there again.";

/// The chair as it stands, on white.
pub(super) fn picture(content: &Content<'_>) -> Sheet {
    let (width, height) = PIXELS;
    let view = View { letters: false, width, height, ..View::default() };
    without_ground(exploded(content.book.chair, &view, &content.service))
}

/// Its pages, with these chapters in the contents.
pub(super) fn leaves(content: &Content<'_>, entries: &[Entry], picture: &Sheet) -> Vec<Leaf> {
    let frame = content.frame(false);
    let set = Set { width: frame.room().0, faces: content.faces };
    chapter::leaves(&set.cover(content, entries, picture), &frame)
}

impl Set<'_> {
    fn cover(&self, content: &Content<'_>, entries: &[Entry], picture: &Sheet) -> Vec<Piece> {
        let mut pieces = vec![
            self.words(content.name(), self.width, &TITLE).kept(),
            self.words("Bench book", self.width, &STRONG).below(AFTER).kept(),
            rule(self.width, 0.4, INK).below(3.0).kept(),
        ];
        let (share, high) = PICTURE;
        let shown = figure(picture, share * self.width, high);
        let at = (share + 0.04) * self.width;
        let facts = pairs(&facts(content), self.width - at, [&MUTED, &BODY], self.faces);
        pieces.push(beside(shown, &facts, at, Align::Middle).below(AFTER));
        pieces.push(self.heading("Contents"));
        let row = |entry: &Entry| {
            let page = entry.page.map_or_else(|| "–".to_owned(), |page| page.to_string());
            vec![Cell { words: entry.title.to_owned(), note: entry.holds.clone() }, Cell::of(page)]
        };
        let rows: Vec<Vec<Cell>> = entries.iter().map(row).collect();
        pieces.extend(table(&columns(&["Chapter", ">Page"]), &rows, 0, &self.rows(), self.faces));
        pieces.push(self.words(FULL_SIZE, self.width, &MUTED).below(2.0 * AFTER));
        pieces.push(self.heading("Cautions"));
        pieces.push(self.words(DEFERS, self.width, &BODY).kept());
        pieces.extend(points(&content.report.cautions, self.width, &BODY, self.faces));
        pieces
    }
}

fn facts(content: &Content<'_>) -> Vec<(String, String)> {
    let (book, report) = (content.book, &content.report);
    let overall = &report.overall;
    let mm = |v: f64| book.lengths.say(v);
    let pegs = if overall.pegs > 0 { format!(" and {} pegs", overall.pegs) } else { String::new() };
    let hours = report.labour.as_ref().map(|labour| format!("{:.1} h", labour.hours));
    let facts = [
        ("Kind", book.design.family().label().to_owned()),
        ("Number", link::number(book.design)),
        ("Date", book.date.to_owned()),
        ("Workshop", book.shop.name.clone()),
        ("Timber", timbers(report)),
        ("Width", mm(overall.width)),
        ("Depth", mm(overall.depth)),
        ("Height", mm(overall.height)),
        ("Seat height", mm(overall.seat_height)),
        ("Weight, about", format!("{:.1} kg", overall.mass_kg)),
        ("Lengths", book.lengths.name().to_owned()),
        ("Parts", format!("{}{pegs}", overall.parts)),
        ("Work, about", hours.unwrap_or_default()),
    ];
    let told = facts.into_iter().filter(|(_, value)| !value.is_empty());
    told.map(|(what, value)| (what.to_owned(), value)).collect()
}

/// The timbers of the chair, each once.
fn timbers(report: &Report) -> String {
    let mut names: Vec<&str> = Vec::new();
    for line in &report.timber.lines {
        if !names.contains(&line.species) {
            names.push(line.species);
        }
    }
    names.join(", ")
}
