//! Which knobs decide the section of a part.

use crate::part::Role;

/// The knobs that decide the section of a part, the thickness first.
pub(crate) fn section_knobs(role: Role) -> &'static [&'static str] {
    match role {
        Role::FrontLeg => &["front_leg"],
        Role::BackLeg => &["back_leg_thickness", "back_leg_depth"],
        Role::FrontRail | Role::SideRail | Role::BackRail => &["rail_thickness", "rail_width"],
        Role::SideStretcher | Role::CrossStretcher | Role::FrontStretcher | Role::BackStretcher => {
            &["stretcher_thickness", "stretcher_width"]
        }
        Role::CrestRail | Role::LowerBackRail => &["back_slat_thickness", "back_rail_width"],
        Role::Lath => &["fill_thickness", "lath_width"],
        Role::Splat => &["fill_thickness", "splat_share"],
        Role::Stile => &["back_slat_thickness"],
        Role::Panel => &["fill_thickness"],
        Role::Arm => &["arm_thickness", "arm_width"],
        Role::ArmPost => &["rail_thickness", "front_leg"],
        Role::BackSlat => &["back_slat_thickness", "back_fill"],
        Role::SeatSlat | Role::SeatBoard | Role::PadBoard | Role::Pad => &["seat_slat_thickness", "seat"],
        Role::Button | Role::Ledge => &["rail_thickness", "seat"],
        Role::Cord => &["cord", "seat"],
        Role::LooseTenon | Role::Dowel | Role::Wedge => &["tenon_share"],
        Role::Peg => &["peg_size"],
    }
}
