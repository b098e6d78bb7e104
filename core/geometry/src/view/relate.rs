//! Which of two faces must be painted first: quick answers, which may ask for an order where the
//! faces only seem to overlap, and the exact answer where the quick ones fail.

use super::flat::{Shown, Slope};
use super::meet::{Meet, TOUCH, lead, meet};
use super::near::Near;
use crate::math::{max, min};
use crestrail_sorting::Order as _;
use kurbo::Point;

/// What must hold between two faces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Relation {
    /// The first must not be painted before the second.
    pub(super) over: bool,
    /// The first must not be painted after the second.
    pub(super) under: bool,
    /// Both flags come from actual common points.
    pub(super) proven: bool,
}

impl Relation {
    const NONE: Self = Self { over: false, under: false, proven: true };
}

/// Relation of two faces whose bounds overlap.
pub(super) fn relate(first: &Shown, second: &Shown) -> Relation {
    quick(first, second).unwrap_or_else(|| exact(first, second))
}

/// The same, where planes and bounds tell it.
pub(super) fn quick(first: &Shown, second: &Shown) -> Option<Relation> {
    let lead = lead(first, second);
    let window = first.bounds.common(&second.bounds);
    let narrow = |range: (f64, f64), next: (f64, f64)| (max(range.0, next.0), min(range.1, next.1));
    // The lead over the common ground lies within each of these three ranges.
    let mut range = corner_range(&lead, &window);
    for face in [first, second] {
        if decided(range) {
            break;
        }
        range = narrow(range, lead.range(face.outer()));
    }
    match (range.1 > TOUCH, range.0 < -TOUCH) {
        (false, false) => Some(Relation::NONE),
        (true, true) => None,
        (over, under) => Some(Relation { over, under, proven: false }),
    }
}

/// Whether the lead over common ground, which lies within the range over either face, is surely none.
pub(super) fn touch_at_most(first: &Shown, second: &Shown) -> bool {
    let lead = lead(first, second);
    let ((low, high), (lowest, highest)) = (lead.range(first.outer()), lead.range(second.outer()));
    max(low, lowest) >= -TOUCH && min(high, highest) <= TOUCH
}

/// Relation from actual common points only.
pub(super) fn exact(first: &Shown, second: &Shown) -> Relation {
    let Meet { over, under } = meet(first, second);
    Relation { over: over.is_some(), under: under.is_some(), proven: true }
}

fn decided((low, high): (f64, f64)) -> bool {
    low >= -TOUCH || high <= TOUCH
}

fn corner_range(lead: &Slope, (low, high): &(Point, Point)) -> (f64, f64) {
    lead.range(&[*low, *high, Point::new(low.x, high.y), Point::new(high.x, low.y)])
}

/// Pairs of faces whose bounds overlap, each once, in a fixed order.
pub(super) fn near_pairs(faces: &[Shown], mut each: impl FnMut(usize, usize)) {
    let mut order: Vec<usize> = (0..faces.len()).collect();
    order.order_by(|&a, &b| faces[a].bounds.low[0].total_cmp(&faces[b].bounds.low[0]).then(a.cmp(&b)));
    let near = Near::of(order.iter().map(|&at| faces[at].bounds).collect());
    for (rank, &at) in order.iter().enumerate() {
        near.each(&faces[at].bounds, rank, |other| each(order[other], at));
    }
}
