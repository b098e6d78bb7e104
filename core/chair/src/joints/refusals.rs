//! What is said of a joint that cannot be made.

use super::sections::section_knobs;
use super::site::Site;
use crate::unbuildable::{Stage, Unbuildable};

fn clash(site: &Site<'_>, first: &[&'static str], why: String) -> Unbuildable {
    let more = section_knobs(site.host.id.role).iter().chain(section_knobs(site.guest.id.role));
    let mut knobs = first.to_vec();
    more.for_each(|knob| {
        if !knobs.contains(knob) {
            knobs.push(knob);
        }
    });
    Unbuildable { stage: Stage::Joints, knobs, why }
}

pub(super) fn no_cutter(site: &Site<'_>, thickness: f64) -> Unbuildable {
    let why = format!(
        "No mortise cutter of the shop suits the {thickness:.1} mm of the {}.",
        site.guest.id.role.name()
    );
    clash(site, section_knobs(site.guest.id.role), why)
}

pub(super) fn too_small(site: &Site<'_>, length: f64, width: f64) -> Unbuildable {
    let why = format!(
        "The tenon of the {} in the {} would be only {length:.0} mm long and {width:.0} mm wide.",
        site.guest.id.role.name(),
        site.host.id.role.name()
    );
    clash(site, &[], why)
}

pub(super) fn breaks_out(site: &Site<'_>, wall: f64) -> Unbuildable {
    let why = format!(
        "The mortise for the {} leaves {:.1} mm of the {}; it would break out.",
        site.guest.id.role.name(),
        wall.max(0.0),
        site.host.id.role.name()
    );
    clash(site, &["set_back"], why)
}

pub(super) fn no_passing(a: &Site<'_>, b: &Site<'_>) -> Unbuildable {
    let why = format!(
        "In the {} the tenons of the {} and the {} meet and neither way to pass leaves enough of both.",
        a.host.id.role.name(),
        a.guest.id.role.name(),
        b.guest.id.role.name()
    );
    let mut refusal = clash(a, &["set_back", "tenon_share"], why);
    refusal.knobs.extend(section_knobs(b.guest.id.role));
    refusal
}

pub(super) fn lost(site: &Site<'_>, why: &str) -> Unbuildable {
    let why = format!(
        "The {} cannot be joined to the {}: {why}.",
        site.guest.id.role.name(),
        site.host.id.role.name()
    );
    clash(site, &[], why)
}
