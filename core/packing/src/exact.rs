//! Whole numbers of listed patterns at least cost, by branch and bound: when the list holds every pattern
//! that a plan cheaper than the best could use, the answer is proof.

use crate::budget::Meter;
use crate::cover::{Cover, Pattern, program};

/// What came out.
#[derive(Clone, Debug)]
pub(crate) struct Outcome {
    /// A plan below the limit, if one was found.
    pub(crate) better: Option<Vec<Pattern>>,
    /// Whether the search was complete.
    pub(crate) complete: bool,
}

struct Tree<'a, 'm> {
    cover: &'a Cover,
    patterns: &'a [Pattern],
    limit: i64,
    step: i64,
    better: Option<Vec<Pattern>>,
    complete: bool,
    /// Nodes it may still visit, so that one hard place does not use up all the work.
    nodes: usize,
    meter: &'a mut Meter<'m>,
}

/// A value this near to a whole number is one.
const WHOLE: f64 = 1e-6;
/// The program's cost is trusted to this many minor units when it is rounded up.
const TRUST: f64 = 1e-5;
/// Most pivots of one program.
const PIVOTS: usize = 5000;

/// Searches for a plan that costs less than `limit`.
pub(crate) fn solve(
    cover: &Cover,
    patterns: &[Pattern],
    limit: i64,
    step: i64,
    nodes: usize,
    meter: &mut Meter<'_>,
) -> Outcome {
    let mut tree = Tree { cover, patterns, limit, step, better: None, complete: true, nodes, meter };
    tree.visit(&mut vec![(0, u32::MAX); patterns.len()]);
    Outcome { better: tree.better, complete: tree.complete }
}

impl Tree<'_, '_> {
    /// The part of the tree in which the patterns are used so often.
    fn visit(&mut self, ranges: &mut Vec<(u32, u32)>) {
        if self.nodes == 0 || self.meter.over() {
            self.complete = false;
            return;
        }
        self.nodes -= 1;
        let Some((cost, uses)) = self.relaxed(ranges) else { return };
        if self.rounded_up(cost) >= self.limit {
            return;
        }
        match most_broken(&uses) {
            None => self.take(&uses),
            Some(pattern) => {
                let (old, at) = (ranges[pattern], uses[pattern].floor() as u32);
                ranges[pattern] = (at + 1, old.1);
                self.visit(ranges);
                ranges[pattern] = (old.0, at);
                self.visit(ranges);
                ranges[pattern] = old;
            }
        }
    }

    /// Cost and uses in the linear program; nothing if the ranges leave no plan or the work ran out.
    fn relaxed(&mut self, ranges: &[(u32, u32)]) -> Option<(f64, Vec<f64>)> {
        let mut rest = self.cover.clone();
        let mut fixed = 0;
        for (pattern, &(low, _)) in self.patterns.iter().zip(ranges).filter(|(_, r)| r.0 > 0) {
            if rest.high[pattern.kind] < low {
                return None;
            }
            rest.take(pattern, low);
            fixed += self.cover.price[pattern.kind] * i64::from(low);
        }
        let open: Vec<usize> = (0..ranges.len()).filter(|p| ranges[*p].1 > ranges[*p].0).collect();
        let listed: Vec<Pattern> = open.iter().map(|&p| self.patterns[p].clone()).collect();
        let (mut linear, first) = program(&rest, &listed);
        for (place, &p) in open.iter().enumerate().filter(|(_, p)| ranges[**p].1 < u32::MAX) {
            linear.limit(first + place, f64::from(ranges[p].1 - ranges[p].0));
        }
        let solved = linear.run(PIVOTS);
        if !self.meter.spend(linear.take_work() + 40 * ranges.len() as u64) || !solved {
            self.complete = false;
            return None;
        }
        let mut uses: Vec<f64> = ranges.iter().map(|r| f64::from(r.0)).collect();
        let solution = linear.solution();
        open.iter().enumerate().for_each(|(place, &p)| uses[p] += solution[first + place]);
        Some((linear.cost() + fixed as f64, uses))
    }

    fn rounded_up(&self, cost: f64) -> i64 {
        let step = self.step as f64;
        (((cost - TRUST) / step).ceil() * step) as i64
    }

    fn take(&mut self, uses: &[f64]) {
        let times = |x: f64| (x + 0.5).floor() as usize;
        let patterns: Vec<Pattern> = (self.patterns.iter().zip(uses))
            .flat_map(|(p, &x)| std::iter::repeat_n(p.clone(), times(x)))
            .collect();
        let mut rest = self.cover.clone();
        patterns.iter().for_each(|p| rest.take(p, 1));
        let short: i64 = rest.demand.iter().zip(&rest.penalty).map(|(&n, p)| i64::from(n) * p).sum();
        let cost = short + patterns.iter().map(|p| self.cover.price[p.kind]).sum::<i64>();
        if cost < self.limit {
            self.limit = cost;
            self.better = Some(patterns);
        }
    }
}

/// The pattern whose use is nearest to a half above whole.
fn most_broken(uses: &[f64]) -> Option<usize> {
    let mut best: Option<(f64, usize)> = None;
    for (pattern, x) in uses.iter().enumerate() {
        let off = (x - (x + 0.5).floor()).abs();
        if off > best.map_or(WHOLE, |b| b.0) {
            best = Some((off, pattern));
        }
    }
    best.map(|b| b.1)
}
