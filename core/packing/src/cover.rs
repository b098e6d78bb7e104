//! The heart that bars and boards share: cover the pieces with patterns at least cost.
//!
//! A pattern says how one bar or board of a kind is cut. The linear program over all patterns is solved by
//! column generation: patterns are made when they pay. From its prices follows a bound that is worked out
//! in whole numbers, so that no rounding of floats can make it false:
//!
//!   bound = Σ value·demand + Σ over kinds of min(low·r, high·r),  r = price − most valuable pattern
//!
//! (the Lagrange bound of the covering program; J. Farley, Operations Research 38, 1990, is its form for
//! one kind). Pieces may be left out at a penalty, so that every program has a solution.

use crate::budget::Meter;
use crate::simplex::{Column, Simplex};
use crate::units::gcd;
use std::collections::BTreeSet;

/// How one bar or board is cut: its kind, and which pieces it gives, each (row, how many), rows rising.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Pattern {
    pub(crate) kind: usize,
    pub(crate) takes: Vec<(usize, u32)>,
}

impl Pattern {
    /// The pattern without pieces that nobody asks for.
    pub(crate) fn clipped(&self, demand: &[u32]) -> Self {
        let takes =
            self.takes.iter().map(|&(row, n)| (row, n.min(demand[row]))).filter(|t| t.1 > 0).collect();
        Self { kind: self.kind, takes }
    }
}

/// What is asked for and what is on offer.
#[derive(Clone, Debug)]
pub(crate) struct Cover {
    /// Pieces of each row.
    pub(crate) demand: Vec<u32>,
    /// Cost of leaving out one piece of each row.
    pub(crate) penalty: Vec<i64>,
    /// Price of each kind of stock.
    pub(crate) price: Vec<i64>,
    /// How many of each kind are used at least.
    pub(crate) low: Vec<u32>,
    /// How many of each kind are used at most.
    pub(crate) high: Vec<u32>,
}

impl Cover {
    /// Takes a pattern some times off what is asked for and on offer.
    pub(crate) fn take(&mut self, pattern: &Pattern, times: u32) {
        for &(row, n) in &pattern.takes {
            self.demand[row] = self.demand[row].saturating_sub(n * times);
        }
        self.low[pattern.kind] = self.low[pattern.kind].saturating_sub(times);
        self.high[pattern.kind] = self.high[pattern.kind].saturating_sub(times);
    }

    /// What patterns cost, with penalties for what they leave out.
    pub(crate) fn cost(&self, patterns: &[Pattern]) -> i64 {
        let mut left = self.clone();
        patterns.iter().for_each(|p| left.take(p, 1));
        let short: i64 = left.demand.iter().zip(&self.penalty).map(|(&n, p)| i64::from(n) * p).sum();
        short + patterns.iter().map(|p| self.price[p.kind]).sum::<i64>()
    }

    /// Every cost is a multiple of this.
    pub(crate) fn step(&self) -> i64 {
        self.price.iter().chain(&self.penalty).fold(0, |g, &v| gcd(g, v)).max(1)
    }

    /// Whole parts to one minor unit in which values are counted: fine enough for the bound, coarse
    /// enough for sums of many to stay whole in 64 bits.
    fn scale(&self) -> i64 {
        let largest = self.price.iter().chain(&self.penalty).copied().max().unwrap_or(1).max(1);
        ((1_i64 << 44) / largest).max(1)
    }
}

/// What a cutter found for given values of the pieces.
#[derive(Clone, Debug)]
pub(crate) struct Priced {
    /// No pattern of the kind is worth more; at least what was asked of the kind.
    pub(crate) most: Vec<i64>,
    /// Patterns that are worth more than asked.
    pub(crate) patterns: Vec<Pattern>,
}

/// Knows which patterns can be cut. `None` everywhere means that the work ran out.
pub(crate) trait Cutter {
    /// Patterns worth more than `ask` of their kind, none with more of a row than `limits`. Without `proof`
    /// what is the most need only be a guess.
    fn price(
        &mut self,
        values: &[i64],
        limits: &[u32],
        ask: &[i64],
        proof: bool,
        meter: &mut Meter<'_>,
    ) -> Option<Priced>;

    /// All patterns that nothing can be added to and that are worth more than `ask`; `None` too if they
    /// are more than `most` or cannot be listed.
    fn all(
        &mut self,
        values: &[i64],
        limits: &[u32],
        ask: &[i64],
        most: usize,
        meter: &mut Meter<'_>,
    ) -> Option<Vec<Pattern>>;

