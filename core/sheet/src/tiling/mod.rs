//! A large drawing at full size over sheets of paper that are laid edge over edge and taped.
//!
//! Neighbouring sheets show the same strip of the drawing twice, with the same two marks in it: where the marks lie on
//! each other, so does the drawing. Every sheet carries two bars of known length, its place in the whole, and a map.

mod foot;
mod layout;
mod marks;

#[cfg(test)]
mod tests;

pub use layout::{Layout, place_name};

use crate::{Colour, Item, Sheet, Stroke, Unit, Window, extent};
use kurbo::{Point, Rect};

/// Edge of the paper that is left free, mm: most printers reach within a quarter of an inch (common practice, no source).
pub const MARGIN: f64 = 8.0;
/// Strip below the drawing for bars, map and words, mm.
pub const FOOT: f64 = 27.0;
/// Strip of the drawing that two neighbours both show, mm (common practice, no source: room to lay, see and tape).
pub const OVERLAP: f64 = 16.0;

/// Width of thin lines, mm (ISO 128-2: a line group's narrow line).
const THIN: f64 = 0.18;
const INK: Colour = Colour::hex(0x000000);

/// What every sheet says.
#[derive(Clone, Debug)]
pub struct Caption {
    /// What is drawn.
    pub title: String,
    /// What it belongs to.
    pub of: String,
    /// Whether the drawing is at full size, so that the print must be too.
    pub is_full_size: bool,
    /// The first sheet's number among all pages of the document, from 1.
    pub first: usize,
    /// How many pages the document has.
    pub pages: usize,
}

/// One sheet of paper.
#[derive(Clone, Debug)]
pub struct Tile {
    /// Its place, such as `B3`: second row, third column; empty where one sheet holds all.
    pub place: String,
    /// What is printed on it.
    pub sheet: Sheet,
}

/// The drawing, in millimetres, over the sheets of its layout, row by row.
pub fn tiles(drawing: &Sheet, layout: &Layout, caption: &Caption) -> Vec<Tile> {
    let places = (0..layout.rows).flat_map(|row| (0..layout.columns).map(move |column| (row, column)));
    places.enumerate().map(|(i, place)| tile(drawing, layout, caption, i, place)).collect()
}

fn tile(drawing: &Sheet, layout: &Layout, caption: &Caption, i: usize, place: (usize, usize)) -> Tile {
    let window = layout.window();
    let from = layout.from(place);
    let seen = Rect::from_origin_size(from, window.size());
    let mut inner = extent::near(&drawing.items, &seen);
    inner.extend(marks::items(layout, place, &drawing.items));
    let mut items = vec![Item::Window(Window { frame: window, from, items: inner })];
    items.push(frame(window));
    items.extend(foot::items(layout, caption, caption.first + i, place));
    let name = layout.place(place);
    let title = [caption.title.as_str(), name.as_str()].join(" ").trim_end().to_owned();
    let sheet = Sheet {
        width: layout.page.width,
        height: layout.page.height,
        unit: Unit::Millimetre,
        decimals: 2,
        title,
        description: drawing.description.clone(),
        items,
    };
    Tile { place: name, sheet }
}

fn frame(window: Rect) -> Item {
    Item::Path(crate::Path {
        traces: vec![rectangle(window)],
        fill: None,
        stroke: Some(Stroke::solid(INK, THIN)),
    })
}

fn rectangle(rect: Rect) -> crate::Trace {
    let corners = [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)];
    crate::Trace { points: corners.into_iter().map(Point::from).collect(), closed: true }
}
