//! Bodies: the few shapes of timber and tool from which solids are made.

use crate::{Place, Plane, Vec3};
use kurbo::Point;

/// A body bounded by planes.
#[derive(Clone, Debug, PartialEq)]
pub enum Body {
    /// All points inside every one of the planes. The caller makes sure that it is bounded.
    Convex(Vec<Plane>),
    /// A flat outline drawn along the z axis of its place.
    Prism(Prism),
}

/// A flat outline in the x–y plane of `place`, drawn along its z axis from `from` to `to`.
#[derive(Clone, Debug, PartialEq)]
pub struct Prism {
    /// The frame of the outline.
    pub place: Place,
    /// Corners of the outline, counter-clockwise seen from +z, without repeating the first; mm.
    pub outline: Vec<Point>,
    /// Where the prism begins along z, mm.
    pub from: f64,
    /// Where it ends along z, mm; more than `from`.
    pub to: f64,
}

impl Body {
    /// The box that spans `low` to `high` in the frame `place`.
    pub fn cuboid(place: &Place, low: Vec3, high: Vec3) -> Self {
        let side = |normal: Vec3, at: f64| place.plane(&Plane { normal, offset: at });
        Self::Convex(vec![
            side(Vec3::X, high.x),
            side(-Vec3::X, -low.x),
            side(Vec3::Y, high.y),
            side(-Vec3::Y, -low.y),
            side(Vec3::Z, high.z),
            side(-Vec3::Z, -low.z),
        ])
    }

    /// The body told in the coordinates of `place`.
    pub fn local_to(&self, place: &Place) -> Self {
        match self {
            Self::Convex(planes) => Self::Convex(planes.iter().map(|p| place.local_plane(p)).collect()),
            Self::Prism(prism) => Self::Prism(prism.local_to(place)),
        }
    }
}

impl Prism {
    /// The prism told in the coordinates of `place`.
    pub fn local_to(&self, place: &Place) -> Self {
        let own = self.place;
        Self {
            place: Place {
                origin: place.local_point(own.origin),
                x: place.local_direction(own.x),
                y: place.local_direction(own.y),
                z: place.local_direction(own.z),
            },
            ..self.clone()
        }
    }
}