    /// What one of each kind holds at most, exactly; nothing too where only bounds of it are known.
    fn holds(&mut self, _values: &[i64], _limits: &[u32], _meter: &mut Meter<'_>) -> Option<Vec<i64>> {
        None
    }

    /// Size of a piece of each row and room of each kind, where a pattern is all that has room.
    fn sizes(&self) -> Option<(&[i64], &[i64])>;

    /// Patterns for the rest by a quick rule, as far as stock goes.
    fn greedy(&mut self, rest: &Cover, meter: &mut Meter<'_>) -> Vec<Pattern>;

    /// Patterns for the whole to begin with; more work may be spent on them. Nothing can cost less than
    /// `enough`.
    fn start(&mut self, whole: &Cover, _enough: i64, meter: &mut Meter<'_>) -> Vec<Pattern> {
        self.greedy(whole, meter)
    }

    /// No plan of the whole costs less, as far as is known from the start.
    fn floor(&self) -> i64 {
        0
    }
}

/// Patterns known so far, each once, in the order they were found.
#[derive(Clone, Debug, Default)]
pub(crate) struct Pool {
    list: Vec<Pattern>,
    known: BTreeSet<Pattern>,
}

impl Pool {
    /// Adds a pattern; false if it is known or empty.
    pub(crate) fn add(&mut self, pattern: Pattern) -> bool {
        let new = !pattern.takes.is_empty() && self.known.insert(pattern.clone());
        if new {
            self.list.push(pattern);
        }
        new
    }

    pub(crate) fn list(&self) -> &[Pattern] {
        &self.list
    }

