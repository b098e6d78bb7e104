//! Laths and splats: upright pieces tenoned into the two rails of a back.

use super::rails::Opening;
use crate::joint::End;
use crate::meeting::JointGroup;
use crate::part::{PartId, Role, Side};
use crate::parts::maker::{Entry, Maker, Timber, id};
use crate::parts::stick;
use crate::skeleton::BackLines;
use crestrail_geometry::{Place, Vec3};

/// The least gap between two laths, mm: wider than what traps a finger (see the check on openings).
const LEAST_GAP: f64 = 13.0;

/// The widest tenon of a splat, mm, so that it may shrink and swell between its rails.
const SPLAT_TENON: f64 = 60.0;

/// As many laths as the design asks for, or as have room, evenly spread.
pub(super) fn laths(maker: &mut Maker<'_>, back: &BackLines, opening: &Opening<'_>) {
    let width = maker.design.lath_width();
    let (from, to) = opening.clear;
    let room = ((to - from - LEAST_GAP) / (width + LEAST_GAP)).floor().max(1.0) as usize;
    let count = maker.design.laths().min(room);
    let pitch = (to - from - width * count as f64) / (count as f64 + 1.0) + width;
    let first = from + pitch - width / 2.0;
    let all = (0..count).map(|i| first + pitch * i as f64);
    stand(maker, opening, Role::Lath, all.collect(), [width, back.fill], None);
}

/// One broad board in the middle.
pub(super) fn splat(maker: &mut Maker<'_>, back: &BackLines, opening: &Opening<'_>) {
    let (from, to) = opening.clear;
    let width = (to - from) * maker.design.splat_share() / 100.0;
    stand(maker, opening, Role::Splat, vec![(from + to) / 2.0], [width, back.fill], Some(SPLAT_TENON));
}

/// Upright pieces with their middles at each x; those left of the middle are mirror images.
pub(super) fn stand(
    maker: &mut Maker<'_>,
    opening: &Opening<'_>,
    role: Role,
    middles: Vec<f64>,
    [width, thickness]: [f64; 2],
    tenon: Option<f64>,
) {
    for x in middles {
        let side = match opening.bay.side {
            Side::Middle if x < -MIDDLE => continue,
            Side::Middle if x < MIDDLE => Side::Middle,
            Side::Left | Side::Middle | Side::Right => Side::Right,
        };
        let place = upright(opening, x);
        let timber = stick::between(&place, width, thickness, opening.edges);
        one(maker, opening, (role, side), timber, tenon);
    }
}

/// A piece as near to the middle of the chair as this stands in it, mm.
const MIDDLE: f64 = 1e-3;

/// The frame of an upright piece: x up the lean, y to the left, z backwards reversed by handedness.
pub(super) fn upright(opening: &Opening<'_>, x: f64) -> Place {
    let middle = opening.place;
    Place::new(middle.origin + Vec3::X * x, middle.y, Vec3::X)
}

/// Adds an upright piece whose ends enter both rails.
pub(super) fn one(
    maker: &mut Maker<'_>,
    opening: &Opening<'_>,
    (role, side): (Role, Side),
    timber: Timber,
    width: Option<f64>,
) -> PartId {
    let number = maker.parts.iter().filter(|p| p.id.role == role && p.id.side == side).count() + 1;
    let part = id(role, side, number);
    maker.add(part, timber);
    let ends = [End::Near, End::Far].into_iter().zip(opening.rails).zip(opening.edges);
    for ((end, host), edge) in ends {
        let entry = Entry {
            end,
            host,
            face: edge.flipped(),
            way: opening.place.y,
            peg_side: opening.place.z,
            group: JointGroup::Fill,
            width,
            pegged: false,
        };
        maker.enter(part, entry);
    }
    part
}
