//! What is drawn, with the room it takes.

use super::super::pens::{self, Pen};
use crestrail_sheet::{Align, Item, Trace, Weight};
use kurbo::{Point, Rect, Vec2};

/// Height of capitals as a share of the size of letters (the page's own typeface).
const CAPITALS: f64 = 0.7;
/// Below the base line, as a share of the size of letters.
const TAILS: f64 = 0.22;

/// Items and the rectangle around them; mm on paper, y down.
#[derive(Clone, Debug, Default)]
pub(super) struct Ink {
    pub(super) items: Vec<Item>,
    pub(super) room: Option<Rect>,
}

impl Ink {
    pub(super) fn take(&mut self, rect: Rect) {
        self.room = Some(self.room.map_or(rect, |room| room.union(rect)));
    }

    pub(super) fn line(&mut self, from: Point, to: Point, pen: Pen) {
        self.lines(vec![pens::open(&[from, to])], pen);
    }

    pub(super) fn lines(&mut self, traces: Vec<Trace>, pen: Pen) {
        if let Some(rect) = pens::around(traces.iter().flat_map(|trace| &trace.points)) {
            self.take(rect);
            self.items.push(pens::lines(traces, pen));
        }
    }

    pub(super) fn dot(&mut self, at: Point) {
        self.take(Rect::from_center_size(at, (1.0, 1.0)));
        self.items.push(pens::dot(at));
    }

    pub(super) fn ring(&mut self, at: Point, radius: f64, pen: Pen) {
        self.take(Rect::from_center_size(at, (2.0 * radius, 2.0 * radius)));
        self.items.push(pens::ring(at, radius, pen));
    }

    /// A line of text; `turn` in degrees clockwise.
    pub(super) fn words(&mut self, words: &Words<'_>) {
        self.take(words.covered());
        self.items.push(pens::turned(
            words.text,
            words.at,
            words.align,
            words.size,
            words.weight,
            words.turn,
        ));
    }

    /// All of it under a name that a page, and a test, can find it by.
    pub(super) fn named(self, data: Vec<(&'static str, String)>) -> Self {
        let group = crestrail_sheet::Group { data, items: self.items };
        Self { items: vec![Item::Group(group)], room: self.room }
    }

    pub(super) fn add(&mut self, other: Self) {
        if let Some(room) = other.room {
            self.take(room);
        }
        self.items.extend(other.items);
    }

    pub(super) fn moved(&self, by: Vec2) -> Self {
        Self {
            items: self.items.iter().map(|item| item.moved(by)).collect(),
            room: self.room.map(|room| room + by),
        }
    }
}

/// A line of text to be written.
#[derive(Clone, Copy, Debug)]
pub(super) struct Words<'a> {
    pub(super) text: &'a str,
    pub(super) at: Point,
    pub(super) align: Align,
    pub(super) size: f64,
    pub(super) weight: Weight,
    pub(super) turn: f64,
}

impl<'a> Words<'a> {
    pub(super) fn new(text: &'a str, at: Point, align: Align) -> Self {
        Self { text, at, align, size: pens::LETTERS, weight: Weight::Regular, turn: 0.0 }
    }

    pub(super) fn sized(self, size: f64) -> Self {
        Self { size, ..self }
    }

    pub(super) fn strong(self) -> Self {
        Self { weight: Weight::Medium, ..self }
    }

    pub(super) fn turned(self, turn: f64) -> Self {
        Self { turn, ..self }
    }

    /// The upright rectangle around it.
    pub(super) fn covered(&self) -> Rect {
        let length = pens::length(self.text, self.size);
        let before = match self.align {
            Align::Start => 0.0,
            Align::Middle => length / 2.0,
            Align::End => length,
        };
        let turned = kurbo::Affine::rotate_about(crestrail_geometry::math::radians(self.turn), self.at);
        let rect = Rect::new(
            self.at.x - before,
            self.at.y - CAPITALS * self.size,
            self.at.x - before + length,
            self.at.y + TAILS * self.size,
        );
        turned.transform_rect_bbox(rect)
    }
}
