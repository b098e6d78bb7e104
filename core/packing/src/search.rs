//! From the linear program to whole patterns, with proof.
//!
//! 1. A greedy plan, at once.
//! 2. The linear program gives a bound and says which patterns pay.
//! 3. Dives: fix the patterns that the program uses most, solve what is left, and so on; each step is
//!    completed greedily too.
//! 4. With several prices the plain program is weak, with whole numbers of each kind it is nearly always exact.
//!    So where patterns are priced exactly the cheapest numbers that all programs so far allow are tried,
//!    one after the other (`tallies`); where these are too many, or kinds are one, branch on how many of a
//!    kind are bought (`branch`).
//! 5. Where the numbers are whole (`settle`): dives, then every pattern that a better plan could use is listed,
//!    by its reduced cost, and whole numbers of them are searched (`exact`).

mod branch;
mod dive;
mod settle;
mod tallies;

use crate::budget::Meter;
use crate::cover::{Cover, Cutter, Pattern, Pool, Relaxed, relax};
use dive::try_of;
use settle::LISTED;
use std::collections::BTreeSet;

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
    /// Whether no plan need leave anything out.
    endless: bool,
}

/// Searches for the cheapest plan; returns it with the proven bound, which is `floor` at least.
pub(crate) fn search<C: Cutter>(
    cover: Cover,
    cutter: &mut C,
    floor: i64,
    endless: bool,
    meter: &mut Meter<'_>,
) -> (Found, i64) {
    let nothing = Found { cost: i64::MAX, patterns: Vec::new(), missing: cover.demand.clone() };
    let step = cover.step();
    let mut search = Search { cover, cutter, step, pool: Pool::default(), best: nothing, bound: 0, endless };
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
            if choice.is_none() && !self.proven() && self.has_tallies() && self.tallied(&relaxed, meter) {
                return;
            }
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

    /// Whether the numbers of each kind are a way to the best plan: several kinds, patterns priced exactly, and
    /// no cheaper plan that leaves something out.
    fn has_tallies(&self) -> bool {
        let whole = self.left_out() == 0 && self.cover.penalty.iter().all(|p| *p >= self.best.cost);
        self.cover.price.len() > 1 && self.cutter.sizes().is_some() && (self.endless || whole)
    }

    /// The program over the whole within a share of the work; its bound stands even if it is not solved.
    fn root_relaxed(&mut self, whole: &Cover, share: u64, meter: &mut Meter<'_>) -> Option<Relaxed> {
        let (pool, cutter, enough) = (&mut self.pool, &mut *self.cutter, self.best.cost);
        let mut bound = 0;
        let relaxed = meter.within(share, |m| relax(whole, pool, cutter, true, enough, &mut bound, m));
        self.raise(bound, meter);
        relaxed
    }

    fn relaxed(&mut self, cover: &Cover, meter: &mut Meter<'_>) -> Option<Relaxed> {
        let relaxed = relax(cover, &mut self.pool, self.cutter, true, self.best.cost, &mut 0, meter);
        meter.tell(self.shown(), self.bound.min(self.shown()), self.left_out(), false);
        relaxed
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
