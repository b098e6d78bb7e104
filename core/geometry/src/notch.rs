//! A polygon less a part of it that lies along its rim.

use crate::outline::signed_area;
use crate::piece::is_convex;
use crate::polygon::{Corners, NEAR, Polygon};
use crestrail_sorting::Order as _;
use kurbo::Point;
use smallvec::SmallVec;

/// Where a point lies on a rim: the edge by its first corner, and how far along it, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Seat {
    edge: usize,
    along: f64,
}

/// What is left of `whole` without `part`, which lies inside it and along some of its rim. `None` when
/// that is not so clear: the part is an island, or touches the rim with a mere corner.
///
/// The part's rim falls into runs along the whole's rim and runs across the inside. Each run across
/// cuts off one remainder: back along the run, and on along the whole's rim.
pub(crate) fn notched(whole: &Polygon, part: &Polygon) -> Option<SmallVec<[Polygon; 2]>> {
    let points = split_at_corners(part, whole);
    let n = points.len();
    let seats: SmallVec<[Option<Seat>; 8]> = points.iter().map(|&p| seat(whole, p)).collect();
    let on_rim = |i: usize| {
        let (a, b) = (points[i], points[(i + 1) % n]);
        seats[i].is_some() && seats[(i + 1) % n].is_some() && seat(whole, a.midpoint(b)).is_some()
    };
    let rim: SmallVec<[bool; 8]> = (0..n).map(on_rim).collect();
    let Some(first) = (0..n).find(|&i| !rim[i] && rim[(i + n - 1) % n]) else {
        return rim.iter().all(|&r| r).then(SmallVec::new);
    };
    let mut left = SmallVec::new();
    let mut i = first;
    while i < first + n {
        let mut end = i;
        while !rim[end % n] {
            end += 1;
            if !rim[end % n] && seats[end % n].is_some() {
                return None;
            }
        }
        if end > i {
            let across: Corners = (i..=end).map(|k| points[k % n]).collect();
            left.push(remainder(whole, &across, seats[i % n]?, seats[end % n]?));
        }
        i = end + 1;
    }
    left.retain(|p: &mut Polygon| p.is_real());
    adds_up(whole, part, &left).then_some(left)
}

/// Whether the areas agree. They do not where the rim touches itself, which the walk cannot tell.
fn adds_up(whole: &Polygon, part: &Polygon, left: &[Polygon]) -> bool {
    let area = |p: &Polygon| signed_area(&p.points);
    let missing = area(whole) - area(part) - left.iter().map(area).sum::<f64>();
    missing.abs() <= 4.0 * NEAR * (whole.bounds.width() + whole.bounds.height())
}

/// The corners of `part`, and those of `whole` that lie within its edges.
fn split_at_corners(part: &Polygon, whole: &Polygon) -> Corners {
    let mut points = Corners::new();
    for (a, b) in part.edges() {
        points.push(a);
        let step = b - a;
        let length = step.hypot2().sqrt();
        let mut within: SmallVec<[(f64, Point); 4]> = SmallVec::new();
        for &corner in &whole.points {
            let along = step.dot(corner - a) / length;
            let off = step.cross(corner - a) / length;
            if off.abs() <= 2.0 * NEAR && along > 2.0 * NEAR && along < length - 2.0 * NEAR {
                within.push((along, corner));
            }
        }
        within.order_by(|x, y| x.0.total_cmp(&y.0));
        points.extend(within.into_iter().map(|(_, corner)| corner));
    }
    points
}

/// The ring along the rim of `whole` from the start of `across` to its end, and back.
fn remainder(whole: &Polygon, across: &[Point], start: Seat, end: Seat) -> Polygon {
    let n = whole.points.len();
    let behind = end.edge < start.edge || (end.edge == start.edge && end.along < start.along);
    let last = if behind { end.edge + n } else { end.edge };
    let mut points = Corners::new();
    points.push(across[0]);
    points.extend((start.edge + 1..=last).map(|k| whole.points[k % n]));
    points.extend(across[1..].iter().rev().copied());
    let far = |a: Point, b: Point| (a - b).hypot2() > NEAR * NEAR;
    let kept = (0..points.len()).filter(|&k| far(points[k], points[(k + 1) % points.len()]));
    let kept: Corners = kept.map(|k| points[k]).collect();
    let convex = is_convex(&kept);
    let mut left = Polygon::new(kept, convex);
    left.coarse = whole.coarse;
    left
}

/// The place of `p` on the rim; a corner counts to the edge that it begins.
fn seat(whole: &Polygon, p: Point) -> Option<Seat> {
    let on = |(edge, (a, b)): (usize, (Point, Point))| {
        let step = b - a;
        let length = step.hypot2().sqrt();
        let along = step.dot(p - a) / length;
        let off = step.cross(p - a) / length;
        (off.abs() <= 2.0 * NEAR && along > -2.0 * NEAR && along < length - 2.0 * NEAR)
            .then_some(Seat { edge, along: along.max(0.0) })
    };
    whole.edges().enumerate().find_map(on)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn polygon(points: &[(f64, f64)]) -> Polygon {
        Polygon::new(points.iter().map(|&p| Point::from(p)).collect::<Corners>(), false)
    }

    fn areas(parts: &[Polygon]) -> Vec<f64> {
        parts.iter().map(|p| signed_area(&p.points)).collect()
    }

    fn square() -> Polygon {
        polygon(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)])
    }

    #[test]
    fn band_leaves_both_sides() {
        let band = polygon(&[(4.0, 0.0), (6.0, 0.0), (7.0, 10.0), (5.0, 10.0)]);
        let left = notched(&square(), &band).unwrap();
        assert_eq!(areas(&left).iter().sum::<f64>(), 80.0);
        assert_eq!(left.len(), 2);
    }

    #[test]
    fn bite_corner_and_half() {
        let bite = polygon(&[(4.0, 0.0), (6.0, 0.0), (6.0, 3.0), (4.0, 3.0)]);
        assert_eq!(areas(&notched(&square(), &bite).unwrap()), [94.0]);
        let corner = polygon(&[(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)]);
        let left = notched(&square(), &corner).unwrap();
        assert_eq!((areas(&left), left[0].points.len()), (vec![96.0], 6));
        let half = polygon(&[(0.0, 0.0), (5.0, 0.0), (5.0, 10.0), (0.0, 10.0)]);
        let left = notched(&square(), &half).unwrap();
        assert_eq!((areas(&left), left[0].points.len()), (vec![50.0], 4));
        assert_eq!(notched(&square(), &square()).unwrap().len(), 0);
    }

    #[test]
    fn islands_and_single_contacts_are_left_to_others() {
        let island = polygon(&[(4.0, 4.0), (6.0, 4.0), (6.0, 6.0)]);
        assert!(notched(&square(), &island).is_none());
        let contact = polygon(&[(4.0, 4.0), (6.0, 4.0), (5.0, 10.0)]);
        assert!(notched(&square(), &contact).is_none());
        let both = polygon(&[(4.0, 0.0), (6.0, 0.0), (5.0, 10.0)]);
        assert!(notched(&square(), &both).is_none());
    }
}
