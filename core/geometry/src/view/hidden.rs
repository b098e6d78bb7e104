//! Faces that are certainly covered, such as the inside of a closed joint.

use super::flat::{Bounds, Outline, Shown, enclose, segments};
use super::meet::{TOUCH, lead, side};
use super::near::Near;
use super::relate::{exact, quick};
use crate::math::{max, min};
use crestrail_sorting::Order as _;
use kurbo::Point;
use smallvec::SmallVec;

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
    rings: SmallVec<[&'a [Point]; 2]>,
}

/// What is left of a face, and what it spans.
struct Left {
    shape: Vec<Point>,
    bounds: Bounds,
}

/// The faces without those that are wholly covered, as far as that is quick to see.
pub(super) fn without_hidden(mut faces: Vec<Shown>) -> Vec<Shown> {
    let mut hidden = told_hidden(&faces).into_iter();
    faces.retain(|_| !hidden.next().unwrap_or(false));
    faces
}

/// For each face whether it is.
fn told_hidden(faces: &[Shown]) -> Vec<bool> {
    let plugs = Plugs::among(faces);
    let large = faces.iter().filter(|f| f.bounds.area() > LARGE);
    let covers: Vec<Cover<'_>> = large.map(|face| Cover::of(face, &plugs)).collect();
    let near = Near::of(covers.iter().map(|cover| cover.face.bounds).collect());
    faces.iter().map(|face| is_hidden(face, &covers, &near)).collect()
}

impl<'a> Cover<'a> {
    fn of(face: &'a Shown, plugs: &Plugs<'_>) -> Self {
        let is_open = |ring: &&Outline| !plugs.fill(face, ring);
        let holes = face.rings[1..].iter().filter(is_open).map(|ring| ring.points.as_slice());
        Self { face, rings: core::iter::once(face.outer()).chain(holes).collect() }
    }

    fn covers(&self, p: Point) -> bool {
        enclose(self.rings.iter().copied(), p)
    }

    /// Whether the other face lies under this one wherever both are; `None` where that takes a closer look.
    fn is_quickly_over(&self, other: &Shown) -> Option<bool> {
        quick(self.face, other).map(|relation| relation.over && !relation.under)
    }

    /// The same for certain.
    fn is_over(&self, other: &Shown) -> bool {
        let relation = exact(self.face, other);
        relation.over && !relation.under
    }
}

/// All faces in the order of their left ends, to find those that fill a hole.
struct Plugs<'a>(Vec<&'a Shown>);

impl<'a> Plugs<'a> {
    fn among(faces: &'a [Shown]) -> Self {
        let mut all: Vec<&Shown> = faces.iter().collect();
        all.order_by(|a, b| a.bounds.low[0].total_cmp(&b.bounds.low[0]));
        Self(all)
    }

    /// Whether one of them fills the hole of a face flush.
    fn fill(&self, face: &Shown, hole: &Outline) -> bool {
        let bounds = Bounds::of(&hole.points);
        let first = self.0.partition_point(|plug| plug.bounds.low[0] <= bounds.low[0] - SNUG);
        let near = self.0[first..].iter().take_while(|plug| plug.bounds.low[0] < bounds.low[0] + SNUG);
        let alike = near.filter(|f| fits(&f.bounds, &bounds) && f.outer().len() == hole.points.len());
        alike.into_iter().any(|plug| is_flush(plug, face))
    }
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
fn is_hidden(face: &Shown, covers: &[Cover<'_>], near: &Near) -> bool {
    if face.outer().len() > MOST_CORNERS {
        return false;
    }
    let mut over: SmallVec<[(&Cover<'_>, Option<bool>); 16]> = SmallVec::new();
    near.each(&face.bounds, covers.len(), |index| {
        let cover = &covers[index];
        let is_over = cover.is_quickly_over(face);
        if is_over != Some(false) {
            over.push((cover, is_over));
        }
    });
    let mut left = Left { shape: face.outer().to_vec(), bounds: face.bounds };
    let mut spent = is_spent(&left.shape);
    // Twice: what is left after the first time may be small enough for a cover passed over before. Those after the
    // last one that changed anything have seen it.
    let mut end = over.len();
    for _ in 0..2 {
        let mut changed = 0;
        for (place, (cover, is_over)) in over.iter_mut().enumerate() {
            if place >= end && changed == 0 {
                break;
            }
            let less = left.uncovered(cover);
            // Whether it is over matters only where it changes anything, and may be hard to tell.
            if (spent || less.is_some()) && *is_over.get_or_insert_with(|| cover.is_over(face)) {
                if let Some(shape) = less {
                    left = Left { bounds: Bounds::of(&shape), shape };
                    changed = place + 1;
                }
                spent = is_spent(&left.shape);
                if spent {
                    return true;
                }
            }
        }
        end = changed;
    }
    false
}

/// Whether next to nothing is left of a shape.
fn is_spent(shape: &[Point]) -> bool {
    shape.len() < 3 || area(shape).abs() < SPECK
}

impl Left {
    /// What is left beside the cover; `None` for all of it, also where that is hard to say.
    fn uncovered(&self, cover: &Cover<'_>) -> Option<Vec<Point>> {
        let Self { shape, bounds } = self;
        if !bounds.overlap(&cover.face.bounds) {
            return None;
        }
        let mut across = None;
        for ring in &cover.rings {
            let mut a = ring[ring.len() - 1];
            for &b in *ring {
                if runs_through(&(a, b), bounds) && across.replace((a, b)).is_some() {
                    return None;
                }
                a = b;
            }
        }
        match across {
            // No edge comes near: the whole rectangle round the shape is covered, or none of it.
            None => cover.covers(bounds.middle()).then(Vec::new),
            Some(edge) => beside(shape, bounds, edge, cover),
        }
    }
}

fn runs_through(&(a, b): &(Point, Point), bounds: &Bounds) -> bool {
    let (low, high) = (bounds.low, bounds.high);
    let apart = max(a.x, b.x) < low[0]
        || min(a.x, b.x) > high[0]
        || max(a.y, b.y) < low[1]
        || min(a.y, b.y) > high[1];
    if apart {
        return false;
    }
    let corners = [(low[0], low[1]), (low[0], high[1]), (high[0], low[1]), (high[0], high[1])];
    let sides = corners.map(|(x, y)| side(a, b, Point::new(x, y)));
    let lowest = min(min(sides[0], sides[1]), min(sides[2], sides[3]));
    let highest = max(max(sides[0], sides[1]), max(sides[2], sides[3]));
    lowest <= 0.0 && highest >= 0.0
}

/// The part of the shape on the outer side of the cover's only edge that runs through it.
fn beside(shape: &[Point], bounds: &Bounds, (a, b): (Point, Point), cover: &Cover<'_>) -> Option<Vec<Point>> {
    let far = shape.iter().copied().max_by(|p, q| side(a, b, *p).abs().total_cmp(&side(a, b, *q).abs()))?;
    // Not at the corner itself, which may lie on another edge of the cover.
    let probe = far.lerp(bounds.middle(), 0.1);
    if side(a, b, probe) * side(a, b, far) <= 0.0 {
        return None;
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
    Some(left)
}

fn area(points: &[Point]) -> f64 {
    segments(points).map(|(p, q)| p.x * q.y - q.x * p.y).sum::<f64>() / 2.0
}
