//! How high a shape with half a kerf round it is along its length.
//!
//! The shape grown by a disc is the union of its convex parts grown; here by a polygon *within* the disc, so
//! that nothing is counted that is not there. Between the corners of the parts and the crossings of their
//! sides the pieces of an upright line that lie inside change linearly.

use super::polygon::{Point, bounds, sum};
use crestrail_sorting::Order as _;

/// Part of the length in which the upright pieces change linearly.
#[derive(Clone, Debug)]
pub(super) struct Strip {
    pub(super) from: f64,
    pub(super) to: f64,
    /// Lengths of the pieces inside, at both ends of the part.
    pub(super) spans: Vec<[f64; 2]>,
}

impl Strip {
    /// Lengths not above those anywhere between two places of the part.
    pub(super) fn least(&self, from: f64, to: f64) -> impl Iterator<Item = f64> {
        let width = (self.to - self.from).max(f64::MIN_POSITIVE);
        let at = move |x: f64| ((x - self.from) / width).clamp(0.0, 1.0);
        let ends = [at(from), at(to)];
        self.spans.iter().map(move |[a, b]| {
            let value = |share: f64| a + (b - a) * share;
            value(ends[0]).min(value(ends[1])).max(0.0)
        })
    }

    fn area(&self) -> f64 {
        (self.to - self.from) * self.spans.iter().map(|[a, b]| (a + b) / 2.0).sum::<f64>()
    }
}

/// Corners of the polygon within the disc; some lie on both axes, so that it is as long and high as the disc.
const CORNERS: u32 = 24;

/// The parts of the length of convex parts grown by a disc, from the left.
pub(super) fn profile(parts: &[Vec<Point>], radius: f64) -> Vec<Strip> {
    let grown: Vec<Vec<Point>> = parts.iter().map(|part| grow(part, radius)).collect();
    let spans: Vec<[f64; 2]> = grown.iter().map(|g| bounds(g)).map(|[low, high]| [low[0], high[0]]).collect();
    let corners: Vec<f64> = sorted(grown.iter().flatten().map(|p| p[0]).collect());
    let mut strips = Vec::new();
    for pair in corners.windows(2) {
        let middle = (pair[0] + pair[1]) / 2.0;
        let sides: Vec<Side> = (grown.iter().zip(&spans))
            .filter(|(_, span)| span[0] <= middle && middle <= span[1])
            .map(|(part, _)| Side::of(part, pair[0], pair[1]))
            .collect();
        let cuts = crossings(&sides).into_iter().map(|t| pair[0] + (pair[1] - pair[0]) * t);
        let places = sorted([pair[0], pair[1]].into_iter().chain(cuts).collect());
        let share = |x: f64| (x - pair[0]) / (pair[1] - pair[0]);
        for part in places.windows(2) {
            let spans = united(&sides, share(part[0]), share(part[1]));
            strips.push(Strip { from: part[0], to: part[1], spans });
        }
    }
    strips
}

/// Area of all parts of the length.
pub(super) fn area(strips: &[Strip]) -> f64 {
    strips.iter().map(Strip::area).sum()
}

fn grow(part: &[Point], radius: f64) -> Vec<Point> {
    if radius <= 0.0 {
        return part.to_vec();
    }
    let step = core::f64::consts::TAU / f64::from(CORNERS);
    let corner = |i| {
        let (sin, cos) = libm::sincos(f64::from(i) * step);
        [radius * cos, radius * sin]
    };
    sum(part, &(0..CORNERS).map(corner).collect::<Vec<Point>>())
}

fn sorted(mut places: Vec<f64>) -> Vec<f64> {
    places.sort_by(f64::total_cmp);
    places.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    places
}

/// Lower and upper side of one grown part between two places without corners: heights at both.
#[derive(Clone, Copy, Debug)]
struct Side {
    low: [f64; 2],
    high: [f64; 2],
}

