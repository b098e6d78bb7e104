//! Where two flat faces cover common ground in the picture, and which of them is nearer there.

use super::flat::{Shown, Slope, segments};
use crate::math::{max, min};
use kurbo::Point;
use smallvec::SmallVec;

/// Faces nearer to each other than this, square to the flatter one, touch: which of them is
/// painted first makes no difference that could be seen. mm.
pub(super) const TOUCH: f64 = 1e-4;

/// Points at which the first face lies over and under the second.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Meet {
    pub(super) over: Option<Point>,
    pub(super) under: Option<Point>,
}

/// How far the first face lies nearer than the second, measured square to the one that is turned
/// away further, so that steep faces do not exaggerate it.
pub(super) fn lead(first: &Shown, second: &Shown) -> Slope {
    first.slope.above(&second.slope).scaled(min(first.facing, second.facing))
}

/// Compares two faces at every corner of their common ground. Nearness is linear there, so its
/// extremes lie at corners: crossings of edges, and corners of one face within the other.
pub(super) fn meet(first: &Shown, second: &Shown) -> Meet {
    let mut found = Meet::default();
    search(first, second, |p, lead| {
        if lead > 0.0 {
            found.over.get_or_insert(p);
        } else {
            found.under.get_or_insert(p);
        }
        found.over.is_some() && found.under.is_some()
    });
    found
}

/// Whether the first face lies over the second anywhere.
pub(super) fn lies_over(first: &Shown, second: &Shown) -> bool {
    search(first, second, |_, lead| lead > 0.0)
}

/// Shows corners of the common ground at which the faces do not touch, with the lead of the first, until
/// one of them is enough.
fn search(first: &Shown, second: &Shown, mut enough: impl FnMut(Point, f64) -> bool) -> bool {
    let lead = lead(first, second);
    let window = first.bounds.common(&second.bounds);
    let mut tell = |p: Point| {
        let value = lead.at(p);
        value.abs() > TOUCH && enough(p, value)
    };
    let mut others: SmallVec<[(Point, Point); 16]> = SmallVec::new();
    for ring in &second.rings {
        others.extend(segments(&ring.points).filter(|s| reaches(s, &window)));
    }
    for ring in &first.rings {
        for own in segments(&ring.points).filter(|s| reaches(s, &window)) {
            if others.iter().filter_map(|other| crossing(&own, other)).any(&mut tell) {
                return true;
            }
        }
    }
    let mut corners = |of: &Shown, within: &Shown| {
        let near =
            |p: &&Point| p.x >= window.0.x && p.x <= window.1.x && p.y >= window.0.y && p.y <= window.1.y;
        let all = of.rings.iter().flat_map(|ring| &ring.points).filter(near);
        all.filter(|p| lead.at(**p).abs() > TOUCH && within.covers(**p)).any(|&p| tell(p))
    };
    corners(first, second) || corners(second, first)
}

fn reaches(&(a, b): &(Point, Point), (low, high): &(Point, Point)) -> bool {
    min(a.x, b.x) <= high.x && max(a.x, b.x) >= low.x && min(a.y, b.y) <= high.y && max(a.y, b.y) >= low.y
}

/// The point where two edges cross properly.
pub(super) fn crossing(&(a, b): &(Point, Point), &(c, d): &(Point, Point)) -> Option<Point> {
    let (ca, da) = (side(a, b, c), side(a, b, d));
    if ca * da >= 0.0 {
        return None;
    }
    let (ac, bc) = (side(c, d, a), side(c, d, b));
    (ac * bc < 0.0).then(|| a.lerp(b, ac / (ac - bc)))
}

/// Twice the area of the triangle, positive if `p` lies to the left of the line from `a` to `b`.
pub(super) fn side(a: Point, b: Point, p: Point) -> f64 {
    (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)
}
