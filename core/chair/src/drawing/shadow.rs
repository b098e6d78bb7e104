//! The shadow of the chair on the floor, in light from straight above.

use super::Scene;
use crate::part::Role;
use crestrail_geometry::outline::hull;
use crestrail_geometry::view::Subject;
use crestrail_geometry::{Vec3, math};
use crestrail_sheet::{Fill, Group, Item, Path, Rule, Trace};
use kurbo::{Point, Rect};

/// The spread at which the shadow has faded away: parts in the air throw none.
const GONE: f64 = 0.35;

/// The shadow, where the floor is seen from above.
pub(super) fn items(scene: &Scene<'_>) -> Option<Item> {
    let strength = (1.0 - scene.view.spread / GONE).min(scene.picture.camera.toward.z * 6.0).min(1.0);
    if strength <= 0.0 {
        return None;
    }
    let opacity = scene.palette.shadow_opacity * strength;
    let fill = Some(Fill { colour: scene.palette.shadow, opacity, rule: Rule::Union });
    let outlines = outermost(casters(scene).iter().map(|subjects| cast(scene, subjects)).collect());
    let traces = outlines.into_iter().map(|points| Trace { points, closed: true }).collect();
    let path = Item::Path(Path { traces, fill, stroke: None });
    Some(Item::Group(Group { data: vec![("layer", "shadow".to_owned())], items: vec![path] }))
}

/// Parts that throw one shadow: each by itself, but the slats of the seat together, because stripes
/// of light between them draw the eye to the floor.
fn casters<'a>(scene: &'a Scene<'_>) -> Vec<Vec<&'a Subject<'a>>> {
    let is_slat = |s: &&Subject<'_>| scene.chair.parts[s.owner].id.role == Role::SeatSlat;
    let (slats, others): (Vec<_>, Vec<_>) = scene.stage.subjects.iter().partition(is_slat);
    let slats = (!slats.is_empty()).then_some(slats);
    others.into_iter().map(|s| vec![s]).chain(slats).collect()
}

/// The outline of a shadow.
fn cast(scene: &Scene<'_>, subjects: &[&Subject<'_>]) -> Vec<Point> {
    let spots = subjects.iter().flat_map(|s| s.solid.vertices.iter().map(|&v| s.place.point(v)));
    let on_floor = spots.map(|p| Vec3 { z: 0.0, ..p });
    let points: Vec<Point> = on_floor.map(|p| scene.frame.spot(&scene.picture.camera, p)).collect();
    hull(points)
}

/// Outlines without those that lie within another, as those of pegs do: they would add nothing.
fn outermost(outlines: Vec<Vec<Point>>) -> Vec<Vec<Point>> {
    let boxes: Vec<Rect> = outlines.iter().map(|points| around(points)).collect();
    let within = |i: usize, j: usize| {
        let (own, other) = (&boxes[i], &boxes[j]);
        own.intersect(*other) == *own && outlines[i].iter().all(|&p| holds(&outlines[j], p))
    };
    let is_needless = |i: usize| {
        // Of two alike the first stays.
        (0..outlines.len()).any(|j| j != i && within(i, j) && (j < i || !within(j, i)))
    };
    let needless: Vec<bool> = (0..outlines.len()).map(is_needless).collect();
    outlines.into_iter().zip(needless).filter(|(_, needless)| !needless).map(|(points, _)| points).collect()
}

fn around(points: &[Point]) -> Rect {
    let nothing = (f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY);
    let (left, top, right, low) = points.iter().fold(nothing, |(a, b, c, d), p| {
        (math::min(a, p.x), math::min(b, p.y), math::max(c, p.x), math::max(d, p.y))
    });
    Rect::new(left, top, right, low)
}

/// Whether a convex outline, whichever way round it goes, holds a point or touches it.
fn holds(outline: &[Point], p: Point) -> bool {
    let ends = outline.iter().zip(outline.iter().cycle().skip(1));
    let (mut left, mut right) = (false, false);
    for (a, b) in ends {
        let side = (*b - *a).cross(p - *a);
        left |= side > 0.0;
        right |= side < 0.0;
    }
    !(left && right)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(x: f64, y: f64, side: f64) -> Vec<Point> {
        [(x, y), (x + side, y), (x + side, y + side), (x, y + side)].map(Point::from).to_vec()
    }

    #[test]
    fn only_shadows_within_another_are_left_out() {
        let (large, inside, beside) = (square(0.0, 0.0, 9.0), square(2.0, 3.0, 4.0), square(6.0, 6.0, 4.0));
        let turned: Vec<Point> = square(0.0, 5.0, 4.0).into_iter().rev().collect();
        // Within the box of the slanting one, but not within itself.
        let slanting: Vec<Point> = [(20.0, 0.0), (30.0, 10.0), (20.0, 10.0)].map(Point::from).to_vec();
        let corner = square(27.0, 1.0, 2.0);
        let all = vec![
            inside,
            large.clone(),
            beside.clone(),
            large.clone(),
            turned,
            slanting.clone(),
            corner.clone(),
        ];
        assert_eq!(outermost(all), [large, beside, slanting, corner]);
    }
}