impl Side {
    fn of(part: &[Point], from: f64, to: f64) -> Self {
        // Just inside, so that an upright side at the very place does not count.
        let inset = (to - from) * 1e-6;
        let ([a, b], [c, d]) = (slice(part, from + inset), slice(part, to - inset));
        Self { low: [a, c], high: [b, d] }
    }
}

/// Lowest and highest point of a convex polygon at x.
fn slice(part: &[Point], x: f64) -> [f64; 2] {
    let mut range = [f64::INFINITY, f64::NEG_INFINITY];
    let mut p = part[part.len() - 1];
    for &q in part {
        if (p[0] <= x) != (q[0] <= x) {
            let y = p[1] + (q[1] - p[1]) * (x - p[0]) / (q[0] - p[0]);
            range = [range[0].min(y), range[1].max(y)];
        }
        p = q;
    }
    range
}

/// Where sides cross, as shares of the way between both places.
fn crossings(sides: &[Side]) -> Vec<f64> {
    let lines: Vec<[f64; 2]> = sides.iter().flat_map(|s| [s.low, s.high]).collect();
    let mut list = Vec::new();
    for (i, a) in lines.iter().enumerate() {
        for b in &lines[i + 1..] {
            let (first, last) = (a[0] - b[0], a[1] - b[1]);
            if first * last < 0.0 {
                list.push(first / (first - last));
            }
        }
    }
    list
}

/// Lengths of what the parts cover together, at two places between which no sides cross.
fn united(sides: &[Side], from: f64, to: f64) -> Vec<[f64; 2]> {
    let at = |line: [f64; 2], share: f64| line[0] + (line[1] - line[0]) * share;
    let middle = (from + to) / 2.0;
    let mut order: Vec<Side> = sides
        .iter()
        .filter(|s| at(s.low, middle).is_finite() && at(s.high, middle) > at(s.low, middle))
        .copied()
        .collect();
    order.order_by(|a, b| at(a.low, middle).total_cmp(&at(b.low, middle)));
    let mut covered: Vec<Side> = Vec::new();
    for side in order {
        match covered.last_mut() {
            Some(last) if at(side.low, middle) <= at(last.high, middle) => {
                if at(side.high, middle) > at(last.high, middle) {
                    last.high = side.high;
                }
            }
            _ => covered.push(side),
        }
    }
    covered.iter().map(|c| [from, to].map(|share| at(c.high, share) - at(c.low, share))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::planks::polygon::convex_parts;

    #[test]
    fn an_angle_has_the_area_that_is_worked_out_by_hand() {
        // An angle of two limbs 10 wide and 40 long outside.
        let angle = [[0.0, 0.0], [40.0, 0.0], [40.0, 10.0], [10.0, 10.0], [10.0, 40.0], [0.0, 40.0]];
        let parts = convex_parts(&angle).unwrap();
        assert!((area(&profile(&parts, 0.0)) - 700.0).abs() < 1e-3);
        // Grown by 2: sides 160 · 2, five corners of a quarter disc, the inner corner counted twice.
        let grown = 700.0 + 320.0 + 5.0 * core::f64::consts::PI - 4.0;
        let found = area(&profile(&parts, 2.0));
        assert!(found <= grown && found > grown - 0.5, "{found} is not {grown}");
    }

    #[test]
    fn a_fork_has_two_heights() {
        let fork = [
            [0.0, 0.0],
            [30.0, 0.0],
            [30.0, 10.0],
            [10.0, 10.0],
            [10.0, 20.0],
            [30.0, 20.0],
            [30.0, 30.0],
            [0.0, 30.0],
        ];
        let strips = profile(&convex_parts(&fork).unwrap(), 1.0);
        let at = |x: f64| strips.iter().find(|s| s.from <= x && x <= s.to).unwrap().spans.clone();
        assert_eq!((at(5.0).len(), at(20.0).len()), (1, 2));
        assert!((at(20.0)[0][0] - 12.0).abs() < 1e-4 && (at(5.0)[0][0] - 32.0).abs() < 1e-4);
    }
}
