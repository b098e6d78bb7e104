//! Why a set of parts cannot be taken apart.

use super::Blocked;
use super::pieces::{Held, Pieces, Way};
use super::split::Split;
use crate::part::PartId;

/// The joints that hold a set together: each without which it would come apart, or all of them.
pub(super) fn blocked(pieces: &Pieces<'_>, set: &[usize]) -> Blocked {
    let within: Vec<&Held<'_>> = pieces.joints_within(set).collect();
    let guilty: Vec<&Held<'_>> =
        within.iter().copied().filter(|held| comes_apart(pieces, set, held)).collect();
    let named = if guilty.is_empty() { within } else { guilty };
    let joints = named.into_iter().map(|held| (held.joint.guest, held.joint.host)).collect();
    Blocked { parts: pieces.ids(set), joints }
}

/// A peg that cannot be driven.
pub(super) fn peg(pieces: &Pieces<'_>, peg: usize, held: &Held<'_>) -> Blocked {
    let (guest, host): (PartId, PartId) = (held.joint.guest, held.joint.host);
    Blocked { parts: vec![pieces.id(peg), guest, host], joints: vec![(guest, host)] }
}

/// Whether the set comes apart if a joint and its mirror image hold nothing.
fn comes_apart(pieces: &Pieces<'_>, set: &[usize], held: &Held<'_>) -> bool {
    let same = |a: usize, b: usize| {
        let (guest, host) = (held.joint.guest, held.joint.host);
        let pair = [pieces.id(a), pieces.id(b)];
        let mirrored = pair.map(PartId::mirrored);
        [pair, mirrored].iter().any(|pair| *pair == [guest, host] || *pair == [host, guest])
    };
    let joined = || pieces.joints_within(set).map(|held| (held.guest, held.host));
    pieces
        .ways()
        .filter(|way| way.forward)
        .any(|way: Way| Split::of(set, joined(), |a, b| !same(a, b) && pieces.meets(way, a, b)).is_some())
}
