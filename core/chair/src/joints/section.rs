//! The section of a tenon: its cutter, where it stands in the guest's thickness, and its width.

use super::feel::{along_face, reach};
use super::kinds::Plan;
use super::site::Site;
use super::sizing::{RailTenons, Sizing, beyond_edges};
use super::{rules, trouble};
use crate::joint::Kind;
use crate::meeting::JointGroup;
use crate::part::Role;
use crate::unbuildable::Unbuildable;
use crestrail_geometry::{Place, Vec3};
use crestrail_phrases::word;

/// The section of a tenon in the frame of the guest's middle at the host's face.
#[derive(Clone, Copy, Debug)]
pub(super) struct Section {
    /// Thickness of the mortise, or diameter of the dowels.
    pub(super) cutter: f64,
    /// How far its middle stands from the guest's along z.
    pub(super) aside: f64,
    /// Its lower edge.
    pub(super) low: f64,
    /// Its upper edge.
    pub(super) high: f64,
}

/// The narrowest tenon.
pub(super) fn least_width(site: &Site<'_>) -> f64 {
    if site.group == JointGroup::Fill { rules::LEAST_TONGUE } else { 8.0 }
}

/// The section of a plan's tenon.
pub(super) fn of(
    sizing: &Sizing<'_>,
    site: &Site<'_>,
    middle: &Place,
    plan: Plan,
) -> Result<Section, Unbuildable> {
    let thickness = site.guest.size.thickness;
    let room = room(site, middle)?;
    if plan.kind == Kind::BareFaced && site.is_centred(middle.z) {
        return Err(trouble::lost(site, word("a bare-faced tenon would not stand in the middle")));
    }
    let [core_low, core_high] = site.guest.core;
    let reckoned = rules::reckoned_thickness(thickness, core_high - core_low);
    let cutter = cutter(sizing, site, reckoned, room[0] + room[1], plan);
    let cutter = cutter.ok_or_else(|| trouble::no_cutter(site, thickness))?;
    let [low, high] = width(site, middle)?;
    let aside = aside(sizing, site, middle, room, [thickness, cutter], plan.kind);
    Ok(Section { cutter, aside, low, high })
}

/// Timber of the host at both sides of the guest's middle, along the host's face: against and along z.
fn room(site: &Site<'_>, middle: &Place) -> Result<[f64; 2], Unbuildable> {
    let inside = middle.point(Vec3::X);
    let way = along_face(site, middle.z);
    let square = way.dot(middle.z).abs();
    Ok([reach(site, inside, -way)? * square, reach(site, inside, way)? * square])
}

fn cutter(sizing: &Sizing<'_>, site: &Site<'_>, thickness: f64, across: f64, plan: Plan) -> Option<f64> {
    let share = sizing.design.tenon_share() / 100.0;
    let cutters = &sizing.bench.cutters;
    let fill = site.group == JointGroup::Fill;
    let wall = if fill || plan.short { rules::THIN_WALL } else { rules::CLOSE_WALL };
    let host = across - 2.0 * wall;
    match plan.kind {
        Kind::Dowels => rules::dowels(thickness, host).nth(plan.thin),
        Kind::BareFaced => {
            let most = (thickness - rules::BARE_SHOULDER).min(host);
            let wish = (thickness * share.max(0.5)).min(most.max(0.0));
            cutters.nearest(wish, thickness * 0.3, most)
        }
        Kind::Blind | Kind::Haunched | Kind::Through | Kind::Twin | Kind::Loose => {
            let most = if fill { rules::FILL_SHARE } else { rules::MOST_SHARE } * thickness;
            let first = rules::mortise_thickness(thickness, share, cutters, most.min(host));
            first.and_then(|first| cutters.smaller(first, plan.thin, thickness * 0.2))
        }
    }
}

