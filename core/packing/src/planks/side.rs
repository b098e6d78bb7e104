//! One side of a convex region, told along an axis from left to right.

use super::polygon::Point;

/// Stretches of a side; most hold one corner or none, so that its height is found at once.
const STRETCHES: usize = 16;

/// A side: its corners, and where among them to look for a place.
#[derive(Clone, Debug)]
pub(super) struct Side {
    points: Vec<Point>,
    per_mm: f64,
    /// For each stretch how many corners lie before it.
    before: [u16; STRETCHES],
}

impl Side {
    /// The side of a convex counter-clockwise polygon that runs to the right (the lower one), or, with a sign of
    /// -1, the one that runs to the left (the upper one).
    pub(super) fn of(points: &[Point], sign: f64) -> Self {
        let points = corners(points, sign);
        let length = points.last().map_or(0.0, |last| last[0] - points[0][0]);
        let per_mm = STRETCHES as f64 / length.max(f64::MIN_POSITIVE);
        let mut side = Self { points, per_mm, before: [0; STRETCHES] };
        // First how many lie in the stretch before each.
        for i in 0..side.points.len() {
            let next = side.stretch(side.points[i][0]) + 1;
            if next < STRETCHES {
                side.before[next] += 1;
            }
        }
        for stretch in 1..STRETCHES {
            side.before[stretch] += side.before[stretch - 1];
        }
        side
    }

    fn stretch(&self, x: f64) -> usize {
        (((x - self.points[0][0]) * self.per_mm) as usize).min(STRETCHES - 1)
    }

    /// Its height at x.
    pub(super) fn height(&self, x: f64) -> f64 {
        let last = self.points.len() - 1;
        let mut after = usize::from(self.before[self.stretch(x)]);
        while after < last && self.points[after][0] <= x {
            after += 1;
        }
        let after = after.max(1);
        let (p, q) = (self.points[after - 1], self.points[after]);
        p[1] + (q[1] - p[1]) * (x - p[0]) / (q[0] - p[0])
    }
}

fn corners(points: &[Point], sign: f64) -> Vec<Point> {
    let n = points.len();
    let after = |i: usize| if i + 1 < n { i + 1 } else { 0 };
    let runs = |i: usize| sign * (points[after(i)][0] - points[i][0]) > 0.0;
    // The first corner of the side: what comes before it does not run this way.
    let mut ran = runs(n - 1);
    let first = (0..n).find(|&i| {
        let before = std::mem::replace(&mut ran, runs(i));
        ran && !before
    });
    let Some(first) = first else { return Vec::new() };
    let mut list = Vec::with_capacity(n);
    let mut i = first;
    list.push(points[i]);
    while runs(i) && list.len() <= n {
        i = after(i);
        list.push(points[i]);
    }
    if sign < 0.0 {
        list.reverse();
    }
    list
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heights_are_those_between_the_corners_beside() {
        let ring: Vec<Point> = (0..40)
            .map(|i| libm::sincos(f64::from(i) * core::f64::consts::TAU / 40.0))
            .map(|(sin, cos)| [if cos > 0.0 { 100.0 + cos } else { cos }, 3.0 * sin])
            .collect();
        let (below, above) = (Side::of(&ring, 1.0), Side::of(&ring, -1.0));
        for i in 0..=1000 {
            let x = -1.0 + 102.0 * f64::from(i) / 1000.0;
            for side in [&below, &above] {
                let after = side.points.partition_point(|p| p[0] <= x).clamp(1, side.points.len() - 1);
                let (p, q) = (side.points[after - 1], side.points[after]);
                assert_eq!(side.height(x), p[1] + (q[1] - p[1]) * (x - p[0]) / (q[0] - p[0]));
            }
            assert!(below.height(x) <= above.height(x));
        }
    }
}
