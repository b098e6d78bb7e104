//! Bodies: the few shapes of timber and tool from which solids are made.

use crate::{Place, Plane, Vec3};
use kurbo::Point;

/// Farther than any timber reaches, mm.
const FAR: f64 = 4000.0;

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
    /// What lies outside any of these is cut away; in the same space as `place`.
    pub clip: Vec<Plane>,
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

    /// Mirrored in the plane x = 0 of outer space.
    pub fn mirrored_x(&self) -> Self {
        match self {
            Self::Convex(planes) => Self::Convex(planes.iter().map(Plane::mirrored_x).collect()),
            Self::Prism(prism) => Self::Prism(Prism {
                place: prism.place.mirrored_x(),
                clip: prism.clip.iter().map(Plane::mirrored_x).collect(),
                ..prism.clone()
            }),
        }
    }

    /// The part of the body inside the plane.
    pub fn clipped(&self, plane: Plane) -> Self {
        let mut clipped = self.clone();
        match &mut clipped {
            Self::Convex(planes) => planes.push(plane),
            Self::Prism(prism) => prism.clip.push(plane),
        }
        clipped
    }

    /// What a prism loses to its clipping planes: a body beyond each, larger than any timber.
    pub(crate) fn beyond_clips(&self) -> Vec<Self> {
        let Self::Prism(prism) = self else { return Vec::new() };
        let middle = prism.place.point(Vec3::Z * ((prism.from + prism.to) / 2.0));
        let beyond = |clip: &Plane| {
            let n = clip.normal;
            let foot = middle - n * clip.distance(middle);
            let other = if n.x.abs() < 0.5 { Vec3::X } else { Vec3::Y };
            let wide = Vec3::new(FAR, FAR, FAR);
            Self::cuboid(&Place::new(foot, n, other), Vec3 { x: 0.0, ..-wide }, wide)
        };
        prism.clip.iter().map(beyond).collect()
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
            clip: self.clip.iter().map(|p| place.local_plane(p)).collect(),
            ..self.clone()
        }
    }
}
