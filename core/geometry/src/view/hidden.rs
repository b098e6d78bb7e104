//! Faces that are certainly covered, such as the inside of a closed joint.

use super::flat::{Bounds, Outline, Shown, is_left_crossing, segments};
use super::meet::{TOUCH, lead, side};
use super::relate::relate;
use kurbo::Point;

/// Only faces with few corners are looked at; larger ones are the outsides of parts.
const MOST_CORNERS: usize = 8;
/// Only faces whose upright rectangle is larger than this are taken for covers, mm².
const LARGE: f64 = 300.0;
/// How much narrower than its hole a plug may be, and how far sunk into it, mm. What might show
/// through such a gap is far thinner than a line.
const SNUG: f64 = 0.35;
/// What may be left uncovered through rounding, mm².
const SPECK: f64 = 1e-3;

/// A face that may cover others.
struct Cover<'a> {
    face: &'a Shown,
    /// Its rings, without holes that another face fills flush, as a peg does.
    rings: Vec<&'a [Point]>,
}

/// The faces without those that are wholly covered, as far as that is quick to see.
pub(super) fn without_hidden(mut faces: Vec<Shown>) -> Vec<Shown> {
    let large = faces.iter().filter(|f| f.bounds.area() > LARGE);
    let covers: Vec<Cover<'_>> = large.map(|face| Cover::of(face, &faces)).collect();
    let hidden: Vec<bool> = faces.iter().map(|face| is_hidden(face, &covers)).collect();
    let mut hidden = hidden.into_iter();
    faces.retain(|_| !hidden.next().unwrap_or(false));
    faces
}

impl<'a> Cover<'a> {
    fn of(face: &'a Shown, faces: &[Shown]) -> Self {
        let is_open = |ring: &&Outline| !is_plugged(face, ring, faces);
        let holes = face.rings[1..].iter().filter(is_open).map(|ring| ring.points.as_slice());
        Self { face, rings: core::iter::once(face.outer()).chain(holes).collect() }
    }

    fn segments(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        self.rings.iter().flat_map(|ring| segments(ring))
    }

    fn covers(&self, p: Point) -> bool {
        self.segments().filter(|&(a, b)| is_left_crossing(a, b, p)).count() % 2 == 1
    }

    /// Whether the other face lies under this one wherever both are.
    fn is_over(&self, other: &Shown) -> bool {
        let relation = relate(self.face, other);
        relation.over && !relation.under
    }
}

fn is_plugged(face: &Shown, hole: &Outline, faces: &[Shown]) -> bool {
    let bounds = Bounds::of(&hole.points);
    let alike = faces.iter().filter(|f| f.outer().len() == hole.points.len() && fits(&f.bounds, &bounds));
    alike.into_iter().any(|plug| is_flush(plug, face))
}

fn fits(plug: &Bounds, hole: &Bounds) -> bool {
    (0..4).all(|k| (plug.low[k] - hole.low[k]).abs() < SNUG && (plug.high[k] - hole.high[k]).abs() < SNUG)
}

fn is_flush(plug: &Shown, face: &Shown) -> bool {
    let (low, high) = lead(plug, face).range(plug.outer());
    low > -SNUG && high < TOUCH
}

/// A false answer may be wrong: a cover is passed over where more than one of its edges runs
/// across the face.
fn is_hidden(face: &Shown, covers: &[Cover<'_>]) -> bool {
    if face.outer().len() > MOST_CORNERS {
        return false;
    }
    let near = covers.iter().filter(|c| c.face.bounds.overlap(&face.bounds) && c.is_over(face));
    let near: Vec<&Cover<'_>> = near.collect();
    let mut left = face.outer().to_vec();
    // Twice: what is left after the first time may be small enough for a cover passed over before.
    for cover in near.iter().chain(&near) {
        left = uncovered(left, cover);
        if left.len() < 3 || area(&left).abs() < SPECK {
            return true;
        }
    }
    false
}

/// What is left of a flat shape beside the cover, or all of it where that is hard to say.
fn uncovered(shape: Vec<Point>, cover: &Cover<'_>) -> Vec<Point> {
    let bounds = Bounds::of(&shape);
    if !bounds.overlap(&cover.face.bounds) {
        return shape;
    }
    let mut across = cover.segments().filter(|s| runs_through(s, &bounds));
    match (across.next(), across.next()) {
        // No edge comes near: the whole rectangle round the shape is covered, or none of it.
        (None, _) if cover.covers(bounds.middle()) => Vec::new(),
        (Some((a, b)), None) => beside(shape, &bounds, (a, b), cover),
        _ => shape,
    }
}

fn runs_through(&(a, b): &(Point, Point), bounds: &Bounds) -> bool {
    let (low, high) = (bounds.low, bounds.high);
    let apart =
        a.x.max(b.x) < low[0] || a.x.min(b.x) > high[0] || a.y.max(b.y) < low[1] || a.y.min(b.y) > high[1];
    let corners = [(low[0], low[1]), (low[0], high[1]), (high[0], low[1]), (high[0], high[1])];
    let sides = corners.map(|(x, y)| side(a, b, Point::new(x, y)));
    !apart && !sides.iter().all(|&s| s > 0.0) && !sides.iter().all(|&s| s < 0.0)
}

/// The part of the shape on the outer side of the cover's only edge that runs through it.
fn beside(shape: Vec<Point>, bounds: &Bounds, (a, b): (Point, Point), cover: &Cover<'_>) -> Vec<Point> {
    let far = shape.iter().copied().max_by(|p, q| side(a, b, *p).abs().total_cmp(&side(a, b, *q).abs()));
    let Some(far) = far else { return shape };
    // Not at the corner itself, which may lie on another edge of the cover.
    let probe = far.lerp(bounds.middle(), 0.1);
    if side(a, b, probe) * side(a, b, far) <= 0.0 {
        return shape;
    }
    let keeps_far = !cover.covers(probe);
    let sign = if (side(a, b, far) > 0.0) == keeps_far { 1.0 } else { -1.0 };
    let n = shape.len();
    let mut left = Vec::with_capacity(n + 2);
    for i in 0..n {
        let (p, q) = (shape[i], shape[(i + 1) % n]);
        let (s, t) = (side(a, b, p) * sign, side(a, b, q) * sign);
        // A corner on the line stays: the shape may have been cut along this very edge before.
        if s >= 0.0 {
            left.push(p);
        }
        if s * t < 0.0 {
            left.push(p.lerp(q, s / (s - t)));
        }
    }
    left
}

fn area(points: &[Point]) -> f64 {
    segments(points).map(|(p, q)| p.x * q.y - q.x * p.y).sum::<f64>() / 2.0
}
