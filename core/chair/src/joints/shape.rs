//! The bodies of a joint: tenon, mortise, and what is cut from the guest.

use super::block::Block;
use super::draft::Draft;
use super::inserts;
use super::refusals::breaks_out;
use super::{rules, walls};
use crate::design::Design;
use crate::joint::{Haunch, Joint, Kind, Mortise, Peg, Tenon};
use crate::unbuildable::Unbuildable;
use crestrail_geometry::math::acos;
use crestrail_geometry::{Body, Plane, Vec3};

/// Length left at the outer edge of a sloping haunch, mm: a feather edge would crumble.
const HAUNCH_TIP: f64 = 1.0;

/// The joint with its measures and bodies; its pieces of its own are counted on from `numbers`.
pub(super) fn finish(
    draft: &Draft<'_>,
    design: &Design,
    pegs: Vec<Peg>,
    numbers: &mut inserts::Numbers,
) -> Result<Joint, Unbuildable> {
    let mortise = mortise(draft, design.glue_gap())?;
    if mortise.wall < rules::NO_WALL || mortise.from_end < rules::NO_WALL {
        return Err(breaks_out(&draft.site, mortise.wall.min(mortise.from_end)));
    }
    let grain = draft.site.guest.place.x;
    let made = inserts::of(draft, design.glue_gap(), numbers);
    Ok(Joint {
        host: draft.site.host.id,
        guest: draft.site.guest.id,
        end: draft.site.end,
        mouth: draft.mouth,
        face: draft.site.face,
        tenon: Tenon {
            length: draft.length,
            width: draft.width,
            thickness: draft.cutter - draft.fit,
            shoulders: draft.shoulders,
            haunch: draft.haunch,
            mitre: draft.mitre,
            step: draft.step,
            gap: draft.gap,
            to_grain: acos(grain.dot(draft.mouth.x).abs()),
            bodies: tenon(draft),
        },
        mortise,
        pegs,
        kind: draft.kind,
        why: draft.why.clone(),
        given_way: draft.given_way.clone(),
        corners: draft.corners.clone(),
        inserts: made.inserts,
        guest_cuts: made.guest_cuts,
    })
}

/// The tenon from its shoulder to its end, and its haunch.
fn tenon(draft: &Draft<'_>) -> Vec<Body> {
    if !draft.kind.of_the_guest() {
        return Vec::new();
    }
    let far = (draft.kind == Kind::Through).then(|| walls::far_face(draft)).flatten();
    let body = |block: &Block| {
        let mut planes = block.open_planes();
        planes.extend(draft.mitre.map(|mitre| mitre.plane));
        if let Some(far) = far {
            planes.remove(0);
            planes.push(far);
        }
        planes.push(draft.site.face);
        Body::Convex(planes)
    };
    let blocks = draft.blocks();
    let mut bodies: Vec<Body> =
        blocks.iter().flat_map(|block| twins(draft, block)).map(|b| body(&b)).collect();
    bodies.extend(draft.haunch.map(|h| haunch(draft, h, 0.0, 0.0, draft.site.face)));
    bodies
}

/// The two blocks of twin tenons, or the one block of any other.
fn twins(draft: &Draft<'_>, block: &Block) -> Vec<Block> {
    let Some(gap) = draft.gap else { return vec![*block] };
    let (mut low, mut high) = (*block, *block);
    low.high.y = -gap / 2.0;
    high.low.y = gap / 2.0;
    vec![low, high]
}

fn mortise(draft: &Draft<'_>, glue_gap: f64) -> Result<Mortise, Unbuildable> {
    let through = draft.kind == Kind::Through;
    let play = draft.play();
    let depth = draft.length + if through { 0.0 } else { glue_gap };
    let (wall, from_end) = draft.around(glue_gap)?;
    let mouth_of_haunch = draft.mouth.plane(&Plane { normal: -Vec3::X, offset: draft.lead() });
    let haunch = draft.haunch.map(|h| haunch(draft, h, play, glue_gap, mouth_of_haunch));
    let mut bodies = match draft.kind {
        Kind::Dowels => inserts::holes(draft, draft.length + glue_gap),
        _ => draft
            .blocks()
            .iter()
            .flat_map(|b| twins(draft, b))
            .map(|b| draft.hole(&b, glue_gap).body())
            .collect(),
    };
    bodies.extend(haunch);
    Ok(Mortise {
        depth,
        width: draft.width + draft.fit,
        thickness: draft.cutter,
        glue_gap: if through { 0.0 } else { glue_gap },
        wall,
        from_end,
        bodies,
    })
}

/// A wedge beside the tenon that slopes from the haunch's length to its tip at the outer edge,
/// kept `clear` of the timber it enters at its end and with `play` at its cheeks and outer edge.
fn haunch(draft: &Draft<'_>, haunch: Haunch, play: f64, clear: f64, root: Plane) -> Body {
    let (foot, half) = (draft.width / 2.0, draft.cutter / 2.0 - draft.play() + play);
    let side = |normal: Vec3, at: f64| draft.mouth.plane(&Plane { normal, offset: at });
    let slope = Plane::through(
        Vec3::new(haunch.length + clear, foot, 0.0),
        Vec3::new(haunch.width, haunch.length - HAUNCH_TIP, 0.0),
    );
    Body::Convex(vec![
        side(-Vec3::Y, -foot),
        side(Vec3::Y, foot + haunch.width + play),
        side(Vec3::Z, half),
        side(-Vec3::Z, half),
        draft.mouth.plane(&slope),
        root,
    ])
}
