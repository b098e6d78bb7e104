//! Tenons that meet in a mitre: both end in planes side by side.

use crate::joint::{Haunch, Mitre};
use crate::joints::draft::Draft;
use crate::joints::rules;
use crate::joints::sizing::LEAST_HAUNCH;
use crestrail_geometry::{Plane, Vec3};
use crestrail_phrases::say;

/// Cuts half-way between the directions, through the line where the middles of the two tenons meet, each drawn
/// back by half the gap.
pub(super) fn mitre(set: &mut [Draft<'_>]) -> Result<(), String> {
    if set.iter().any(|d| d.far.is_some() || d.kind == crate::joint::Kind::Dowels) {
        return Err(say!("only tenons that end inside can be mitred"));
    }
    for k in 1..set.len() {
        let (a, b) = (&set[0], &set[k]);
        let normal = (a.mouth.x - b.mouth.x).unit();
        let middle = |d: &Draft<'_>| Plane::through(d.mouth.origin, d.mouth.z);
        // Any plane across both middles finds a point of their common line.
        let level = Plane::through(a.mouth.origin, a.mouth.z.cross(b.mouth.z));
        let meet =
            Plane::corner(&middle(a), &middle(b), &level).ok_or_else(|| say!("they lie in one plane"))?;
        let cut = |normal: Vec3| Plane::through(meet, normal).moved(-rules::MITRE_GAP / 2.0);
        let (own, other) = (cut(normal), cut(-normal));
        let (with, twin) = (b.site.guest.id, b.has_twin() && a.in_the_middle());
        let crossing = a.site.guest.id;
        if twin {
            end_in(&mut set[0], own.mirrored_x(), with);
        }
        // Last, so that the cut that is told is the one that meets the guest that is told.
        end_in(&mut set[0], own, with);
        end_in(&mut set[k], other, crossing);
        if !face_each_other(&end_corners(&set[0], &own), &end_corners(&set[k], &other), normal) {
            return Err(say!("they only pass close by each other"));
        }
    }
    set.iter_mut().for_each(keep_haunch_within);
    Ok(())
}

/// Gives a tenon a mitred end and its lengths on both sides.
fn end_in(draft: &mut Draft<'_>, plane: Plane, with: crate::part::PartId) {
    let longest = draft.longest;
    if draft.cuts.is_empty() {
        let end = draft.length();
        draft.tongues.iter_mut().filter(|t| t.to >= end).for_each(|t| t.to = longest);
    }
    draft.cuts.push(plane);
    let half = draft.half();
    let furthest = |draft: &Draft<'_>, y: f64, z: f64| {
        let start = draft.mouth.point(Vec3::new(0.0, y, z));
        let ends = draft.cuts.iter().filter_map(|cut| cut.meet(start, draft.mouth.x));
        ends.map(|p| (p - start).dot(draft.mouth.x)).fold(longest, f64::min)
    };
    for i in 0..draft.tongues.len() {
        let tongue = draft.tongues[i];
        let spots = [-half, 0.0, half].into_iter().flat_map(|z| tongue.y.map(|y| (y, z)));
        let most = spots.map(|(y, z)| furthest(draft, y, z)).fold(0.0, f64::max);
        draft.tongues[i].to = tongue.to.min(most);
    }
    draft.mitre = Some(Mitre { with, plane, short_length: draft.short_length(), gap: rules::MITRE_GAP });
}

/// Corners of a tenon in the plane of its mitre.
fn end_corners(draft: &Draft<'_>, cut: &Plane) -> Vec<Vec3> {
    let spaces = draft.tenon_spaces();
    let corners = spaces.flat_map(|space| space.corners_in(cut).collect::<Vec<_>>());
    corners.collect()
}

/// Whether two flat figures, given by their corners in planes square to `normal`, lie over each other when seen along
/// it: only then do two mitred ends keep just the gap between their planes.
fn face_each_other(some: &[Vec3], others: &[Vec3], normal: Vec3) -> bool {
    let axes = [some, others].into_iter().flat_map(|set| {
        set.iter().enumerate().flat_map(move |(i, a)| set[i + 1..].iter().map(move |b| normal.cross(*b - *a)))
    });
    let span = |set: &[Vec3], axis: Vec3| {
        let along = set.iter().map(|p| p.dot(axis));
        along.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], v| [low.min(v), high.max(v)])
    };
    let apart = |axis: Vec3| {
        let ([low, high], [other_low, other_high]) = (span(some, axis), span(others, axis));
        axis.length() > NO_STEP && (high <= other_low || other_high <= low)
    };
    some.len() > 2 && others.len() > 2 && !axes.into_iter().any(apart)
}

/// Two corners nearer to each other than this tell no direction, mm.
const NO_STEP: f64 = 1e-6;

/// A haunch stands on its tenon: it is no longer than the shorter cheek, or it is left away.
fn keep_haunch_within(draft: &mut Draft<'_>) {
    let most = draft.least_cheek() - 1.0;
    let kept = draft.haunch.map(|h| Haunch { length: h.length.min(most), ..h });
    draft.haunch = kept.filter(|h| h.length >= LEAST_HAUNCH);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_over_each_other_and_beside() {
        let square = |x: f64, z: f64| {
            [(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)].map(|(u, v)| Vec3::new(x + u, u + v, z))
        };
        assert!(face_each_other(&square(0.0, 0.0), &square(1.9, 1.0), Vec3::Z));
        assert!(!face_each_other(&square(0.0, 0.0), &square(2.1, 1.0), Vec3::Z));
        // Beside each other along the slanting side, though their boxes meet.
        let above: Vec<Vec3> = square(0.0, 1.0).iter().map(|p| *p + Vec3::Y * 2.1).collect();
        assert!(!face_each_other(&square(0.0, 0.0), &above, Vec3::Z));
        assert!(!face_each_other(&square(0.0, 0.0)[..2], &square(0.0, 1.0), Vec3::Z));
    }
}
