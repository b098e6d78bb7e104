//! Straight sticks cut off at two planes.

use crate::part::Size;
use crestrail_geometry::{Body, Place, Plane, Vec3};

/// A straight piece of `width` × `thickness` about the x axis of `place`, ending at two planes in
/// chair space whose normals point out of the piece.
pub(super) fn between(place: &Place, width: f64, thickness: f64, ends: [Plane; 2]) -> (Body, Size) {
    let ends = ends.map(|end| place.local_plane(&end));
    let mut planes = sides(width, thickness);
    planes.extend(ends);
    let size = Size { length: longest(width, thickness, &ends), width, thickness };
    (Body::Convex(planes), size)
}

/// The four long faces of a stick about the x axis.
pub(super) fn sides(width: f64, thickness: f64) -> Vec<Plane> {
    let face = |normal, offset| Plane { normal, offset };
    vec![
        face(Vec3::Y, width / 2.0),
        face(-Vec3::Y, width / 2.0),
        face(Vec3::Z, thickness / 2.0),
        face(-Vec3::Z, thickness / 2.0),
    ]
}

/// From the farthest corner of one end to the farthest corner of the other.
fn longest(width: f64, thickness: f64, ends: &[Plane; 2]) -> f64 {
    let corner = |sy: f64, sz: f64| Vec3::new(0.0, sy * width / 2.0, sz * thickness / 2.0);
    let corners = [corner(1.0, 1.0), corner(1.0, -1.0), corner(-1.0, -1.0), corner(-1.0, 1.0)];
    let at =
        |end: &Plane| corners.iter().filter_map(|&c| end.meet(c, Vec3::X)).map(|p| p.x).collect::<Vec<_>>();
    let low = at(&ends[0]).into_iter().fold(f64::INFINITY, f64::min);
    let high = at(&ends[1]).into_iter().fold(f64::NEG_INFINITY, f64::max);
    high - low
}
