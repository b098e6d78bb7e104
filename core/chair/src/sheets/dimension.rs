//! Dimension lines after ISO 129-1: filled arrows, the figure above the line, readable from below or from the right.

use super::pens::{self, LETTERS, Pen};
use crestrail_sheet::{Align, Item, Weight};
use kurbo::{Point, Vec2};

/// An arrow's length and half its width, mm.
pub(super) const ARROW: (f64, f64) = (2.5, 0.4);
/// Gap between what is measured and the line out to the dimension; how far that line goes on past it, mm.
const GAP: f64 = 1.5;
const PAST: f64 = 1.5;
/// From the line up to the figure, mm.
const LIFT: f64 = 0.8;

/// From `from` to `to`, which lie at the same height or not, measured along the drawing's x at the height `y`.
pub(super) fn level(from: Point, to: Point, y: f64, text: &str) -> Item {
    let (a, b) = (Point::new(from.x, y), Point::new(to.x, y));
    let mut items = vec![pens::line(a, b, Pen::Thin), out(from, a), out(to, b)];
    items.extend(arrows(a, b));
    let at = a.midpoint(b) - Vec2::new(0.0, LIFT);
    items.push(pens::words(text, at, Align::Middle, LETTERS, Weight::Regular));
    pens::group("dimension", text, items)
}

/// The same along the drawing's y at `x`.
pub(super) fn upright(from: Point, to: Point, x: f64, text: &str) -> Item {
    let (a, b) = (Point::new(x, from.y), Point::new(x, to.y));
    let mut items = vec![pens::line(a, b, Pen::Thin), out(from, a), out(to, b)];
    items.extend(arrows(a, b));
    items.push(pens::upwards(text, a.midpoint(b) - Vec2::new(LIFT, 0.0), LETTERS));
    pens::group("dimension", text, items)
}

/// The direction of the grain.
pub(super) fn grain(from: Point, to: Point) -> Item {
    let mut items = vec![pens::line(from, to, Pen::Thin)];
    items.extend(arrows(from, to));
    let at = from.midpoint(to) - Vec2::new(0.0, LIFT);
    items.push(pens::words("grain", at, Align::Middle, LETTERS, Weight::Regular));
    pens::group("grain", "", items)
}

/// The line from what is measured out to the dimension.
fn out(from: Point, to: Point) -> Item {
    let way = to - from;
    let length = way.hypot2().sqrt();
    let unit = if length > GAP { way / length } else { Vec2::ZERO };
    pens::line(from + unit * GAP, to + unit * PAST, Pen::Thin)
}

/// Arrows at both ends, inwards where there is room, else from outside.
fn arrows(a: Point, b: Point) -> [Item; 2] {
    let way = b - a;
    let length = way.hypot2().sqrt().max(1e-9);
    let unit = way / length * if length < 4.0 * ARROW.0 { -1.0 } else { 1.0 };
    [arrow(a, unit), arrow(b, -unit)]
}

pub(super) fn arrow(tip: Point, inwards: Vec2) -> Item {
    let (back, aside) = (inwards * ARROW.0, Vec2::new(-inwards.y, inwards.x) * ARROW.1);
    pens::solid(&[tip, tip + back + aside, tip + back - aside])
}
