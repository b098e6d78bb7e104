//! Blocks: boxes in space, to ask whether two cuts in one leg come too near each other.

use crestrail_geometry::{Body, Place, Plane, Vec3};

/// A box in the frame of a joint's mouth.
#[derive(Clone, Copy, Debug)]
pub(super) struct Block {
    pub(super) place: Place,
    pub(super) low: Vec3,
    pub(super) high: Vec3,
}

impl Block {
    /// The box grown by `margin` mm on all sides.
    pub(super) fn grown(&self, margin: f64) -> Self {
        let by = Vec3::new(margin, margin, margin);
        Self { low: self.low - by, high: self.high + by, ..*self }
    }

    /// The eight corners in outer space.
    pub(super) fn corners(&self) -> Vec<Vec3> {
        let (l, h) = (self.low, self.high);
        let xs = [l.x, h.x];
        xs.iter()
            .flat_map(|&x| [l.y, h.y].into_iter().map(move |y| (x, y)))
            .flat_map(|(x, y)| [l.z, h.z].into_iter().map(move |z| Vec3::new(x, y, z)))
            .map(|p| self.place.point(p))
            .collect()
    }

    /// The planes of the box, without the face at the smaller x (a tenon's root lies in its shoulder).
    pub(super) fn open_planes(&self) -> Vec<Plane> {
        let side = |normal: Vec3, at: f64| self.place.plane(&Plane { normal, offset: at });
        vec![
            side(Vec3::X, self.high.x),
            side(Vec3::Y, self.high.y),
            side(-Vec3::Y, -self.low.y),
            side(Vec3::Z, self.high.z),
            side(-Vec3::Z, -self.low.z),
        ]
    }

    /// The whole box as a body.
    pub(super) fn body(&self) -> Body {
        Body::cuboid(&self.place, self.low, self.high)
    }

    fn centre(&self) -> Vec3 {
        self.place.point((self.low + self.high) * 0.5)
    }

    fn half_axes(&self) -> [Vec3; 3] {
        let half = (self.high - self.low) * 0.5;
        [self.place.x * half.x, self.place.y * half.y, self.place.z * half.z]
    }

    /// Whether two boxes share space: no separating axis among the fifteen candidates
    /// (separating axis theorem for oriented boxes, textbook).
    pub(super) fn overlaps(&self, other: &Self) -> bool {
        let (a, b) = (self.half_axes(), other.half_axes());
        let between = other.centre() - self.centre();
        let crosses = a.iter().flat_map(|u| b.iter().map(move |v| u.cross(*v)));
        a.iter().chain(&b).copied().chain(crosses).filter(|axis| axis.dot(*axis) > 1e-9).all(|axis| {
            let reach: f64 = a.iter().chain(&b).map(|h| h.dot(axis).abs()).sum();
            between.dot(axis).abs() < reach
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cube(at: Vec3, turned: bool) -> Block {
        let x = if turned { Vec3::new(1.0, 1.0, 0.0) } else { Vec3::X };
        let one = Vec3::new(1.0, 1.0, 1.0);
        Block { place: Place::new(at, x, Vec3::Z), low: -one, high: one }
    }

    #[test]
    fn overlap_of_turned_boxes() {
        let home = cube(Vec3::ZERO, false);
        assert!(home.overlaps(&cube(Vec3::new(1.9, 0.0, 0.0), false)));
        assert!(!home.overlaps(&cube(Vec3::new(2.1, 0.0, 0.0), false)));
        // A cube turned by 45° reaches √2 along x.
        assert!(home.overlaps(&cube(Vec3::new(2.4, 0.0, 0.0), true)));
        assert!(!home.overlaps(&cube(Vec3::new(2.42, 0.0, 0.0), true)));
    }
}
