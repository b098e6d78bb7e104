//! Strips of a page.

use crate::{Align, Colour, Item, Path, Sheet, Stroke};
use kurbo::{Point, Vec2};
use std::rc::Rc;

/// A strip of a page, never parted: its upper left corner is the origin of its items.
#[derive(Clone, Debug, Default)]
pub struct Piece {
    /// How high it is, mm.
    pub height: f64,
    /// Free room above it, mm; none at the head of a page.
    pub above: f64,
    /// Whether it stays on one page with what follows.
    pub keep: bool,
    /// Whether a page begins with it.
    pub breaks: bool,
    /// What comes again above it where it begins a page.
    pub head: Option<Rc<Piece>>,
    /// What readers jump to it by.
    pub bookmark: Option<String>,
    /// What is in it.
    pub items: Vec<Item>,
}

impl Piece {
    /// A strip of this height.
    pub fn of(height: f64, items: Vec<Item>) -> Self {
        Self { height, items, ..Self::default() }
    }

    /// The same with free room above it.
    pub fn below(self, above: f64) -> Self {
        Self { above, ..self }
    }

    /// The same, kept on one page with what follows.
    pub fn kept(self) -> Self {
        Self { keep: true, ..self }
    }

    /// All of them as one strip, which is never parted.
    pub fn joined(pieces: impl IntoIterator<Item = Self>) -> Self {
        let mut whole = Self::default();
        for (i, piece) in pieces.into_iter().enumerate() {
            if i > 0 {
                whole.height += piece.above;
            }
            let by = Vec2::new(0.0, whole.height);
            whole.items.extend(piece.items.iter().map(|item| item.moved(by)));
            whole.height += piece.height;
        }
        whole
    }
}

/// Two strips side by side, the second `at` mm from the left; `align` of the second in height: at the top, in the middle
/// of the first, or at its foot.
pub fn beside(first: Piece, second: &Piece, at: f64, align: Align) -> Piece {
    let spare = first.height - second.height;
    let down = match align {
        Align::Start => 0.0,
        Align::Middle => (spare / 2.0).max(0.0),
        Align::End => spare.max(0.0),
    };
    let mut whole = first;
    whole.height = whole.height.max(down + second.height);
    whole.items.extend(second.items.iter().map(|item| item.moved(Vec2::new(at, down))));
    whole
}

/// A drawing made as large as fits into this room, in its middle.
pub fn figure(sheet: &Sheet, width: f64, height: f64) -> Piece {
    let scale = (width / sheet.width).min(height / sheet.height);
    let by = Vec2::new((width - scale * sheet.width) / 2.0, 0.0);
    let items = sheet.items.iter().map(|item| item.scaled(scale).moved(by)).collect();
    Piece::of(scale * sheet.height, items)
}

/// A line across the page, as thick as its strip is high.
pub fn rule(width: f64, thickness: f64, colour: Colour) -> Piece {
    let y = thickness / 2.0;
    let ends = vec![Point::new(y, y), Point::new(width - y, y)];
    Piece::of(thickness, vec![Item::Path(Path::line(ends, Stroke::solid(colour, thickness)))])
}
