//! Rectangles sawn from boards by guillotine cuts: each cut goes right through what it parts, so that a table
//! saw can make it.
//!
//! Column generation over layouts of whole boards, as for bars. Layouts come from strips filled by bounded
//! knapsacks and from best fit; the bound comes from the table of all guillotine layouts, in which a piece
//! may come as often as wanted, and from the area, in which it may not. So the bound is weak where few
//! pieces of each size are asked for; where they are few in all, a catalogue of every layout makes it exact.

mod beam;
mod catalogue;
mod cutter;
mod fit;
mod joined;
mod layout;
mod plan;
mod problem;
mod sets;
mod sizes;
mod strips;
mod table;
mod tidy;
mod whole;

pub use plan::{Axis, Cut, Plan, Position, Sawn};
pub use problem::{Board, Piece, Problem, Trim};

use crate::budget::{Budget, Listener, Meter};
use crate::cover::Cover;
use crate::floor::Floor;
use crate::penalty::{Offer, penalties};
use crate::search::search;
use cutter::{Rows, Slicer};
use problem::ways;

/// The cheapest plan found within the budget, with a proven bound.
pub fn solve(problem: &Problem, budget: Budget, listener: Listener<'_>) -> Plan {
    let mut meter = Meter::new(budget, listener);
    let rows = Rows::of(problem);
    let cover = cover(problem, &rows);
    let mut slicer = Slicer::new(problem, &rows);
    let shares = slicer.shares.clone();
    let endless = endless(problem, &rows);
    let floor = Floor::new(&cover, &shares, endless);
    let (found, bound) = search(cover.clone(), &mut slicer, floor.whole(&cover), endless, &mut meter);
    let (cost, bound) = floor.told(&cover, &found, bound);
    let boards = plan::boards(problem, &rows, &slicer.layouts(&found.patterns));
    let missing = plan::missing(problem, &boards);
    Plan { cost, bound, boards, missing, work: meter.work() }
}

/// The plan of best fit alone: piece after piece, largest first, each where it fits best. A measure for
/// [`solve`], which is never worse.
pub fn best_fit(problem: &Problem) -> i64 {
    let rows = Rows::of(problem);
    let cover = cover(problem, &rows);
    let patterns = Slicer::new(problem, &rows).fitted(&cover);
    patterns.iter().map(|p| problem.boards[p.kind].price).sum()
}

fn cover(problem: &Problem, rows: &Rows) -> Cover {
    let price: Vec<i64> = problem.boards.iter().map(|b| b.price).collect();
    let offers: Vec<Offer> = (problem.boards.iter().zip(problem.limits()))
        .map(|(board, limit)| Offer { price: board.price, count: board.count, limit })
        .collect();
    let penalty = penalties(&offers, &rows.areas(), &|row, kind| fits(problem, rows, row, kind));
    Cover { demand: rows.demand.clone(), penalty, low: vec![0; price.len()], high: problem.limits(), price }
}

fn fits(problem: &Problem, rows: &Rows, row: usize, kind: usize) -> bool {
    let room = problem.rooms[kind];
    ways(rows.sizes[row], rows.grain[row]).iter().any(|s| s[0] <= room[0] && s[1] <= room[1])
}

/// Whether each piece fits some board of which there are as many as wanted.
fn endless(problem: &Problem, rows: &Rows) -> bool {
    let stock = || (0..problem.boards.len()).filter(|&k| problem.boards[k].count.is_none());
    (0..rows.sizes.len()).all(|row| stock().any(|kind| fits(problem, rows, row, kind)))
}

#[cfg(test)]
mod tests;
