//! A cost that no plan can undercut: the planks must have the area of the pieces.
//!
//! Each piece takes its own area and half a kerf around it. For any shape that is at least
//! (√area + √π · clear/2)² (the theorem of Brunn and Minkowski), and a bed, with half a kerf around it too,
//! has (length + clear)·(width + clear).

use super::problem::Problem;
use core::f64::consts::PI;

/// Least cost of planks that have the area which the pieces made need.
pub(super) fn bound(problem: &Problem, made: &[u32]) -> i64 {
    let clear = problem.clear;
    let around = |area: f64| {
        let side = area.sqrt() + PI.sqrt() * clear / 2.0;
        side * side
    };
    let area =
        |shape: usize| problem.variants.iter().find(|v| v.shape == shape).map_or(0.0, |v| around(v.area));
    let need: f64 = made.iter().enumerate().map(|(s, &n)| f64::from(n) * area(s)).sum();
    let mut kinds: Vec<(f64, i64, u32)> = (0..problem.beds.len())
        .map(|k| {
            let [length, width] = problem.beds[k];
            let area = (length.max(0.0) + clear) * (width.max(0.0) + clear);
            (area, problem.planks[k].price, problem.limits()[k])
        })
        .collect();
    kinds.sort_by(|a, b| (a.1 as f64 / a.0).total_cmp(&(b.1 as f64 / b.0)));
    let mut tree = Tree { kinds, best: i64::MAX, nodes: 0, open: i64::MAX };
    // A millionth less, so that rounding never asks for more than there is.
    tree.visit(0, need * (1.0 - 1e-6), 0);
    if tree.best == i64::MAX && tree.open == i64::MAX { 0 } else { tree.best.min(tree.open) }
}

/// Planks of each kind: area, price, how many; cheapest area first.
struct Tree {
    kinds: Vec<(f64, i64, u32)>,
    best: i64,
    nodes: u32,
    /// Least cost of what was not searched.
    open: i64,
}

/// Nodes at most; beyond, the cost of the linear program stands in.
const NODES: u32 = 20_000;

impl Tree {
    fn visit(&mut self, k: usize, need: f64, cost: i64) {
        if need <= 0.0 {
            self.best = self.best.min(cost);
            return;
        }
        let Some(&(area, price, limit)) = self.kinds.get(k) else { return };
        let least = cost + ((need / area * price as f64) - 1e-6).ceil().max(0.0) as i64;
        self.nodes += 1;
        if least >= self.best.min(self.open) {
            return;
        }
        if self.nodes > NODES {
            self.open = least;
            return;
        }
        let most = ((need / area).ceil() as u32).min(limit);
        for n in (0..=most).rev() {
            self.visit(k + 1, need - f64::from(n) * area, cost + i64::from(n) * price);
        }
    }
}
