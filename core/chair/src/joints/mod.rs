//! From parts to joints: which kind each meeting gets, its sizes, its pegs and its bodies.
//!
//! A joint gives way before it refuses: a wished kind with no room becomes the rule's, the rule's becomes smaller,
//! and only where nothing fits the design is refused.

mod corner;
mod cutters;
mod draft;
mod feel;
mod finish;
mod kinds;
mod mirror;
mod pegging;
pub mod rules;
mod section;
mod separate;
mod settling;
mod shape;
mod site;
mod sizing;
mod space;
mod trouble;
mod walls;
mod wedging;

#[cfg(test)]
pub(crate) mod tests;

pub(crate) use trouble::section_knobs;

pub use cutters::{Bench, Cutters};

use crate::design::Design;
use crate::joint::Joint;
use crate::meeting::Meeting;
use crate::part::Part;
use crate::unbuildable::Unbuildable;
use settling::Settled;
use sizing::{RailTenons, Sizing};

/// The joints of the right half, each pegged where there is room.
pub fn right_joints(
    design: &Design,
    parts: &[Part],
    meetings: &[Meeting],
    bench: &Bench,
) -> Result<Vec<Joint>, Unbuildable> {
    let sites = site::sites(meetings, parts)?;
    let settle = |rails| settling::settle(&Sizing { design, bench, rails }, &sites);
    let middle = settle(RailTenons::Middle);
    let settled = match middle {
        Ok(settled) if settled.given == 0 => settled,
        middle => better(middle, settle(RailTenons::Outwards))?,
    };
    let pegs = pegging::pegs(design, &settled.drafts);
    let mut numbers = shape::Numbers::default();
    let Settled { drafts, wishes, .. } = settled;
    let each = drafts.iter().zip(wishes).zip(pegs);
    each.map(|((draft, wish), pegs)| draft.finish(wish.kind, wish.given_way, pegs, &mut numbers)).collect()
}

/// The one in which fewer joints gave way, the first of two alike.
fn better<'a>(
    a: Result<Settled<'a>, Unbuildable>,
    b: Result<Settled<'a>, Unbuildable>,
) -> Result<Settled<'a>, Unbuildable> {
    match (a, b) {
        (Ok(a), Ok(b)) => Ok(if b.given < a.given { b } else { a }),
        (Ok(a), Err(_)) => Ok(a),
        (Err(_), Ok(b)) => Ok(b),
        (Err(a), Err(_)) => Err(a),
    }
}
