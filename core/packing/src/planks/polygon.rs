//! Polygons in the plane of a plank: x along it, y across.

/// A point, mm.
pub(super) type Point = [f64; 2];

/// Twice the area of the triangle a b c; above zero if it turns left.
pub(super) fn cross(a: Point, b: Point, c: Point) -> f64 {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
}

/// Signed area, mm²; above zero if it runs counter-clockwise.
pub(super) fn area(outline: &[Point]) -> f64 {
    let next = outline.iter().cycle().skip(1);
    outline.iter().zip(next).map(|(a, b)| a[0] * b[1] - b[0] * a[1]).sum::<f64>() / 2.0
}

/// Smallest and largest coordinates.
pub(super) fn bounds(outline: &[Point]) -> [Point; 2] {
    outline.iter().fold([[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]], |[low, high], p| {
        [[low[0].min(p[0]), low[1].min(p[1])], [high[0].max(p[0]), high[1].max(p[1])]]
    })
}

/// The outline counter-clockwise without points that lie on their neighbours.
pub(super) fn cleaned(outline: &[Point]) -> Vec<Point> {
    let mut points: Vec<Point> = Vec::new();
    for &p in outline {
        if points.last().is_none_or(|q| distance2(*q, p) > 1e-18) {
            points.push(p);
        }
    }
    while points.len() > 1 && distance2(points[0], points[points.len() - 1]) <= 1e-18 {
        points.pop();
    }
    if area(&points) < 0.0 {
        points.reverse();
    }
    points
}

fn distance2(a: Point, b: Point) -> f64 {
    (a[0] - b[0]) * (a[0] - b[0]) + (a[1] - b[1]) * (a[1] - b[1])
}

/// Whether two edges that are not neighbours meet.
pub(super) fn crosses_itself(outline: &[Point]) -> bool {
    let n = outline.len();
    let edge = |i: usize| (outline[i], outline[(i + 1) % n]);
    (0..n).any(|i| {
        (i + 2..n).filter(|j| (j + 1) % n != i).any(|j| {
            let ((a, b), (c, d)) = (edge(i), edge(j));
            cross(a, b, c) * cross(a, b, d) < 0.0 && cross(c, d, a) * cross(c, d, b) < 0.0
        })
    })
}

/// A simple counter-clockwise polygon with what is hollow by no more than `depth` filled up: corners that turn
/// right are left out where none of those left out in a row lies deeper behind the new side. It is never
/// smaller than it was.
pub(super) fn without_shallow_hollows(outline: &[Point], depth: f64) -> Vec<Point> {
    let n = outline.len();
    let hollow = |i: usize| cross(outline[(i + n - 1) % n], outline[i % n], outline[(i + 1) % n]) < 0.0;
    let Some(first) = (0..n).find(|&i| !hollow(i)) else { return outline.to_vec() };
    let mut kept = vec![first];
    let mut last = first;
    for i in first + 1..=first + n {
        // Whether all corners between the last one kept and the one after this may be left out.
        let (a, b) = (outline[last % n], outline[(i + 1) % n]);
        let shallow = |j: usize| {
            let along = libm::hypot(b[0] - a[0], b[1] - a[1]).max(1e-9);
            (0.0..=depth).contains(&(cross(a, b, outline[j % n]) / along))
        };
        let row = (last + 1..=i).all(|j| hollow(j) && shallow(j));
        if i < first + n && !row {
            kept.push(i);
            last = i;
        }
    }
    let points: Vec<Point> = kept.iter().map(|i| outline[i % n]).collect();
    if crosses_itself(&points) { outline.to_vec() } else { points }
}

/// Cuts a simple counter-clockwise polygon into convex ones: ears first, then neighbours joined where the
/// result stays convex (Hertel and Mehlhorn 1983: at most four times as many as needed). Nothing if it is
/// not simple.
pub(super) fn convex_parts(outline: &[Point]) -> Option<Vec<Vec<Point>>> {
    let mut parts: Vec<Vec<usize>> = triangles(outline)?.into_iter().map(|t| t.to_vec()).collect();
    while let Some((i, j, joined)) = joinable(outline, &parts) {
        parts[i] = joined;
        parts.swap_remove(j);
    }
    Some(parts.iter().map(|part| part.iter().map(|&i| outline[i]).collect()).collect())
}

fn triangles(outline: &[Point]) -> Option<Vec<[usize; 3]>> {
    let mut ring: Vec<usize> = (0..outline.len()).collect();
    let mut triangles = Vec::new();
    while ring.len() > 3 {
        let n = ring.len();
        let corner = |i: usize| [ring[(i + n - 1) % n], ring[i], ring[(i + 1) % n]];
        if let Some(flat) = (0..n).find(|&i| is_flat(outline, corner(i))) {
            ring.remove(flat);
            continue;
        }
        let ear = (0..n).find(|&i| is_ear(outline, &ring, corner(i)))?;
        triangles.push(corner(ear));
        ring.remove(ear);
    }
    if let [a, b, c] = ring[..] {
        triangles.push([a, b, c]);
    }
    Some(triangles)
}

fn is_flat(outline: &[Point], [a, b, c]: [usize; 3]) -> bool {
    cross(outline[a], outline[b], outline[c]).abs() <= 1e-12
}

