//! Tables on a sheet.

use crate::sheets::pens::{self, Pen};
use crestrail_sheet::{Align, Item, Weight};
use kurbo::{Point, Vec2};

/// Size of letters, mm (ISO 3098-1, nominal size).
pub(super) const SMALL: f64 = 2.5;
/// About how long a line of text in [`SMALL`] letters is, mm, never shorter than it is.
pub(super) fn long(text: &str) -> f64 {
    pens::length(text, SMALL)
}

/// A table of so many rows is not parted.
const SHORT: usize = 3;
/// From one line to the next, and between columns, mm.
pub(super) const LINE: f64 = 4.2;
const BETWEEN: f64 = 4.0;

/// A piece of a sheet with its upper left corner at the origin.
#[derive(Clone, Debug, Default)]
pub(super) struct Block {
    pub(super) width: f64,
    pub(super) height: f64,
    pub(super) items: Vec<Item>,
}

impl Block {
    pub(super) fn at(&self, corner: Point) -> Vec<Item> {
        self.items.iter().map(|item| item.moved(corner.to_vec2())).collect()
    }

    /// The other one below this.
    pub(super) fn add(&mut self, other: &Self) {
        let by = Vec2::new(0.0, self.height);
        self.items.extend(other.items.iter().map(|item| item.moved(by)));
        self.height += other.height;
        self.width = self.width.max(other.width);
    }
}

/// A line of words.
pub(super) fn line(text: &str, weight: Weight) -> Block {
    let item = pens::words(text, Point::new(0.0, LINE - 1.1), Align::Start, SMALL, weight);
    Block { width: long(text), height: LINE, items: vec![item] }
}

/// Words in as many lines as `width` asks for.
pub(super) fn words(text: &str, width: f64) -> Block {
    let mut block = Block::default();
    let mut row = String::new();
    for word in text.split(' ') {
        if !row.is_empty() && long(&row) + long(word) + SMALL > width {
            block.add(&line(&row, Weight::Regular));
            row.clear();
        }
        if !row.is_empty() {
            row.push(' ');
        }
        row.push_str(word);
    }
    block.add(&line(&row, Weight::Regular));
    block
}

/// Columns as wide as their longest words but for the last, which breaks its lines at `width`; a rule below the head.
pub(super) fn table(title: &str, head: &[&str], rows: &[Vec<String>], width: f64) -> Vec<Block> {
    let last = head.len() - 1;
    let longest = |column: usize| {
        let cells = rows.iter().map(|row| long(&row[column]));
        cells.fold(long(head[column]), f64::max) + BETWEEN
    };
    let mut starts = vec![0.0];
    for column in 0..last {
        starts.push(starts[column] + longest(column));
    }
    let room = (width - starts[last]).max(30.0);
    let mut top = Block::default();
    top.add(&Block { height: 2.0, ..Block::default() });
    top.add(&line(title, Weight::Medium));
    let names: Vec<String> = head.iter().map(|&name| name.to_owned()).collect();
    top.add(&row(&names, &starts, room));
    top.items.push(pens::line(
        Point::new(0.0, top.height),
        Point::new(starts[last] + longest(last).min(room), top.height),
        Pen::Thin,
    ));
    let mut blocks = vec![top];
    blocks.extend(rows.iter().map(|cells| row(cells, &starts, room)));
    // The head never stands alone at the end of a sheet, and a short table stays whole.
    let with_head = if rows.len() <= SHORT { rows.len() } else { 1 };
    for block in blocks.drain(1..=with_head).collect::<Vec<_>>() {
        blocks[0].add(&block);
    }
    blocks
}

fn row(cells: &[String], starts: &[f64], room: f64) -> Block {
    let mut block = Block::default();
    for (i, (cell, &x)) in cells.iter().zip(starts).enumerate() {
        let own = if i + 1 == cells.len() { words(cell, room) } else { line(cell, Weight::Regular) };
        block.items.extend(own.at(Point::new(x, 0.0)));
        block.height = block.height.max(own.height);
        block.width = block.width.max(x + own.width);
    }
    block
}
