//! Clamps: across which part, and how far their jaws must open.

use super::Bench;
use crate::assembly::Step;
use crate::joint::Joint;
use crate::part::PartId;
use crestrail_sorting::Order as _;
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
    /// The opening as it is written, with its unit.
    pub told: String,
}

/// The clamps of a step: one along each line of parts whose joints it closes, over the hosts at both of its ends.
pub(super) fn clamps(bench: &Bench<'_>, step: &Step) -> Vec<Clamp> {
    let mut guests: Vec<PartId> = closed(bench, step).map(|joint| joint.guest).collect();
    guests.order();
    guests.dedup();
    let mut clamps: Vec<Clamp> = Vec::new();
    let mut held: Vec<PartId> = Vec::new();
    for guest in guests {
        if held.contains(&guest) {
            continue;
        }
        let line = in_line(bench, guest);
        let (Some(opening), Some(part)) = (opening(bench, &line), bench.chair.part(guest)) else { continue };
        held.extend(line);
        let (along, letter) = (part.id.role.name().to_owned(), part.letter.clone());
        let alike = |c: &&mut Clamp| c.letter == letter && (c.opening - opening).abs() < 0.5;
        match clamps.iter_mut().find(alike) {
            Some(clamp) => clamp.count += 1,
            None => {
                let told = bench.lengths.tape(opening);
                clamps.push(Clamp { along, letter, count: 1, opening, told });
            }
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

/// A part with those that go on in its line beyond its hosts, as the two front rails of a bench do: a jaw can only press where
/// the line ends.
fn in_line(bench: &Bench<'_>, guest: PartId) -> Vec<PartId> {
    let mut line = vec![guest];
    let mut i = 0;
    while let Some(&own) = line.get(i) {
        let ends = bench.chair.joints.iter().filter(|joint| joint.guest == own);
        let next: Vec<PartId> = ends.filter_map(|joint| beyond(bench, joint)).map(|j| j.guest).collect();
        line.extend(next.iter().filter(|id| !line.contains(id)).copied().collect::<Vec<_>>());
        i += 1;
    }
    line
}

/// The joint on the other side of a joint's host that faces it.
fn beyond<'a>(bench: &'a Bench<'_>, joint: &Joint) -> Option<&'a Joint> {
    bench.chair.joints.iter().find(|other| {
        let step = other.mouth.origin - joint.mouth.origin;
        let aside = step - joint.mouth.x * step.dot(joint.mouth.x);
        other.host == joint.host
            && other.mouth.x.dot(joint.mouth.x) < FACING
            && aside.length() < other.tenon.width.min(joint.tenon.width) / 2.0
    })
}

/// Cosine of the angle between tenons that face each other: 8° from straight.
const FACING: f64 = -0.99;

/// From the far face of the host at one end of a line of parts to that of the host at the other, along the tenons; a part with
/// a joint at one end alone is pressed by its own free end.
fn opening(bench: &Bench<'_>, line: &[PartId]) -> Option<f64> {
    let of_line = bench.chair.joints.iter().filter(|joint| line.contains(&joint.guest));
    let mut own = of_line.filter(|joint| beyond(bench, joint).is_none());
    let first = own.next()?;
    let behind = |joint: &Joint| {
        let start = joint.mouth.origin + joint.mouth.x * INSIDE;
        Some(bench.chair.part(joint.host)?.exit(start, joint.mouth.x)?.distance + INSIDE)
    };
    match own.find(|joint| (joint.guest, joint.end) != (first.guest, first.end)) {
        Some(other) => {
            let between = (other.mouth.origin - first.mouth.origin).dot(first.mouth.x).abs();
            Some(between + behind(first)? + behind(other)?)
        }
        None => Some(bench.chair.part(first.guest)?.size.length + behind(first)?),
    }
}

/// So far within the host's face the way to its far face begins, mm.
const INSIDE: f64 = 0.01;
