//! Polygons clipped by half-planes.

use crate::polygon::{Corners, HalfPlane, NEAR, Polygon, bounds_of};
use crestrail_sorting::Order as _;
use kurbo::{Point, Rect, Vec2};

/// Clips a convex polygon by one half-plane after another.
pub(crate) struct Clipper {
    polygon: Polygon,
    spare: Corners,
    touched: bool,
}

impl Clipper {
    pub(crate) fn new(polygon: Polygon) -> Self {
        Self { polygon, spare: Corners::new(), touched: false }
    }

    /// The bounds of what is left.
    pub(crate) fn bounds(&self) -> &Rect {
        &self.polygon.bounds
    }

    /// Takes away what is outside; false if nothing is left.
    pub(crate) fn cut(&mut self, half: &HalfPlane) -> bool {
        let (least, most) = half.distance_range(&self.polygon.bounds);
        if most <= NEAR {
            return true;
        }
        if least >= -NEAR {
            return false;
        }
        if clip_convex(&self.polygon.points, half, &mut self.spare) {
            core::mem::swap(&mut self.polygon.points, &mut self.spare);
            self.polygon.bounds = bounds_of(&self.polygon.points);
            self.touched = true;
        }
        self.polygon.points.len() > 2
    }

    /// What is left, unless it is too thin.
    pub(crate) fn finish(self) -> Option<Polygon> {
        (!self.touched || self.polygon.is_real()).then_some(self.polygon)
    }
}

fn between(a: Point, da: f64, b: Point, db: f64) -> Point {
    a.lerp(b, da / (da - db))
}

/// Clips a convex polygon into `kept`; false, and nothing done, if all of it is inside.
fn clip_convex(points: &[Point], half: &HalfPlane, kept: &mut Corners) -> bool {
    kept.clear();
    let Some(&last) = points.last() else { return false };
    let (mut a, mut d) = (last, half.distance(last));
    let mut whole = true;
    for &b in points {
        let e = half.distance(b);
        if d * e < 0.0 {
            kept.push(between(a, d, b, e));
        }
        if e <= 0.0 {
            kept.push(b);
        } else {
            whole = false;
        }
        (a, d) = (b, e);
    }
    !whole
}

/// Clips a polygon of any form. Corners on the line count as outside, as if the line had moved in by
/// a hair: then every crossing is clean, and the crossings in order along the line alternately enter
/// and leave the polygon.
pub(crate) fn clip_any(points: &[Point], distances: &[f64], half: &HalfPlane) -> Vec<Corners> {
    let crossings = crossings(points, distances, half);
    let partner = pair(&crossings);
    let mut used = vec![false; crossings.len()];
    let mut loops = Vec::new();
    for start in 0..crossings.len() {
        if used[start] || crossings[start].leaves {
            continue;
        }
        let mut ring = Corners::new();
        let mut at = start;
        // In at a crossing, along the boundary to the way out, along the line to its partner.
        while !used[at] {
            used[at] = true;
            ring.push(crossings[at].point);
            let (out, between) = run(&crossings, at, points.len());
            ring.extend(between.map(|i| points[i % points.len()]));
            used[out] = true;
            ring.push(crossings[out].point);
            at = partner[out];
        }
        ring.dedup();
        while ring.len() > 1 && ring.first() == ring.last() {
            ring.pop();
        }
        loops.push(ring);
    }
    loops
}

struct Crossing {
    /// The edge it is on, by its first corner.
    edge: usize,
    point: Point,
    /// Position along the line, with the inside to the left.
    along: f64,
    leaves: bool,
}

fn crossings(points: &[Point], distances: &[f64], half: &HalfPlane) -> Vec<Crossing> {
    let n = points.len();
    let line = Vec2::new(-half.normal.y, half.normal.x);
    let mut found = Vec::new();
    for edge in 0..n {
        let next = (edge + 1) % n;
        let (d, e) = (distances[edge], distances[next]);
        if (d < 0.0) == (e < 0.0) {
            continue;
        }
        let point = if d == 0.0 {
            points[edge]
        } else if e == 0.0 {
            points[next]
        } else {
            between(points[edge], d, points[next], e)
        };
        found.push(Crossing { edge, point, along: line.dot(point.to_vec2()), leaves: d < 0.0 });
    }
    found
}

/// For each crossing that leaves the half-plane, the one where its boundary comes back in.
/// Along the line a leaving crossing begins a stretch inside the polygon (which runs
/// counter-clockwise), a returning one ends it; at equal places the alternation decides.
fn pair(crossings: &[Crossing]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..crossings.len()).collect();
    order.order_by(|&a, &b| crossings[a].along.total_cmp(&crossings[b].along).then(a.cmp(&b)));
    let mut partner = vec![0; crossings.len()];
    for k in (0..order.len()).step_by(2) {
        for (seat, begins) in [(k, true), (k + 1, false)] {
            if let Some(found) = (seat..order.len()).find(|&i| crossings[order[i]].leaves == begins) {
                order[seat..=found].rotate_right(1);
            }
        }
        if let Some(&end) = order.get(k + 1) {
            partner[order[k]] = end;
            partner[end] = order[k];
        }
    }
    partner
}

/// The next crossing along the boundary after `at`, and the corners between.
fn run(crossings: &[Crossing], at: usize, corners: usize) -> (usize, core::ops::Range<usize>) {
    let out = (at + 1) % crossings.len();
    let first = crossings[at].edge + 1;
    let last = crossings[out].edge + 1;
    (out, first..if last >= first && out != at { last } else { last + corners })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::outline::signed_area;
    use crate::polygon::tests::comb;

    fn area(parts: &[Polygon]) -> f64 {
        parts.iter().map(|p| signed_area(&p.points)).sum()
    }

    fn upwards(y: f64, above: bool) -> HalfPlane {
        let s = if above { -1.0 } else { 1.0 };
        HalfPlane { normal: Vec2::new(0.0, s), offset: s * y }
    }

    #[test]
    fn comb_is_cut_into_teeth() {
        let mut teeth = Vec::new();
        comb().clipped(&upwards(2.0, true), &mut teeth);
        assert_eq!((teeth.len(), area(&teeth)), (3, 3.0));
        let mut rest = Vec::new();
        comb().clipped(&upwards(2.0, false), &mut rest);
        assert_eq!((rest.len(), area(&rest)), (1, 8.0));
    }

    #[test]
    fn line_through_corners_and_edges_is_clean() {
        let mut teeth = Vec::new();
        comb().clipped(&upwards(1.0, true), &mut teeth);
        assert_eq!((teeth.len(), area(&teeth)), (3, 6.0));
        assert!(teeth.iter().all(|t| t.points.len() == 4));
        let mut bar = Vec::new();
        comb().clipped(&upwards(1.0, false), &mut bar);
        assert_eq!((bar.len(), area(&bar)), (1, 5.0));
        let mut none = Vec::new();
        comb().clipped(&upwards(3.0, true), &mut none);
        assert!(none.is_empty());
    }

    #[test]
    fn slanted_cut_keeps_the_area() {
        let slant = Vec2::new(0.6, 0.8);
        for offset in [0.3, 1.0, 1.7, 2.6, 3.4, 4.1, 5.0] {
            let (mut one, mut other) = (Vec::new(), Vec::new());
            comb().clipped(&HalfPlane { normal: slant, offset }, &mut one);
            comb().clipped(&HalfPlane { normal: -slant, offset: -offset }, &mut other);
            assert!((area(&one) + area(&other) - 11.0).abs() < 1e-9, "{offset}");
            assert!(area(&one) < 11.0 && area(&other) < 11.0);
        }
    }
}
