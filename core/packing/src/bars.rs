//! Pieces cut from bars: lengths only.
//!
//! Exact: column generation with a bounded knapsack (Gilmore and Gomory, Operations Research 9, 1961),
//! branching on how many of each bar are bought, dives, and a full list of the patterns that matter where
//! those do not end it. See `search.rs` for the order of things.

mod greedy;
mod list;
mod plan;
mod problem;
mod tidy;

pub use plan::{Cut, Plan};
pub use problem::{Bar, Piece, Problem};

use crate::budget::{Budget, Listener, Meter};
use crate::cover::{Cover, Cutter, Pattern, Priced};
use crate::floor::Floor;
use crate::knapsack::{Filled, Knapsack};
use crate::penalty::{Offer, penalties};
use crate::search::search;
use crate::shares::Shares;
use std::collections::BTreeMap;

/// The cheapest plan found within the budget, with a proven bound.
pub fn solve(problem: &Problem, budget: Budget, listener: Listener<'_>) -> Plan {
    let mut meter = Meter::new(budget, listener);
    let rows = Rows::of(problem);
    let cover = cover(problem, &rows);
    let mut saw = Saw { weights: rows.weights.clone(), rooms: rows.rooms.clone() };
    let shares: Vec<Shares> = rows.rooms.iter().map(|&r| Shares::of_lengths(&rows.weights, r)).collect();
    let endless = endless(problem, &rows);
    let floor = Floor::new(&cover, &shares, endless);
    let (found, bound) = search(cover.clone(), &mut saw, floor.whole(&cover), endless, &mut meter);
    let patterns = tidy::Tidy { weights: &rows.weights, rooms: &rows.rooms }.tidy(&found.patterns);
    let (cost, bound) = floor.told(&cover, &found, bound);
    let cuts = plan::cuts(problem, &rows.pieces, &patterns);
    let missing = missing(problem, &cuts);
    Plan { cost, bound, cuts, missing, work: meter.work() }
}

/// Pieces of equal length in one row, longest first.
struct Rows {
    pieces: Vec<Vec<usize>>,
    weights: Vec<i64>,
    rooms: Vec<i64>,
    demand: Vec<u32>,
}

impl Rows {
    fn of(problem: &Problem) -> Self {
        let (weights, rooms) = problem.in_units();
        let mut by_weight: BTreeMap<i64, Vec<usize>> = BTreeMap::new();
        for (piece, &weight) in weights.iter().enumerate().filter(|(p, _)| problem.pieces[*p].count > 0) {
            by_weight.entry(weight).or_default().push(piece);
        }
        let (weights, pieces): (Vec<i64>, Vec<Vec<usize>>) = by_weight.into_iter().rev().unzip();
        let demand = pieces.iter().map(|row| row.iter().map(|&p| problem.pieces[p].count).sum()).collect();
        Self { pieces, weights, rooms, demand }
    }
}

fn cover(problem: &Problem, rows: &Rows) -> Cover {
    let price: Vec<i64> = problem.bars.iter().map(|b| b.price).collect();
    let offers: Vec<Offer> = (problem.bars.iter().zip(problem.limits()))
        .map(|(bar, limit)| Offer { price: bar.price, count: bar.count, limit })
        .collect();
    let penalty = penalties(&offers, &rows.weights, &|row, kind| rows.rooms[kind] >= rows.weights[row]);
    Cover { demand: rows.demand.clone(), penalty, low: vec![0; price.len()], high: problem.limits(), price }
}

/// Whether each piece fits some bar of which there are as many as wanted.
fn endless(problem: &Problem, rows: &Rows) -> bool {
    let longest =
        (0..rows.rooms.len()).filter(|&k| problem.bars[k].count.is_none()).map(|k| rows.rooms[k]).max();
    rows.weights.iter().all(|&w| longest.is_some_and(|room| w <= room))
}

fn missing(problem: &Problem, cuts: &[Cut]) -> Vec<u32> {
    let mut missing: Vec<u32> = problem.pieces.iter().map(|p| p.count).collect();
    for cut in cuts {
        cut.pieces.iter().for_each(|&p| missing[p] -= cut.times);
    }
    missing
}

struct Saw {
    weights: Vec<i64>,
    rooms: Vec<i64>,
}

/// The bound is as good with a pattern that is worth this much more than asked, parts of the scale.
const WORTH: i64 = 1 << 15;

impl Cutter for Saw {
    fn price(
        &mut self,
        values: &[i64],
        limits: &[u32],
        ask: &[i64],
        _proof: bool,
        meter: &mut Meter<'_>,
    ) -> Option<Priced> {
        let knapsack = Knapsack { weights: &self.weights, limits, values };
        let mut priced = Priced { most: ask.to_vec(), patterns: Vec::new() };
        for (kind, &room) in self.rooms.iter().enumerate() {
            let (filled, work) = knapsack.best(room, ask[kind]);
            if !meter.spend(work) {
                return None;
            }
            if let Filled::Best(value, taken) = filled {
                priced.most[kind] = value;
                if value > ask[kind] + WORTH {
                    priced.patterns.push(pattern(kind, &taken));
                }
            }
        }
        Some(priced)
    }

    fn all(
        &mut self,
        values: &[i64],
        limits: &[u32],
        ask: &[i64],
        most: usize,
        meter: &mut Meter<'_>,
    ) -> Option<Vec<Pattern>> {
        let knapsack = Knapsack { weights: &self.weights, limits, values };
        let mut patterns = Vec::new();
        for (kind, &room) in self.rooms.iter().enumerate() {
            let left = most - patterns.len();
            let (list, steps) = list::Walk::new(&knapsack, ask[kind], left).list(room);
            if !meter.spend(steps * 8) {
                return None;
            }
            patterns.extend(list?.iter().map(|taken| pattern(kind, taken)));
            if patterns.len() > most {
                return None;
            }
        }
        Some(patterns)
    }

    fn holds(&mut self, values: &[i64], limits: &[u32], meter: &mut Meter<'_>) -> Option<Vec<i64>> {
        let knapsack = Knapsack { weights: &self.weights, limits, values };
        let mut holds = Vec::new();
        for &room in &self.rooms {
            let (filled, work) = knapsack.best(room, 0);
            if !meter.spend(work) {
                return None;
            }
            holds.push(if let Filled::Best(value, _) = filled { value } else { 0 });
        }
        Some(holds)
    }

    fn sizes(&self) -> Option<(&[i64], &[i64])> {
        Some((&self.weights, &self.rooms))
    }

    fn greedy(&mut self, rest: &Cover, meter: &mut Meter<'_>) -> Vec<Pattern> {
        let (best, work) = greedy::plan(&self.weights, &self.rooms, rest);
        let (plain, more) = greedy::by_hand(&self.weights, &self.rooms, rest);
        meter.spend(work + more);
        if rest.cost(&plain) < rest.cost(&best) { plain } else { best }
    }
}

fn pattern(kind: usize, taken: &[u32]) -> Pattern {
    Pattern { kind, takes: taken.iter().copied().enumerate().filter(|t| t.1 > 0).collect() }
}

#[cfg(test)]
mod tests;
