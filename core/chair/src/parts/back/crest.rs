//! The topmost piece of a back: straight, or with its upper edge sawn to a curve.

use crate::choices::Crest;
use crate::design::Design;
use crate::parts::maker::Timber;
use crate::parts::stick;
use crestrail_geometry::math::{asin, cos, sin};
use crestrail_geometry::{Place, Plane, Vec3};

/// How far the straight facets of the modelled curve may lie from the true one, mm.
const CURVE_TOLERANCE: f64 = 0.05;

/// The rise a design asks for, mm; zero for a straight edge.
pub(super) fn rise(design: &Design) -> f64 {
    match design.crest() {
        Crest::Straight => 0.0,
        Crest::Curved => design.crest_rise(),
    }
}

/// A bar whose upper edge is an arc that rises by `rise` mm over the height `width` of its ends.
pub(super) fn bar(place: &Place, [width, thickness]: [f64; 2], ends: [Plane; 2], rise: f64) -> Timber {
    if rise <= 0.0 {
        return stick::between(place, width, thickness, ends);
    }
    let place = place.moved(place.y * (rise / 2.0));
    let mut timber = stick::between(&place, width + rise, thickness, ends);
    let local = ends.map(|end| place.local_plane(&end));
    let (low, high) = stick::span(width + rise, thickness, &local);
    for facet in arc((low + high) / 2.0, (high - low) / 2.0, (width - rise) / 2.0, rise) {
        timber.stock = timber.stock.clipped(facet);
    }
    timber.core = [-(width + rise) / 2.0, (width - rise) / 2.0];
    timber.sawn = true;
    timber
}

/// Facets of the arc over the chord from `middle - half` to `middle + half` at the height `foot`, which
/// rises by `rise`. Radius of an arc over a chord: (half² + rise²) / (2 rise). Facets touch the arc, so
/// that nothing of it is lost, and lie within [`CURVE_TOLERANCE`] of it.
fn arc(middle: f64, half: f64, foot: f64, rise: f64) -> Vec<Plane> {
    let radius = (half * half + rise * rise) / (2.0 * rise);
    let centre = Vec3::new(middle, foot + rise - radius, 0.0);
    let widest = asin((half / radius).min(1.0));
    // A tangent facet of half-angle a leaves the arc by R (1/cos a - 1), about R a² / 2.
    let step = (2.0 * CURVE_TOLERANCE / radius).sqrt();
    let count = (widest / step).ceil().max(1.0) as usize;
    let turn = |i: usize| widest * (2.0 * (i as f64 + 0.5) / count as f64 - 1.0);
    let facet = |i: usize| {
        let normal = Vec3::new(sin(turn(i)), cos(turn(i)), 0.0);
        Plane::through(centre + normal * radius, normal)
    };
    (0..count).map(facet).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crestrail_geometry::carve;

    #[test]
    fn a_curved_bar_has_the_volume_of_its_segment_of_a_circle() {
        let ends = [Plane { normal: -Vec3::X, offset: 200.0 }, Plane { normal: Vec3::X, offset: 200.0 }];
        let timber = bar(&Place::HOME, [50.0, 20.0], ends, 14.0);
        let solid = carve(&[timber.stock], &[]).unwrap();
        // Area of a segment: R² acos((R - h)/R) - (R - h) sqrt(2 R h - h²), textbook.
        let radius: f64 = (200.0 * 200.0 + 14.0 * 14.0) / 28.0;
        let lower = radius - 14.0;
        let segment = radius * radius * crestrail_geometry::math::acos(lower / radius) - lower * 200.0;
        let expected = (400.0 * 50.0 + segment) * 20.0;
        assert!((solid.volume() - expected).abs() < 400.0 * CURVE_TOLERANCE * 20.0);
        assert!(solid.volume() >= expected);
    }
}
