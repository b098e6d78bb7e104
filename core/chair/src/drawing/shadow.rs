//! The shadow of the chair on the floor, in light from straight above.

use super::Scene;
use crate::part::Role;
use crestrail_geometry::Vec3;
use crestrail_geometry::outline::hull;
use crestrail_geometry::view::Subject;
use crestrail_sheet::{Fill, Group, Item, Path, Rule, Trace};
use kurbo::Point;

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
    let traces = casters(scene).iter().map(|subjects| cast(scene, subjects)).collect();
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
fn cast(scene: &Scene<'_>, subjects: &[&Subject<'_>]) -> Trace {
    let spots = subjects.iter().flat_map(|s| s.solid.vertices.iter().map(|&v| s.place.point(v)));
    let on_floor = spots.map(|p| Vec3 { z: 0.0, ..p });
    let points: Vec<Point> = on_floor.map(|p| scene.frame.spot(&scene.picture.camera, p)).collect();
    Trace { points: hull(points), closed: true }
}
