//! Running text on pages: lines broken to a width, blocks put one below the other, pages begun when one is full.

use super::pens::{self, PAPER, Pen};
use crestrail_sheet::paper::Paper;
use crestrail_sheet::{Align, Fill, Item, Path, Sheet, Unit, Weight};
use kurbo::{Point, Vec2};

/// Room at the edges of a page, mm: printers leave up to 5 mm blank, and a page is filed or pinned.
pub(super) const MARGIN: f64 = 14.0;
/// Size of running letters and of headings, mm.
pub(super) const BODY: f64 = 3.3;
pub(super) const HEAD: f64 = 4.4;
/// From base line to base line, as a share of the size.
const LEADING: f64 = 1.36;
/// Between blocks, mm.
const BETWEEN: f64 = 4.0;

/// A block: what is in it seen from its upper left corner, and how high it is.
#[derive(Default)]
pub(super) struct Block {
    pub(super) items: Vec<Item>,
    pub(super) height: f64,
}

impl Block {
    /// Adds words below what is there, broken to `width`, at `left`; the first words up to `lead` letters long are bolder.
    pub(super) fn say(&mut self, words: &str, (left, width): (f64, f64), size: f64, weight: Weight) {
        for line in broken(words, width, size) {
            self.height += size * LEADING;
            self.put(&line, Point::new(left, self.height - size * (LEADING - 1.0)), size, weight);
        }
    }

    /// The same with a short bold word in front, under which the lines stay clear.
    pub(super) fn told(&mut self, what: &str, words: &str, (left, width): (f64, f64)) {
        let room = HANG;
        let top = self.height;
        self.say(words, (left + room, width - room), BODY, Weight::Regular);
        let base = top + BODY * LEADING - BODY * (LEADING - 1.0);
        self.put(what, Point::new(left, base), BODY, Weight::Medium);
    }

    pub(super) fn put(&mut self, words: &str, at: Point, size: f64, weight: Weight) {
        self.items.push(pens::words(words, at, Align::Start, size, weight));
    }

    pub(super) fn gap(&mut self, height: f64) {
        self.height += height;
    }
}

/// Room for the bold word of a told line, mm.
const HANG: f64 = 17.0;

/// A letter of running text is about so wide, as a share of its size: the page's own typeface has 0.46 over these sentences,
/// measured, and a line may be a tenth above it.
const MEAN: f64 = 0.51;

fn length(words: &str, size: f64) -> f64 {
    words.chars().count() as f64 * size * MEAN
}

/// Words broken into lines that are about `width` long at most.
fn broken(words: &str, width: f64, size: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        match lines.last_mut() {
            Some(line) if length(line, size) + length(word, size) + length(" ", size) <= width => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// Pages of blocks.
pub(super) struct Pages {
    size: [f64; 2],
    title: String,
    description: String,
    pages: Vec<Vec<Item>>,
    below: f64,
}

impl Pages {
    pub(super) fn new(paper: &Paper, long: f64, title: &str, description: &str) -> Self {
        let (title, description) = (title.to_owned(), description.to_owned());
        Self { size: [paper.short, long], title, description, pages: vec![Vec::new()], below: MARGIN }
    }

    /// From margin to margin, mm.
    pub(super) fn width(&self) -> f64 {
        self.size[0] - 2.0 * MARGIN
    }

    /// What is left on this page, mm.
    pub(super) fn room(&self) -> f64 {
        self.size[1] - MARGIN - FOOT - self.below
    }

    /// Puts a block below the last, on a new page where it has no room; with a line above it where it is not the first.
    pub(super) fn add(&mut self, block: Block, ruled: bool) {
        if block.height > self.room() && self.below > MARGIN {
            self.pages.push(Vec::new());
            self.below = MARGIN;
        }
        let right = self.size[0] - MARGIN;
        let Some(page) = self.pages.last_mut() else { return };
        if ruled && self.below > MARGIN {
            let y = self.below - BETWEEN / 2.0;
            page.push(pens::line(Point::new(MARGIN, y), Point::new(right, y), Pen::Thin));
        }
        let by = Vec2::new(MARGIN, self.below);
        page.extend(block.items.iter().map(|item| item.moved(by)));
        self.below += block.height + BETWEEN;
    }

    /// The pages, with a foot that numbers them or without one.
    pub(super) fn sheets(self, foot: bool) -> Vec<Sheet> {
        let Self { size: [width, height], title, description, pages, .. } = self;
        let count = pages.len();
        let page = |(i, items): (usize, Vec<Item>)| {
            let told = if count > 1 { format!("{title}, page {} of {count}", i + 1) } else { title.clone() };
            let mut block = Block::default();
            if foot {
                block.put(&told, Point::new(MARGIN, height - MARGIN + 2.0), FOOT_SIZE, Weight::Regular);
            }
            let items = core::iter::once(ground(width, height)).chain(items).chain(block.items).collect();
            let (title, description) = (told, description.clone());
            Sheet { width, height, unit: Unit::Millimetre, decimals: 2, title, description, items }
        };
        pages.into_iter().enumerate().map(page).collect()
    }
}

/// Room for the line at the foot, and its letters, mm.
const FOOT: f64 = 3.0;
const FOOT_SIZE: f64 = 2.8;

fn ground(width: f64, height: f64) -> Item {
    let corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)].map(Point::from);
    Item::Path(Path { traces: vec![pens::closed(&corners)], fill: Some(Fill::solid(PAPER)), stroke: None })
}
