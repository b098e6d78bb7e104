//! From the linear program to whole patterns, with proof.
//!
//! 1. A greedy plan, at once.
//! 2. The linear program gives a bound and says which patterns pay.
//! 3. Dives: fix the patterns that the program uses most, solve what is left, and so on; each step is
//!    completed greedily too.
//! 4. Where the bound is not met, branch on how many of a kind are bought (with several prices the plain
//!    program is weak, with whole counts it is nearly always exact), and close a node by listing every
//!    pattern that a better plan could use (`exact`).

use crate::budget::Meter;
use crate::cover::{Cover, Cutter, Pattern, Pool, Relaxed, relax};
use crate::exact;
use std::cmp::Reverse;
use std::collections::{BTreeSet, BinaryHeap};

/// A plan as the search sees it.
#[derive(Clone, Debug)]
pub(crate) struct Found {
    /// Prices and penalties.
    pub(crate) cost: i64,
    /// One for each bar or board.
    pub(crate) patterns: Vec<Pattern>,
    /// Pieces of each row left out.
    pub(crate) missing: Vec<u32>,
}

/// Tries of a dive at the root with another choice at one place.
const TRIES: usize = 12;
/// Most patterns listed to close a node: first try, last try.
const LISTED: [usize; 2] = [1500, 20_000];
/// Most nodes of the tree over listed patterns: among some of them, among all.
const NODES: [usize; 2] = [150, 2000];
/// Known patterns that are tried together.
const NEAR: usize = 250;
/// Work of the first try to settle a node; each further one may take four times as much.
const FIRST_SHARE: u64 = 4_000_000;
/// Tries to settle a node before it is taken apart by its counts.
const PATIENCE: u32 = 2;
/// Tries to settle a node before it is left open.
const MOST_TRIES: u32 = 6;
/// Part of the work left that the program gets for a small order.
const SMALL_SHARE: u64 = 6;
/// A count this near to a whole number is one.
const WHOLE: f64 = 1e-6;

pub(crate) struct Search<'c, C> {
    cover: Cover,
    cutter: &'c mut C,
    step: i64,
    pool: Pool,
    best: Found,
    bound: i64,
}

/// Part of the problem: how many of each kind are used.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Node {
    bound: Reverse<i64>,
    number: Reverse<usize>,
    /// How often it was tried to settle it.
    tries: u32,
    low: Vec<u32>,
    high: Vec<u32>,
}

/// Searches for the cheapest plan; returns it with the proven bound, which is `floor` at least.
pub(crate) fn search<C: Cutter>(
    cover: Cover,
    cutter: &mut C,
    floor: i64,
    meter: &mut Meter<'_>,
) -> (Found, i64) {
    let nothing = Found { cost: i64::MAX, patterns: Vec::new(), missing: cover.demand.clone() };
    let step = cover.step();
    let mut search = Search { cover, cutter, step, pool: Pool::default(), best: nothing, bound: 0 };
    search.offer(Vec::new(), meter);
    let floor = rounded(floor, step);
    let quick = search.cutter.start(&search.cover, floor, meter);
    search.offer(quick, meter);
    let known = search.cutter.floor().min(search.best.cost);
    search.raise(floor.max(known), meter);
    if !search.proven() {
        // Of a small order every cheaper set of stock was tried, so that the program hardly ever finds better.
        let left = meter.left();
        let share = if search.cutter.floor() > 0 { left / SMALL_SHARE } else { left };
        meter.within(share, |m| search.root(m));
    }
    (search.best, search.bound)
}

