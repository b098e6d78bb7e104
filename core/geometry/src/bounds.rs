//! Boxes along the axes.

use crate::Vec3;
use crate::math::{max, min};

/// The smallest box along the axes around some points, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// Least coordinates.
    pub low: Vec3,
    /// Greatest coordinates.
    pub high: Vec3,
}

impl Bounds {
    /// The box that holds nothing; it is the neutral start of a union.
    pub const NOTHING: Self = Self {
        low: Vec3::new(f64::INFINITY, f64::INFINITY, f64::INFINITY),
        high: Vec3::new(f64::NEG_INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY),
    };

    /// The box around `points`.
    pub fn around(points: &[Vec3]) -> Self {
        points.iter().fold(Self::NOTHING, |b, &p| b.with(p))
    }

    /// The box grown so that it holds `p` as well.
    pub fn with(self, p: Vec3) -> Self {
        let (l, h) = (self.low, self.high);
        Self {
            low: Vec3::new(min(l.x, p.x), min(l.y, p.y), min(l.z, p.z)),
            high: Vec3::new(max(h.x, p.x), max(h.y, p.y), max(h.z, p.z)),
        }
    }

    /// The box around both.
    pub fn union(self, other: Self) -> Self {
        self.with(other.low).with(other.high)
    }

    /// Whether the boxes come within `slack` mm of each other (a negative slack: whether they overlap
    /// by more than that).
    pub fn meets(&self, o: &Self, slack: f64) -> bool {
        let apart = |l: f64, h: f64, ol: f64, oh: f64| l > oh + slack || ol > h + slack;
        !(apart(self.low.x, self.high.x, o.low.x, o.high.x)
            || apart(self.low.y, self.high.y, o.low.y, o.high.y)
            || apart(self.low.z, self.high.z, o.low.z, o.high.z))
    }

    /// The middle of the box.
    pub fn middle(&self) -> Vec3 {
        self.low.lerp(self.high, 0.5)
    }

    /// The size along each axis.
    pub fn size(&self) -> Vec3 {
        self.high - self.low
    }
}
