//! Bodies: the few shapes of timber and tool from which solids are made.

use crate::math::nearest;
use crate::{Place, Plane, Vec3};
use kurbo::Point;

/// Grid steps per mm, 2²⁴: far coarser than rounding, far finer than what counts as one place when bodies are carved.
const LENGTHS: f64 = 16_777_216.0;
/// Grid steps of a unit vector's parts, 2³⁸: over the longest timber a hair finer than that.
const DIRECTIONS: f64 = 274_877_906_944.0;

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

    /// Moves planes and places to the nearest ones on a grid, by 3e-8 mm at most, so that bodies which differ by rounding alone
    /// become equal. Outlines stay: they are told in a frame of their own.
    pub fn on_grid(&mut self) {
        match self {
            Self::Convex(planes) => planes.iter_mut().for_each(Plane::on_grid),
            Self::Prism(Prism { place, clip, .. }) => {
                round(&mut place.origin, LENGTHS);
                [&mut place.x, &mut place.y, &mut place.z]
                    .into_iter()
                    .for_each(|axis| round(axis, DIRECTIONS));
                clip.iter_mut().for_each(Plane::on_grid);
            }
        }
    }

    /// The body told in the coordinates of `place`.
    pub fn local_to(&self, place: &Place) -> Self {
        match self {
            Self::Convex(planes) => Self::Convex(planes.iter().map(|p| place.local_plane(p)).collect()),
            Self::Prism(prism) => Self::Prism(prism.local_to(place)),
        }
    }
}

impl Plane {
    fn on_grid(&mut self) {
        round(&mut self.normal, DIRECTIONS);
        self.offset = nearest_on(self.offset, LENGTHS);
    }
}

fn round(v: &mut Vec3, steps: f64) {
    *v = Vec3::new(nearest_on(v.x, steps), nearest_on(v.y, steps), nearest_on(v.z, steps));
}

/// The nearest number on a grid; never minus zero.
fn nearest_on(x: f64, steps: f64) -> f64 {
    nearest(x * steps) as f64 / steps
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::carve;

    /// Bodies that took different ways into the frame of a part are one there.
    #[test]
    fn on_the_grid_rounding_is_gone() {
        let home = |turned: f64| {
            let place =
                Place::new(Vec3::new(300.0, -20.0, 7.0) * turned, Vec3::new(1.0, turned, -0.2), Vec3::Z);
            let size = Vec3::new(412.3, 31.7, 0.1 + 19.2);
            let Body::Convex(planes) = Body::cuboid(&place, Vec3::new(0.7, 0.0, -0.3), size) else {
                panic!("a box is convex")
            };
            let outline = [(0.0, 0.0), (50.3, 1.0), (40.0, 20.9)].map(Point::from).to_vec();
            let clip = vec![planes[3]];
            let prism = Prism { place: place.moved(place.x * 5.3), outline, from: -1.0, to: 3.3, clip };
            let local = [Body::Convex(planes), Body::Prism(prism)].map(|body| body.local_to(&place));
            let mut gridded = local.clone();
            gridded.iter_mut().for_each(Body::on_grid);
            (local, gridded)
        };
        let (first, on_grid) = home(0.3);
        let (second, also) = home(0.7);
        assert_ne!(first, second);
        assert_eq!(on_grid, also);
        let volume = |bodies: &[Body; 2]| carve(&bodies[..1], &bodies[1..]).unwrap().volume();
        assert!((volume(&first) - volume(&on_grid)).abs() < 1e-3);
    }
}
