//! Kinds of line and letters of full-size drawings.

use crestrail_sheet::{Align, Circle, Colour, Fill, Group, Item, Path, Stroke, Text, Trace, Weight};
use kurbo::{Point, Rect, Vec2};

/// Everything is black, for any printer.
pub(super) const INK: Colour = Colour::hex(0x000000);
pub(super) const PAPER: Colour = Colour::hex(0xffffff);

/// Sizes of letters, mm (ISO 3098-1, nominal sizes).
pub(super) const TITLE: f64 = 5.0;
pub(super) const LETTERS: f64 = 3.5;

/// Kinds of line. Widths and dashes after ISO 128-2: one narrow width d, the wide one twice as wide; dashed lines of 12 d
/// with gaps of 3 d, chain lines of 24 d and 0.5 d. A sawyer splits the wide line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Pen {
    /// Where the part ends.
    Outline,
    /// Edges, dimensions, leaders.
    Thin,
    /// What lies behind.
    Hidden,
    /// Axes.
    Axis,
}

const D: f64 = 0.18;

impl Pen {
    pub(super) fn stroke(self) -> Stroke {
        let (width, dashes): (f64, &[f64]) = match self {
            Self::Outline => (2.0 * D, &[]),
            Self::Thin => (D, &[]),
            Self::Hidden => (D, &[12.0, 3.0]),
            Self::Axis => (D, &[24.0, 3.0, 0.5, 3.0]),
        };
        Stroke { dashes: dashes.iter().map(|n| n * D).collect(), ..Stroke::solid(INK, width) }
    }
}

pub(super) fn open(points: &[Point]) -> Trace {
    Trace { points: points.to_vec(), closed: false }
}

pub(super) fn closed(points: &[Point]) -> Trace {
    Trace { points: points.to_vec(), closed: true }
}

pub(super) fn lines(traces: Vec<Trace>, pen: Pen) -> Item {
    Item::Path(Path { traces, fill: None, stroke: Some(pen.stroke()) })
}

pub(super) fn line(from: Point, to: Point, pen: Pen) -> Item {
    lines(vec![open(&[from, to])], pen)
}

pub(super) fn ring(centre: Point, radius: f64, pen: Pen) -> Item {
    Item::Circle(Circle { centre, radius, fill: None, stroke: Some(pen.stroke()) })
}

pub(super) fn solid(points: &[Point]) -> Item {
    Item::Path(Path { traces: vec![closed(points)], fill: Some(Fill::solid(INK)), stroke: None })
}

pub(super) fn dot(centre: Point) -> Item {
    Item::Circle(Circle { centre, radius: 0.5, fill: Some(Fill::solid(INK)), stroke: None })
}

pub(super) fn group(name: &'static str, value: impl Into<String>, items: Vec<Item>) -> Item {
    Item::Group(Group { data: vec![(name, value.into())], items })
}

/// A line of text.
pub(super) fn words(text: &str, at: Point, align: Align, size: f64, weight: Weight) -> Item {
    turned(text, at, align, size, weight, 0.0)
}

/// A line of text that reads upwards.
pub(super) fn upwards(text: &str, at: Point, size: f64) -> Item {
    turned(text, at, Align::Middle, size, Weight::Regular, -90.0)
}

pub(super) fn turned(text: &str, at: Point, align: Align, size: f64, weight: Weight, turn: f64) -> Item {
    Item::Text(Text { words: text.to_owned(), at, align, size, weight, colour: INK, turn })
}

/// About how long a line of text is, mm, never shorter than it is: widths of the page's own typeface by kinds of letter, as
/// shares of its size.
pub(super) fn length(text: &str, size: f64) -> f64 {
    let share = |letter: char| match letter {
        ' ' | '.' | ',' | ':' | ';' | 'i' | 'l' | 'j' | '|' | '\'' => 0.31,
        'm' | 'w' | 'M' | 'W' | '…' => 0.95,
        'f' | 't' | 'r' | '(' | ')' | '/' => 0.42,
        'A'..='Z' | 'Ø' => 0.72,
        _ => 0.61,
    };
    text.chars().map(share).sum::<f64>() * size
}

/// A small cross that marks a point.
pub(super) fn cross(at: Point, arm: f64) -> Item {
    let (x, y) = (Vec2::new(arm, 0.0), Vec2::new(0.0, arm));
    lines(vec![open(&[at - x, at + x]), open(&[at - y, at + y])], Pen::Thin)
}

/// The rectangle around points; empty ones have none.
pub(super) fn around<'a>(points: impl IntoIterator<Item = &'a Point>) -> Option<Rect> {
    points.into_iter().map(|&p| Rect::from_points(p, p)).reduce(|a, b| a.union(b))
}

/// A length as people write it: tenths, no needless zero.
pub(super) fn mm(length: f64) -> String {
    let text = format!("{:.1}", length.abs());
    text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
}
