//! Oriented planes.

use crate::Vec3;
use crate::hexahedron::Hexahedron;

/// An oriented plane: its normal points out of the half-space `normal · p ≤ offset` that it bounds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plane {
    /// Unit normal.
    pub normal: Vec3,
    /// Distance of the plane from the origin along the normal, in mm.
    pub offset: f64,
}

/// Planes whose normals have a smaller sine than the root of this between them run alike: rounding leaves 1e-16.
const ALIKE: f64 = 1e-20;

impl Plane {
    /// The plane through `point` with the outward direction `normal` (any length but zero).
    pub fn through(point: Vec3, normal: Vec3) -> Self {
        let normal = normal.unit();
        Self { normal, offset: normal.dot(point) }
    }

    /// Signed distance of `p`, positive outside (where the normal points), in mm.
    pub fn distance(&self, p: Vec3) -> f64 {
        self.normal.dot(p) - self.offset
    }

    /// The same plane seen from the other side.
    pub fn flipped(&self) -> Self {
        Self { normal: -self.normal, offset: -self.offset }
    }

    /// Moved along its normal by `by` mm.
    pub fn moved(&self, by: f64) -> Self {
        Self { normal: self.normal, offset: self.offset + by }
    }

    /// Where the line through `p` along `direction` meets the plane; `None` if it runs parallel.
    pub fn meet(&self, p: Vec3, direction: Vec3) -> Option<Vec3> {
        let rate = self.normal.dot(direction);
        (rate.abs() > 1e-12).then(|| p - direction * (self.distance(p) / rate))
    }

    /// The point common to three planes; `None` if two of them are (nearly) parallel.
    pub fn corner(a: &Self, b: &Self, c: &Self) -> Option<Vec3> {
        let bc = b.normal.cross(c.normal);
        let det = a.normal.dot(bc);
        (det.abs() > 1e-12).then(|| {
            let ca = c.normal.cross(a.normal);
            let ab = a.normal.cross(b.normal);
            (bc * a.offset + ca * b.offset + ab * c.offset) / det
        })
    }

    /// The corners of the space inside all of the planes; a point counts as inside one up to `slack` mm beyond it.
    // Not inlined: a caller built for size would take its loops along and slow them.
    #[inline(never)]
    pub fn corners(planes: &[Self], slack: f64) -> Vec<Vec3> {
        if let Some(hexahedron) = Hexahedron::of(planes) {
            return hexahedron.corners().to_vec();
        }
        let mut found = Vec::with_capacity(8);
        for (i, a) in planes.iter().enumerate() {
            for (j, b) in planes.iter().enumerate().skip(i + 1) {
                let line = a.normal.cross(b.normal);
                // Opposite sides of a stick have no line in common.
                if line.dot(line) < ALIKE {
                    continue;
                }
                for c in &planes[j + 1..] {
                    let corner = Self::corner(a, b, c);
                    found.extend(corner.filter(|p| planes.iter().all(|plane| plane.distance(*p) <= slack)));
                }
            }
        }
        found
    }

    /// Mirrored in the plane x = 0.
    pub fn mirrored_x(&self) -> Self {
        Self { normal: self.normal.mirrored_x(), offset: self.offset }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Body, Place};

    #[test]
    fn corners_of_a_box_and_of_a_box_with_one_cut_off() {
        let one = Vec3::new(1.0, 1.0, 1.0);
        let Body::Convex(mut planes) = Body::cuboid(&Place::HOME, -one, one) else {
            panic!("a box is convex")
        };
        let corners = Plane::corners(&planes, 1e-9);
        assert_eq!(corners.len(), 8);
        assert!(corners.iter().all(|c| [c.x, c.y, c.z].iter().all(|v| v.abs() == 1.0)), "{corners:?}");
        planes.push(Plane::through(Vec3::new(1.0, 1.0, 0.5), one));
        let corners = Plane::corners(&planes, 1e-9);
        assert_eq!(corners.len(), 10);
        assert!(!corners.contains(&one));
        assert_eq!(Plane::corners(&planes[..5], 1e-9).len(), 4, "open at one end");
    }
}
