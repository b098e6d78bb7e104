//! Small orders: every set of boards that is cheaper than a plan, cheapest first.
//!
//! Of most sets shares tell that they do not hold all pieces. For values of the pieces, no board holds more value than
//! the fractional knapsack over any valid list of shares; where all boards of a set hold less than the pieces are worth,
//! the set is too small. The cheapest set that is left is a bound, and is tried to be filled.

use super::beam::Look;
use super::cutter::Slicer;
use crate::budget::Meter;
use crate::cover::{Cover, Pattern};
use crate::shares::{Shares, filled};
use crestrail_sorting::Order as _;

/// How many of each kind, and what they cost.
#[derive(Clone, Debug)]
struct Set {
    cost: i64,
    counts: Vec<u32>,
}

/// What sets tell of a small order.
pub(super) struct BySets {
    pub(super) patterns: Vec<Pattern>,
    /// No plan costs less.
    pub(super) floor: i64,
}

/// Sets looked at; an order with more is not small.
const MOST: usize = 300;
/// Sets that are tried to be filled: the cheapest.
const TRIED: usize = 4;
/// Layouts side by side when a set is filled, and the slacks tried.
const WIDTH: usize = 8;
const SLACKS: [f64; 2] = [0.03, 0.3];
/// Rounding of floats never makes a set look too small.
const SAFE: f64 = 1.0 - 1e-6;

/// What shares tell of whole sets.
struct Test {
    /// What all pieces are worth.
    need: f64,
    /// The most that a board of each kind holds.
    holds: Vec<f64>,
}

impl Slicer {
    /// The best plan found by sets, `other` among them, for small orders where `other` leaves nothing out; nothing for
    /// others.
    pub(super) fn by_sets(
        &mut self,
        order: &Cover,
        other: &[Pattern],
        meter: &mut Meter<'_>,
    ) -> Option<BySets> {
        let mut rest = order.clone();
        other.iter().for_each(|pattern| rest.take(pattern, 1));
        if rest.demand.iter().any(|&n| n > 0) {
            return None;
        }
        let best = order.cost(other);
        let mut sets = sets(order, best)?;
        let tight: Vec<usize> = self.shares.iter().map(|shares| tightest(shares, &order.demand)).collect();
        let tests = self.tests(order, &tight);
        meter.spend(20 * (tests.len() * (sets.len() + 100)) as u64);
        let holds = |set: &Set, test: &Test| {
            let most: f64 = set.counts.iter().zip(&test.holds).map(|(&n, most)| f64::from(n) * most).sum();
            most >= test.need * SAFE
        };
        sets.retain(|set| tests.iter().all(|test| holds(set, test)));
        sets.order_by_key(|set| set.cost);
        let floor = sets.first().map_or(best, |set| set.cost);
        for set in sets.iter().take(TRIED) {
            if let Some(patterns) = self.filled_set(order, set, meter) {
                return Some(BySets { patterns, floor });
            }
            if meter.over() {
                break;
            }
        }
        let other = other.to_vec();
        let patterns = if floor < best { self.stripped(order, other, meter) } else { other };
        Some(BySets { patterns, floor })
    }

    /// Values by the area and by the tightest list of each kind, and what each kind holds of them.
    fn tests(&self, order: &Cover, tight: &[usize]) -> Vec<Test> {
        let mut lists: Vec<usize> = tight.iter().copied().chain([0]).collect();
        lists.sort_unstable();
        lists.dedup();
        let mut tests = Vec::new();
        for shares in &self.shares {
            for values in lists.iter().map(|&list| &shares.0[list]) {
                // A piece that does not fit a kind has no value by it.
                let values: Vec<f64> = values.iter().map(|&v| if v.is_finite() { v } else { 0.0 }).collect();
                let need = values.iter().zip(&order.demand).map(|(v, &n)| v * f64::from(n)).sum();
                let most = |own: &Shares| {
                    let by = lists.iter().map(|&list| filled(&own.0[list], &values, &order.demand));
                    by.fold(f64::INFINITY, f64::min)
                };
                tests.push(Test { need, holds: self.shares.iter().map(most).collect() });
            }
        }
        tests
    }

    /// The pieces on just these boards, the smallest filled first: by beams, then by strips.
    fn filled_set(&mut self, order: &Cover, set: &Set, meter: &mut Meter<'_>) -> Option<Vec<Pattern>> {
        let mut boards: Vec<usize> = (set.counts.iter().enumerate())
            .flat_map(|(kind, &n)| std::iter::repeat_n(kind, n as usize))
            .collect();
        boards.order_by_key(|&kind| self.rooms[kind][0] * self.rooms[kind][1]);
        for slack in SLACKS.into_iter().map(Some).chain([None]) {
            let found = self.filled_boards(order, &boards, slack, meter);
            if found.is_some() || meter.over() {
                return found;
            }
        }
        None
    }

