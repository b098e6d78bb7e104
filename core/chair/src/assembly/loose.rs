//! Parts that no joint holds: they are lifted off first, and so laid in place last.

use super::pieces::{Pieces, Way};
use crestrail_geometry::Vec3;

/// How far a part first moves, mm, where it cannot by its own size, before it goes on another way: out of
/// a groove, or so that it slides away over what it lay on.
const RISES: [f64; 3] = [25.0, 12.0, 5.0];

/// Parts that come off in one step, in any order.
pub(super) struct Lifted {
    pub(super) parts: Vec<usize>,
    /// What is left without them.
    pub(super) rest: Vec<usize>,
    pub(super) way: Way,
    pub(super) by: f64,
    pub(super) clear: f64,
    /// The way on from there, where the first is not free for ever.
    pub(super) then: Option<Way>,
}

/// How a part may come off.
#[derive(Clone, Copy, PartialEq)]
struct Leave {
    way: Way,
    rise: Option<(f64, Way)>,
}

/// Lifts off all loose parts of a set; what is left, and what came off, in the order of coming off.
pub(super) fn lift_off(pieces: &Pieces<'_>, set: &[usize]) -> (Vec<usize>, Vec<Lifted>) {
    let held: Vec<usize> = pieces
        .joints_within(set)
        .flat_map(|h| [h.guest, h.host].into_iter().chain(h.dowels.iter().copied()))
        .collect();
    let mut rest = set.to_vec();
    let mut lifted = Vec::new();
    while rest.len() > 1 {
        let loose: Vec<usize> = rest.iter().copied().filter(|i| !held.contains(i)).collect();
        let Some((leave, mut parts)) = next(pieces, &loose, &rest) else { break };
        if parts.len() == rest.len() {
            // Where all are loose, the first stays for the others to lie on.
            parts.remove(0);
        }
        rest.retain(|i| !parts.contains(i));
        lifted.push(told(pieces, leave, parts, &rest));
    }
    (rest, lifted)
}

fn told(pieces: &Pieces<'_>, leave: Leave, parts: Vec<usize>, rest: &[usize]) -> Lifted {
    let others = pieces.with_pegs(rest);
    let own = parts.iter().map(|&p| pieces.length(leave.way.line, p)).fold(0.0, f64::max);
    let by = leave.rise.map_or(own, |(rise, _)| rise);
    let clear = pieces.clear(leave.way, &parts, &others);
    Lifted { rest: rest.to_vec(), way: leave.way, by, clear, then: leave.rise.map(|(_, then)| then), parts }
}

/// The loose parts that come off next: upwards if that can be, then a little upwards and aside, then
/// any way, and last round a corner.
fn next(pieces: &Pieces<'_>, loose: &[usize], rest: &[usize]) -> Option<(Leave, Vec<usize>)> {
    let all = pieces.with_pegs(rest);
    let free = |leave: Leave| -> Option<(Leave, Vec<usize>)> {
        let others = |p: usize| all.iter().copied().filter(|&o| o != p).collect::<Vec<_>>();
        let leaves = |p: &usize| comes_off(pieces, leave, *p, &others(*p));
        let parts: Vec<usize> = loose.iter().copied().filter(leaves).collect();
        (!parts.is_empty()).then_some((leave, parts))
    };
    let up = pieces.way(Vec3::Z)?;
    let straight = |way: Way| Leave { way, rise: None };
    let risen = |first: Way| {
        let heights = loose.iter().map(move |&p| pieces.length(first.line, p)).chain(RISES);
        heights.flat_map(move |rise| {
            let then = preferred(pieces).filter(move |then| then.line != first.line);
            then.map(move |then| Leave { way: first, rise: Some((rise, then)) })
        })
    };
    let all_ways = || preferred(pieces).filter(|way| *way != up);
    let straight_on = all_ways().map(straight);
    let round_a_corner = all_ways().flat_map(risen);
    core::iter::once(straight(up)).chain(risen(up)).chain(straight_on).chain(round_a_corner).find_map(free)
}

/// Ways from the most natural on: forwards, backwards, sideways, and all others.
fn preferred<'b>(pieces: &'b Pieces<'_>) -> impl Iterator<Item = Way> + 'b {
    let first = [-Vec3::Y, -Vec3::Z, Vec3::Y, Vec3::X, -Vec3::X].map(|d| pieces.way(d));
    let named = first.into_iter().flatten();
    named.chain(pieces.ways().filter(move |way| !first.contains(&Some(*way))))
}

fn comes_off(pieces: &Pieces<'_>, leave: Leave, part: usize, others: &[usize]) -> bool {
    let clear = pieces.clear(leave.way, &[part], others);
    match leave.rise {
        None => clear == f64::INFINITY,
        Some((rise, then)) => {
            let start = pieces.direction(leave.way) * rise;
            clear > rise && pieces.leaves(start, then, &[part], others)
        }
    }
}
