//! Oriented planes.

use crate::Vec3;

/// An oriented plane: its normal points out of the half-space `normal · p ≤ offset` that it bounds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plane {
    /// Unit normal.
    pub normal: Vec3,
    /// Distance of the plane from the origin along the normal, in mm.
    pub offset: f64,
}

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

    /// Mirrored in the plane x = 0.
    pub fn mirrored_x(&self) -> Self {
        Self { normal: self.normal.mirrored_x(), offset: self.offset }
    }
}
