//! Front and back legs.

use super::{Made, id};
use crate::design::Design;
use crate::part::{Part, Role, Side, Size};
use crate::skeleton::Skeleton;
use crestrail_geometry::{Body, Place, Prism, Vec3};

/// The right front leg: square, upright, from the floor to the top of the rails.
pub(super) fn front(design: &Design, lines: &Skeleton) -> Part {
    let half = design.front_leg() / 2.0;
    let place = Place::new(Vec3::new(lines.half_front - half, half, 0.0), Vec3::Z, -Vec3::Y);
    let low = Vec3::new(0.0, -half, -half);
    let stock = Body::cuboid(&Place::HOME, low, Vec3::new(lines.rail_top, half, half));
    let size = Size { length: lines.rail_top, width: 2.0 * half, thickness: 2.0 * half };
    let made = Made { design, letter: "A".into() };
    made.part(id(Role::FrontLeg, Side::Right, 1), place, stock, size, false)
}

/// The right back leg, sawn to its outline from a plank.
pub(super) fn back(design: &Design, lines: &Skeleton) -> Part {
    let thickness = design.back_leg_thickness();
    let (foot, top) = lines.profile.chord;
    let along = Vec3::new(0.0, top.x - foot.x, top.y - foot.y);
    let origin = Vec3::new(lines.half_back - thickness / 2.0, foot.x, foot.y);
    let place = Place::new(origin, along, -Vec3::Y);
    let outline = lines.profile.outline();
    let size = plank(&outline, thickness);
    let prism = Prism { place: Place::HOME, outline, from: -thickness / 2.0, to: thickness / 2.0 };
    let made = Made { design, letter: "B".into() };
    made.part(id(Role::BackLeg, Side::Right, 1), place, Body::Prism(prism), size, true)
}

/// The box of plank from which the outline is sawn.
fn plank(outline: &[kurbo::Point], thickness: f64) -> Size {
    let span = |value: fn(&kurbo::Point) -> f64| {
        let (low, high) = outline
            .iter()
            .map(value)
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)));
        high - low
    };
    Size { length: span(|p| p.x), width: span(|p| p.y), thickness }
}
