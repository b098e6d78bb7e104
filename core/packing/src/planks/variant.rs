//! A shape at one turn, and where two of them may not lie.

use super::polygon::{self, Point, area, bounds, sum};
use super::problem::Shape;
use super::regions::Regions;
use super::side::Side;
use crate::refused::Refused;
use core::cell::OnceCell;

/// A shape turned; its origin stays where it was.
#[derive(Clone, Debug)]
pub(super) struct Variant {
    pub(super) shape: usize,
    /// Degrees, tilt included.
    pub(super) turn: f64,
    pub(super) parts: Vec<Vec<Point>>,
    pub(super) low: Point,
    pub(super) high: Point,
    pub(super) area: f64,
}

impl Variant {
    /// How much it is too long and too wide for a bed; below zero where it fits.
    pub(super) fn over(&self, bed: [f64; 2]) -> [f64; 2] {
        [self.high[0] - self.low[0] - bed[0], self.high[1] - self.low[1] - bed[1]]
    }
}

/// Corners of a hollow side that lie no deeper than this are left out, mm: so a hollow curve makes few convex
/// parts, and its neighbours keep a little more off it.
const HOLLOW: f64 = 0.3;

/// A shape at all its turns; with a tilt also at both its limits and half way.
pub(super) fn variants(number: usize, shape: &Shape, outline: &[Point]) -> Result<Vec<Variant>, Refused> {
    let filled = polygon::without_shallow_hollows(outline, HOLLOW);
    let tilts: &[f64] = if shape.tilt > 0.0 { &[0.0, 0.5, -0.5, 1.0, -1.0] } else { &[0.0] };
    let mut list = Vec::new();
    for &turn in &shape.turns {
        for tilt in tilts {
            let area = area(outline);
            list.push(Variant { area, ..variant(number, turn + tilt * shape.tilt, &filled)? });
        }
    }
    Ok(list)
}

/// A shape at one turn, degrees.
pub(super) fn variant(shape: usize, turn: f64, outline: &[Point]) -> Result<Variant, Refused> {
    let (sin, cos) = sin_cos(turn);
    let turned: Vec<Point> =
        outline.iter().map(|p| [p[0] * cos - p[1] * sin, p[0] * sin + p[1] * cos]).collect();
    let [low, high] = bounds(&turned);
    let Some(parts) = polygon::convex_parts(&turned) else {
        return Err(Refused::new(
            format!("shapes[{shape}].outline"),
            "The outline touches or crosses itself.",
        ));
    };
    Ok(Variant { shape, turn, parts, low, high, area: area(&turned) })
}

/// Quarter turns are exact.
fn sin_cos(degrees: f64) -> (f64, f64) {
    match degrees.rem_euclid(360.0) {
        0.0 => (0.0, 1.0),
        90.0 => (1.0, 0.0),
        180.0 => (0.0, -1.0),
        270.0 => (-1.0, 0.0),
        other => libm::sincos(other * (core::f64::consts::PI / 180.0)),
    }
}

/// A convex region of shifts.
#[derive(Clone, Debug)]
pub(super) struct Region {
    points: Vec<Point>,
    /// For each axis its lower and its upper side as the axis sees them, told along the axis; each point is
    /// (place along the axis, place along the other). Most regions are only ever asked along one.
    sides: [OnceCell<[Side; 2]>; 2],
    pub(super) low: Point,
    pub(super) high: Point,
}

/// Less than this is touching, mm.
pub(super) const TOUCH: f64 = 1e-7;

impl Region {
    fn new(points: Vec<Point>) -> Self {
        let [low, high] = bounds(&points);
        Self { points, sides: [OnceCell::new(), OnceCell::new()], low, high }
    }

    /// The region turned by half a turn.
    pub(super) fn turned_over(&self) -> Self {
        let over = |p: &Point| [-p[0], -p[1]];
        let points = self.points.iter().map(over).collect();
        Self {
            points,
            sides: [OnceCell::new(), OnceCell::new()],
            low: over(&self.high),
            high: over(&self.low),
        }
    }

    fn sides(&self, axis: usize) -> &[Side; 2] {
        self.sides[axis].get_or_init(|| {
            if axis == 0 {
                return [1.0, -1.0].map(|sign| Side::of(&self.points, sign));
            }
            let swapped: Vec<Point> = self.points.iter().rev().map(|p| [p[1], p[0]]).collect();
            [1.0, -1.0].map(|sign| Side::of(&swapped, sign))
        })
    }

    /// Whether a line across `axis` goes through it, more than touching it.
    fn is_met(&self, axis: usize, at: f64) -> bool {
        at > self.low[axis] + TOUCH && at < self.high[axis] - TOUCH
    }

    /// Where it ends along the other axis at `at` on `axis`; nothing at or outside its border.
    pub(super) fn beyond(&self, axis: usize, at: f64) -> Option<f64> {
        if !self.is_met(axis, at) {
            return None;
        }
        let [low, high] = self.sides(axis).each_ref().map(|side| side.height(at));
        (high > low).then_some(high)
    }

    /// Whether a piece that is shifted so may lie in it, told by its bounds.
    pub(super) fn is_beside(&self, at: f64, y: f64) -> bool {
        y >= self.low[1] && y <= self.high[1] && self.is_met(0, at)
    }

    /// The least shift across above `y` that clears it, of a piece beside it that is shifted `at` along; nothing where
    /// `y` does.
    pub(super) fn above(&self, at: f64, y: f64) -> Option<f64> {
        let [below, above] = self.sides(0);
        if below.height(at) + TOUCH > y {
            return None;
        }
        Some(above.height(at)).filter(|high| *high > y)
    }
}

/// The parts of a variant as they stand in sums: grown all round, and turned over.
#[derive(Clone, Debug)]
pub(super) struct Terms {
    grown: Vec<Vec<Point>>,
    over: Vec<Vec<Point>>,
}

impl Terms {
    pub(super) fn new(variant: &Variant, clear: f64) -> Self {
        let disc = disc(clear);
        let grow = |part: &Vec<Point>| if clear > 0.0 { sum(part, &disc) } else { part.clone() };
        let turn_over = |part: &Vec<Point>| part.iter().map(|p| [-p[0], -p[1]]).collect();
        Self {
            grown: variant.parts.iter().map(grow).collect(),
            over: variant.parts.iter().map(turn_over).collect(),
        }
    }
}

/// Shifts of `moving` from `fixed` at which they come nearer than they were grown: one convex region for each pair
/// of parts (the sum of one part, the other turned over, and a disc).
pub(super) fn forbidden(fixed: &Terms, moving: &Terms) -> Regions {
    let pairs = fixed.grown.iter().flat_map(|a| moving.over.iter().map(move |b| (a, b)));
    Regions::new(pairs.map(|(a, b)| Region::new(sum(a, b))).collect())
}

/// Corners of the polygon round a disc: enough that its corners stand out by 1 % of the radius only.
const CORNERS: u32 = 24;

fn disc(radius: f64) -> Vec<Point> {
    let step = core::f64::consts::TAU / f64::from(CORNERS);
    let out = radius / libm::cos(step / 2.0);
    (0..CORNERS)
        .map(|i| {
            // Half a step on, so that the sides lie flat along both axes.
            let (sin, cos) = libm::sincos((f64::from(i) + 0.5) * step);
            [out * cos, out * sin]
        })
        .collect()
}
