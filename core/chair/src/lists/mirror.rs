//! Whether a left part and its right twin differ, or one will do for both sides.

use crestrail_geometry::{Solid, Vec3};

/// Corners nearer than this are the same corner, mm: far below what a saw does, far above rounding.
const SLACK: f64 = 1e-4;

/// A change of a part's own axes that maps a box onto itself.
#[derive(Clone, Copy)]
struct Turn {
    x: f64,
    y: f64,
    z: f64,
    swap: bool,
}

impl Turn {
    fn apply(self, p: Vec3) -> Vec3 {
        let (y, z) = if self.swap { (p.z, p.y) } else { (p.y, p.z) };
        Vec3::new(self.x * p.x, self.y * y, self.z * z)
    }

    fn mirrors(self) -> bool {
        let swap = if self.swap { -1.0 } else { 1.0 };
        self.x * self.y * self.z * swap < 0.0
    }
}

/// Whether the mirror image of the solid, turned in the hand, is the solid itself. The turns tried
/// are those that keep the grain along x; if none fits, left and right differ.
pub(crate) fn is_own_mirror_image(solid: &Solid) -> bool {
    let middle = solid.bounds().middle();
    let corners: Vec<Vec3> = solid.vertices.iter().map(|&v| v - middle).collect();
    turns().filter(|t| t.mirrors()).any(|t| corners.iter().all(|&c| holds(&corners, t.apply(c))))
}

fn turns() -> impl Iterator<Item = Turn> {
    (0..16_u8).map(|bits| {
        let sign = |bit: u8| if bits & bit == 0 { 1.0 } else { -1.0 };
        Turn { x: sign(1), y: sign(2), z: sign(4), swap: bits & 8 != 0 }
    })
}

fn holds(corners: &[Vec3], p: Vec3) -> bool {
    corners.iter().any(|&c| {
        let d = c - p;
        d.x.abs() < SLACK && d.y.abs() < SLACK && d.z.abs() < SLACK
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lists::sample::{block, notched};

    #[test]
    fn a_plain_stick_serves_both_sides() {
        assert!(is_own_mirror_image(&block(400.0, 40.0, 20.0)));
    }

    /// A notch in the middle of one edge leaves a mirror plane; one towards an end in the corner of a
    /// stick that is not square leaves none.
    #[test]
    fn a_notch_off_the_middle_makes_a_hand() {
        assert!(is_own_mirror_image(&notched(400.0, 40.0, 20.0, false)));
        assert!(!is_own_mirror_image(&notched(400.0, 40.0, 20.0, true)));
    }
}
