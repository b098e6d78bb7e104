//! The outline that a solid covers, and the same with something left round it.

use crate::Solid;
use crate::grid::{ClipType, Loops, boolean, inflated};
use crate::outline::{signed_area, tidy};
use crate::polygon::Polygon;
use crate::region::Region;
use kurbo::{Point, Vec2};

/// A face nearer to upright than this casts no shadow along z: cosine of the angle of its normal to z.
const UPRIGHT: f64 = 1e-9;

/// An edge counts as an end where its outward normal lies within 60° of x.
const ENDWAYS: f64 = 0.5;

/// What a solid covers seen along z of its own frame, mm: the outer loop, counter-clockwise. Holes through it are
/// filled. Empty where the solid has no face that looks along z.
pub fn silhouette(solid: &Solid) -> Vec<Point> {
    let flat = |&c: &u32| {
        let v = solid.vertices[c as usize];
        Point::new(v.x, v.y)
    };
    let lit = solid.faces.iter().filter(|f| f.normal.z > UPRIGHT).filter_map(|f| f.rings.first());
    let loops: Vec<Polygon> =
        lit.map(|r| Polygon::new(r.corners.iter().map(flat).collect::<Vec<_>>(), false)).collect();
    largest(&boolean(ClipType::Union, Loops::of(&loops), Loops::default()))
}

/// An outline with `around` mm left along its edges, and `ends` mm, measured along x, beyond the edges that end it
/// in x. Counter-clockwise; corners stay sharp, so it may keep more at a corner than asked. `ends` less than
/// `around` counts as `around`.
pub fn grown(corners: &[Point], around: f64, ends: f64) -> Vec<Point> {
    let wide = inflated(corners, around);
    let further = (ends - around).max(0.0);
    let mut loops = vec![Polygon::new(wide.clone(), false)];
    for (i, &a) in wide.iter().enumerate() {
        let b = wide[(i + 1) % wide.len()];
        let step = b - a;
        let out = step.y / step.hypot2().sqrt();
        if out.abs() > ENDWAYS {
            let on = Vec2::new(further * out.signum(), 0.0);
            loops.push(Polygon::new(vec![a, b, b + on, a + on], false));
        }
    }
    largest(&boolean(ClipType::Union, Loops::of(&loops), Loops::default()))
}

/// The outline with fewer corners: none of those left out lies further than `tolerance` mm from what is left.
pub fn coarser(corners: &[Point], tolerance: f64) -> Vec<Point> {
    let Some(far) = (1..corners.len())
        .max_by(|&a, &b| (corners[a] - corners[0]).hypot2().total_cmp(&(corners[b] - corners[0]).hypot2()))
    else {
        return corners.to_vec();
    };
    let back: Vec<Point> = corners[far..].iter().chain(&corners[..1]).copied().collect();
    let mut kept = vec![corners[0]];
    keep(&corners[..=far], tolerance, &mut kept);
    keep(&back, tolerance, &mut kept);
    kept.pop();
    tidy(kept)
}

/// Douglas and Peucker, Cartographica 10 (1973): the corner furthest from the chord stays where it is further than the
/// tolerance. Adds all that stay but the first.
fn keep(run: &[Point], tolerance: f64, kept: &mut Vec<Point>) {
    let (Some(&a), Some(&b)) = (run.first(), run.last()) else { return };
    let chord = b - a;
    let long = chord.hypot2().sqrt().max(1e-12);
    let off = |p: &Point| (*p - a).cross(chord).abs() / long;
    let inner = 1..run.len().saturating_sub(1).max(1);
    let furthest = inner.max_by(|&i, &j| off(&run[i]).total_cmp(&off(&run[j])));
    match furthest.filter(|&i| off(&run[i]) > tolerance) {
        Some(i) => {
            keep(&run[..=i], tolerance, kept);
            keep(&run[i..], tolerance, kept);
        }
        None => kept.push(b),
    }
}

fn largest(regions: &[Region]) -> Vec<Point> {
    let area = |r: &&Region| signed_area(&r.outer.points);
    let most = regions.iter().max_by(|a, b| area(a).total_cmp(&area(b)));
    most.map_or_else(Vec::new, |r| tidy(r.outer.points.to_vec()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Body, Place, Vec3, carve};

    fn points(raw: &[(f64, f64)]) -> Vec<Point> {
        raw.iter().copied().map(Point::from).collect()
    }

    fn size(outline: &[Point]) -> [f64; 2] {
        let span = |of: fn(&Point) -> f64| {
            let (low, high) = outline
                .iter()
                .map(of)
                .fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| (l.min(v), h.max(v)));
            high - low
        };
        [span(|p| p.x), span(|p| p.y)]
    }

    #[test]
    fn a_stick_with_a_tenon_covers_both() {
        let at = |low: [f64; 3], high: [f64; 3]| {
            let v = |c: [f64; 3]| Vec3::new(c[0], c[1], c[2]);
            Body::cuboid(&Place::HOME, v(low), v(high))
        };
        let bodies = [at([0.0; 3], [100.0, 40.0, 20.0]), at([100.0, 10.0, 6.0], [130.0, 30.0, 14.0])];
        let solid = carve(&bodies, &[]).expect("a solid");
        let outline = silhouette(&solid);
        assert!((signed_area(&outline) - (100.0 * 40.0 + 30.0 * 20.0)).abs() < 1e-3, "{outline:?}");
        assert_eq!(outline.len(), 8);
    }

    /// A box of 100 × 40: half of 5 mm at the sides, half of 30 mm at the ends.
    #[test]
    fn sides_and_ends_get_their_own() {
        let rough = grown(&points(&[(0.0, 0.0), (100.0, 0.0), (100.0, 40.0), (0.0, 40.0)]), 2.5, 15.0);
        assert!((signed_area(&rough) - 130.0 * 45.0).abs() < 1e-3);
        assert_eq!(rough.len(), 4);
    }

    /// A raked leg keeps 2.5 mm square to its edges, not along y, and 15 mm along x at both ends.
    #[test]
    fn a_raked_outline_is_grown_square_to_its_edges() {
        let leg =
            points(&[(0.0, 0.0), (400.0, 0.0), (900.0, 100.0), (900.0, 130.0), (400.0, 40.0), (0.0, 40.0)]);
        let rough = grown(&leg, 2.5, 15.0);
        assert!((size(&rough)[0] - 930.0).abs() < 1e-3, "{rough:?}");
        let inner = |p: Point| {
            rough.iter().enumerate().all(|(i, &a)| {
                let b = rough[(i + 1) % rough.len()];
                // Distance to the segment.
                let along = ((p - a).dot(b - a) / (b - a).hypot2()).clamp(0.0, 1.0);
                (p - (a + along * (b - a))).hypot2().sqrt() > 2.5 - 1e-4
            })
        };
        assert!(leg.iter().all(|&p| inner(p)));
    }

    #[test]
    fn coarser_outlines_stay_near() {
        let turn = |i: i32| {
            let at = f64::from(i) * core::f64::consts::TAU / 120.0;
            Point::new(200.0 * crate::math::cos(at), 60.0 * crate::math::sin(at))
        };
        let fine: Vec<Point> = (0..120).map(turn).collect();
        let rough = coarser(&fine, 0.5);
        assert!((8..60).contains(&rough.len()), "{}", rough.len());
        assert!((signed_area(&rough) / signed_area(&fine) - 1.0).abs() < 0.02);
        assert_eq!(coarser(&points(&[(0.0, 0.0), (9.0, 0.0), (9.0, 4.0), (0.0, 4.0)]), 0.5).len(), 4);
    }
}
