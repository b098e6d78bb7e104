//! Round and square sections as bounded by planes.

use crestrail_geometry::math::{PI, cos, sin, tan};
use crestrail_geometry::{Place, Plane, Vec3};

/// Sides of the many-sided figure that stands for anything round and its hole alike.
const ROUND_SIDES: usize = 16;

/// The long sides of a round piece of `diameter` mm about the x axis of `place`, moved out by `play`:
/// a figure of the circle's own area, so that volumes are true.
pub(super) fn round(place: &Place, diameter: f64, play: f64) -> Vec<Plane> {
    let n = ROUND_SIDES as f64;
    sides(place, ROUND_SIDES, diameter / 2.0 * (PI / (n * tan(PI / n))).sqrt() + play)
}

/// The long sides of a square piece of `side` mm about the x axis of `place`, moved out by `play`.
pub(super) fn square(place: &Place, side: f64, play: f64) -> Vec<Plane> {
    sides(place, 4, side / 2.0 + play)
}

fn sides(place: &Place, count: usize, apothem: f64) -> Vec<Plane> {
    let turn = |i: usize| 2.0 * PI * i as f64 / count as f64;
    let side = |i: usize| Plane { normal: Vec3::new(0.0, cos(turn(i)), sin(turn(i))), offset: apothem };
    (0..count).map(|i| place.plane(&side(i))).collect()
}
