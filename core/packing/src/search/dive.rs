//! Dives: fix the patterns that the program uses most, solve what is left, and so on, each step completed
//! by the quick rule too.

use super::{Search, WHOLE};
use crate::budget::Meter;
use crate::cover::{Cover, Cutter, Pattern, Pool, Relaxed, relax};
use crestrail_sorting::Order as _;

impl<C: Cutter> Search<'_, C> {
    /// Fixes the patterns used most, solves the rest, and so on. `choice` is (how deep, which instead).
    pub(super) fn dive(&mut self, node: &Cover, choice: Option<(usize, usize)>, meter: &mut Meter<'_>) {
        let mut rest = node.clone();
        let (mut fixed, mut cost) = (Vec::new(), 0);
        let mut pool = self.pool.clipped(&rest);
        for depth in 0.. {
            let enough = self.best.cost.saturating_sub(cost);
            let Some(relaxed) = relax(&rest, &mut pool, self.cutter, false, enough, &mut 0, meter) else {
                return;
            };
            if relaxed.bound >= enough {
                return;
            }
            let picks =
                picks(&relaxed, pool.list(), &rest, choice.filter(|c| c.0 == depth).map_or(0, |c| c.1));
            for (pattern, times) in &picks {
                rest.take(pattern, *times);
                cost += self.cover.price[pattern.kind] * i64::from(*times);
                fixed.extend(std::iter::repeat_n(pattern.clone(), *times as usize));
            }
            let quick = self.cutter.greedy(&rest, meter);
            self.offer(fixed.iter().cloned().chain(quick).collect(), meter);
            if picks.is_empty() || self.proven() || meter.over() {
                return;
            }
            self.remember(&pool);
            pool = pool.clipped(&rest);
        }
    }

    /// Patterns found for a rest serve the whole as well.
    fn remember(&mut self, pool: &Pool) {
        for pattern in pool.list() {
            if self.pool.list().len() < 3000 {
                self.pool.add(pattern.clone());
            }
        }
    }
}

/// Where the n-th try goes another way: near the top first, the next best, then the one after.
pub(super) fn try_of(n: usize) -> (usize, usize) {
    (n / 2, 1 + n % 2)
}

/// A pattern used as much as this is as good as fixed.
const SURE: f64 = 0.85;

/// The patterns to fix next: whole parts if there are any, else the one used most (or the `rank`-th) and
/// those that are as good as sure.
fn picks(relaxed: &Relaxed, patterns: &[Pattern], rest: &Cover, rank: usize) -> Vec<(Pattern, u32)> {
    let mut sorted = relaxed.used.clone();
    sorted.order_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    let mut rest = rest.clone();
    let mut picks = Vec::new();
    let floors = |x: f64| (x + WHOLE).floor() as u32;
    let any = sorted.iter().any(|&(_, x)| floors(x) > 0);
    for (place, &(number, x)) in
        sorted.iter().enumerate().skip(if any { 0 } else { rank.min(sorted.len().saturating_sub(1)) })
    {
        let pattern = &patterns[number];
        let wanted = match floors(x) {
            0 if !any && (picks.is_empty() || x > SURE) => 1,
            whole => whole,
        };
        let fits = pattern.takes.iter().all(|&(row, n)| n <= rest.demand[row]);
        let times = wanted.min(rest.high[pattern.kind]);
        if times > 0 && (fits || picks.is_empty()) {
            rest.take(pattern, times);
            picks.push((pattern.clone(), times));
        } else if place > 0 && !any && x <= SURE {
            break;
        }
    }
    picks
}