    /// The patterns that are of use for what is left.
    pub(crate) fn clipped(&self, rest: &Cover) -> Self {
        let mut pool = Self::default();
        for pattern in self.list.iter().filter(|p| rest.high[p.kind] > 0) {
            pool.add(pattern.clipped(&rest.demand));
        }
        pool
    }
}

/// The solved linear program.
#[derive(Clone, Debug)]
pub(crate) struct Relaxed {
    /// No plan costs less; a multiple of the step.
    pub(crate) bound: i64,
    /// The same before it was rounded up, in parts of `scale`.
    pub(crate) exact: i128,
    pub(crate) scale: i64,
    /// Patterns used, by their number in the pool, and how often.
    pub(crate) used: Vec<(usize, f64)>,
    /// How many of each kind are used.
    pub(crate) counts: Vec<f64>,
    /// Values of the pieces and what patterns were asked to be worth, in parts of `scale`.
    pub(crate) values: Vec<i64>,
    pub(crate) ask: Vec<i64>,
    /// Values of the pieces by which the bound is highest.
    pub(crate) telling: Vec<i64>,
}

/// Pivots of one run of the simplex: far above what our programs need.
const PIVOTS: usize = 5000;

/// Solves the linear program over all patterns. Stops early, with what it has, once the bound reaches
/// `enough`. Without `proof` the bound is a guess. `None` if the work ran out; `so_far` then
/// holds the bound that was reached.
pub(crate) fn relax(
    cover: &Cover,
    pool: &mut Pool,
    cutter: &mut impl Cutter,
    proof: bool,
    enough: i64,
    so_far: &mut i64,
    meter: &mut Meter<'_>,
) -> Option<Relaxed> {
    let (mut program, first) = program(cover, pool.list());
    let scale = cover.scale();
    let step = cover.step();
    let mut best = i128::MIN;
    let mut telling = vec![0; cover.demand.len()];
    loop {
        program.run(PIVOTS);
        if !meter.spend(program.take_work()) {
            return None;
        }
        let (values, ask) = prices(cover, &program.duals(), scale);
        let priced = cutter.price(&values, &cover.demand, &ask, proof, meter)?;
        let exact = lagrange(cover, &values, &priced.most, scale);
        if exact > best {
            best = exact;
            telling.clone_from(&values);
        }
        let mut news = false;
        for pattern in priced.patterns {
            if pool.add(pattern.clone()) {
                program.add(column(cover, &pattern));
                news = true;
            }
        }
        let bound = rounded_up(best, scale, step);
        *so_far = bound;
        if !news || bound >= enough {
            let solution = program.solution();
            let used = used(&solution[first..]);
            let counts = counts(cover, pool.list(), &used);
            return Some(Relaxed { bound, exact, scale, used, counts, values, ask, telling });
        }
    }
}

/// Rounds a bound up to the next cost that can be.
pub(crate) fn rounded_up(exact: i128, scale: i64, step: i64) -> i64 {
    let unit = i128::from(scale) * i128::from(step);
    let steps = exact.div_euclid(unit) + i128::from(exact.rem_euclid(unit) != 0);
    (steps * i128::from(step)).clamp(0, i128::from(i64::MAX)) as i64
}

/// The linear program over some patterns, and the number of the first pattern's column.
pub(crate) fn program(cover: &Cover, patterns: &[Pattern]) -> (Simplex, usize) {
    let rows = cover.demand.len();
    let rhs = cover.demand.iter().chain(&cover.high).map(|&n| f64::from(n)).collect();
    let unit = |row, cost, upper| Column { cost, upper, entries: vec![(row, 1.0)] };
    let short = cover.penalty.iter().enumerate().map(|(row, &p)| unit(row, p as f64, f64::INFINITY));
    let kinds = 0..cover.price.len();
    let room = |kind: usize| f64::from(cover.high[kind].saturating_sub(cover.low[kind]));
    let idle = kinds.clone().map(|kind| match cover.low[kind] {
        0 => unit(rows + kind, 0.0, room(kind)),
        _ => unit(rows + kind, cover.price[kind] as f64, f64::INFINITY),
    });
    let mut program = Simplex::new(rhs, short.chain(idle).collect());
    for row in 0..rows {
        program.add(Column { cost: 0.0, upper: f64::INFINITY, entries: vec![(row, -1.0)] });
    }
    let mut first = 2 * rows + kinds.len();
    for kind in kinds.filter(|k| cover.low[*k] > 0) {
        let unused = program.add(unit(rows + kind, 0.0, room(kind)));
        program.at_upper(unused);
        first += 1;
    }
    for pattern in patterns {
        program.add(column(cover, pattern));
    }
    (program, first)
}

fn column(cover: &Cover, pattern: &Pattern) -> Column {
    let rows = cover.demand.len();
    let mut entries: Vec<(usize, f64)> = pattern.takes.iter().map(|&(row, n)| (row, f64::from(n))).collect();
    entries.push((rows + pattern.kind, 1.0));
    Column { cost: cover.price[pattern.kind] as f64, upper: f64::INFINITY, entries }
}

/// Values of the pieces and what a pattern of each kind must be worth to be of use.
fn prices(cover: &Cover, duals: &[f64], scale: i64) -> (Vec<i64>, Vec<i64>) {
    let whole = |v: f64| (v * scale as f64).floor() as i64;
    let rows = cover.demand.len();
    let values = (cover.penalty.iter().zip(duals))
        .map(|(&p, &d)| whole(d).clamp(0, p.saturating_mul(scale)))
        .collect();
    let ask = (cover.price.iter().zip(&duals[rows..]))
        .map(|(&p, &d)| (p.saturating_mul(scale)).saturating_sub(whole(d)).max(0))
        .collect();
    (values, ask)
}

/// The value of all pieces.
pub(crate) fn worth(cover: &Cover, values: &[i64]) -> i128 {
    values.iter().zip(&cover.demand).map(|(&v, &d)| i128::from(v) * i128::from(d)).sum()
}

/// The best bound that these values give, also when all are made smaller by one share: where some pattern
/// is worth more than its price, the share that makes it worth just its price (Farley's bound).
fn lagrange(cover: &Cover, values: &[i64], most: &[i64], scale: i64) -> i128 {
    let price = |k: usize| i128::from(cover.price[k]) * i128::from(scale);
    let shares = (0..most.len()).map(|k| (price(k), i128::from(most[k]))).filter(|s| s.0 < s.1);
    std::iter::once((1, 1))
        .chain(shares)
        .map(|share| at_share(cover, values, most, scale, share))
        .max()
        .unwrap_or(0)
}

/// The bound when all values are a share of what they are, (numerator, denominator).
fn at_share(cover: &Cover, values: &[i64], most: &[i64], scale: i64, (over, under): (i128, i128)) -> i128 {
    let pieces = worth(cover, values);
    let kinds: i128 = (0..most.len())
        .map(|k| {
            let worth = (i128::from(most[k]) * over + under - 1).div_euclid(under);
            let rest = i128::from(cover.price[k]) * i128::from(scale) - worth;
            (rest * i128::from(cover.low[k])).min(rest * i128::from(cover.high[k]))
        })
        .sum();
    (pieces * over).div_euclid(under) + kinds
}

fn used(solution: &[f64]) -> Vec<(usize, f64)> {
    solution.iter().copied().enumerate().filter(|(_, x)| *x > 1e-9).collect()
}

fn counts(cover: &Cover, patterns: &[Pattern], used: &[(usize, f64)]) -> Vec<f64> {
    let mut counts: Vec<f64> = vec![0.0; cover.price.len()];
    used.iter().for_each(|&(p, x)| counts[patterns[p].kind] += x);
    counts
}
