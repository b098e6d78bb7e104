//! Seat rails: in front, behind, and in every frame.

use super::maker::{Across, Entry, Maker, id, leg_id};
use super::stick;
use crate::joint::End;
use crate::meeting::JointGroup;
use crate::part::Role;
use crate::skeleton::{Bay, Facing, Frame, Skeleton, Zone};
use crestrail_geometry::{Place, Vec3};

/// The rails of every bay and frame.
pub(super) fn make(maker: &mut Maker<'_>) {
    let lines = maker.lines;
    lines.bays.iter().for_each(|bay| front(maker, bay));
    lines.frames.iter().for_each(|frame| side(maker, frame));
    lines.bays.iter().for_each(|bay| back(maker, bay));
}

/// The rail between front legs leans with them.
fn front(maker: &mut Maker<'_>, bay: &Bay) {
    let lean = lines_up(maker.lines);
    let face = Vec3::new(0.0, maker.design.set_back() * lean.length(), maker.lines.seat.frame.origin.z);
    let middle = Place::new(face, Vec3::X, lean);
    across(maker, bay, Role::FrontRail, &middle, -1.0);
}

/// The rail between back legs stands upright, or leans with legs that have no back above them.
fn back(maker: &mut Maker<'_>, bay: &Bay) {
    let (lines, design) = (maker.lines, maker.design);
    let frame = lines.outer();
    let outer = frame.back.face(Facing::Back, Zone::Rails);
    let level = Vec3::new(frame.rail_line.x, 0.0, lines.seat.frame.origin.z);
    let y = outer.meet(level, Vec3::Y).map_or(design.seat_depth(), |p| p.y);
    let up = Vec3::new(0.0, -outer.normal.z, outer.normal.y);
    let face = Vec3::new(0.0, y - design.set_back() / outer.normal.y, level.z);
    across(maker, bay, Role::BackRail, &Place::new(face, Vec3::X, up), 1.0);
}

/// Direction up the front legs, seen from the side.
fn lines_up(lines: &Skeleton) -> Vec3 {
    let up = lines.outer().front.place.x;
    Vec3::new(0.0, up.y / up.z, 1.0)
}

/// A rail across a bay whose outer face holds `face`; `out` tells whether z points out of the chair.
fn across(maker: &mut Maker<'_>, bay: &Bay, role: Role, face: &Place, out: f64) {
    let (lines, design) = (maker.lines, maker.design);
    let thickness = lines.rail_thickness;
    let middle = face.moved(face.z * (thickness / 2.0 * out));
    let (bay_ends, legs, peg_side) = match role {
        Role::FrontRail => (bay.front, Role::FrontLeg, -Vec3::Y),
        _ => (bay.back, Role::BackLeg, Vec3::Y),
    };
    let timber =
        stick::under(&lines.seat.rail_tops(), &middle, design.rail_width(), thickness, bay_ends.rails);
    let rail = id(role, bay.side, 1);
    maker.add(rail, timber);
    let to = Across { peg_side, group: JointGroup::Rails, width: None };
    maker.across(rail, bay, legs, bay_ends.rails, to);
}

fn side(maker: &mut Maker<'_>, frame: &Frame) {
    let (lines, design) = (maker.lines, maker.design);
    let thickness = lines.rail_thickness;
    let line = Place::new(frame.rail_line, frame.along, frame.up);
    let middle = line.moved(-line.z * frame.aside);
    let faces = [frame.front.face(Facing::Back, Zone::Rails), frame.back.face(Facing::Front, Zone::Rails)];
    let tops = lines.seat.rail_tops();
    let timber = stick::under(&tops, &middle, design.rail_width(), thickness, faces.map(|f| f.flipped()));
    let rail = leg_id(Role::SideRail, frame);
    maker.add(rail, timber);
    let hosts = [(End::Near, Role::FrontLeg), (End::Far, Role::BackLeg)];
    for ((end, leg), face) in hosts.into_iter().zip(faces) {
        let (host, way) = (leg_id(leg, frame), frame.way);
        let group = JointGroup::Rails;
        let entry = Entry { end, host, face, way, peg_side: Vec3::X, group, width: None, pegged: true };
        maker.enter(rail, entry);
    }
}
