//! Sides that lie in one plane.

use crate::piece::{SAME_DIRECTION, Side};
use crate::plane_frame::PlaneFrame;
use crate::polygon::NEAR;
use crate::{Plane, Vec3};
use crestrail_sorting::Order as _;

/// A plane and the sides that lie in it, facing either way.
pub(crate) struct SharedPlane {
    pub(crate) frame: PlaneFrame,
    pub(crate) sides: Vec<usize>,
}

/// Distances are compared as seen from here: off every axis and diagonal, so that the many planes
/// around one axis have different ones and are told apart by a sort.
const VANTAGE: Vec3 = Vec3::new(2.236_068, 17.320_508, 57.721_566);

/// The planes of the `chosen` sides, in the order of their first sides.
pub(crate) fn shared_planes(sides: &[Side], chosen: &[usize]) -> Vec<SharedPlane> {
    let away = |plane: &Plane| plane.offset - plane.normal.dot(VANTAGE);
    let mut order: Vec<(f64, usize)> = chosen.iter().map(|&i| (away(&sides[i].plane).abs(), i)).collect();
    order.order_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    // Sides of one plane are neighbours in this order but for others at the same distance.
    let mut groups: Vec<(f64, Vec<usize>)> = Vec::with_capacity(order.len());
    let mut open = 0;
    for (distance, i) in order {
        while open < groups.len() && groups[open].0 < distance - 2.0 * NEAR {
            open += 1;
        }
        let same = |g: &&mut (f64, Vec<usize>)| is_same(&sides[g.1[0]].plane, &sides[i].plane, away);
        match groups[open..].iter_mut().find(same) {
            Some(group) => group.1.push(i),
            None => groups.push((distance, vec![i])),
        }
    }
    groups.iter_mut().for_each(|g| g.1.sort_unstable());
    groups.order_by_key(|g| g.1[0]);
    groups
        .into_iter()
        .map(|(_, members)| SharedPlane { frame: frame(&sides[members[0]]), sides: members })
        .collect()
}

fn is_same(a: &Plane, b: &Plane, away: impl Fn(&Plane) -> f64) -> bool {
    let sign = if a.normal.dot(b.normal) < 0.0 { -1.0 } else { 1.0 };
    (a.normal - b.normal * sign).length() < SAME_DIRECTION && (away(a) - away(b) * sign).abs() <= NEAR
}

/// Axes along the longest edge of the side: most edges then run along an axis.
fn frame(side: &Side) -> PlaneFrame {
    let n = side.corners.len();
    let edge = |i: usize| side.corners[(i + 1) % n] - side.corners[i];
    let square = |i: usize| edge(i).dot(edge(i));
    let longest = (1..n).fold(0, |best, i| if square(i) > square(best) * (1.0 + 1e-9) { i } else { best });
    PlaneFrame::along(&side.plane, side.corners[longest], side.corners[(longest + 1) % n])
}

/// Splits the sides of a plane into clusters that stay clear of each other.
pub(crate) fn clusters(sides: &[Side], plane: &SharedPlane) -> Vec<Vec<usize>> {
    let mut clusters: Vec<Vec<usize>> = Vec::new();
    for &i in &plane.sides {
        let meets = |c: &Vec<usize>| c.iter().any(|&j| sides[i].bounds.meets(&sides[j].bounds, NEAR));
        let (touched, mut rest): (Vec<_>, Vec<_>) = clusters.into_iter().partition(meets);
        let mut joined: Vec<usize> = touched.into_iter().flatten().collect();
        joined.push(i);
        rest.push(joined);
        clusters = rest;
    }
    clusters
}
