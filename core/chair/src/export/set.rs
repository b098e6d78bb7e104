//! How set pages look: letters, colours, margins, and the strips that every document is put together from.

use crestrail_sheet::setting::{Column, Piece, Rows, Type, paragraph};
use crestrail_sheet::{Colour, Faces, Item, Sheet, Weight};

/// Colours of printed pages: ink, what is said aside, hairlines.
pub(super) const INK: Colour = Colour::hex(0x23_201c);
const ASIDE: Colour = Colour::hex(0x5c_554b);
const HAIR: Colour = Colour::hex(0xb9_b2a6);

/// Sizes of letters, mm, each about √2 times the next but one: 22, 12, 9.5 and 8 points.
pub(super) const TITLE: Type = kind(7.8, Weight::Medium, INK, 1.15);
pub(super) const HEADING: Type = kind(4.2, Weight::Medium, INK, 1.3);
pub(super) const BODY: Type = kind(3.35, Weight::Regular, INK, 1.45);
pub(super) const STRONG: Type = kind(3.35, Weight::Medium, INK, 1.45);
pub(super) const MUTED: Type = kind(3.35, Weight::Regular, ASIDE, 1.45);
pub(super) const SMALL: Type = kind(2.8, Weight::Regular, ASIDE, 1.4);
const CELL: Type = kind(3.0, Weight::Regular, INK, 1.35);
const HEAD: Type = kind(3.0, Weight::Medium, INK, 1.35);

/// Free room around the text, mm.
pub(super) const SIDES: f64 = 20.0;
pub(super) const ABOVE: f64 = 18.0;
pub(super) const BELOW: f64 = 20.0;
/// Above a heading, and between it and its text, mm.
const BEFORE: f64 = 7.0;
pub(super) const AFTER: f64 = 2.0;

const fn kind(size: f64, weight: Weight, colour: Colour, leading: f64) -> Type {
    Type { size, weight, colour, leading }
}

/// Sets strips of a width, mm, in these typefaces.
#[derive(Clone, Copy)]
pub(super) struct Set<'a> {
    pub(super) width: f64,
    pub(super) faces: &'a Faces,
}

impl Set<'_> {
    /// A paragraph that is not parted.
    pub(super) fn words(&self, words: &str, width: f64, kind: &Type) -> Piece {
        Piece::joined(paragraph(words, width, kind, self.faces))
    }

    /// Kept on one page with what follows.
    pub(super) fn heading(&self, words: &str) -> Piece {
        let mut heading = self.words(words, self.width, &HEADING).below(BEFORE).kept();
        heading.height += AFTER;
        heading.bookmark = Some(words.to_owned());
        heading
    }

    /// How tables look.
    pub(super) fn rows(&self) -> Rows {
        Rows { width: self.width, head: HEAD, cell: CELL, note: SMALL, line: HAIR }
    }
}

/// Columns by their heads; those of numbers begin with `>`.
pub(super) fn columns(heads: &[&str]) -> Vec<Column> {
    let column = |head: &&str| match head.strip_prefix('>') {
        Some(head) => Column { head: head.to_owned(), numbers: true },
        None => Column { head: (*head).to_owned(), numbers: false },
    };
    heads.iter().map(column).collect()
}

/// A picture without its ground, which would print a rectangle.
pub(super) fn without_ground(mut sheet: Sheet) -> Sheet {
    let is_ground = |item: &Item| matches!(item, Item::Group(group) if group.data.iter().any(|row| row.0 == "layer" && row.1 == "paper"));
    sheet.items.retain(|item| !is_ground(item));
    sheet
}
