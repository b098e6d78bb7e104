//! Hatching of waste: of the blank, what is cut away.

use kurbo::{Point, Rect};

/// Lines at 45° across `rect`, `apart` from each other, where none of the outlines covers it.
pub(super) fn hatch(rect: Rect, covered: &[Vec<Point>], apart: f64) -> Vec<[Point; 2]> {
    let step = apart * core::f64::consts::SQRT_2;
    let count = ((rect.width() + rect.height()) / step).floor() as usize;
    let lines = (1..=count).map(|i| {
        // x + y of the line, from the upper left corner.
        let sum = i as f64 * step;
        let (from, to) = ((sum - rect.height()).max(0.0), sum.min(rect.width()));
        let at = |x: f64| Point::new(rect.x0 + x, rect.y0 + sum - x);
        [at(from), at(to)]
    });
    lines.flat_map(|line| free(line, covered)).collect()
}

/// The stretches of a line that lie in none of the outlines.
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

/// Shorter stretches are not drawn, mm.
const SPECK: f64 = 0.3;

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

    /// Lines at a distance d cover about area / d.
    #[test]
    fn only_waste_is_hatched() {
        let rect = Rect::new(0.0, 0.0, 100.0, 20.0);
        let inner = [(20.0, 5.0), (80.0, 5.0), (80.0, 20.0), (20.0, 20.0)].map(Point::from).to_vec();
        let all = length(&hatch(rect, &[], 1.0));
        assert!((all - 2000.0).abs() < 60.0, "{all}");
        let some = hatch(rect, std::slice::from_ref(&inner), 1.0);
        assert!((length(&some) - 1100.0).abs() < 60.0);
        let inside = |p: Point| p.x > 20.01 && p.x < 79.99 && p.y > 5.01;
        assert!(some.iter().all(|[a, b]| !inside(a.midpoint(*b))));
    }
}
