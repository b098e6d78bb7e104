//! How a body looks from one side: what it covers, and which of its edges show.

use crestrail_geometry::{Solid, Vec3};
use crestrail_sheet::Trace;
use kurbo::Point;
use std::collections::BTreeMap;

/// A way of looking: x to the right, y up, z towards the eye, all in the space of what is looked at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Look {
    pub(super) right: Vec3,
    pub(super) up: Vec3,
    pub(super) toward: Vec3,
}

/// A face turned away from the line of sight by less than this is seen edge on.
const EDGE_ON: f64 = 1e-6;

impl Look {
    pub(super) fn new(right: Vec3, up: Vec3) -> Self {
        Self { right, up, toward: right.cross(up) }
    }

    /// Where a point lies in the drawing, in which y runs down.
    pub(super) fn flat(&self, p: Vec3) -> Point {
        Point::new(self.right.dot(p), -self.up.dot(p))
    }
}

/// The lines of a body.
#[derive(Clone, Debug, Default)]
pub(super) struct Lines {
    /// Closed, where it ends.
    pub(super) outline: Vec<Trace>,
    /// Open, sharp edges in front of it.
    pub(super) edges: Vec<Trace>,
}

impl Lines {
    /// Of a body that covers no point of the drawing twice, as convex bodies and flat pieces do.
    pub(super) fn of(solid: &Solid, look: &Look) -> Self {
        let seen = |normal: Vec3| normal.dot(look.toward) > EDGE_ON;
        let front: Vec<bool> = solid.faces.iter().map(|face| seen(face.normal)).collect();
        let mut owners: BTreeMap<(u32, u32), bool> = BTreeMap::new();
        for (face, &front) in solid.faces.iter().zip(&front) {
            for ring in &face.rings {
                for (a, b, _) in edges(&ring.corners, &ring.sharp) {
                    owners.insert((a, b), front);
                }
            }
        }
        let (mut rim, mut inner) = (BTreeMap::new(), Vec::new());
        let flat = |v: u32| look.flat(solid.vertices[v as usize]);
        for (face, _) in solid.faces.iter().zip(&front).filter(|(_, front)| **front) {
            for ring in &face.rings {
                for (a, b, sharp) in edges(&ring.corners, &ring.sharp) {
                    match owners.get(&(b, a)) {
                        Some(true) if sharp && a < b => inner.push([flat(a), flat(b)]),
                        Some(true) => {}
                        Some(false) | None => drop(rim.insert(a, b)),
                    }
                }
            }
        }
        let outline = loops(rim).iter().map(|l| closed(l.iter().map(|&v| flat(v)).collect())).collect();
        let edges = inner.into_iter().map(|ends| Trace { points: ends.to_vec(), closed: false }).collect();
        Self { outline, edges }
    }

    pub(super) fn points(&self) -> impl Iterator<Item = &Point> {
        self.outline.iter().flat_map(|trace| &trace.points)
    }
}

fn edges<'a>(corners: &'a [u32], sharp: &'a [bool]) -> impl Iterator<Item = (u32, u32, bool)> + 'a {
    let next = corners.iter().cycle().skip(1);
    corners.iter().zip(next).zip(sharp).map(|((&a, &b), &sharp)| (a, b, sharp))
}

/// The closed ways along edges that each begin where another ends.
fn loops(mut rim: BTreeMap<u32, u32>) -> Vec<Vec<u32>> {
    let mut found = Vec::new();
    while let Some((&start, _)) = rim.iter().next() {
        let mut way = Vec::new();
        let mut at = start;
        while let Some(next) = rim.remove(&at) {
            way.push(at);
            at = next;
        }
        found.push(way);
    }
    found
}

fn closed(points: Vec<Point>) -> Trace {
    Trace { points, closed: true }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crestrail_geometry::{Body, Place, carve};

    fn box_of(x: f64, y: f64, z: f64) -> Solid {
        carve(&[Body::cuboid(&Place::HOME, Vec3::ZERO, Vec3::new(x, y, z))], &[]).unwrap()
    }

    #[test]
    fn a_box_seen_square_is_a_rectangle() {
        let lines = Lines::of(&box_of(30.0, 20.0, 10.0), &Look::new(Vec3::X, Vec3::Y));
        assert_eq!((lines.outline.len(), lines.edges.len()), (1, 0));
        let rect = super::super::pens::around(lines.points()).unwrap();
        assert_eq!((lines.outline[0].points.len(), rect.width(), rect.height()), (4, 30.0, 20.0));
        assert_eq!(rect.y1, 0.0);
    }

    /// From a corner six of its twelve edges are the outline and three more show.
    #[test]
    fn a_box_seen_from_a_corner_has_six_sides() {
        let look = Look::new(Vec3::new(1.0, -1.0, 0.0).unit(), Vec3::new(-1.0, -1.0, 2.0).unit());
        let lines = Lines::of(&box_of(10.0, 10.0, 10.0), &look);
        assert_eq!((lines.outline[0].points.len(), lines.edges.len()), (6, 3));
    }
}
