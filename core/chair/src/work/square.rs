//! What the tape must say: diagonals from corner to corner of the legs.
//!
//! A frame that is its own mirror image is square when its two diagonals are equal. A side frame is not, for its legs lean
//! differently: there both lengths are told, and the left frame must have those of the right one.

use super::Bench;
use crate::part::{PartId, Role, Side};
use crestrail_geometry::Vec3;
use serde::Serialize;

/// Corners of an end of a leg are those so near to its lowest or highest, mm.
const END: f64 = 0.5;

/// A corner of a leg that a tape can be laid to.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Corner {
    /// The leg, such as `front leg, left`.
    pub part: String,
    /// Whether it is at its top, or at its foot.
    pub top: bool,
    /// Where it is in the chair, mm.
    pub at: [f64; 3],
}

/// A length from corner to corner.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Tape {
    /// What is measured, and what it must be equal to, as a sentence.
    pub say: String,
    /// Its length when all is as drawn, mm.
    pub length: f64,
    /// Its ends.
    pub ends: [Corner; 2],
    /// The ends of the other diagonal that must be equal; absent where the frame is not its own mirror image.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub equal: Option<[Corner; 2]>,
}

/// One end of a leg.
#[derive(Clone, Copy)]
struct LegEnd {
    role: Role,
    top: bool,
}

const FRONT_FOOT: LegEnd = LegEnd { role: Role::FrontLeg, top: false };
const FRONT_TOP: LegEnd = LegEnd { role: Role::FrontLeg, top: true };
const BACK_FOOT: LegEnd = LegEnd { role: Role::BackLeg, top: false };
const BACK_TOP: LegEnd = LegEnd { role: Role::BackLeg, top: true };

/// What to measure when these parts stand joined.
pub(super) fn tapes(bench: &Bench<'_>, joined: &[PartId]) -> Vec<Tape> {
    let has =
        |role: Role, side: Side| joined.iter().any(|id| id.role == role && id.side == side && id.number == 1);
    let both = |role: Role| has(role, Side::Left) && has(role, Side::Right);
    let mut tapes = Vec::new();
    if both(Role::FrontLeg) && both(Role::BackLeg) {
        let say = "Over the feet, from the outer corner of a front leg to that of the back leg across: both ways alike, {}.";
        tapes.extend(crossing(bench, FRONT_FOOT, BACK_FOOT, say));
    }
    if both(Role::FrontLeg) {
        let say = "In front, from the foot of one front leg to the top of the other, at their outer corners: both ways alike, {}.";
        tapes.extend(crossing(bench, FRONT_FOOT, FRONT_TOP, say));
    }
    if both(Role::BackLeg) {
        let say = "Behind, from the foot of one back leg to the top of the other, at their outer corners: both ways alike, {}.";
        tapes.extend(crossing(bench, BACK_FOOT, BACK_TOP, say));
    }
    if tapes.is_empty() && has(Role::FrontLeg, Side::Right) && has(Role::BackLeg, Side::Right) {
        let down = "From the top of the front leg to the foot of the back leg, at their outer corners: {} in both side frames.";
        let up = "From the foot of the front leg to the top of the back leg: {} in both side frames. The two lengths of one frame differ, for its legs lean differently.";
        tapes.extend(within(bench, FRONT_TOP, BACK_FOOT, down));
        tapes.extend(within(bench, FRONT_FOOT, BACK_TOP, up));
    }
    tapes
}

/// From left to right and from right to left.
fn crossing(bench: &Bench<'_>, from: LegEnd, to: LegEnd, say: &str) -> Option<Tape> {
    let ends = [corner(bench, from, Side::Left)?, corner(bench, to, Side::Right)?];
    let equal = [corner(bench, from, Side::Right)?, corner(bench, to, Side::Left)?];
    Some(tape(bench, ends, Some(equal), say))
}

/// Within the right side frame.
fn within(bench: &Bench<'_>, from: LegEnd, to: LegEnd, say: &str) -> Option<Tape> {
    let ends = [corner(bench, from, Side::Right)?, corner(bench, to, Side::Right)?];
    Some(tape(bench, ends, None, say))
}

fn tape(bench: &Bench<'_>, ends: [Corner; 2], equal: Option<[Corner; 2]>, say: &str) -> Tape {
    let [a, b] = [&ends[0], &ends[1]].map(|end| Vec3::new(end.at[0], end.at[1], end.at[2]));
    let length = (b - a).length();
    Tape { say: say.replace("{}", &bench.lengths.tape(length)), length, ends, equal }
}

/// The outermost corner at the end of a leg: away from the middle, and to the front of a front leg, to the back of a back leg.
fn corner(bench: &Bench<'_>, end: LegEnd, side: Side) -> Option<Corner> {
    let id = PartId { role: end.role, side, number: 1 };
    let (part, body) = bench.chair.pieces().find(|(part, _)| part.id == id)?;
    let up = if end.top { 1.0 } else { -1.0 };
    let corners: Vec<Vec3> = body.solid.vertices.iter().map(|&v| part.place.point(v)).collect();
    let furthest = corners.iter().map(|p| p.z * up).fold(f64::NEG_INFINITY, f64::max);
    let out = Vec3::new(
        if side == Side::Left { -1.0 } else { 1.0 },
        if end.role == Role::FrontLeg { -1.0 } else { 1.0 },
        0.0,
    );
    let at_end = corners.into_iter().filter(|p| p.z * up > furthest - END);
    let at = at_end.max_by(|a, b| a.dot(out).total_cmp(&b.dot(out)))?;
    Some(Corner { part: part.id.to_string(), top: end.top, at: [at.x, at.y, at.z] })
}