impl<C: Cutter> Search<'_, C> {
    fn root(&mut self, meter: &mut Meter<'_>) {
        let whole = self.cover.clone();
        let mut relaxed = self.root_relaxed(&whole, meter.left() / 3, meter);
        if relaxed.is_none() {
            // Large: the patterns found so far make a plan first.
            self.dive(&whole, None, meter);
            relaxed = self.root_relaxed(&whole, meter.left() / 2, meter);
        }
        let Some(relaxed) = relaxed else {
            return (0..TRIES).for_each(|t| self.dive(&whole, Some(try_of(t)), meter));
        };
        for choice in std::iter::once(None).chain((0..TRIES).map(|t| Some(try_of(t)))) {
            if self.proven() || meter.over() {
                return;
            }
            self.dive(&whole, choice, meter);
            if choice.is_none() && !self.proven() && self.close(&whole, &relaxed, LISTED[0], meter) {
                return self.raise(self.best.cost, meter);
            }
            // With several kinds, branching helps more than further dives at the root.
            if self.cover.price.len() > 1 {
                break;
            }
        }
        if !self.proven() {
            self.branch(relaxed, meter);
        }
    }

    /// The program over the whole within a share of the work; its bound stands even if it is not solved.
    fn root_relaxed(&mut self, whole: &Cover, share: u64, meter: &mut Meter<'_>) -> Option<Relaxed> {
        let (pool, cutter, enough) = (&mut self.pool, &mut *self.cutter, self.best.cost);
        let mut bound = 0;
        let relaxed = meter.within(share, |m| relax(whole, pool, cutter, true, enough, &mut bound, m));
        self.raise(bound, meter);
        relaxed
    }

    /// Best first over how many of each kind are used.
    fn branch(&mut self, root: Relaxed, meter: &mut Meter<'_>) {
        let mut open = BinaryHeap::new();
        let mut stuck: Option<i64> = None;
        let (low, high) = (self.cover.low.clone(), self.cover.high.clone());
        open.push(Node { bound: Reverse(root.bound), number: Reverse(0), tries: 0, low, high });
        let mut number = 0;
        while let Some(node) = open.pop() {
            let bound = stuck.map_or(node.bound.0, |s| s.min(node.bound.0));
            self.raise(bound.min(self.best.cost), meter);
            if self.proven() || node.bound.0 >= self.best.cost || meter.over() {
                break;
            }
            let cover = Cover { low: node.low.clone(), high: node.high.clone(), ..self.cover.clone() };
            let Some(relaxed) = self.relaxed(&cover, meter) else { return };
            if relaxed.bound >= self.best.cost {
                continue;
            }
            match split(&relaxed) {
                Some((kind, at)) => {
                    for (from, to) in [(node.low[kind], at), (at + 1, node.high[kind])] {
                        number += 1;
                        let mut child = node.clone();
                        (child.low[kind], child.high[kind]) = (from, to);
                        (child.bound, child.number) = (Reverse(relaxed.bound), Reverse(number));
                        if from <= to {
                            open.push(child);
                        }
                    }
                }
                None if !self.settle(&cover, &relaxed, node.tries, meter) => {
                    let mut parts = parts(&node, &relaxed);
                    if parts.is_empty() && node.tries + 1 < MOST_TRIES {
                        parts.push(Node { tries: node.tries + 1, ..node.clone() });
                    }
                    if parts.is_empty() {
                        stuck = Some(stuck.map_or(relaxed.bound, |s| s.min(relaxed.bound)));
                    }
                    for part in parts {
                        number += 1;
                        open.push(Node { bound: Reverse(relaxed.bound), number: Reverse(number), ..part });
                    }
                }
                None => (),
            }
        }
        if !meter.over() {
            let left = stuck.unwrap_or(self.best.cost).min(self.best.cost);
            self.raise(left, meter);
        }
    }

    /// A node whose counts are whole: dives, the known patterns that matter, then the list of all of them.
    /// True if nothing better is left. With each try it may work longer.
    fn settle(&mut self, cover: &Cover, relaxed: &Relaxed, tries: u32, meter: &mut Meter<'_>) -> bool {
        let mut exactly = cover.clone();
        let whole: Vec<u32> = relaxed.counts.iter().map(|c| (c + 0.5).floor() as u32).collect();
        (exactly.low, exactly.high) = (whole.clone(), whole);
        let share = FIRST_SHARE << (2 * tries.min(8));
        meter.within(share, |m| self.dive(&exactly, None, m));
        if relaxed.bound < self.best.cost {
            meter.within(share, |m| self.restrict(&exactly, relaxed, m));
        }
        let dives = if tries == 0 { 0..0 } else { 4 * (tries as usize - 1)..4 * tries as usize };
        for t in dives {
            if relaxed.bound < self.best.cost {
                meter.within(share, |m| self.dive(&exactly, Some(try_of(t)), m));
            }
        }
        let most = LISTED[usize::from(tries > 1)];
        relaxed.bound >= self.best.cost
            || meter.within(share, |m| self.close(cover, relaxed, most, m))
            || meter.within(share, |m| self.close_by_waste(cover, most, m))
    }

    /// Closes a node whose counts are all fixed: no bar may waste more than all of them together do.
    fn close_by_waste(&mut self, cover: &Cover, most: usize, meter: &mut Meter<'_>) -> bool {
        let fixed = cover.low == cover.high;
        let Some((sizes, rooms)) = self.cutter.sizes().filter(|_| fixed) else { return false };
        let room: i64 = rooms.iter().zip(&cover.high).map(|(r, &n)| r * i64::from(n)).sum();
        let need: i64 = sizes.iter().zip(&cover.demand).map(|(w, &n)| w * i64::from(n)).sum();
        let ask: Vec<i64> = rooms.iter().map(|r| r - (room - need) - 1).collect();
        let sizes = sizes.to_vec();
        self.close_listed(cover, &sizes, &ask, most, meter)
    }

    /// Looks for a better plan among the known patterns that could be part of one.
    fn restrict(&mut self, cover: &Cover, relaxed: &Relaxed, meter: &mut Meter<'_>) {
        let target = i128::from(self.best.cost - self.step) * i128::from(relaxed.scale) - relaxed.exact;
        let short = |p: &Pattern| {
            let worth: i64 = p.takes.iter().map(|&(row, n)| relaxed.values[row] * i64::from(n)).sum();
            relaxed.ask[p.kind] - worth
        };
        let mut near: Vec<(i64, &Pattern)> = (self.pool.list().iter())
            .filter(|p| cover.high[p.kind] > 0)
            .map(|p| (short(p), p))
            .filter(|(short, _)| i128::from(*short) <= target)
            .collect();
        near.sort();
        let near: Vec<Pattern> = near.into_iter().take(NEAR).map(|(_, p)| p.clone()).collect();
        if let Some(patterns) = exact::solve(cover, &near, self.best.cost, self.step, NODES[0], meter).better
        {
            self.offer(patterns, meter);
        }
    }

    /// Closes a node by its full list of useful patterns; true if nothing better is left in it.
    fn close(&mut self, cover: &Cover, relaxed: &Relaxed, most: usize, meter: &mut Meter<'_>) -> bool {
        let target = self.best.cost - self.step;
        let spare = i128::from(target) * i128::from(relaxed.scale) - relaxed.exact;
        let Ok(spare) = i64::try_from(spare.max(0)) else { return false };
        let ask: Vec<i64> = relaxed.ask.iter().map(|a| a.saturating_sub(spare).saturating_sub(1)).collect();
        self.close_listed(cover, &relaxed.values, &ask, most, meter)
    }

    fn close_listed(
        &mut self,
        cover: &Cover,
        values: &[i64],
        ask: &[i64],
        most: usize,
        meter: &mut Meter<'_>,
    ) -> bool {
        let Some(all) = self.cutter.all(values, &cover.demand, ask, most, meter) else { return false };
        let result = exact::solve(cover, &all, self.best.cost, self.step, NODES[1], meter);
        if let Some(patterns) = result.better {
            self.offer(patterns, meter);
        }
        result.complete
    }

    fn relaxed(&mut self, cover: &Cover, meter: &mut Meter<'_>) -> Option<Relaxed> {
        let relaxed = relax(cover, &mut self.pool, self.cutter, true, self.best.cost, &mut 0, meter);
        meter.tell(self.shown(), self.bound.min(self.shown()), self.left_out(), false);
        relaxed
    }

    /// Fixes the patterns used most, solves the rest, and so on. `choice` is (how deep, which instead).
    fn dive(&mut self, node: &Cover, choice: Option<(usize, usize)>, meter: &mut Meter<'_>) {
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

    /// Takes a plan if it is better, or as good with fewer different patterns.
    fn offer(&mut self, patterns: Vec<Pattern>, meter: &mut Meter<'_>) {
        let found = self.found(patterns);
        let better = found.cost < self.best.cost;
        if better || (found.cost == self.best.cost && kinds(&found) < kinds(&self.best)) {
            self.best = found;
            meter.tell(self.shown(), self.bound.min(self.shown()), self.left_out(), better);
        }
    }

    fn found(&self, mut patterns: Vec<Pattern>) -> Found {
        let mut missing = self.cover.demand.clone();
        for pattern in &mut patterns {
            *pattern = pattern.clipped(&missing);
            pattern.takes.iter().for_each(|&(row, n)| missing[row] -= n);
        }
        patterns.retain(|p| !p.takes.is_empty());
        let bought: i64 = patterns.iter().map(|p| self.cover.price[p.kind]).sum();
        let penalty: i64 = missing.iter().zip(&self.cover.penalty).map(|(&n, p)| i64::from(n) * p).sum();
        Found { cost: bought + penalty, patterns, missing }
    }

    fn raise(&mut self, bound: i64, meter: &mut Meter<'_>) {
        if bound > self.bound {
            self.bound = bound.min(self.best.cost);
            meter.tell(self.shown(), self.bound.min(self.shown()), self.left_out(), true);
        }
    }

    fn proven(&self) -> bool {
        self.bound >= self.best.cost
    }

    /// What the plan so far costs without penalties.
    fn shown(&self) -> i64 {
        self.best.patterns.iter().map(|p| self.cover.price[p.kind]).sum()
    }

    fn left_out(&self) -> u32 {
        self.best.missing.iter().sum()
    }
}

