//! Strips dealt out to pages.

use super::{Piece, Type};
use crate::paper::Paper;
use crate::pdf::{Bookmark, Page};
use crate::{Align, Item, Sheet, Unit};
use kurbo::Vec2;

/// The page around the text, mm.
#[derive(Clone, Debug)]
pub struct Frame {
    /// The paper.
    pub paper: &'static Paper,
    /// Whether it lies on its long side.
    pub level: bool,
    /// Free room left and right.
    pub sides: f64,
    /// Free room above the text.
    pub above: f64,
    /// Free room below the text, in which the foot stands.
    pub below: f64,
    /// What stands at the left of each foot; at the right stands the page's number.
    pub foot: String,
    /// How the foot looks.
    pub small: Type,
}

impl Frame {
    /// Room for the text on a page: width and height.
    pub fn room(&self) -> (f64, f64) {
        let (width, height) = self.size();
        (width - 2.0 * self.sides, height - self.above - self.below)
    }

    /// The page, width and height. A roll is taken as long as it is wide: it has no pages of its own.
    pub fn size(&self) -> (f64, f64) {
        let (short, long) = (self.paper.short, self.paper.long.unwrap_or(self.paper.short));
        if self.level { (long, short) } else { (short, long) }
    }
}

/// Pages with a foot `n of m`, and the bookmarks of the strips. A strip higher than a page runs over its foot; whoever
/// makes strips minds [`Frame::room`].
pub fn paged(pieces: Vec<Piece>, frame: &Frame) -> (Vec<Page>, Vec<Bookmark>) {
    let (pages, bookmarks) = dealt(&pieces, frame);
    let count = pages.len();
    let page = |(i, items): (usize, Vec<Item>)| frame.page(items, i + 1, count);
    (pages.into_iter().enumerate().map(page).collect(), bookmarks)
}

/// What stands on each page within the frame, without foot and number, and the bookmarks of the strips, their pages counted
/// from the first of these: for pages that are bound with others.
pub fn dealt(pieces: &[Piece], frame: &Frame) -> (Vec<Vec<Item>>, Vec<Bookmark>) {
    let mut deal = Deal { frame, pages: Vec::new(), y: f64::INFINITY, bookmarks: Vec::new() };
    let mut rest = pieces;
    while !rest.is_empty() {
        // Strips that stay together, with the one that ends them.
        let run = rest.iter().position(|piece| !piece.keep).map_or(rest.len(), |last| last + 1);
        let (together, after) = rest.split_at(run);
        deal.run(together);
        rest = after;
    }
    (deal.pages, deal.bookmarks)
}

impl Frame {
    fn page(&self, mut items: Vec<Item>, number: usize, count: usize) -> Page {
        let (width, height) = self.size();
        let y = height - self.below + (self.below - self.small.line()) / 2.0;
        let told = format!("{number} of {count}");
        items.push(self.small.words(&self.foot, self.sides, y, Align::Start));
        items.push(self.small.words(&told, width - self.sides, y, Align::End));
        let (title, description) = (self.foot.clone(), format!("Page {told}"));
        let sheet = Sheet { width, height, unit: Unit::Millimetre, decimals: 2, title, description, items };
        Page { sheet, label: number.to_string() }
    }
}

struct Deal<'a> {
    frame: &'a Frame,
    pages: Vec<Vec<Item>>,
    /// How far down the last page is filled; without end before the first.
    y: f64,
    bookmarks: Vec<Bookmark>,
}

impl Deal<'_> {
    fn run(&mut self, pieces: &[Piece]) {
        let room = self.frame.room().1;
        let high: f64 = pieces.iter().map(|piece| piece.above + piece.height).sum();
        let breaks = pieces.first().is_some_and(|piece| piece.breaks);
        // What is higher than a page is parted after all.
        let fits_some_page = high - pieces.first().map_or(0.0, |piece| piece.above) <= room;
        if breaks && self.y > 0.0 || fits_some_page && self.y + high > room {
            self.turn();
        }
        pieces.iter().for_each(|piece| self.piece(piece));
    }

    fn piece(&mut self, piece: &Piece) {
        if self.y + piece.above + piece.height > self.frame.room().1 {
            self.turn();
        }
        if self.y == 0.0 {
            if let Some(head) = &piece.head {
                self.put(head);
            }
        } else {
            self.y += piece.above;
        }
        if let Some(title) = &piece.bookmark {
            let (title, page) = (title.clone(), self.pages.len() - 1);
            self.bookmarks.push(Bookmark { title, page, children: Vec::new() });
        }
        self.put(piece);
    }

    fn put(&mut self, piece: &Piece) {
        let by = Vec2::new(self.frame.sides, self.frame.above + self.y);
        if let Some(page) = self.pages.last_mut() {
            page.extend(piece.items.iter().map(|item| item.moved(by)));
        }
        self.y += piece.height;
    }

    fn turn(&mut self) {
        self.pages.push(Vec::new());
        self.y = 0.0;
    }
}
