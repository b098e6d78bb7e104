//! Flat outlines: from curves to corners.

use crestrail_sorting::Order as _;
use kurbo::{BezPath, PathEl, Point};

/// A corner nearer than this to the line through its neighbours is no corner, mm. A thousandth of a
/// micrometre is far below any tool and far above rounding.
const STRAIGHT: f64 = 1e-6;

/// The first closed loop of `path` as corners that stay within `tolerance` mm of the curve:
/// counter-clockwise, the first not repeated, none in the middle of a straight run.
///
/// Fewer than three corners come back when the path encloses nothing.
pub fn flatten(path: &BezPath, tolerance: f64) -> Vec<Point> {
    let mut corners: Vec<Point> = Vec::new();
    let mut closed = false;
    kurbo::flatten(path.iter(), tolerance, |element| match element {
        PathEl::MoveTo(_) if !corners.is_empty() => closed = true,
        PathEl::MoveTo(p) | PathEl::LineTo(p) if !closed => corners.push(p),
        PathEl::ClosePath => closed = true,
        _ => {}
    });
    tidy(corners)
}

/// The corners of a closed outline made fit for a prism: counter-clockwise, without repeated points
/// and without points on a straight run.
pub fn tidy(mut corners: Vec<Point>) -> Vec<Point> {
    while let Some(i) = (0..corners.len()).find(|&i| is_idle(&corners, i)) {
        corners.remove(i);
    }
    if corners.len() < 3 {
        return Vec::new();
    }
    if signed_area(&corners) < 0.0 {
        corners.reverse();
    }
    corners
}

/// Area inside a closed outline, positive when it runs counter-clockwise; mm².
pub fn signed_area(corners: &[Point]) -> f64 {
    let Some((&base, rest)) = corners.split_first() else { return 0.0 };
    rest.windows(2).map(|w| (w[0] - base).cross(w[1] - base)).sum::<f64>() * 0.5
}

/// A corner of a hull that stands out by less than this is no corner: twice the area of its triangle, mm².
const HARDLY_OUT: f64 = 1e-9;

/// The corners of the smallest convex outline around points, counter-clockwise (Andrew's monotone chain, 1979).
pub fn hull(mut points: Vec<Point>) -> Vec<Point> {
    points.order_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let half = |points: &mut dyn Iterator<Item = Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for p in points {
            while let [.., a, b] = chain[..]
                && (b - a).cross(p - a) <= HARDLY_OUT
            {
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut around = half(&mut points.iter().copied());
    around.extend(half(&mut points.iter().rev().copied()));
    around
}

fn is_idle(corners: &[Point], i: usize) -> bool {
    let n = corners.len();
    let (before, here, after) = (corners[(i + n - 1) % n], corners[i], corners[(i + 1) % n]);
    let chord = after - before;
    let (off, long) = ((here - before).cross(chord).abs(), chord.hypot2().sqrt());
    (here - before).hypot2() < STRAIGHT * STRAIGHT || off <= STRAIGHT * long
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{Circle, Shape};

    #[test]
    fn circle_is_flattened_within_tolerance() {
        let circle = Circle::new((10.0, 20.0), 8.0);
        let corners = flatten(&circle.to_path(1e-6), 0.05);
        assert!(corners.len() > 8 && signed_area(&corners) > 0.0);
        for (i, p) in corners.iter().enumerate() {
            let next = corners[(i + 1) % corners.len()];
            let middle = p.midpoint(next);
            assert!((middle - circle.center).hypot2().sqrt() > 8.0 - 0.05);
            assert!(((*p - circle.center).hypot2().sqrt() - 8.0).abs() < 1e-4);
        }
    }

    #[test]
    fn a_hull_drops_what_lies_within() {
        let points = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0), (2.0, 1.0), (2.0, 0.0)];
        let around = hull(points.map(Point::from).to_vec());
        assert_eq!(around.len(), 4);
        assert!((signed_area(&around) - 12.0).abs() < 1e-12);
    }

    #[test]
    fn idle_and_repeated_points_vanish_and_clockwise_is_turned() {
        let raw = [(0.0, 0.0), (0.0, 5.0), (0.0, 9.0), (9.0, 9.0), (9.0, 9.0), (9.0, 0.0), (0.0, 0.0)];
        let tidied = tidy(raw.map(Point::from).to_vec());
        assert_eq!(tidied.len(), 4);
        assert_eq!(signed_area(&tidied), 81.0);
        assert!(tidy(vec![Point::ZERO, Point::new(1.0, 1.0), Point::new(2.0, 2.0)]).is_empty());
    }
}
