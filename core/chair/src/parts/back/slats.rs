//! Level slats, one above the other.

use super::crest;
use crate::meeting::JointGroup;
use crate::part::Role;
use crate::parts::maker::{Across, Maker, id};
use crate::skeleton::{BackLines, Bay};
use crestrail_geometry::{Place, Vec3};

/// The slats of every bay, from below.
pub(super) fn make(maker: &mut Maker<'_>, back: &BackLines) {
    for bay in &maker.lines.bays {
        for (number, &(middle, width)) in (1..).zip(&back.slats) {
            slat(maker, bay, back, number, (middle, width));
        }
    }
}

fn slat(maker: &mut Maker<'_>, bay: &Bay, back: &BackLines, number: usize, (middle, width): (f64, f64)) {
    let thickness = maker.design.back_slat_thickness();
    let place = if back.upright {
        let leaning = back.across(middle, back.leg_depth(middle) / 2.0);
        Place::new(leaning.origin, Vec3::X, Vec3::Z)
    } else {
        back.across(middle, back.inset + thickness / 2.0)
    };
    let slat = id(Role::BackSlat, bay.side, number);
    let rise = if number == back.slats.len() { crest::rise(maker.design) } else { 0.0 };
    maker.add(slat, crest::bar(&place, [width, thickness], bay.back.rails, rise));
    let to = Across { peg_side: Vec3::Y, group: JointGroup::Back, width: None };
    maker.across(slat, bay, Role::BackLeg, bay.back.rails, to);
}
