//! Vectors and points in space, in millimetres.

use core::ops::{Add, AddAssign, Div, Mul, Neg, Sub};
use serde::{Deserialize, Serialize};

/// A vector, or a point as the vector from the origin, in millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Vec3 {
    /// Across the chair; positive to the right of somebody who faces its front.
    pub x: f64,
    /// Depth; positive towards the back.
    pub y: f64,
    /// Height; positive upwards.
    pub z: f64,
}

impl Vec3 {
    /// The origin, or no movement.
    pub const ZERO: Self = Self::new(0.0, 0.0, 0.0);
    /// Unit vector along x.
    pub const X: Self = Self::new(1.0, 0.0, 0.0);
    /// Unit vector along y.
    pub const Y: Self = Self::new(0.0, 1.0, 0.0);
    /// Unit vector along z.
    pub const Z: Self = Self::new(0.0, 0.0, 1.0);

    /// The vector with these components.
    pub const fn new(x: f64, y: f64, z: f64) -> Self {
        Self { x, y, z }
    }

    /// Scalar product.
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y + self.z * other.z
    }

    /// Vector product, right-handed.
    pub fn cross(self, other: Self) -> Self {
        Self::new(
            self.y * other.z - self.z * other.y,
            self.z * other.x - self.x * other.z,
            self.x * other.y - self.y * other.x,
        )
    }

    /// Length.
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// The same direction with length 1. The caller makes sure the vector is not zero.
    pub fn unit(self) -> Self {
        self / self.length()
    }

    /// The point a share `t` of the way to `other`.
    pub fn lerp(self, other: Self, t: f64) -> Self {
        self + (other - self) * t
    }

    /// Mirrored in the plane x = 0.
    pub fn mirrored_x(self) -> Self {
        Self::new(-self.x, self.y, self.z)
    }

    /// All three components are finite numbers.
    pub fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite() && self.z.is_finite()
    }
}

impl Add for Vec3 {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        Self::new(self.x + o.x, self.y + o.y, self.z + o.z)
    }
}

impl AddAssign for Vec3 {
    fn add_assign(&mut self, o: Self) {
        *self = *self + o;
    }
}

impl Sub for Vec3 {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        Self::new(self.x - o.x, self.y - o.y, self.z - o.z)
    }
}

impl Mul<f64> for Vec3 {
    type Output = Self;
    fn mul(self, k: f64) -> Self {
        Self::new(self.x * k, self.y * k, self.z * k)
    }
}

impl Div<f64> for Vec3 {
    type Output = Self;
    fn div(self, k: f64) -> Self {
        Self::new(self.x / k, self.y / k, self.z / k)
    }
}

impl Neg for Vec3 {
    type Output = Self;
    fn neg(self) -> Self {
        Self::new(-self.x, -self.y, -self.z)
    }
}
