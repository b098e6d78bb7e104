//! Text, tables and figures set on pages: paragraphs broken into lines by the widths of the letters, tables whose heads
//! come again on the next page, headings that stay with what they head, page numbers. Lengths in millimetres.
//!
//! What is set becomes [`Piece`]s: strips as wide as the text, one below the other. [`paged`] deals them out to pages.

mod flow;
mod lines;
mod list;
mod piece;
mod table;

#[cfg(test)]
mod tests;

pub use flow::{Frame, dealt, paged};
pub use lines::{broken, length};
pub use list::{pairs, points};
pub use piece::{Piece, beside, figure, rule};
pub use table::{Cell, Column, Rows, table};

use crate::{Align, Colour, Faces, Item, Text, Weight};
use kurbo::Point;

/// How words look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Type {
    /// Size of the letters, mm.
    pub size: f64,
    /// How bold.
    pub weight: Weight,
    /// Colour.
    pub colour: Colour,
    /// From one base line to the next, as a share of the size.
    pub leading: f64,
}

impl Type {
    /// From one base line to the next, mm.
    pub fn line(&self) -> f64 {
        self.size * self.leading
    }

    /// From the top of a line to its base line, mm: what the leading adds stands half above and half below letters that
    /// reach `4/5` of their size above the base line and `1/5` below it.
    pub(crate) fn base(&self) -> f64 {
        (self.line() - self.size) / 2.0 + 0.8 * self.size
    }

    /// A line of words whose top is at `y`.
    pub(crate) fn words(&self, words: &str, x: f64, y: f64, align: Align) -> Item {
        Item::Text(Text {
            words: words.to_owned(),
            at: Point::new(x, y + self.base()),
            align,
            size: self.size,
            weight: self.weight,
            colour: self.colour,
            turn: 0.0,
        })
    }
}

/// A paragraph. One of three lines or fewer is not parted between pages, and of a longer one neither the first nor the
/// last line stands alone.
pub fn paragraph(words: &str, width: f64, kind: &Type, faces: &Faces) -> Vec<Piece> {
    let lines = broken(words, width, kind, faces);
    let last = lines.len().saturating_sub(1);
    let set = |(i, line): (usize, &String)| {
        let piece = Piece::of(kind.line(), vec![kind.words(line, 0.0, 0.0, Align::Start)]);
        if i < last && (lines.len() <= 3 || i == 0 || i + 1 == last) { piece.kept() } else { piece }
    };
    lines.iter().enumerate().map(set).collect()
}