fn is_ear(outline: &[Point], ring: &[usize], [a, b, c]: [usize; 3]) -> bool {
    let (p, q, r) = (outline[a], outline[b], outline[c]);
    let inside = |i: &usize| {
        let x = outline[*i];
        x != p && x != q && x != r && cross(p, q, x) >= 0.0 && cross(q, r, x) >= 0.0 && cross(r, p, x) >= 0.0
    };
    cross(p, q, r) > 0.0 && !ring.iter().any(inside)
}

/// Two parts that share an edge and are convex together.
fn joinable(outline: &[Point], parts: &[Vec<usize>]) -> Option<(usize, usize, Vec<usize>)> {
    for i in 0..parts.len() {
        for j in i + 1..parts.len() {
            if let Some(joined) = joined(&parts[i], &parts[j]).filter(|ring| is_convex(outline, ring)) {
                return Some((i, j, joined));
            }
        }
    }
    None
}

fn joined(a: &[usize], b: &[usize]) -> Option<Vec<usize>> {
    for i in 0..a.len() {
        let (from, to) = (a[i], a[(i + 1) % a.len()]);
        let Some(j) = (0..b.len()).find(|&j| b[j] == to && b[(j + 1) % b.len()] == from) else { continue };
        let mut ring: Vec<usize> = (1..=a.len()).map(|k| a[(i + k) % a.len()]).collect();
        ring.extend((2..b.len()).map(|k| b[(j + k) % b.len()]));
        return Some(ring);
    }
    None
}

fn is_convex(outline: &[Point], ring: &[usize]) -> bool {
    let n = ring.len();
    (0..n).all(|i| cross(outline[ring[i]], outline[ring[(i + 1) % n]], outline[ring[(i + 2) % n]]) >= 0.0)
}

/// The sum of two convex counter-clockwise polygons: all points a + b.
pub(super) fn sum(a: &[Point], b: &[Point]) -> Vec<Point> {
    let after = |i: usize, n: usize| if i + 1 < n { i + 1 } else { 0 };
    let (mut i, mut j) = (lowest(a), lowest(b));
    let (mut left_a, mut left_b) = (a.len(), b.len());
    let mut points = Vec::with_capacity(a.len() + b.len());
    while left_a > 0 || left_b > 0 {
        let (p, p2) = (a[i], a[after(i, a.len())]);
        let (q, q2) = (b[j], b[after(j, b.len())]);
        points.push([p[0] + q[0], p[1] + q[1]]);
        let turn = (p2[0] - p[0]) * (q2[1] - q[1]) - (p2[1] - p[1]) * (q2[0] - q[0]);
        // Edges are taken in the order of their directions; equal directions both.
        let first = left_b == 0 || (left_a > 0 && turn >= 0.0);
        let second = !first || (turn == 0.0 && left_b > 0);
        if first {
            (i, left_a) = (after(i, a.len()), left_a - 1);
        }
        if second {
            (j, left_b) = (after(j, b.len()), left_b - 1);
        }
    }
    points
}

fn lowest(ring: &[Point]) -> usize {
    (0..ring.len()).fold(0, |b, i| if (ring[i][1], ring[i][0]) < (ring[b][1], ring[b][0]) { i } else { b })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_notched_square_in_convex_parts() {
        let outline = [[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [2.0, 1.0], [0.0, 4.0]];
        let parts = convex_parts(&outline).unwrap();
        assert!((parts.iter().map(|p| area(p)).sum::<f64>() - area(&outline)).abs() < 1e-12);
        assert!(parts.len() <= 3, "{parts:?}");
    }

    #[test]
    fn a_square_and_a_triangle_added() {
        let square = [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]];
        let triangle = [[0.0, 0.0], [2.0, 0.0], [0.0, 2.0]];
        // Area of the sum is both areas and twice the mixed area: 1 + 2 + 4.
        assert!((area(&sum(&square, &triangle)) - 7.0).abs() < 1e-12);
    }

    #[test]
    fn shallow_hollows_are_filled_and_deep_ones_stay() {
        // Hollow below by 4·rise·t·(1 − t) at eleven places; above, a notch.
        let arched = |rise: f64| {
            let below =
                (0..=10).map(|i| f64::from(i) / 10.0).map(|t| [100.0 * t, 4.0 * rise * t * (1.0 - t)]);
            below.chain([[100.0, 50.0], [50.0, 30.0], [0.0, 50.0]]).collect::<Vec<Point>>()
        };
        for (rise, corners) in [(0.2, 5), (10.0, 9)] {
            let filled = without_shallow_hollows(&arched(rise), 0.5);
            let more = area(&filled) - area(&arched(rise));
            assert!(filled.len() <= corners && (0.0..50.0).contains(&more), "{rise}: {filled:?}");
            assert!(filled.contains(&[50.0, 30.0]));
        }
    }

    #[test]
    fn a_bow_tie_crosses_itself() {
        assert!(crosses_itself(&[[0.0, 0.0], [2.0, 2.0], [2.0, 0.0], [0.0, 2.0]]));
        assert!(!crosses_itself(&[[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]]));
    }
}