/// Lower and upper edge of the tenon: shoulders at the guest's edges, wider where the host ends near them.
fn width(site: &Site<'_>, middle: &Place) -> Result<[f64; 2], Unbuildable> {
    let [core_low, core_high] = site.guest.core;
    let whole = core_high - core_low;
    let half = whole / 2.0;
    let edge = rules::edge_shoulder(whole);
    let room = beyond_edges(site, middle, half)?;
    let raised =
        |room: f64| if room + edge >= rules::LEAST_END { edge } else { (rules::LEAST_END - room).max(edge) };
    let leg = matches!(site.host.id.role, Role::FrontLeg | Role::BackLeg);
    let rail = matches!(site.group, JointGroup::Rails | JointGroup::Back);
    let top = match room[1] + edge >= rules::LEAST_END {
        true => edge,
        false if leg && rail => rules::haunch_share(whole),
        false => raised(room[1]),
    };
    let shoulders = [raised(room[0]), top];
    let cap = site.width.unwrap_or(f64::INFINITY) / 2.0;
    let least = least_width(site);
    let tried = [1.0, 0.8, 0.6, 0.4].map(|share| shoulders.map(|s| (s * share).max(1.0)));
    let cut = |[low, high]: [f64; 2]| [(low - half).max(-cap), (half - high).min(cap)];
    let found = tried.into_iter().map(cut).find(|[low, high]| high - low >= least);
    found.ok_or_else(|| trouble::too_small(site, 0.0, whole - shoulders[0] - shoulders[1]))
}

/// How far the tenon moves along z: outwards in rails where they ask for it, to one face if it is bare-faced, and
/// away from a face of the host that it would leave too thin.
fn aside(
    sizing: &Sizing<'_>,
    site: &Site<'_>,
    middle: &Place,
    room: [f64; 2],
    [thickness, cutter]: [f64; 2],
    kind: Kind,
) -> f64 {
    let shoulder = (thickness - cutter) / 2.0;
    let wall = |aside: f64| [room[0] + aside - cutter / 2.0, room[1] - aside - cutter / 2.0];
    let out = site.peg_side.dot(middle.z).signum();
    if site.is_centred(middle.z) {
        return 0.0;
    }
    if kind == Kind::BareFaced {
        let bare = (thickness - cutter + sizing.bench.fit) / 2.0 - bare_inset(site, middle);
        let least = |aside: f64| wall(aside)[0].min(wall(aside)[1]);
        // On the inner face, unless the outer one leaves clearly more of the host.
        let (inner, outer) = (-out * bare, out * bare);
        return if least(outer) > least(inner) + 1.0 { outer } else { inner };
    }
    let rail = matches!(site.guest.id.role, Role::FrontRail | Role::SideRail | Role::BackRail);
    let wish = match sizing.rails {
        RailTenons::Outwards if rail => {
            let keep = rules::OUTER_SHOULDER.max(rules::LEAST_WALL - sizing.design.set_back());
            (shoulder - keep).max(0.0) * out
        }
        _ => 0.0,
    };
    let [against, along] = wall(wish);
    if against.min(along) >= rules::CLOSE_WALL {
        return wish;
    }
    let most = (shoulder - rules::BARE_SHOULDER).max(0.0);
    let needed = (rules::LEAST_WALL - against.min(along)).min((against - along).abs() / 2.0);
    let way = if against < along { 1.0 } else { -1.0 };
    (wish + way * needed).clamp(-most, most)
}

/// How far a bare face lies within the guest's face: nothing where both run alike; at an angle a little, and more
/// where the host's face leans, because the guest's face then crosses it aslant.
fn bare_inset(site: &Site<'_>, middle: &Place) -> f64 {
    let turn = site.inward.dot(site.guest.place.z) / site.inward.dot(site.guest.place.x);
    if turn.abs() < 1e-9 {
        return 0.0;
    }
    let normal = middle.local_direction(site.face.normal);
    let half = site.guest.size.width / 2.0;
    rules::BARE_INSET + (turn * normal.y / normal.x).abs() * half
}
