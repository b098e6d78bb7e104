//! Hatching (ISO 128-3): narrow lines at 45° within closed rings.

use super::super::pens;
use crestrail_sheet::Trace;
use kurbo::Point;

/// Lines `apart` mm from each other, rising to the right for a `slope` of 1 and falling for −1, within rings after the
/// even-odd rule.
pub(super) fn lines(rings: &[Vec<Point>], slope: f64, apart: f64) -> Vec<Trace> {
    // Along u the lines run, across them v counts; y runs down.
    let root = core::f64::consts::FRAC_1_SQRT_2;
    let turned = |p: Point| Point::new((p.x - slope * p.y) * root, (slope * p.x + p.y) * root);
    let back = |u: f64, v: f64| Point::new((u + slope * v) * root, (v - slope * u) * root);
    let rings: Vec<Vec<Point>> = rings.iter().map(|ring| ring.iter().map(|&p| turned(p)).collect()).collect();
    let all = || rings.iter().flatten().map(|p| p.y);
    let (Some(low), Some(high)) = (all().reduce(f64::min), all().reduce(f64::max)) else { return Vec::new() };
    let mut found = Vec::new();
    let mut row = (low / apart).floor() + 0.5;
    while row * apart < high {
        let v = row * apart;
        let mut marks: Vec<f64> = rings.iter().flat_map(|ring| crossings(ring, v)).collect();
        marks.sort_by(f64::total_cmp);
        for ends in marks.chunks_exact(2).filter(|ends| ends[1] - ends[0] > 0.05) {
            found.push(pens::open(&[back(ends[0], v), back(ends[1], v)]));
        }
        row += 1.0;
    }
    found
}

fn crossings(ring: &[Point], v: f64) -> Vec<f64> {
    let next = ring.iter().cycle().skip(1);
    let crosses = ring.iter().zip(next).filter(|(a, b)| (a.y > v) != (b.y > v));
    crosses.map(|(a, b)| a.x + (b.x - a.x) * (v - a.y) / (b.y - a.y)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Lines at 45° over a square of 10 mm with a hole of 4 mm: together as long as the area over their distance.
    #[test]
    fn lines_fill_the_ring_and_leave_the_hole() {
        let square = |low: f64, high: f64| {
            [(low, low), (high, low), (high, high), (low, high)].map(Point::from).to_vec()
        };
        for slope in [1.0, -1.0] {
            let lines = lines(&[square(0.0, 10.0), square(3.0, 7.0)], slope, 0.1);
            let length: f64 = lines.iter().map(|l| (l.points[1] - l.points[0]).hypot2().sqrt()).sum();
            assert!((length * 0.1 / 84.0 - 1.0).abs() < 0.01, "{length}");
            let rise = lines[9].points[1] - lines[9].points[0];
            // y runs down.
            assert!((rise.y / rise.x + slope).abs() < 1e-9);
        }
    }
}
