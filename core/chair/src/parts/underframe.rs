//! Seat rails and stretchers.

use super::{Made, id, stick};
use crate::choices::Stretchers;
use crate::design::Design;
use crate::part::{Part, Role, Side};
use crate::skeleton::Skeleton;
use crestrail_geometry::{Place, Plane, Vec3};

/// The rail between the front legs, the right side rail, and the rail between the back legs.
pub(super) fn rails(design: &Design, lines: &Skeleton) -> [Part; 3] {
    let middle = (lines.rail_top + lines.rail_bottom) / 2.0;
    let thickness = design.rail_thickness();
    let inset = design.set_back() + thickness / 2.0;
    let front = Rail { role: Role::FrontRail, letter: "C", depth: inset };
    let back = Rail { role: Role::BackRail, letter: "E", depth: design.seat_depth() - inset };
    [
        front.across(design, middle, lines.half_front - design.front_leg()),
        side_rail(design, lines, middle),
        back.across(design, middle, lines.half_back - design.back_leg_thickness()),
    ]
}

struct Rail {
    role: Role,
    letter: &'static str,
    depth: f64,
}

impl Rail {
    /// A rail across the chair between two legs whose inner faces are `half` from the middle.
    fn across(&self, design: &Design, middle: f64, half: f64) -> Part {
        let place = Place::new(Vec3::new(0.0, self.depth, middle), Vec3::X, Vec3::Z);
        let ends = [Plane { normal: -Vec3::X, offset: half }, Plane { normal: Vec3::X, offset: half }];
        let (stock, size) = stick::between(&place, design.rail_width(), design.rail_thickness(), ends);
        let made = Made { design, letter: self.letter.into() };
        made.part(id(self.role, Side::Middle, 1), place, stock, size, false)
    }
}

fn side_rail(design: &Design, lines: &Skeleton, middle: f64) -> Part {
    let far = Plane { normal: Vec3::Y, offset: lines.profile.zone_front };
    let place = beside(lines, design.rail_thickness(), middle);
    let ends = [front_shoulder(lines), far];
    let (stock, size) = stick::between(&place, design.rail_width(), design.rail_thickness(), ends);
    let made = Made { design, letter: "D".into() };
    made.part(id(Role::SideRail, Side::Right, 1), place, stock, size, false)
}

/// The frame of a piece whose outer face lies in the line of the right side, its middle at `height`.
fn beside(lines: &Skeleton, thickness: f64, height: f64) -> Place {
    let on_face = lines.side_line + Vec3::Z * height;
    let out = lines.side_direction.cross(Vec3::Z);
    Place::new(on_face - out * (thickness / 2.0), lines.side_direction, Vec3::Z)
}

/// The shoulder of side rail and stretcher against the front leg.
fn front_shoulder(lines: &Skeleton) -> Plane {
    Plane { normal: -Vec3::Y, offset: -lines.front_leg_back }
}

/// The stretchers the design asks for.
pub(super) fn stretchers(design: &Design, lines: &Skeleton) -> Vec<Part> {
    if design.stretchers() == Stretchers::None {
        return Vec::new();
    }
    let side = side_stretcher(design, lines);
    let across = (design.stretchers() == Stretchers::H).then(|| cross_stretcher(design, &side));
    [Some(side), across].into_iter().flatten().collect()
}

fn side_stretcher(design: &Design, lines: &Skeleton) -> Part {
    let place = lines.stretcher_place(design);
    let ends = [front_shoulder(lines), lines.lower_front_face().flipped()];
    let (stock, size) = stick::between(&place, design.stretcher_width(), design.stretcher_thickness(), ends);
    let made = Made { design, letter: "F".into() };
    made.part(id(Role::SideStretcher, Side::Right, 1), place, stock, size, false)
}

/// The stretcher across lies flat, so that its tenon is long in the direction of the side
/// stretcher's grain and weakens it little.
fn cross_stretcher(design: &Design, side: &Part) -> Part {
    let inner = side.place.plane(&Plane { normal: -Vec3::Z, offset: side.size.thickness / 2.0 });
    let depth = side.place.point(Vec3::X * (side.size.length / 2.0)).y;
    let place = Place::new(Vec3::new(0.0, depth, design.stretcher_height()), Vec3::X, Vec3::Y);
    let (width, thickness) = (design.stretcher_width(), design.stretcher_thickness());
    let ends = [inner.mirrored_x().flipped(), inner.flipped()];
    let (stock, size) = stick::between(&place, width, thickness.min(width), ends);
    let made = Made { design, letter: "G".into() };
    made.part(id(Role::CrossStretcher, Side::Middle, 1), place, stock, size, false)
}
