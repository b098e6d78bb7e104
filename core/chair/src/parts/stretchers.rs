//! Stretchers: at the sides, across between those, in front and behind.

use super::maker::{Across, Entry, Maker, id, leg_id};
use super::stick;
use crate::choices::Stretchers;
use crate::joint::End;
use crate::meeting::JointGroup;
use crate::part::{PartId, Role};
use crate::skeleton::{Bay, Facing, Frame, Zone};
use crestrail_geometry::math::tan;
use crestrail_geometry::{Place, Plane, Vec3};

/// The stretchers the design asks for.
pub(super) fn make(maker: &mut Maker<'_>) {
    let lines = maker.lines;
    let (sides, cross, round) = match maker.design.stretchers() {
        Stretchers::None => return,
        Stretchers::Sides => (true, false, false),
        Stretchers::H => (true, true, false),
        Stretchers::Box => (true, false, true),
    };
    if sides {
        lines.frames.iter().for_each(|frame| side(maker, frame));
    }
    if cross {
        lines.bays.iter().for_each(|bay| between(maker, bay));
    }
    if round {
        lines.bays.iter().for_each(|bay| front(maker, bay));
        lines.bays.iter().for_each(|bay| back(maker, bay));
    }
}

/// The frame of a side stretcher: parallel to the side rail, so that the frame goes together along one
/// line, and as near to the middle of both legs as that allows.
fn side_place(maker: &Maker<'_>, frame: &Frame) -> Place {
    let height = maker.lines.low.sides;
    let (front, behind) = (frame.front.axis_at(height), frame.back.axis_at(height));
    let depth = |plane: Plane, x: f64| plane.meet(Vec3::new(x, 0.0, height), Vec3::Y).map_or(0.0, |p| p.y);
    let start = depth(frame.front.face(Facing::Back, Zone::Below), front.x);
    let end = depth(frame.back.face(Facing::Front, Zone::Below), behind.x);
    let drift = (end - start) * tan(frame.taper);
    let aside = (behind.x - front.x + drift) / 2.0;
    Place::new(Vec3::new(front.x + aside, start, height), frame.level, frame.up)
}

fn side(maker: &mut Maker<'_>, frame: &Frame) {
    let design = maker.design;
    let place = side_place(maker, frame);
    let faces = [frame.front.face(Facing::Back, Zone::Below), frame.back.face(Facing::Front, Zone::Below)];
    let ends = faces.map(|f| f.flipped());
    let timber = stick::between(&place, design.stretcher_width(), maker.lines.low.thickness, ends);
    let stretcher = leg_id(Role::SideStretcher, frame);
    maker.add(stretcher, timber);
    let hosts = [(End::Near, Role::FrontLeg), (End::Far, Role::BackLeg)];
    for ((end, leg), face) in hosts.into_iter().zip(faces) {
        let (host, way, group) = (leg_id(leg, frame), frame.way, JointGroup::Stretchers);
        let entry = Entry { end, host, face, way, peg_side: Vec3::X, group, width: None, pegged: true };
        maker.enter(stretcher, entry);
    }
}

/// The stretcher between two side stretchers lies flat, so that its tenon is long in the direction of
/// their grain and weakens them little.
fn between(maker: &mut Maker<'_>, bay: &Bay) {
    let (lines, design) = (maker.lines, maker.design);
    let face = |frame: usize, towards: f64| {
        let place = side_place(maker, &lines.frames[frame]);
        place.plane(&Plane { normal: Vec3::Z * towards, offset: maker.lines.low.thickness / 2.0 })
    };
    let far = face(bay.far, -1.0);
    let near = bay.near.map_or_else(|| far.mirrored_x(), |frame| face(frame, 1.0));
    let depth = stretcher_middle(maker, &lines.frames[bay.far]);
    let place = Place::new(Vec3::new(0.0, depth, lines.low.sides), Vec3::X, Vec3::Y);
    let (width, thickness) = (design.stretcher_width(), maker.lines.low.thickness);
    let timber = stick::between(&place, width, thickness.min(width), [near, far].map(|p| p.flipped()));
    let cross = id(Role::CrossStretcher, bay.side, 1);
    maker.add(cross, timber);
    let host = |frame: usize| leg_id(Role::SideStretcher, &lines.frames[frame]);
    let ends = [(End::Near, bay.near.map(host), near), (End::Far, Some(host(bay.far)), far)];
    for (end, host, face) in ends {
        if let Some(host) = host {
            let (way, peg_side, group) = (Vec3::X, -Vec3::Z, JointGroup::Stretchers);
            maker.enter(cross, Entry { end, host, face, way, peg_side, group, width: None, pegged: true });
        }
    }
}

/// Depth of the middle of a frame's side stretcher.
fn stretcher_middle(maker: &Maker<'_>, frame: &Frame) -> f64 {
    let wanted: PartId = leg_id(Role::SideStretcher, frame);
    let part = maker.parts.iter().find(|p| p.id == wanted);
    part.map_or(0.0, |p| p.place.point(Vec3::X * (p.size.length / 2.0)).y)
}

/// The stretcher between front legs leans with them.
fn front(maker: &mut Maker<'_>, bay: &Bay) {
    let leg = &maker.lines.frames[bay.far].front;
    let height = maker.lines.low.front;
    let up = Vec3::new(0.0, leg.place.x.y / leg.place.x.z, 1.0);
    let depth = middle_depth(bay_leg(leg), height);
    let place = Place::new(Vec3::new(0.0, depth, height), Vec3::X, up);
    across(maker, bay, Role::FrontStretcher, &place);
}

/// The stretcher between back legs follows their lower limb.
fn back(maker: &mut Maker<'_>, bay: &Bay) {
    let leg = &maker.lines.frames[bay.far].back;
    let height = maker.lines.low.back;
    let faces = bay_leg(leg);
    let depth = middle_depth(faces, height);
    let up = Vec3::new(0.0, middle_depth(faces, height + 1.0) - depth, 1.0);
    let place = Place::new(Vec3::new(0.0, depth, height), Vec3::X, up);
    across(maker, bay, Role::BackStretcher, &place);
}

fn bay_leg(leg: &crate::skeleton::Post) -> ([Plane; 2], f64) {
    let faces = [Facing::Front, Facing::Back].map(|f| leg.face(f, Zone::Below));
    (faces, leg.place.origin.x)
}

/// Depth half-way between the front and back faces of a leg at a height.
fn middle_depth((faces, x): ([Plane; 2], f64), height: f64) -> f64 {
    let depth = |plane: Plane| plane.meet(Vec3::new(x, 0.0, height), Vec3::Y).map_or(0.0, |p| p.y);
    (depth(faces[0]) + depth(faces[1])) / 2.0
}

fn across(maker: &mut Maker<'_>, bay: &Bay, role: Role, place: &Place) {
    let design = maker.design;
    let (ends, legs, peg_side) = match role {
        Role::FrontStretcher => (bay.front.below, Role::FrontLeg, -Vec3::Y),
        _ => (bay.back.below, Role::BackLeg, Vec3::Y),
    };
    let timber = stick::between(place, design.stretcher_width(), maker.lines.low.thickness, ends);
    let stretcher = id(role, bay.side, 1);
    maker.add(stretcher, timber);
    maker.across(stretcher, bay, legs, ends, Across { peg_side, group: JointGroup::Stretchers, width: None });
}
