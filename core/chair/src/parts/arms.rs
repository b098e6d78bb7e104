//! Arms and the posts that carry them.

use super::maker::{Entry, Maker, id, leg_id};
use super::stick;
use crate::joint::End;
use crate::meeting::JointGroup;
use crate::part::{PartId, Role, Side};
use crate::skeleton::{ArmLines, ArmPost};
use crestrail_geometry::{Plane, Vec3};

/// Timber kept at each side of the arm's tenon in the back leg, mm (common practice, no source).
const LEG_BESIDE: f64 = 8.0;

/// The right arm, and its post if it does not lie on the front leg.
pub(super) fn make(maker: &mut Maker<'_>) {
    let Some(arms) = &maker.lines.arms else { return };
    let outer = maker.lines.outer();
    let arm = id(Role::Arm, Side::Right, 1);
    let carrier = match &arms.post {
        Some(post) => self::post(maker, arms, post),
        None => leg_id(Role::FrontLeg, outer),
    };
    let (height, width) = (maker.design.arm_thickness(), maker.design.arm_width());
    maker.add(arm, stick::between(&arms.place, height, width, arms.ends));
    on_carrier(maker, carrier, arm, arms.underside);
    let entry = Entry {
        end: End::Far,
        host: leg_id(Role::BackLeg, outer),
        face: arms.ends[1].flipped(),
        way: outer.way,
        peg_side: Vec3::X,
        group: JointGroup::Arms,
        width: Some(outer.back.across - 2.0 * LEG_BESIDE),
        pegged: true,
    };
    maker.enter(arm, entry);
}

/// The carrier's upper end enters the arm from below.
fn on_carrier(maker: &mut Maker<'_>, carrier: PartId, arm: PartId, underside: Plane) {
    let entry = Entry {
        end: End::Far,
        host: arm,
        face: underside.flipped(),
        way: Vec3::Z,
        peg_side: Vec3::X,
        group: JointGroup::Arms,
        width: None,
        pegged: true,
    };
    maker.enter(carrier, entry);
}

/// A short post, as thick as the rail on which it stands.
fn post(maker: &mut Maker<'_>, arms: &ArmLines, post: &ArmPost) -> PartId {
    let frame = maker.lines.outer();
    let tops = maker.lines.seat.rail_tops();
    let part = id(Role::ArmPost, Side::Right, 1);
    let ends = [tops.flipped(), arms.underside];
    maker.add(part, stick::between(&post.place, post.deep, maker.lines.rail_thickness, ends));
    let entry = Entry {
        end: End::Near,
        host: leg_id(Role::SideRail, frame),
        face: tops,
        way: Vec3::Z,
        peg_side: Vec3::X,
        group: JointGroup::Arms,
        width: None,
        pegged: true,
    };
    maker.enter(part, entry);
    part
}
