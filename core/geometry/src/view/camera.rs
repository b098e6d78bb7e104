//! The camera: which way is right, up and towards the eye.

use crate::{Vec3, math};
use kurbo::Point;

/// An eye infinitely far away.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Camera {
    /// Unit vector to the right of the picture.
    pub right: Vec3,
    /// Unit vector upwards in the picture.
    pub up: Vec3,
    /// Unit vector from the scene towards the eye.
    pub toward: Vec3,
}

/// The camera stands this much aside of where it was asked to (radians), so that edges which lie
/// behind each other by design do not line up and every crossing is a proper one. On a chair one
/// metre high this moves the picture by less than 0.05 mm.
const ASIDE: (f64, f64) = (3.1e-5, 4.3e-5);

impl Camera {
    /// `turn` 0 looks along +y and positive turns bring the +x side into view; `tilt` above 0
    /// looks down. Both in radians.
    pub fn new(turn: f64, tilt: f64) -> Self {
        let (turn, tilt) = (turn + ASIDE.0, tilt + ASIDE.1);
        let (sin, cos) = (math::sin(turn), math::cos(turn));
        let (rise, level) = (math::sin(tilt), math::cos(tilt));
        let toward = Vec3::new(sin * level, -cos * level, rise);
        let right = Vec3::new(cos, sin, 0.0);
        Self { right, up: toward.cross(right), toward }
    }

    /// Looks exactly along an axis of the picture's own: `right` and `up` are unit vectors at right angles.
    pub fn square(right: Vec3, up: Vec3) -> Self {
        Self { right, up, toward: right.cross(up) }
    }

    /// Where a point lies in the picture: to the right and up, mm.
    pub fn flat(&self, p: Vec3) -> Point {
        Point::new(self.right.dot(p), self.up.dot(p))
    }

    /// How near to the eye a point lies, mm; only differences mean something.
    pub fn nearness(&self, p: Vec3) -> f64 {
        self.toward.dot(p)
    }
}
