//! Where two flat faces cover common ground in the picture, and which of them is nearer there.

use super::flat::{Shown, Slope};
use kurbo::Point;

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
    first.slope.above(&second.slope).scaled(first.facing.min(second.facing))
}

/// Compares two faces at every corner of their common ground. Nearness is linear there, so its
/// extremes lie at corners: crossings of edges, and corners of one face within the other.
pub(super) fn meet(first: &Shown, second: &Shown) -> Meet {
    let lead = lead(first, second);
    let window = first.bounds.common(&second.bounds);
    let mut found = Meet::default();
    let others: Vec<(Point, Point)> = second.segments().filter(|s| reaches(s, &window)).collect();
    for own in first.segments().filter(|s| reaches(s, &window)) {
        for crossing in others.iter().filter_map(|other| crossing(&own, other)) {
            if found.note(crossing, &lead) {
                return found;
            }
        }
    }
    let _ = found.note_corners(first, second, &lead, &window)
        || found.note_corners(second, first, &lead, &window);
    found
}

impl Meet {
    /// Takes a common point in; true once both orders have been seen.
    fn note(&mut self, p: Point, lead: &Slope) -> bool {
        let value = lead.at(p);
        if value > TOUCH {
            self.over.get_or_insert(p);
        } else if value < -TOUCH {
            self.under.get_or_insert(p);
        }
        self.over.is_some() && self.under.is_some()
    }

    fn note_corners(&mut self, of: &Shown, within: &Shown, lead: &Slope, window: &(Point, Point)) -> bool {
        (of.rings.iter().flat_map(|r| &r.points))
            .filter(|p| p.x >= window.0.x && p.x <= window.1.x && p.y >= window.0.y && p.y <= window.1.y)
            .any(|&p| lead.at(p).abs() > TOUCH && within.covers(p) && self.note(p, lead))
    }
}

fn reaches(&(a, b): &(Point, Point), (low, high): &(Point, Point)) -> bool {
    a.x.min(b.x) <= high.x && a.x.max(b.x) >= low.x && a.y.min(b.y) <= high.y && a.y.max(b.y) >= low.y
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
