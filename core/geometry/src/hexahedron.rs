//! Bodies with six faces that meet like those of a box, however slanted: their corners without clipping.

use crate::polygon::NEAR;
use crate::{Plane, Vec3};

/// Planes whose normals span less than this are left to others: their corner would lie far off or lose its figures.
const SPAN: f64 = 1e-4;

/// A body between three pairs of planes.
pub(crate) struct Hexahedron {
    /// For each plane its pair, and which of the two it is.
    seats: [(usize, usize); 6],
    normals: [Vec3; 6],
    /// By the planes of the three pairs that meet there.
    corners: [[[Vec3; 2]; 2]; 2],
}

impl Hexahedron {
    /// The body inside all of the planes; none where these are not six, or do not meet like the faces of a box.
    ///
    /// Where each corner of one plane of every pair lies inside the three others, it is a corner of the body, and so is the
    /// next one along each of its three edges: these eight are all there are.
    pub(crate) fn of(planes: &[Plane]) -> Option<Self> {
        let planes: &[Plane; 6] = planes.try_into().ok()?;
        let pairs = pairs(planes);
        let [first, second, third] = pairs.map(|pair| pair.map(|plane| planes[plane]));
        let cross =
            |p: &[Plane; 2], q: &[Plane; 2]| p.map(|one| q.map(|other| one.normal.cross(other.normal)));
        let (ab, bc, ca) = (cross(&first, &second), cross(&second, &third), cross(&third, &first));
        let mut corners = [[[Vec3::ZERO; 2]; 2]; 2];
        for i in 0..2 {
            for j in 0..2 {
                for k in 0..2 {
                    let (a, b, c) = (&first[i], &second[j], &third[k]);
                    let span = a.normal.dot(bc[j][k]);
                    if span.abs() < SPAN {
                        return None;
                    }
                    let corner = (bc[j][k] * a.offset + ca[k][i] * b.offset + ab[i][j] * c.offset) / span;
                    let others = [&first[1 - i], &second[1 - j], &third[1 - k]];
                    if others.iter().any(|other| other.distance(corner) >= -NEAR) {
                        return None;
                    }
                    corners[i][j][k] = corner;
                }
            }
        }
        let mut seats = [(0, 0); 6];
        for (pair, planes) in pairs.iter().enumerate() {
            planes.iter().enumerate().for_each(|(which, &plane)| seats[plane] = (pair, which));
        }
        Some(Self { seats, normals: planes.map(|plane| plane.normal), corners })
    }

    /// The corners of the face in a plane, counter-clockwise seen from outside.
    pub(crate) fn face(&self, plane: usize) -> [Vec3; 4] {
        let (pair, which) = self.seats[plane];
        let at = |one: usize, other: usize| match pair {
            0 => self.corners[which][one][other],
            1 => self.corners[other][which][one],
            _ => self.corners[one][other][which],
        };
        let [a, b, c, d] = [at(0, 0), at(1, 0), at(1, 1), at(0, 1)];
        if (b - a).cross(d - a).dot(self.normals[plane]) > 0.0 { [a, b, c, d] } else { [d, c, b, a] }
    }

    /// The corners, in no order of note.
    pub(crate) fn corners(&self) -> &[Vec3] {
        self.corners.as_flattened().as_flattened()
    }
}

/// Each plane with the one that looks the other way.
fn pairs(planes: &[Plane; 6]) -> [[usize; 2]; 3] {
    let mut left = [0, 1, 2, 3, 4, 5];
    let mut pairs = [[0; 2]; 3];
    for (n, pair) in pairs.iter_mut().enumerate() {
        let first = 2 * n;
        let own = planes[left[first]].normal;
        let turn = |&k: &usize| own.dot(planes[left[k]].normal);
        let across = (first + 1..6).min_by(|a, b| turn(a).total_cmp(&turn(b))).unwrap_or(first + 1);
        left.swap(first + 1, across);
        *pair = [left[first], left[first + 1]];
    }
    pairs
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Body, Place, carve};

    /// A stick with slanted ends and one wall that leans.
    fn stick() -> Vec<Plane> {
        let place = Place::new(Vec3::new(3.0, -20.0, 7.0), Vec3::new(1.0, 0.3, -0.2), Vec3::Z);
        let Body::Convex(mut planes) = Body::cuboid(&place, Vec3::ZERO, Vec3::new(400.0, 30.0, 20.0)) else {
            panic!("a box is convex")
        };
        planes[0] = Plane::through(place.point(Vec3::X * 380.0), place.direction(Vec3::new(1.0, 0.4, 0.1)));
        planes[3] = Plane::through(place.origin, place.direction(Vec3::new(0.02, -1.0, 0.15)));
        planes
    }

    #[test]
    fn corners_are_those_that_three_planes_and_the_others_leave() {
        let planes = stick();
        let hexahedron = Hexahedron::of(&planes).unwrap();
        // An idle plane keeps the search from taking this way.
        let idle = Plane::through(Vec3::X * 3000.0, Vec3::X);
        let mut searched = Plane::corners(&[&planes[..], &[idle]].concat(), 1e-9);
        for corner in hexahedron.corners() {
            let at = searched.iter().position(|other| (*other - *corner).length() < 1e-9).unwrap();
            searched.swap_remove(at);
        }
        assert!(searched.is_empty());
    }

    /// The faces bound the volume that the clipped body has: the seventh plane is idle, and keeps carving from this way.
    #[test]
    fn faces_run_round_their_planes() {
        let planes = stick();
        let hexahedron = Hexahedron::of(&planes).unwrap();
        let mut volume = 0.0;
        for (i, plane) in planes.iter().enumerate() {
            let [a, b, c, d] = hexahedron.face(i);
            assert!([a, b, c, d].iter().all(|&p| plane.distance(p).abs() < 1e-9));
            let twice = (c - a).cross(d - b);
            assert!(twice.dot(plane.normal) > 0.0, "face {i} runs the wrong way");
            volume += twice.dot(plane.normal) / 2.0 * plane.offset / 3.0;
        }
        let mut clipped = planes;
        clipped.push(Plane::through(Vec3::X * 3000.0, Vec3::X));
        let solid = carve(&[Body::Convex(clipped)], &[]).unwrap();
        assert!((solid.volume() / volume - 1.0).abs() < 1e-12, "{} {volume}", solid.volume());
    }

    #[test]
    fn what_is_no_box_is_left_to_others() {
        let mut planes = stick();
        assert!(Hexahedron::of(&planes[..5]).is_none());
        // A plane that cuts off one corner instead of an end.
        planes[0] = Plane::through(hexahedron_corner(&planes), planes[2].normal + planes[4].normal);
        assert!(Hexahedron::of(&planes).is_none());
        // Nothing lies inside a box turned inside out.
        let inside_out: Vec<Plane> =
            stick().iter().map(|p| Plane { offset: -p.offset - 500.0, ..*p }).collect();
        assert!(Hexahedron::of(&inside_out).is_none());
    }

    fn hexahedron_corner(planes: &[Plane]) -> Vec3 {
        Hexahedron::of(planes).unwrap().corners()[0]
    }
}
