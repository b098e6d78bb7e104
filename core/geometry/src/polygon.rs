//! Polygons in a plane, and the half-planes that clip them.

use crate::clip::{Clipper, clip_any};
use crate::math::{max, min};
use crate::outline::signed_area;
use crate::piece::is_convex;
use kurbo::{Point, Rect, Vec2};
use smallvec::SmallVec;

/// What lies nearer than this is in the same place, mm: a thousandth of a micrometre. Rounding of
/// chair-sized coordinates stays a thousand times smaller, the finest tool a thousand times larger.
pub(crate) const NEAR: f64 = 1e-6;

/// Corners of a polygon; most have no more than fit in place, without a trip to the allocator.
pub(crate) type Corners = SmallVec<[Point; 8]>;

/// A closed polygon without holes, counter-clockwise.
#[derive(Clone, Debug)]
pub(crate) struct Polygon {
    pub(crate) points: Corners,
    pub(crate) convex: bool,
    pub(crate) bounds: Rect,
    /// Its points went over a grid of whole numbers and carry that rounding.
    pub(crate) coarse: bool,
}

/// The points `normal · p ≤ offset`, with `normal` of length 1.
#[derive(Clone, Copy, Debug)]
pub(crate) struct HalfPlane {
    pub(crate) normal: Vec2,
    pub(crate) offset: f64,
}

impl HalfPlane {
    /// Signed distance, exactly zero when `p` is on the line within [`NEAR`].
    pub(crate) fn distance(&self, p: Point) -> f64 {
        let d = self.normal.dot(p.to_vec2()) - self.offset;
        if d.abs() <= NEAR { 0.0 } else { d }
    }

    /// The half-plane to the left of the step from `a` to `b`.
    pub(crate) fn left_of(a: Point, b: Point) -> Self {
        let step = b - a;
        let normal = Vec2::new(step.y, -step.x) / step.hypot2().sqrt();
        Self { normal, offset: normal.dot(a.to_vec2()) }
    }
}

impl Polygon {
    /// The polygon with these corners, in either direction.
    pub(crate) fn new(points: impl Into<Corners>, convex: bool) -> Self {
        let mut points = points.into();
        if signed_area(&points) < 0.0 {
            points.reverse();
        }
        let bounds = bounds_of(&points);
        Self { points, convex, bounds, coarse: false }
    }

    /// The polygon with these corners, in either direction; whether it is convex is found out.
    pub(crate) fn any(points: Corners) -> Self {
        let mut polygon = Self::new(points, false);
        polygon.convex = is_convex(&polygon.points);
        polygon
    }

    /// Neither empty nor thinner than the tolerance: its mean width, area over half its length round,
    /// must exceed [`NEAR`].
    pub(crate) fn is_real(&self) -> bool {
        let length: f64 = self.edges().map(|(a, b)| (b - a).hypot2().sqrt()).sum();
        self.points.len() > 2 && signed_area(&self.points) > NEAR * 0.5 * length
    }

    pub(crate) fn edges(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let last = self.points.len().wrapping_sub(1);
        (0..self.points.len()).map(move |i| (self.points[i], self.points[if i == last { 0 } else { i + 1 }]))
    }

    /// The half-planes whose common part a convex polygon is.
    pub(crate) fn halves(&self) -> impl Iterator<Item = HalfPlane> + '_ {
        self.edges().map(|(a, b)| HalfPlane::left_of(a, b))
    }

    /// Whether `p` is inside; points on the boundary may go either way.
    pub(crate) fn holds(&self, p: Point) -> bool {
        holds(&self.points, p)
    }

    /// Whether `inner` surely lies inside, clear of the boundary. False may also mean "perhaps".
    pub(crate) fn surrounds(&self, inner: &Self) -> bool {
        let Some(&first) = inner.points.first() else { return false };
        self.surrounds_box(&inner.bounds.inflate(NEAR, NEAR), first)
    }

    /// Whether a rectangle surely lies inside, clear of the boundary; `spot` is some point of it.
    pub(crate) fn surrounds_box(&self, reach: &Rect, spot: Point) -> bool {
        reach.x0 > self.bounds.x0
            && reach.x1 < self.bounds.x1
            && reach.y0 > self.bounds.y0
            && reach.y1 < self.bounds.y1
            && !self.edges().any(|(a, b)| touches(a, b, reach))
            && self.holds(spot)
    }

    /// Whether all of `inner` surely lies in this polygon, maybe along its boundary.
    pub(crate) fn covers(&self, inner: &Self) -> bool {
        let holds_all = |half: HalfPlane| inner.points.iter().all(|&p| half.distance(p) <= 0.0);
        if self.convex { self.halves().all(holds_all) } else { self.surrounds(inner) }
    }

    /// The parts inside all of `halves`.
    pub(crate) fn inside(self, halves: impl Iterator<Item = HalfPlane>) -> Vec<Self> {
        if self.convex { self.inside_convex(halves).into_iter().collect() } else { self.inside_any(halves) }
    }

    /// The part of a convex polygon inside all of `halves`.
    pub(crate) fn inside_convex(self, halves: impl Iterator<Item = HalfPlane>) -> Option<Self> {
        let mut clipper = Clipper::new(self);
        for half in halves {
            if !clipper.cut(&half) {
                return None;
            }
        }
        clipper.finish()
    }

    fn inside_any(self, halves: impl Iterator<Item = HalfPlane>) -> Vec<Self> {
        let mut parts = vec![self];
        let mut next = Vec::new();
        for half in halves {
            for part in parts.drain(..) {
                part.clipped(&half, &mut next);
            }
            core::mem::swap(&mut parts, &mut next);
            if parts.is_empty() {
                break;
            }
        }
        parts
    }

    /// The parts of a polygon of any form inside `half`, added to `out`.
    pub(crate) fn clipped(self, half: &HalfPlane, out: &mut Vec<Self>) {
        let (least, most) = half.distance_range(&self.bounds);
        if most <= NEAR {
            return out.push(self);
        }
        if least >= -NEAR {
            return;
        }
        let distances: SmallVec<[f64; 16]> = self.points.iter().map(|&p| half.distance(p)).collect();
        if distances.iter().all(|&d| d <= 0.0) {
            return out.push(self);
        }
        let loops = clip_any(&self.points, &distances, half);
        out.extend(loops.into_iter().map(|points| Self::new(points, false)).filter(Self::is_real));
    }
}

