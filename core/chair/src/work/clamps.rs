//! Clamps: across which part, and how far their jaws must open.

use super::Bench;
use crate::assembly::Step;
use crate::joint::Joint;
use crate::part::PartId;
use serde::Serialize;

/// Clamps of one opening.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Clamp {
    /// The part they lie along, such as `front rail`.
    pub along: String,
    /// Its letter.
    pub letter: String,
    /// How many: one along each such part (common practice, no source).
    pub count: usize,
    /// Between the faces that the jaws press on, mm, without pads.
    pub opening: f64,
}

/// The clamps of a step: one along each part whose joints it closes, over both of its hosts.
pub(super) fn clamps(bench: &Bench<'_>, step: &Step) -> Vec<Clamp> {
    let mut guests: Vec<PartId> = closed(bench, step).map(|joint| joint.guest).collect();
    guests.sort_unstable();
    guests.dedup();
    let mut clamps: Vec<Clamp> = Vec::new();
    for guest in guests {
        let (Some(opening), Some(part)) = (opening(bench, guest), bench.chair.part(guest)) else { continue };
        let (along, letter) = (part.id.role.name().to_owned(), part.letter.clone());
        let alike = |c: &&mut Clamp| c.letter == letter && (c.opening - opening).abs() < 0.5;
        match clamps.iter_mut().find(alike) {
            Some(clamp) => clamp.count += 1,
            None => clamps.push(Clamp { along, letter, count: 1, opening }),
        }
    }
    clamps
}

/// The joints that a step closes.
pub(super) fn closed<'a>(bench: &'a Bench<'_>, step: &'a Step) -> impl Iterator<Item = &'a Joint> {
    let apart = |a: PartId, b: PartId| {
        step.moves.iter().any(|m| {
            (m.goes_in.contains(&a) && m.into.contains(&b)) || (m.goes_in.contains(&b) && m.into.contains(&a))
        })
    };
    bench.chair.joints.iter().filter(move |joint| apart(joint.guest, joint.host))
}

/// From the far face of the host at one end of a part to that of the host at the other, along the tenons; a part with a joint
/// at one end alone is pressed by its own free end.
fn opening(bench: &Bench<'_>, guest: PartId) -> Option<f64> {
    let mut own = bench.chair.joints.iter().filter(|joint| joint.guest == guest);
    let first = own.next()?;
    let behind = |joint: &Joint| {
        let start = joint.mouth.origin + joint.mouth.x * INSIDE;
        Some(bench.chair.part(joint.host)?.exit(start, joint.mouth.x)?.distance + INSIDE)
    };
    match own.find(|joint| joint.end != first.end) {
        Some(other) => {
            let between = (other.mouth.origin - first.mouth.origin).dot(first.mouth.x).abs();
            Some(between + behind(first)? + behind(other)?)
        }
        None => Some(bench.chair.part(guest)?.size.length + behind(first)?),
    }
}

/// So far within the host's face the way to its far face begins, mm.
const INSIDE: f64 = 0.01;
