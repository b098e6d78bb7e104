//! Dimensions after ISO 129-1: one above the other for widths about a middle, running from a common origin for heights
//! and depths, and an angle. Figures stand beside or above their lines, readable from below or from the right.

use super::super::dimension::{ARROW, arrow};
use super::super::pens::{self, Pen};
use super::super::spread::{Wish, spread};
use super::ink::{Ink, Words};
use super::measure::Measure;
use crestrail_geometry::math::{cos, radians, sin};
use crestrail_sheet::Align;
use kurbo::{Point, Vec2};

/// Between what is measured and the line out to its dimension; how far that goes on past it, mm.
const GAP: f64 = 1.0;
const PAST: f64 = 1.5;
/// From a line up to its figure, mm.
const LIFT: f64 = 0.9;
/// From one dimension line to the next, mm.
pub(super) const LANE: f64 = 7.0;
/// Room of a running figure across its reading direction, mm.
const ROOM: f64 = 4.2;
/// The slanted stretch by which figures of levels near each other part, mm.
const KNEE: f64 = 4.0;
/// Radius of the ring at the origin of running dimensions, mm.
const ORIGIN: f64 = 1.0;

/// A measure with the places of its ends on paper.
pub(super) struct Placed<'a> {
    pub(super) measure: &'a Measure,
    /// The length as it is written.
    pub(super) text: String,
    pub(super) from: Point,
    pub(super) to: Point,
}

fn named(ink: Ink, measure: &Measure) -> Ink {
    ink.named(vec![("dimension", measure.name.to_owned()), ("value", format!("{:.4}", measure.value))])
}

/// Level dimension lines below each other, the first at `y`, of measures that lie about one middle and grow.
pub(super) fn stacked(measures: &[Placed<'_>], y: f64) -> Ink {
    let mut all = Ink::default();
    for (lane, placed) in measures.iter().enumerate() {
        let y = y + LANE * lane as f64;
        all.add(between(placed, Point::new(placed.from.x, y), Point::new(placed.to.x, y)));
    }
    all
}

/// A dimension line from `a` to `b`, square to the lines out from what is measured; the figure above or to the left.
pub(super) fn between(placed: &Placed<'_>, a: Point, b: Point) -> Ink {
    let mut ink = Ink::default();
    out(&mut ink, placed.from, a);
    out(&mut ink, placed.to, b);
    let text = &placed.text;
    let (way, long) = (b - a, (b - a).hypot2().sqrt().max(1e-9));
    let unit = way / long;
    // Read from below or from the right: never upside down, upright ones upwards.
    let along = if unit.x < -1e-6 || (unit.x.abs() <= 1e-6 && unit.y > 0.0) { -unit } else { unit };
    let turn = crestrail_geometry::math::degrees(crestrail_geometry::math::atan2(along.y, along.x));
    let up = Vec2::new(along.y, -along.x);
    let room = pens::length(text, pens::LETTERS) + 1.0;
    // Where there is no room for both between the ends the arrows stand outside, and then the figure too, on the line drawn
    // out past them.
    let (arrows, inside) = (long >= room + 2.0 * ARROW.0, long >= room);
    let (tail, reach) = (if arrows { 0.0 } else { 2.0 * ARROW.0 }, if inside { 0.0 } else { room });
    let last = if along.dot(unit) > 0.0 { b } else { a };
    let first = if along.dot(unit) > 0.0 { a } else { b };
    ink.line(first - along * tail, last + along * (tail + reach), Pen::Thin);
    let sign = if arrows { 1.0 } else { -1.0 };
    ink.solid_arrow(a, unit * sign);
    ink.solid_arrow(b, -unit * sign);
    let middle = if inside { a.midpoint(b) } else { last + along * (tail + reach / 2.0) };
    ink.words(&Words::new(text, middle + up * LIFT, Align::Middle).turned(turn));
    named(ink, placed.measure)
}

/// The line from what is measured to its dimension line and a little past it.
fn out(ink: &mut Ink, from: Point, to: Point) {
    let way = to - from;
    let length = way.hypot2().sqrt();
    if length > GAP {
        let unit = way / length;
        ink.line(from + unit * GAP, to + unit * PAST, Pen::Thin);
    }
}

/// Which way the figures of running dimensions stand from their line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Out {
    Left,
    Right,
    Below,
}

impl Out {
    fn way(self) -> Vec2 {
        match self {
            Self::Left => Vec2::new(-1.0, 0.0),
            Self::Right => Vec2::new(1.0, 0.0),
            Self::Below => Vec2::new(0.0, 1.0),
        }
    }

    /// A place `along` the line that stands at `line`.
    fn at(self, along: f64, line: f64) -> Point {
        match self {
            Self::Left | Self::Right => Point::new(line, along),
            Self::Below => Point::new(along, line),
        }
    }

    fn along(self, p: Point) -> f64 {
        if self == Self::Below { p.x } else { p.y }
    }
}

