//! Straight sticks cut off at two planes.

use super::maker::Timber;
use crate::part::Size;
use crestrail_geometry::{Body, Place, Plane, Vec3};

/// A straight piece of `width` × `thickness` about the x axis of `place`, ending at two planes in
/// chair space whose normals point out of the piece.
pub(super) fn between(place: &Place, width: f64, thickness: f64, ends: [Plane; 2]) -> Timber {
    let ends = ends.map(|end| place.local_plane(&end));
    let mut planes = sides(width, thickness);
    planes.extend(ends);
    let size = Size { length: longest(width, thickness, &ends), width, thickness };
    Timber::whole(*place, Body::Convex(planes), size)
}

/// A bar whose upper edge lies in the plane `tops` (normal pointing up), bevelled where its faces are
/// not square to that plane. `middle` gives the line of its middle; its height is not used.
pub(super) fn under(tops: &Plane, middle: &Place, width: f64, thickness: f64, ends: [Plane; 2]) -> Timber {
    let (rise, across) = (tops.normal.dot(middle.y), tops.normal.dot(middle.z));
    let drop = thickness * (across / rise).abs();
    let top = tops.meet(middle.origin, middle.y).unwrap_or(middle.origin);
    let place = Place { origin: top - middle.y * ((width - drop) / 2.0), ..*middle };
    let mut timber = between(&place, width, thickness, ends);
    if drop > LEVEL {
        timber.plane(Vec3::Y, place.local_plane(tops));
        timber.core[1] -= drop;
    }
    timber
}

impl Timber {
    /// Planes the long face that looks along `normal` down to `slant`, which leaves nothing of it: a face that
    /// stayed would meet the slant in one edge only, and at a small angle nobody can tell where.
    pub(super) fn plane(&mut self, normal: Vec3, slant: Plane) {
        if let Body::Convex(planes) = &mut self.stock {
            planes.retain(|face| face.normal != normal);
        }
        self.stock = self.stock.clipped(slant);
    }
}

/// A bevel less than this is none, mm.
const LEVEL: f64 = 1e-6;

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
    let (low, high) = span(width, thickness, ends);
    high - low
}

/// The least and the greatest x of a stick about the x axis.
pub(super) fn span(width: f64, thickness: f64, ends: &[Plane; 2]) -> (f64, f64) {
    let corner = |sy: f64, sz: f64| Vec3::new(0.0, sy * width / 2.0, sz * thickness / 2.0);
    let corners = [corner(1.0, 1.0), corner(1.0, -1.0), corner(-1.0, -1.0), corner(-1.0, 1.0)];
    let at =
        |end: &Plane| corners.iter().filter_map(|&c| end.meet(c, Vec3::X)).map(|p| p.x).collect::<Vec<_>>();
    let low = at(&ends[0]).into_iter().fold(f64::INFINITY, f64::min);
    let high = at(&ends[1]).into_iter().fold(f64::NEG_INFINITY, f64::max);
    (low, high)
}
