//! Hatching (ISO 128-3): narrow lines at 45° within closed rings, and what of them other outlines leave.

use kurbo::Point;

/// Shorter stretches are not drawn, mm.
const SPECK: f64 = 0.05;

/// Lines `apart` mm from each other, rising to the right for a `slope` of 1 and falling for −1, within rings after the
/// even-odd rule.
pub(super) fn within(rings: &[Vec<Point>], slope: f64, apart: f64) -> Vec<[Point; 2]> {
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
        for ends in marks.chunks_exact(2).filter(|ends| ends[1] - ends[0] > SPECK) {
            found.push([back(ends[0], v), back(ends[1], v)]);
        }
        row += 1.0;
    }
    found
}

/// The stretches of lines that lie in none of these outlines, each taken by itself.
pub(super) fn beside(lines: &[[Point; 2]], covered: &[Vec<Point>]) -> Vec<[Point; 2]> {
    lines.iter().flat_map(|line| free(*line, covered)).collect()
}

fn crossings(ring: &[Point], v: f64) -> Vec<f64> {
    let next = ring.iter().cycle().skip(1);
    let crosses = ring.iter().zip(next).filter(|(a, b)| (a.y > v) != (b.y > v));
    crosses.map(|(a, b)| a.x + (b.x - a.x) * (v - a.y) / (b.y - a.y)).collect()
}

fn free([a, b]: [Point; 2], covered: &[Vec<Point>]) -> Vec<[Point; 2]> {
    let mut left = vec![[0.0, 1.0]];
    for outline in covered {
        let mut hits: Vec<f64> = (0..outline.len())
            .filter_map(|i| cross(a, b, outline[i], outline[(i + 1) % outline.len()]))
            .collect();
        hits.sort_by(f64::total_cmp);
        for within in hits.chunks_exact(2) {
            left = left.into_iter().flat_map(|free| without(free, [within[0], within[1]])).collect();
        }
    }
    let long = (b - a).hypot2().sqrt();
    left.retain(|[s, t]| (t - s) * long > SPECK);
    left.into_iter().map(|[s, t]| [a.lerp(b, s), a.lerp(b, t)]).collect()
}

fn without([s, t]: [f64; 2], [from, to]: [f64; 2]) -> impl Iterator<Item = [f64; 2]> {
    [[s, t.min(from)], [s.max(to), t]].into_iter().filter(|[s, t]| s < t)
}

/// How far along a–b the edge p–q crosses its line, on its way from one side to the other.
fn cross(a: Point, b: Point, p: Point, q: Point) -> Option<f64> {
    let way = b - a;
    let (s, t) = (way.cross(p - a), way.cross(q - a));
    if (s > 0.0) == (t > 0.0) {
        return None;
    }
    let at = p.lerp(q, s / (s - t));
    Some((at - a).dot(way) / way.hypot2())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn length(lines: &[[Point; 2]]) -> f64 {
        lines.iter().map(|[a, b]| (*b - *a).hypot2().sqrt()).sum()
    }

    fn rect(x0: f64, y0: f64, x1: f64, y1: f64) -> Vec<Point> {
        [(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(Point::from).to_vec()
    }

    /// Lines at 45° over a square of 10 mm with a hole of 4 mm: together as long as the area over their distance.
    #[test]
    fn lines_fill_the_ring_and_leave_the_hole() {
        for slope in [1.0, -1.0] {
            let lines = within(&[rect(0.0, 0.0, 10.0, 10.0), rect(3.0, 3.0, 7.0, 7.0)], slope, 0.1);
            assert!((length(&lines) * 0.1 / 84.0 - 1.0).abs() < 0.01, "{}", length(&lines));
            let rise = lines[9][1] - lines[9][0];
            // y runs down.
            assert!((rise.y / rise.x + slope).abs() < 1e-9);
        }
    }

    /// Outlines that lie over each other are left free once: 100 × 20 less 60 × 15, of which the second is a part.
    #[test]
    fn only_what_no_outline_covers_is_left() {
        let all = within(&[rect(0.0, 0.0, 100.0, 20.0)], 1.0, 1.0);
        assert!((length(&all) - 2000.0).abs() < 60.0);
        let some = beside(&all, &[rect(20.0, 5.0, 80.0, 20.0), rect(40.0, 5.0, 60.0, 20.0)]);
        assert!((length(&some) - 1100.0).abs() < 60.0, "{}", length(&some));
        let inside = |p: Point| p.x > 20.01 && p.x < 79.99 && p.y > 5.01;
        assert!(some.iter().all(|[a, b]| !inside(a.midpoint(*b))));
    }
}