/// Running dimensions from one origin, all ends `from` of the measures, along a line at `line`.
pub(super) fn running(measures: &[Placed<'_>], line: f64, way: Out) -> Ink {
    let mut all = Ink::default();
    let Some(first) = measures.first() else { return all };
    let origin = way.along(first.from);
    let ends: Vec<f64> = measures.iter().map(|placed| way.along(placed.to)).collect();
    // Figures are laid out from the origin on, whichever way that runs on paper.
    let sign = if ends.iter().sum::<f64>() < origin * ends.len() as f64 { -1.0 } else { 1.0 };
    let mut wishes = vec![Wish { at: 0.0, room: ROOM }];
    wishes.extend(ends.iter().map(|end| Wish { at: (end - origin) * sign, room: ROOM }));
    let places: Vec<f64> =
        spread(&wishes, -ROOM / 2.0).into_iter().map(|place| origin + sign * place).collect();
    let mut ink = Ink::default();
    let start = way.at(origin, line);
    let far = ends.iter().fold(origin, |far, &end| if (end - far) * sign > 0.0 { end } else { far });
    ink.line(start, way.at(far, line), Pen::Thin);
    ink.ring(start, ORIGIN, Pen::Thin);
    out(&mut ink, first.from, start);
    figure(&mut ink, start, places[0], way, "0");
    all.add(ink.named(vec![("origin", "0".to_owned())]));
    let mut before = origin;
    for ((placed, end), place) in measures.iter().zip(ends).zip(&places[1..]) {
        let mut ink = Ink::default();
        let tip = way.at(end, line);
        out(&mut ink, placed.to, tip);
        let inwards = way.at(-sign, 0.0).to_vec2() - way.at(0.0, 0.0).to_vec2();
        if (end - before).abs() > 1.4 * ARROW.0 {
            ink.solid_arrow(tip, inwards);
        } else {
            ink.stroke_across(tip);
        }
        figure(&mut ink, tip, *place, way, &placed.text);
        all.add(named(ink, placed.measure));
        before = end;
    }
    all
}

/// The knee from a dimension line to the place of its figure, and the figure.
fn figure(ink: &mut Ink, tip: Point, place: f64, way: Out, text: &str) {
    let step = way.way();
    let start = tip + step * PAST;
    let foot = way.at(place, way.at(0.0, 0.0).x);
    let end = match way {
        Out::Below => Point::new(foot.x, tip.y + PAST + KNEE),
        Out::Left | Out::Right => Point::new(tip.x + step.x * (PAST + KNEE), foot.y),
    };
    ink.line(tip, start, Pen::Thin);
    ink.line(start, end, Pen::Thin);
    // Half the height of figures brings their middle onto the line.
    let half = 0.35 * pens::LETTERS;
    let words = match way {
        Out::Left => Words::new(text, end + Vec2::new(-1.0, half), Align::End),
        Out::Right => Words::new(text, end + Vec2::new(1.0, half), Align::Start),
        Out::Below => Words::new(text, end + Vec2::new(half, 1.0), Align::End).turned(-90.0),
    };
    ink.words(&words);
}

impl Ink {
    /// An arrow whose tip is at `tip` and which lies towards `inwards`.
    pub(super) fn solid_arrow(&mut self, tip: Point, inwards: Vec2) {
        self.items.push(arrow(tip, inwards));
    }

    /// The oblique stroke that stands for an arrow where there is no room for one.
    fn stroke_across(&mut self, at: Point) {
        let half = Vec2::new(1.1, -1.1);
        self.line(at - half, at + half, Pen::Thin);
    }
}

/// The angle between upright and a slanting edge that ends at `top` on paper and leans to the right there (`side` 1) or to
/// the left (−1): both lines are drawn on above it, the arc between them.
pub(super) fn lean(measure: &Measure, top: Point, side: f64) -> Ink {
    const REACH: f64 = 14.0;
    const ARC: f64 = 11.5;
    let mut ink = Ink::default();
    let at =
        |degrees: f64, far: f64| top + Vec2::new(side * sin(radians(degrees)), -cos(radians(degrees))) * far;
    ink.line(at(0.0, GAP), at(0.0, REACH), Pen::Thin);
    ink.line(at(measure.value, GAP), at(measure.value, REACH), Pen::Thin);
    // The arrows point at both lines from outside, which a small angle has room for.
    let step = 20.0;
    let (from, to) = (-step, measure.value + step);
    let arc: Vec<Point> = (0..=24).map(|i| at(from + (to - from) * f64::from(i) / 24.0, ARC)).collect();
    ink.lines(vec![pens::open(&arc)], Pen::Thin);
    let tangent = |degrees: f64| Vec2::new(side * cos(radians(degrees)), sin(radians(degrees)));
    ink.solid_arrow(at(0.0, ARC), -tangent(0.0));
    ink.solid_arrow(at(measure.value, ARC), tangent(measure.value));
    let text = format!("{}°", pens::mm(measure.value));
    // On the upright's side, over the chair, where the view is as wide as it is anyway.
    let align = if side > 0.0 { Align::End } else { Align::Start };
    ink.words(&Words::new(&text, at(from, ARC) - Vec2::new(side * 1.0, -1.2), align));
    named(ink, measure)
}
