//! Places: where a part's own frame stands in the chair.

use crate::{Plane, Vec3};

/// A rigid frame in space. It may be left-handed: the left leg is the right one mirrored,
/// and both share the same measurements in their own frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// The frame's origin in outer space, mm.
    pub origin: Vec3,
    /// Unit vector of the frame's own x axis.
    pub x: Vec3,
    /// Unit vector of the frame's own y axis.
    pub y: Vec3,
    /// Unit vector of the frame's own z axis.
    pub z: Vec3,
}

impl Place {
    /// The outer frame itself.
    pub const HOME: Self = Self { origin: Vec3::ZERO, x: Vec3::X, y: Vec3::Y, z: Vec3::Z };

    /// A right-handed frame at `origin` with its x axis along `x` and its y axis as near to `y`
    /// as a right angle allows. The caller makes sure that the two are not parallel.
    pub fn new(origin: Vec3, x: Vec3, y: Vec3) -> Self {
        let x = x.unit();
        let z = x.cross(y).unit();
        Self { origin, x, y: z.cross(x), z }
    }

    /// A point of the frame, seen from outside.
    pub fn point(&self, p: Vec3) -> Vec3 {
        self.origin + self.direction(p)
    }

    /// A direction of the frame, seen from outside.
    pub fn direction(&self, d: Vec3) -> Vec3 {
        self.x * d.x + self.y * d.y + self.z * d.z
    }

    /// A point outside, told in the frame's own coordinates.
    pub fn local_point(&self, p: Vec3) -> Vec3 {
        self.local_direction(p - self.origin)
    }

    /// A direction outside, told in the frame's own coordinates.
    pub fn local_direction(&self, d: Vec3) -> Vec3 {
        Vec3::new(self.x.dot(d), self.y.dot(d), self.z.dot(d))
    }

    /// A plane of the frame, seen from outside.
    pub fn plane(&self, p: &Plane) -> Plane {
        Plane::through(self.point(p.normal * p.offset), self.direction(p.normal))
    }

    /// A plane outside, told in the frame's own coordinates.
    pub fn local_plane(&self, p: &Plane) -> Plane {
        Plane::through(self.local_point(p.normal * p.offset), self.local_direction(p.normal))
    }

    /// A frame given within this one, seen from outside.
    pub fn place(&self, inner: &Self) -> Self {
        Self {
            origin: self.point(inner.origin),
            x: self.direction(inner.x),
            y: self.direction(inner.y),
            z: self.direction(inner.z),
        }
    }

    /// Moved in outer space.
    pub fn moved(&self, by: Vec3) -> Self {
        Self { origin: self.origin + by, ..*self }
    }

    /// Mirrored in the plane x = 0 of outer space; the handedness changes.
    pub fn mirrored_x(&self) -> Self {
        Self {
            origin: self.origin.mirrored_x(),
            x: self.x.mirrored_x(),
            y: self.y.mirrored_x(),
            z: self.z.mirrored_x(),
        }
    }

    /// Whether the frame is a mirror image of a right-handed one.
    pub fn is_mirrored(&self) -> bool {
        self.x.cross(self.y).dot(self.z) < 0.0
    }
}
