//! Tenons that meet inside a leg: their ends are mitred and keep a gap.

use super::rules;
use super::tenoning::Draft;
use crate::joint::Mitre;
use crate::unbuildable::{Stage, Unbuildable};
use crestrail_geometry::{Plane, Vec3};

/// Mitres every pair of tenons that would run into each other.
pub(super) fn part_where_they_meet(drafts: &mut [Draft<'_>]) -> Result<(), Unbuildable> {
    for i in 0..drafts.len() {
        for j in i + 1..drafts.len() {
            if in_the_way(&drafts[i], &drafts[j]) {
                let (a, b) = mitre(&drafts[i], &drafts[j])?;
                apply(&mut drafts[i], a)?;
                apply(&mut drafts[j], b)?;
            }
        }
    }
    clear_haunches(drafts);
    Ok(())
}

/// Draws haunches back where they would run into a tenon or haunch of another joint.
fn clear_haunches(drafts: &mut [Draft<'_>]) {
    for i in 0..drafts.len() {
        let host = drafts[i].site.host.id;
        let others = drafts.iter().enumerate().filter(|(j, d)| *j != i && d.site.host.id == host);
        let blocks: Vec<_> =
            others.flat_map(|(_, d)| [Some(d.block()), d.haunch_block()]).flatten().collect();
        drafts[i].clear_haunch_of(&blocks);
    }
}

fn in_the_way(a: &Draft<'_>, b: &Draft<'_>) -> bool {
    a.site.host.id == b.site.host.id && a.block().grown(rules::MITRE_GAP).overlaps(&b.block())
}

/// The two cuts: half-way between the directions, through the line where the middles of the two
/// tenons meet, each drawn back by half the gap.
fn mitre(a: &Draft<'_>, b: &Draft<'_>) -> Result<(Mitre, Mitre), Unbuildable> {
    let normal = (a.mouth.x - b.mouth.x).unit();
    let middle = |d: &Draft<'_>| Plane::through(d.mouth.origin, d.mouth.z);
    // Any plane across both middles finds a point of their common line.
    let level = Plane::through(a.mouth.origin, a.mouth.z.cross(b.mouth.z));
    let meet = Plane::corner(&middle(a), &middle(b), &level).ok_or_else(|| same_way(a, b))?;
    let cut = Plane::through(meet, normal).moved(-rules::MITRE_GAP / 2.0);
    let other = Plane::through(meet, -normal).moved(-rules::MITRE_GAP / 2.0);
    let end = |with: &Draft<'_>, plane| Mitre {
        with: with.site.guest.id,
        plane,
        short_length: 0.0,
        gap: rules::MITRE_GAP,
    };
    Ok((end(b, cut), end(a, other)))
}

/// Gives the tenon its mitred end, and its lengths on both sides.
fn apply(draft: &mut Draft<'_>, mitre: Mitre) -> Result<(), Unbuildable> {
    let block = draft.block();
    let length = |z: f64| {
        let start = draft.mouth.point(Vec3::Z * z);
        mitre.plane.meet(start, draft.mouth.x).map(|p| draft.mouth.local_point(p).x)
    };
    let (Some(one), Some(two)) = (length(block.low.z), length(block.high.z)) else {
        return Err(too_short(draft, 0.0));
    };
    let short = one.min(two).min(draft.longest);
    if short < rules::LEAST_TENON {
        return Err(too_short(draft, short));
    }
    draft.length = one.max(two).min(draft.longest);
    draft.mitre = Some(Mitre { short_length: short, ..mitre });
    Ok(())
}

fn too_short(draft: &Draft<'_>, short: f64) -> Unbuildable {
    let mut knobs = super::tenoning::section_knobs(draft.site.host.id.role).to_vec();
    knobs.extend(["set_back", "rail_thickness", "tenon_share"]);
    Unbuildable {
        stage: Stage::Joints,
        knobs,
        why: format!(
            "In the {} the tenon of the {} would end {:.0} mm deep where it meets the other tenon; it needs {:.0} mm.",
            draft.site.host.id.role.name(),
            draft.site.guest.id.role.name(),
            short.max(0.0),
            rules::LEAST_TENON
        ),
    }
}

fn same_way(a: &Draft<'_>, b: &Draft<'_>) -> Unbuildable {
    Unbuildable {
        stage: Stage::Joints,
        knobs: super::tenoning::section_knobs(a.site.host.id.role).to_vec(),
        why: format!(
            "In the {} the tenons of the {} and the {} run into each other from opposite sides.",
            a.site.host.id.role.name(),
            a.site.guest.id.role.name(),
            b.site.guest.id.role.name()
        ),
    }
}
