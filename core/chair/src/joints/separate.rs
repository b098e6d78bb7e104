//! Loose tenons and dowels: what joins two parts and belongs to neither.

use super::draft::Draft;
use super::feel::timber;
use super::{rules, trouble};
use crate::joint::{Kind, Tongue};
use crate::unbuildable::Unbuildable;
use crestrail_geometry::Vec3;

/// A dowel at each edge of the width that a tenon would have, or two as near together as may be.
pub(super) fn dowels(whole: Tongue, diameter: f64, host: f64) -> Vec<Tongue> {
    let depth = rules::DOWEL_DEPTH.min(host - rules::LEAST_WALL - rules::DOWEL_ROOM);
    let depth = depth.max(rules::LEAST_TENON.min(host - rules::CLOSE_WALL - rules::DOWEL_ROOM)).floor();
    let [low, high] = whole.y;
    let (low, high) = (low.min(-diameter), high.max(diameter));
    let dowel = |from: f64| Tongue { y: [from, from + diameter], from: 0.0, to: depth };
    vec![dowel(low), dowel(high - diameter)]
}

/// How deep a loose tenon or dowel may go into the end of its guest.
pub(super) fn into_guest(draft: &Draft<'_>) -> Result<f64, Unbuildable> {
    let length = draft.length();
    let most = length.min(draft.site.guest.size.length / 2.0 - rules::LEAST_WALL);
    let tries =
        (0..8).map(|i| (most - f64::from(i) * 3.0).floor()).take_while(|depth| *depth >= rules::LEAST_TENON);
    tries.into_iter().find(|depth| fits(draft, *depth)).ok_or_else(|| trouble::no_room_in_guest(&draft.site))
}

/// Whether the guest keeps timber around a hole that deep.
fn fits(draft: &Draft<'_>, depth: f64) -> bool {
    let guest = draft.site.guest;
    let (mouth, [low, high]) = (draft.mouth, draft.across());
    let behind = depth + rules::DOWEL_ROOM + rules::LEAST_WALL;
    let z = draft.cutter / 2.0;
    let at = |x: f64| mouth.point(Vec3::X * -x);
    let around = |x: f64| {
        let room = |d: Vec3, need: f64| {
            timber(guest, at(x), d).is_some_and(|r| r >= need + rules::AROUND_LOOSE - 1e-6)
        };
        room(mouth.z, z) && room(-mouth.z, z) && room(mouth.y, high) && room(-mouth.y, -low)
    };
    let ahead = timber(guest, at(draft.lead()), -mouth.x).is_some_and(|r| r + draft.lead() >= behind);
    ahead && around(draft.lead()) && around(depth)
}

impl Draft<'_> {
    /// Room behind a loose tenon or dowel at each end.
    pub(super) fn end_room(&self) -> f64 {
        if self.kind == Kind::Dowels { rules::DOWEL_ROOM } else { self.glue_gap }
    }
}
