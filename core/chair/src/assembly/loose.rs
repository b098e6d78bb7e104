//! Parts that no joint holds: they are lifted off first, and so laid in place last.

use super::pieces::{Pieces, Way};
use crestrail_geometry::Vec3;

/// How far a part first moves, mm, where it cannot by its own size, before it goes on another way: out
/// of a groove, or so that it slides away over what it lay on.
const RISES: [f64; 3] = [25.0, 12.0, 5.0];

/// Parts that come off in one step, in any order.
pub(super) struct Lifted {
    /// Those that come off alike.
    pub(super) alike: Vec<(Leave, Vec<usize>)>,
    /// What is left without any of them.
    pub(super) rest: Vec<usize>,
}

/// How a part comes off.
#[derive(Clone, Copy, PartialEq)]
pub(super) struct Leave {
    pub(super) way: Way,
    /// How far it goes that way, mm, before it goes on another.
    pub(super) corner: Option<(f64, Way)>,
}

/// Ways to come off, from the most natural on.
#[derive(Clone, Copy)]
enum Manner {
    /// Straight up.
    Up,
    /// A little up, then aside.
    UpAndAside,
    /// Straight along an axis of the chair or of the part.
    Straight,
    /// A little along such an axis, then along an axis of the chair.
    RoundACorner,
}

/// Lifts off all loose parts of a set; what is left, and what came off, in the order of coming off.
pub(super) fn lift_off(pieces: &Pieces<'_>, set: &[usize]) -> (Vec<usize>, Vec<Lifted>) {
    let held: Vec<usize> = (pieces.joints_within(set))
        .flat_map(|h| [h.guest, h.host].into_iter().chain(h.dowels.iter().copied()))
        .collect();
    let held = pieces.marked(&held);
    let mut rest = set.to_vec();
    let mut lifted = Vec::new();
    while rest.len() > 1 {
        let mut loose: Vec<usize> = rest.iter().copied().filter(|&i| !held[i]).collect();
        if loose.len() == rest.len() {
            // Where all are loose, the first stays for the others to lie on.
            loose.remove(0);
        }
        let Some(alike) = next(pieces, &loose, &rest) else { break };
        rest.retain(|i| !alike.iter().any(|(_, parts)| parts.contains(i)));
        lifted.push(Lifted { alike, rest: rest.clone() });
    }
    (rest, lifted)
}

/// The loose parts that come off next, in the most natural manner in which any does.
fn next(pieces: &Pieces<'_>, loose: &[usize], rest: &[usize]) -> Option<Vec<(Leave, Vec<usize>)>> {
    let all = pieces.with_pegs(rest);
    let manners = [Manner::Up, Manner::UpAndAside, Manner::Straight, Manner::RoundACorner];
    manners.into_iter().find_map(|manner| {
        let mut alike: Vec<(Leave, Vec<usize>)> = Vec::new();
        for &part in loose {
            let others: Vec<usize> = all.iter().copied().filter(|&o| o != part).collect();
            let Some(leave) = comes_off(pieces, manner, part, &others) else { continue };
            match alike.iter_mut().find(|(other, _)| *other == leave) {
                Some((_, parts)) => parts.push(part),
                None => alike.push((leave, vec![part])),
            }
        }
        (!alike.is_empty()).then_some(alike)
    })
}

/// How a part comes off in a manner, if it does.
fn comes_off(pieces: &Pieces<'_>, manner: Manner, part: usize, others: &[usize]) -> Option<Leave> {
    let up = pieces.way(Vec3::Z);
    let straight = |way: Way| pieces.is_free(way, part, others).then_some(Leave { way, corner: None });
    let round = |way: Way| round_a_corner(pieces, way, part, others);
    match manner {
        Manner::Up => up.and_then(straight),
        Manner::UpAndAside => up.and_then(round),
        Manner::Straight => aside(pieces, part).into_iter().find_map(straight),
        Manner::RoundACorner => aside(pieces, part).into_iter().find_map(round),
    }
}

fn round_a_corner(pieces: &Pieces<'_>, way: Way, part: usize, others: &[usize]) -> Option<Leave> {
    let clear = pieces.clear(way, &[part], others);
    let rises = core::iter::once(pieces.length(way.line, part)).chain(RISES).filter(|rise| clear > *rise);
    let corners = rises.flat_map(|rise| named(pieces).map(move |then| (rise, then)));
    let leaves = |(rise, then): &(f64, Way)| {
        then.line != way.line && pieces.leaves(pieces.direction(way) * *rise, *then, &[part], others)
    };
    corners.into_iter().find(leaves).map(|corner| Leave { way, corner: Some(corner) })
}

/// The ways along the chair's axes but upwards, the most natural first.
fn named<'b>(pieces: &'b Pieces<'_>) -> impl Iterator<Item = Way> + 'b {
    [-Vec3::Y, -Vec3::Z, Vec3::Y, Vec3::X, -Vec3::X].into_iter().filter_map(|d| pieces.way(d))
}

/// The same, then those along the part's own axes.
fn aside(pieces: &Pieces<'_>, part: usize) -> Vec<Way> {
    let own = pieces.axes(part).into_iter().filter_map(|d| pieces.way(d));
    named(pieces).chain(own.flat_map(|way| [way, way.back()])).collect()
}