/// The next cost that can be, for every cost is a multiple of the step.
fn rounded(bound: i64, step: i64) -> i64 {
    (bound + step - 1).div_euclid(step) * step
}

fn kinds(found: &Found) -> usize {
    found.patterns.iter().collect::<BTreeSet<_>>().len()
}

/// Where the n-th try goes another way: near the top first, the next best, then the one after.
fn try_of(n: usize) -> (usize, usize) {
    (n / 2, 1 + n % 2)
}

/// The kind whose count is farthest from whole, and its count rounded down.
fn split(relaxed: &Relaxed) -> Option<(usize, u32)> {
    let mut best: Option<(f64, usize)> = None;
    for (kind, count) in relaxed.counts.iter().enumerate() {
        let off = (count - (count + 0.5).floor()).abs();
        if off > best.map_or(WHOLE, |b| b.0) {
            best = Some((off, kind));
        }
    }
    best.map(|(_, kind)| (kind, relaxed.counts[kind].floor() as u32))
}

/// A node whose counts are whole but not settled, by parts: one count lower, the same, or higher. Nothing if
/// it was not tried long enough yet or all its counts are fixed.
fn parts(node: &Node, relaxed: &Relaxed) -> Vec<Node> {
    let free = (0..node.low.len()).find(|&k| node.low[k] < node.high[k]);
    let Some(kind) = free.filter(|_| node.tries + 1 >= PATIENCE) else { return Vec::new() };
    let count = (relaxed.counts[kind] + 0.5).floor() as u32;
    let range = |low: u32, high: u32| {
        let mut part = Node { tries: PATIENCE - 1, ..node.clone() };
        (part.low[kind], part.high[kind]) = (low, high);
        part
    };
    let mut parts = vec![range(count, count)];
    if count > node.low[kind] {
        parts.push(range(node.low[kind], count - 1));
    }
    if count < node.high[kind] {
        parts.push(range(count + 1, node.high[kind]));
    }
    parts
}

/// A pattern used as much as this is as good as fixed.
const SURE: f64 = 0.85;

/// The patterns to fix next: whole parts if there are any, else the one used most (or the `rank`-th) and
/// those that are as good as sure.
fn picks(relaxed: &Relaxed, patterns: &[Pattern], rest: &Cover, rank: usize) -> Vec<(Pattern, u32)> {
    let mut sorted = relaxed.used.clone();
    sorted.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
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
