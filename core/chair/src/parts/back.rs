//! The slats of the back.

use super::{Made, id, stick};
use crate::design::Design;
use crate::part::{Part, Role, Side};
use crate::skeleton::Skeleton;
use crestrail_geometry::{Place, Plane, Vec3};

/// Level slats between the back legs, following their lean, from below.
pub(super) fn slats(design: &Design, lines: &Skeleton) -> Vec<Part> {
    (1..).zip(&lines.slat_stations).map(|(number, &station)| slat(design, lines, number, station)).collect()
}

fn slat(design: &Design, lines: &Skeleton, number: usize, station: Vec3) -> Part {
    let (width, thickness) = (lines.slat_width, design.back_slat_thickness());
    let backwards = lines.lean.cross(Vec3::X);
    let middle = station + backwards * (design.set_back() + thickness / 2.0);
    let place = Place::new(middle, Vec3::X, lines.lean);
    let half = lines.half_back - design.back_leg_thickness();
    let ends = [Plane { normal: -Vec3::X, offset: half }, Plane { normal: Vec3::X, offset: half }];
    let (stock, size) = stick::between(&place, width, thickness, ends);
    let made = Made { design, letter: "H".into() };
    made.part(id(Role::BackSlat, Side::Middle, number), place, stock, size, false)
}
