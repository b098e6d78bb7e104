//! Level slats, one above the other.

use crate::meeting::JointGroup;
use crate::part::Role;
use crate::parts::maker::{Across, Maker, id};
use crate::parts::stick;
use crate::skeleton::{BackLines, Bay};
use crestrail_geometry::Vec3;

/// The narrowest space between two back slats, and the lowest slat, mm (common practice, no source).
const LEAST_GAP: f64 = 12.0;
const LEAST_SLAT: f64 = 18.0;

/// Heights and gaps of the slats, mm along the lean.
struct Share {
    width: f64,
    gap: f64,
    count: usize,
}

impl Share {
    /// As many slats as the design asks for, or as many as fit.
    fn of(maker: &Maker<'_>, back: &BackLines) -> Self {
        let space = back.last - back.first;
        let wood = space * maker.design.back_fill() / 100.0;
        let fits = |count: usize| {
            wood / count as f64 >= LEAST_SLAT && (space - wood) / (count as f64 - 1.0) >= LEAST_GAP
        };
        let count = (2..=maker.design.back_slats()).rev().find(|&count| fits(count)).unwrap_or(2);
        Self { width: wood / count as f64, gap: (space - wood) / (count as f64 - 1.0), count }
    }
}

/// The slats of every bay, from below.
pub(super) fn make(maker: &mut Maker<'_>) {
    let Some(back) = &maker.lines.back else { return };
    let share = Share::of(maker, back);
    for bay in &maker.lines.bays {
        for number in 0..share.count {
            let middle = back.first + share.width / 2.0 + (share.width + share.gap) * number as f64;
            slat(maker, bay, back, number + 1, middle, share.width);
        }
    }
}

fn slat(maker: &mut Maker<'_>, bay: &Bay, back: &BackLines, number: usize, middle: f64, width: f64) {
    let thickness = maker.design.back_slat_thickness();
    let place = back.across(middle, maker.design.set_back() + thickness / 2.0);
    let slat = id(Role::BackSlat, bay.side, number);
    maker.add(slat, stick::between(&place, width, thickness, bay.back.rails));
    let to = Across { peg_side: Vec3::Y, group: JointGroup::Back, width: None };
    maker.across(slat, bay, Role::BackLeg, bay.back.rails, to);
}
