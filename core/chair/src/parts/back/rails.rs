//! The two rails of a back between which something stands.

use super::crest;
use crate::meeting::JointGroup;
use crate::part::{PartId, Role};
use crate::parts::maker::{Across, Maker, id};
use crate::skeleton::{BackLines, Bay};
use crestrail_geometry::{Place, Plane, Vec3};

/// The opening between the two rails of one bay.
pub(super) struct Opening<'a> {
    pub(super) bay: &'a Bay,
    /// Lower rail and crest rail.
    pub(super) rails: [PartId; 2],
    /// Upper edge of the lower rail and lower edge of the crest rail, with normals out of the opening.
    pub(super) edges: [Plane; 2],
    /// A frame in the middle of the opening's height: x to the right, y up the lean, z backwards; its
    /// origin lies in the middle of the chair and of the rails' thickness.
    pub(super) place: Place,
    /// Where the faces of the legs stand in the middle of the opening: least and greatest x.
    pub(super) clear: (f64, f64),
}

/// The rails of every bay, and what `fill` puts between them.
pub(super) fn make(
    maker: &mut Maker<'_>,
    back: &BackLines,
    fill: fn(&mut Maker<'_>, &BackLines, &Opening<'_>),
) {
    let width = maker.design.back_rail_width();
    let rise = crest::rise(maker.design);
    for bay in &maker.lines.bays {
        let low = rail(maker, bay, back, Role::LowerBackRail, back.first + width / 2.0, 0.0);
        let high = rail(maker, bay, back, Role::CrestRail, back.last - width / 2.0, rise);
        let opening = opening(maker, bay, back, [low, high]);
        fill(maker, back, &opening);
    }
}

fn rail(maker: &mut Maker<'_>, bay: &Bay, back: &BackLines, role: Role, middle: f64, rise: f64) -> PartId {
    let (width, thickness) = (maker.design.back_rail_width(), maker.design.back_slat_thickness());
    let place = back.across(middle, back.inset + thickness / 2.0);
    let rail = id(role, bay.side, 1);
    maker.add(rail, crest::bar(&place, [width, thickness], bay.back.rails, rise));
    let to = Across { peg_side: Vec3::Y, group: JointGroup::Back, width: None };
    maker.across(rail, bay, Role::BackLeg, bay.back.rails, to);
    rail
}

fn opening<'a>(maker: &Maker<'_>, bay: &'a Bay, back: &BackLines, rails: [PartId; 2]) -> Opening<'a> {
    let width = maker.design.back_rail_width();
    let deep = back.inset + maker.design.back_slat_thickness() / 2.0;
    let (low, high) = (back.first + width, back.last - width);
    let place = back.across((low + high) / 2.0, deep);
    let at = |plane: &Plane| plane.meet(place.origin, Vec3::X).map_or(0.0, |p| p.x);
    Opening {
        bay,
        rails,
        edges: [Plane::through(back.at(low), -back.up), Plane::through(back.at(high), back.up)],
        place,
        clear: (at(&bay.back.rails[0]), at(&bay.back.rails[1])),
    }
}