impl HalfPlane {
    /// Least and greatest distance over a rectangle.
    pub(crate) fn distance_range(&self, r: &Rect) -> (f64, f64) {
        let middle = self.normal.dot(r.center().to_vec2()) - self.offset;
        let reach = self.normal.x.abs() * r.width() * 0.5 + self.normal.y.abs() * r.height() * 0.5;
        (middle - reach, middle + reach)
    }
}

/// Whether `p` is inside a closed outline; points on the boundary may go either way.
pub(crate) fn holds(outline: &[Point], p: Point) -> bool {
    let mut inside = false;
    let mut a = outline[outline.len() - 1];
    for &b in outline {
        if (a.y > p.y) != (b.y > p.y) && ((b - a).cross(p - a) > 0.0) == (b.y > a.y) {
            inside = !inside;
        }
        a = b;
    }
    inside
}

/// Whether two rectangles come within `slack` of each other (negative: overlap by more than that).
pub(crate) fn meet(a: &Rect, b: &Rect, slack: f64) -> bool {
    a.x0 <= b.x1 + slack && b.x0 <= a.x1 + slack && a.y0 <= b.y1 + slack && b.y0 <= a.y1 + slack
}

/// The rectangle around some points.
pub(crate) fn bounds_of(points: &[Point]) -> Rect {
    let nothing = Rect::new(f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY);
    points.iter().fold(nothing, |r, p| Rect {
        x0: min(r.x0, p.x),
        y0: min(r.y0, p.y),
        x1: max(r.x1, p.x),
        y1: max(r.y1, p.y),
    })
}

/// Whether the stretch from `a` to `b` meets the rectangle.
pub(crate) fn touches(a: Point, b: Point, r: &Rect) -> bool {
    if !meet(&bounds_of(&[a, b]), r, 0.0) {
        return false;
    }
    let step = b - a;
    let middle = step.cross(r.center() - a);
    middle.abs() <= (step.x.abs() * r.height() + step.y.abs() * r.width()) * 0.5
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;

    fn polygon(points: &[(f64, f64)], convex: bool) -> Polygon {
        Polygon::new(points.iter().map(|&p| Point::from(p)).collect::<Corners>(), convex)
    }

    /// A comb: a bar 0…1 high with teeth up to 3 at x = 0…1, 2…3 and 4…5.
    pub(crate) fn comb() -> Polygon {
        let outline = [
            (0.0, 0.0),
            (5.0, 0.0),
            (5.0, 3.0),
            (4.0, 3.0),
            (4.0, 1.0),
            (3.0, 1.0),
            (3.0, 3.0),
            (2.0, 3.0),
            (2.0, 1.0),
            (1.0, 1.0),
            (1.0, 3.0),
            (0.0, 3.0),
        ];
        polygon(&outline, false)
    }

    #[test]
    fn surrounds_only_what_is_clear_of_the_edge() {
        let tooth = polygon(&[(2.2, 0.5), (2.8, 0.5), (2.8, 2.5), (2.2, 2.5)], true);
        let gap = polygon(&[(1.2, 1.5), (1.8, 1.5), (1.8, 2.5), (1.2, 2.5)], true);
        let flush = polygon(&[(2.2, 0.5), (3.0, 0.5), (3.0, 2.5), (2.2, 2.5)], true);
        assert!(comb().surrounds(&tooth));
        assert!(!comb().surrounds(&gap));
        assert!(!comb().surrounds(&flush));
    }
}
