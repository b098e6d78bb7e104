//! What to say, and which knobs to name, where a joint has no room.

use super::site::Site;
use crate::part::Role;
use crate::unbuildable::{Stage, Unbuildable};
use crestrail_phrases::say;

/// The knobs that decide the section of a part.
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
        Role::Peg => &["peg_size"],
        Role::LooseTenon | Role::Dowel | Role::Wedge => &["tenon_share"],
    }
}

pub(super) fn clash(site: &Site<'_>, first: &[&'static str], why: String) -> Unbuildable {
    let more = section_knobs(site.host.id.role).iter().chain(section_knobs(site.guest.id.role));
    let mut knobs = first.to_vec();
    more.for_each(|knob| {
        if !knobs.contains(knob) {
            knobs.push(knob);
        }
    });
    Unbuildable { stage: Stage::Joints, knobs, why }
}

fn names(site: &Site<'_>) -> (&'static str, &'static str) {
    (site.guest.id.role.name(), site.host.id.role.name())
}

pub(super) fn no_cutter(site: &Site<'_>, thickness: f64) -> Unbuildable {
    let (guest, host) = names(site);
    let why = say!(
        "no mortise cutter of the shop suits the {thickness:.1} mm of the {guest} and the room in the {host}"
    );
    clash(site, section_knobs(site.guest.id.role), why)
}

pub(super) fn too_small(site: &Site<'_>, length: f64, width: f64) -> Unbuildable {
    let (guest, host) = names(site);
    let why = say!(
        "the tenon of the {guest} in the {host} would be only {:.0} mm long and {:.0} mm wide",
        length.max(0.0),
        width.max(0.0)
    );
    clash(site, &[], why)
}

pub(super) fn breaks_out(site: &Site<'_>, wall: f64) -> Unbuildable {
    let (guest, host) = names(site);
    let left = wall.max(0.0);
    let why = say!("the mortise for the {guest} leaves {left:.1} mm of the {host}; it would break out");
    clash(site, &["set_back"], why)
}

pub(super) fn uneven(site: &Site<'_>) -> Unbuildable {
    let (_, host) = names(site);
    let why = say!("the far face of the {host} is not one flat face where the tenon would come out");
    clash(site, &[], why)
}

pub(super) fn no_twins(site: &Site<'_>, width: f64) -> Unbuildable {
    let why = say!("{width:.0} mm are too narrow for two tenons");
    clash(site, &[], why)
}

pub(super) fn no_room_in_guest(site: &Site<'_>) -> Unbuildable {
    let (guest, _) = names(site);
    clash(site, &[], say!("the {guest} has no room for it at its end"))
}

pub(super) fn lost(site: &Site<'_>, why: &str) -> Unbuildable {
    let (guest, host) = names(site);
    clash(site, &[], say!("the {guest} cannot be joined to the {host}: {why}"))
}

pub(super) fn meets(a: &Site<'_>, b: &Site<'_>, why: &str) -> Unbuildable {
    let (first, host) = names(a);
    let (second, _) = names(b);
    let why = say!("in the {host} the joints of the {first} and the {second} run into each other: {why}");
    let mut clash = clash(a, section_knobs(a.host.id.role), why);
    for knob in section_knobs(b.guest.id.role).iter().chain(&["set_back", "tenon_share"]) {
        if !clash.knobs.contains(knob) {
            clash.knobs.push(knob);
        }
    }
    clash
}

/// A reason as a whole sentence.
pub(super) fn sentence(error: Unbuildable) -> Unbuildable {
    let mut letters = error.why.chars();
    let why = letters.next().map(|c| c.to_uppercase().chain(letters).chain(['.']).collect::<String>());
    Unbuildable { why: why.unwrap_or_default(), ..error }
}
