//! The plan: which bars to take and how to cut each.

use super::problem::Problem;
use crate::cover::Pattern;
use crate::units::{Hundredths, millimetres};
use crestrail_sorting::Order as _;
use std::collections::BTreeMap;

/// Bars of one kind that are cut alike.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// Which bar, by its place in the problem.
    pub bar: usize,
    /// How many bars are cut so.
    pub times: u32,
    /// The pieces in the order of the saw, longest first, by their places in the problem.
    pub pieces: Vec<usize>,
    /// What is left between the last kerf and the trim, mm.
    pub offcut: f64,
}

/// What to cut, and how near it is to the best possible.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Cost of the bars, minor units.
    pub cost: i64,
    /// No plan that makes as much costs less. Equal to the cost where the plan is proven best.
    pub bound: i64,
    /// The bars.
    pub cuts: Vec<Cut>,
    /// How many of each piece the stock did not give, by the piece's place in the problem.
    pub missing: Vec<u32>,
    /// Work done.
    pub work: u64,
}

/// Writes patterns over merged rows out as cuts of the problem's own pieces.
pub(super) fn cuts(problem: &Problem, rows: &[Vec<usize>], patterns: &[Pattern]) -> Vec<Cut> {
    let mut left: Vec<u32> = problem.pieces.iter().map(|p| p.count).collect();
    let mut found: BTreeMap<(usize, Vec<usize>), u32> = BTreeMap::new();
    for pattern in patterns {
        let mut pieces: Vec<usize> = Vec::new();
        for &(row, n) in &pattern.takes {
            for _ in 0..n {
                if let Some(&piece) = rows[row].iter().find(|&&p| left[p] > 0) {
                    left[piece] -= 1;
                    pieces.push(piece);
                }
            }
        }
        pieces.order_by_key(|&p| (std::cmp::Reverse(problem.weights[p]), p));
        *found.entry((pattern.kind, pieces)).or_default() += 1;
    }
    found.into_iter().map(|((bar, pieces), times)| cut(problem, bar, pieces, times)).collect()
}

fn cut(problem: &Problem, bar: usize, pieces: Vec<usize>, times: u32) -> Cut {
    let used: Hundredths = pieces.iter().map(|&p| problem.weights[p]).sum();
    let offcut = millimetres((problem.rooms[bar] - used - problem.kerf).max(0));
    Cut { bar, times, pieces, offcut }
}