    /// By beams with so much slack, or by strips.
    fn filled_boards(
        &mut self,
        order: &Cover,
        boards: &[usize],
        slack: Option<f64>,
        meter: &mut Meter<'_>,
    ) -> Option<Vec<Pattern>> {
        let areas = self.areas.clone();
        let mut rest = order.demand.clone();
        let mut patterns = Vec::new();
        let mut work = 0;
        for &kind in boards {
            let full = self.rooms[kind][0] * self.rooms[kind][1];
            let laid = match slack {
                Some(slack) => {
                    self.beamed(kind, &areas, &rest, full, Look { width: WIDTH, slack }, &mut work)
                }
                None => self.best(kind, &areas, &rest, false, &mut work),
            };
            laid.placed.iter().for_each(|p| rest[p.row] -= 1);
            if !laid.placed.is_empty() {
                patterns.push(self.remember(kind, laid));
            }
        }
        meter.spend(work);
        rest.iter().all(|&n| n == 0).then_some(patterns)
    }
}

/// The list of shares by which the pieces take most boards of a kind alone.
fn tightest(shares: &Shares, demand: &[u32]) -> usize {
    let taken = |list: &Vec<f64>| -> f64 {
        let finite = list.iter().zip(demand).filter(|(share, _)| share.is_finite());
        finite.map(|(share, &n)| share * f64::from(n)).sum()
    };
    let all: Vec<f64> = shares.0.iter().map(taken).collect();
    (0..all.len()).fold(0, |best, list| if all[list] > all[best] { list } else { best })
}

/// Every set that costs less than `best`; nothing where these are too many.
fn sets(order: &Cover, best: i64) -> Option<Vec<Set>> {
    let mut all = vec![Set { cost: 0, counts: vec![0; order.price.len()] }];
    for kind in 0..order.price.len() {
        for at in 0..all.len() {
            for n in 1..=order.high[kind] {
                let cost = all[at].cost + order.price[kind] * i64::from(n);
                if cost >= best {
                    break;
                }
                if all.len() > MOST {
                    return None;
                }
                let mut set = Set { cost, ..all[at].clone() };
                set.counts[kind] = n;
                all.push(set);
            }
        }
    }
    Some(all)
}

#[cfg(test)]
mod tests {
    use super::super::{Board, Piece, Problem, Trim, solve};
    use crate::Budget;
    use std::ops::ControlFlow;

    /// Rails of a bench. No board has room for three of them side by side but the largest; on two small ones with room
    /// for two they would be longer than both, and the area of one of middle size is too small. So one large board is best,
    /// although small ones are used up better.
    #[test]
    fn one_large_board_is_found_and_proven() {
        let board = |length: f64, width: f64, price| Board { length, width, price, count: None };
        let boards = [board(2000.0, 120.0, 1323), board(2400.0, 160.0, 2117), board(3000.0, 200.0, 3307)];
        let piece = |length: f64, width: f64, count| Piece { length, width, count, grain: true };
        let narrow =
            [(458.0, 2), (457.0, 2), (527.0, 2), (538.0, 2), (526.0, 2)].map(|(l, n)| piece(l, 37.0, n));
        let wide = [(527.0, 2), (520.0, 4)].map(|(l, n)| piece(l, 55.0, n));
        let pieces: Vec<Piece> = narrow.into_iter().chain(wide).collect();
        let problem = Problem::new(&boards, &pieces, 3.0, Trim { end: 25.0, edge: 5.0 }).unwrap();
        let plan = solve(&problem, Budget::of(1_000_000), &mut |_| ControlFlow::Continue(()));
        assert_eq!((plan.cost, plan.bound, plan.boards.len()), (3307, 3307, 1));
        assert!(plan.missing.iter().all(|&n| n == 0));
    }

    /// What leaves pieces out is no small order by sets: nothing is told of it that would not stand.
    #[test]
    fn scarce_boards_are_not_told_by_sets() {
        let boards = [Board { length: 1000.0, width: 100.0, price: 7, count: Some(1) }];
        let pieces = [Piece { length: 600.0, width: 60.0, count: 3, grain: true }];
        let problem = Problem::new(&boards, &pieces, 3.0, Trim { end: 0.0, edge: 0.0 }).unwrap();
        let plan = solve(&problem, Budget::of(1_000_000), &mut |_| ControlFlow::Continue(()));
        assert_eq!((plan.cost, plan.bound, plan.missing), (7, 7, vec![2]));
    }
}
