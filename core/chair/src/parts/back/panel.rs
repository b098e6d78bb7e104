//! A panel in grooves of the two rails and of two stiles beside the legs.

use super::fill;
use super::rails::Opening;
use crate::housing::{Cut, Housing};
use crate::part::{PartId, Role, Side, Size};
use crate::parts::maker::{Maker, Timber, id};
use crate::parts::stick;
use crate::skeleton::BackLines;
use crestrail_geometry::{Body, Plane, Vec3};

/// Width of a stile, mm, and how far the panel enters rails and stiles.
const STILE: f64 = 40.0;
const DEEP: f64 = 7.0;

/// Depth of the grooves, mm: the panel keeps this much less, so that it can swell across its grain.
const GROOVE: f64 = 10.0;

/// Play of the panel in the width of its groove, mm.
const PLAY: f64 = 0.2;

/// Air between a stile and the leg beside it, mm.
const AIR: f64 = 0.5;

/// Stiles beside the legs, and the panel between.
pub(super) fn make(maker: &mut Maker<'_>, back: &BackLines, opening: &Opening<'_>) {
    let (from, to) = opening.clear;
    let inner = [from + STILE + AIR, to - STILE - AIR];
    let right = stile(maker, opening, to - STILE / 2.0 - AIR, 1);
    let left = match opening.bay.side {
        Side::Middle => right.mirrored(),
        Side::Left | Side::Right => stile(maker, opening, from + STILE / 2.0 + AIR, 0),
    };
    panel(maker, back, opening, inner, [left, right]);
}

/// A stile as thick as the rails, planed to the slant of the leg beside it.
fn stile(maker: &mut Maker<'_>, opening: &Opening<'_>, x: f64, end: usize) -> PartId {
    let place = fill::upright(opening, x);
    let thickness = maker.design.back_slat_thickness();
    let leg = opening.bay.back.rails[end].moved(-AIR);
    let reach = slant(opening, &leg);
    let place = place.moved(Vec3::X * (leg.normal.x.signum() * reach / 2.0));
    let mut timber = stick::between(&place, STILE + reach, thickness, opening.edges);
    // What the slant takes off lies on the side of the leg.
    let half = (STILE + reach) / 2.0;
    let leg = place.local_plane(&leg);
    timber.plane(Vec3::Y * leg.normal.y.signum(), leg);
    timber.core = if leg.normal.y > 0.0 { [-half, half - 2.0 * reach] } else { [2.0 * reach - half, half] };
    let tenon = STILE - reach - 2.0 * GROOVE;
    fill::one(maker, opening, (Role::Stile, Side::Right), timber, Some(tenon))
}

/// How far the leg's face slants over half the height of the opening, mm.
fn slant(opening: &Opening<'_>, leg: &Plane) -> f64 {
    let at = |edge: &Plane| {
        let p = edge.meet(opening.place.origin, opening.place.y)?;
        leg.meet(p, Vec3::X).map(|p| p.x)
    };
    match (at(&opening.edges[0]), at(&opening.edges[1])) {
        (Some(a), Some(b)) => (a - b).abs() / 2.0,
        _ => 0.0,
    }
}

fn panel(
    maker: &mut Maker<'_>,
    back: &BackLines,
    opening: &Opening<'_>,
    inner: [f64; 2],
    stiles: [PartId; 2],
) {
    let place = fill::upright(opening, (inner[0] + inner[1]) / 2.0);
    let edges = opening.edges.map(|edge| edge.moved(DEEP));
    let sides = [Plane { normal: -Vec3::X, offset: -inner[0] }, Plane { normal: Vec3::X, offset: inner[1] }];
    let width = inner[1] - inner[0] + 2.0 * DEEP;
    let panel = id(Role::Panel, opening.bay.side, 1);
    let timber = stick::between(&place, width, back.fill, edges);
    let length = timber.size.length;
    maker.add(panel, Timber { size: Size { length, ..timber.size }, ..timber });
    let half = back.fill / 2.0 + PLAY / 2.0;
    let faces = [Vec3::Z, -Vec3::Z].map(|normal| place.plane(&Plane { normal, offset: half }));
    let groove = |host: PartId, edge: &Plane, ends: [Plane; 2], length: f64| Housing {
        host,
        guest: panel,
        cut: Cut::Groove,
        length,
        width: back.fill + PLAY,
        depth: GROOVE,
        body: Body::Convex(
            [vec![edge.moved(GROOVE), edge.flipped().moved(1.0)], ends.to_vec(), faces.to_vec()].concat(),
        ),
    };
    let long = inner[1] - inner[0] + 2.0 * GROOVE;
    let cuts = [
        groove(opening.rails[0], &opening.edges[0], sides.map(|s| s.moved(GROOVE)), long),
        groove(opening.rails[1], &opening.edges[1], sides.map(|s| s.moved(GROOVE)), long),
        groove(stiles[0], &sides[0], opening.edges.map(|e| e.moved(1.0)), length),
        groove(stiles[1], &sides[1], opening.edges.map(|e| e.moved(1.0)), length),
    ];
    // In the middle bay the left stile's groove is the mirror image of the right one's.
    let own = cuts.into_iter().filter(|cut| cut.host.side != Side::Left);
    maker.housings.extend(own);
}
