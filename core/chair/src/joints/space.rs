//! Spaces inside a part that tenons, haunches, pegs and dowels take, to ask whether two come too near each other.

use crestrail_geometry::{Body, Place, Plane, Vec3};

/// A convex space with its corners, in chair space.
#[derive(Clone, Debug)]
pub(super) struct Space {
    planes: Vec<Plane>,
    corners: Vec<Vec3>,
}

/// A corner counts as inside a plane up to this, mm.
const ON_PLANE: f64 = 1e-6;

impl Space {
    /// The space inside all of the planes.
    pub(super) fn within(planes: Vec<Plane>) -> Self {
        let corners = Plane::corners(&planes, ON_PLANE);
        Self { planes, corners }
    }

    /// A box in the frame `place`.
    pub(super) fn boxed(place: &Place, low: Vec3, high: Vec3) -> Self {
        match Body::cuboid(place, low, high) {
            Body::Convex(planes) => Self::within(planes),
            Body::Prism(_) => Self { planes: Vec::new(), corners: Vec::new() },
        }
    }

    /// Its mirror image in the middle plane of the chair.
    pub(super) fn mirrored_x(&self) -> Self {
        Self {
            planes: self.planes.iter().map(Plane::mirrored_x).collect(),
            corners: self.corners.iter().map(|c| c.mirrored_x()).collect(),
        }
    }

    /// Whether a face of one keeps the whole other at least `gap` mm away. Two spaces that only pass each
    /// other edge to edge are taken to meet, which is on the safe side.
    pub(super) fn clear_of(&self, other: &Self, gap: f64) -> bool {
        self.keeps_off(other, gap) || other.keeps_off(self, gap)
    }

    fn keeps_off(&self, other: &Self, gap: f64) -> bool {
        let off = |plane: &Plane| other.corners.iter().all(|c| plane.distance(*c) >= gap - ON_PLANE);
        other.corners.is_empty() || self.planes.iter().any(off)
    }

    /// Its corners in a plane.
    pub(super) fn corners_in(&self, plane: &Plane) -> impl Iterator<Item = Vec3> {
        self.corners.iter().copied().filter(|corner| plane.distance(*corner).abs() <= ON_PLANE)
    }

    /// The least and the greatest distance of its corners from `origin` along `d`; `None` if it is empty.
    pub(super) fn span(&self, origin: Vec3, d: Vec3) -> Option<[f64; 2]> {
        let along = self.corners.iter().map(|c| (*c - origin).dot(d));
        let (low, high) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| (l.min(v), h.max(v)));
        (low <= high).then_some([low, high])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cube(at: Vec3, turned: bool) -> Space {
        let x = if turned { Vec3::new(1.0, 1.0, 0.0) } else { Vec3::X };
        let one = Vec3::new(1.0, 1.0, 1.0);
        Space::boxed(&Place::new(at, x, Vec3::Z), -one, one)
    }

    #[test]
    fn cubes_side_by_side_and_turned() {
        let home = cube(Vec3::ZERO, false);
        assert!(!home.clear_of(&cube(Vec3::new(1.9, 0.0, 0.0), false), 0.0));
        assert!(home.clear_of(&cube(Vec3::new(2.1, 0.0, 0.0), false), 0.0));
        assert!(!home.clear_of(&cube(Vec3::new(2.1, 0.0, 0.0), false), 0.2));
        // A cube turned by 45° reaches √2 along x.
        assert!(!home.clear_of(&cube(Vec3::new(2.4, 0.0, 0.0), true), 0.0));
        assert!(home.clear_of(&cube(Vec3::new(2.42, 0.0, 0.0), true), 0.0));
    }

    #[test]
    fn a_cut_takes_corners_away() {
        let cut = Plane::through(Vec3::ZERO, Vec3::new(1.0, 1.0, 0.0));
        let Body::Convex(mut planes) =
            Body::cuboid(&Place::HOME, -Vec3::new(1.0, 1.0, 1.0), Vec3::new(1.0, 1.0, 1.0))
        else {
            panic!("a box is convex")
        };
        planes.push(cut);
        let half = Space::within(planes);
        assert!(half.clear_of(&cube(Vec3::new(1.5, 1.5, 0.0), false), 0.5));
        assert_eq!(half.span(Vec3::ZERO, Vec3::X), Some([-1.0, 1.0]));
    }
}
