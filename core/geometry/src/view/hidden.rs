//! Faces that are certainly covered, such as the inside of a closed joint.

use super::flat::{Bounds, Shown};
use super::meet::side;
use kurbo::Point;

/// Only faces with few corners are looked at; larger ones are the outsides of parts.
const MOST_CORNERS: usize = 8;
/// What may be left uncovered through rounding, mm².
const SPECK: f64 = 1e-3;

/// Whether `covers`, all nearer than the face, cover it wholly. A false answer may be wrong: a
/// cover is passed over where more than one of its edges runs across the face.
pub(super) fn is_hidden<'a>(face: &Shown, covers: impl Iterator<Item = &'a Shown>) -> bool {
    let mut left = face.outer().to_vec();
    if left.len() > MOST_CORNERS {
        return false;
    }
    for cover in covers {
        left = uncovered(left, cover);
        if left.len() < 3 || area(&left).abs() < SPECK {
            return true;
        }
    }
    false
}

/// What is left of a flat shape beside the cover, or all of it where that is hard to say.
fn uncovered(shape: Vec<Point>, cover: &Shown) -> Vec<Point> {
    let bounds = Bounds::of(&shape);
    if !bounds.overlap(&cover.bounds) {
        return shape;
    }
    let mut across = cover.segments().filter(|s| runs_through(s, &bounds));
    match (across.next(), across.next()) {
        (None, _) if cover.covers(shape[0]) => Vec::new(),
        (Some((a, b)), None) => beside(shape, a, b, cover),
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
fn beside(shape: Vec<Point>, a: Point, b: Point, cover: &Shown) -> Vec<Point> {
    let far = shape.iter().copied().max_by(|p, q| side(a, b, *p).abs().total_cmp(&side(a, b, *q).abs()));
    let Some(far) = far else { return shape };
    let keeps_far = !cover.covers(far);
    let sign = if (side(a, b, far) > 0.0) == keeps_far { 1.0 } else { -1.0 };
    let n = shape.len();
    let mut left = Vec::with_capacity(n + 2);
    for i in 0..n {
        let (p, q) = (shape[i], shape[(i + 1) % n]);
        let (s, t) = (side(a, b, p) * sign, side(a, b, q) * sign);
        if s > 0.0 {
            left.push(p);
        }
        if s * t < 0.0 {
            left.push(p.lerp(q, s / (s - t)));
        }
    }
    left
}

fn area(points: &[Point]) -> f64 {
    super::flat::segments(points).map(|(p, q)| p.x * q.y - q.x * p.y).sum::<f64>() / 2.0
}
