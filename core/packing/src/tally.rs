//! How many of each kind of stock a plan may buy: what the linear programs say of it, and the cheapest
//! numbers that all of them allow.
//!
//! The prices of any linear program give each piece a value and tell what one of a kind holds at most. So
//! the numbers of a plan that leaves nothing out must hold the value of all pieces (an inequality of
//! Benders for the counts; J. N. Hooker, G. Ottosson, Mathematical Programming 96, 2003, for this way of
//! going on from one set of numbers to the next; both from memory). Where stock has several prices, whole
//! numbers that satisfy this cost more than the program in parts.

use crate::simplex::{Column, Simplex};
use crate::units::gcd;
use crestrail_sorting::Order as _;

/// What is bought must hold a value: Σ most·number ≥ value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Need {
    /// One of each kind holds no more value than this.
    pub(crate) most: Vec<i64>,
    /// The value of all pieces.
    pub(crate) value: i128,
}

impl Need {
    pub(crate) fn allows(&self, numbers: &[u32]) -> bool {
        self.held(numbers) >= self.value
    }

    fn held(&self, numbers: &[u32]) -> i128 {
        self.most.iter().zip(numbers).map(|(&m, &n)| i128::from(m) * i128::from(n)).sum()
    }
}

/// What is known of the numbers.
pub(crate) struct Known<'a> {
    pub(crate) price: &'a [i64],
    /// How many of each kind there are at most.
    pub(crate) high: &'a [u32],
    pub(crate) needs: &'a [Need],
    /// Numbers that do not count, nor any that are lower everywhere.
    pub(crate) barred: &'a [Vec<u32>],
}

/// The answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Cheapest {
    /// These numbers and their cost.
    Numbers(Vec<u32>, i64),
    /// None are allowed that cost less than was asked.
    None,
    /// There were too many ways to look at; none that are allowed cost less than this.
    Unknown(i64),
}

/// Ways looked at in one search.
const NODES: u32 = 200_000;

/// Parts of the span of costs that is searched first; each further one is as large as all before.
const FIRST_PART: i64 = 64;

/// The cheapest numbers that cost less than `below`, and the work it took. Nothing allowed costs less than
/// `least`, so that the first numbers at that cost will do.
pub(crate) fn cheapest(known: &Known<'_>, least: i64, below: i64) -> (Cheapest, u64) {
    let (needs, joining) = with_joint(known);
    let known = &Known { needs: &needs, ..*known };
    let mut tree = Tree::new(known, least, below);
    let mut left: Vec<i128> = known.needs.iter().map(|n| n.value).collect();
    let first = ((below - least) / FIRST_PART).max(tree.step);
    let mut span = first;
    while tree.least < below {
        tree.limit = below.min(least.saturating_add(span));
        tree.visit(0, &mut left, 0);
        if tree.best.is_some() || tree.is_over() {
            break;
        }
        tree.least = tree.limit;
        span = span.saturating_mul(2);
    }
    let work = joining + u64::from(tree.nodes) * (10 + 3 * (known.needs.len() * known.price.len()) as u64);
    let answer = match tree.best {
        _ if tree.nodes > NODES => Cheapest::Unknown(tree.least),
        Some(numbers) => Cheapest::Numbers(numbers, tree.limit),
        None => Cheapest::None,
    };
    (answer, work)
}

struct Tree<'a> {
    known: &'a Known<'a>,
    order: Vec<Turn>,
    /// For each need the kinds by what a unit of its value costs, cheapest first: the turn and that cost.
    cheap: Vec<Vec<(usize, f64)>>,
    step: i64,
    least: i64,
    limit: i64,
    numbers: Vec<u32>,
    best: Option<Vec<u32>>,
    nodes: u32,
}

/// A kind in the order of the search.
#[derive(Clone, Copy)]
struct Turn {
    kind: usize,
    /// Whether the program for the first need buys all there is of it.
    full: bool,
}

impl<'a> Tree<'a> {
    fn new(known: &'a Known<'a>, least: i64, limit: i64) -> Self {
        let order = order(known);
        let cheap = (known.needs.iter())
            .map(|need| {
                let turns = (0..order.len()).filter(|&t| need.most[order[t].kind] > 0);
                let mut cheap: Vec<(usize, f64)> =
                    turns.map(|t| (t, rate(known, need, order[t].kind))).collect();
                cheap.order_by(|a, b| a.1.total_cmp(&b.1).then(a.0.cmp(&b.0)));
                cheap
            })
            .collect();
        let step = known.price.iter().fold(0, |g, &p| gcd(g, p)).max(1);
        let numbers = vec![0; known.price.len()];
        Self { known, order, cheap, step, least, limit, numbers, best: None, nodes: 0 }
    }

    /// Numbers of the kinds from a turn on, when so much of each need is left.
    fn visit(&mut self, turn: usize, left: &mut [i128], cost: i64) {
        self.nodes += 1;
        match self.order.get(turn) {
            None => self.take(cost, left),
            Some(_) if turn + 1 == self.order.len() => self.last(turn, left, cost),
            Some(&next) => self.each(turn, next, left, cost),
        }
    }

    /// All numbers of one kind that leave hope, those nearest to what the program buys first.
    fn each(&mut self, turn: usize, Turn { kind, full }: Turn, left: &mut [i128], cost: i64) {
        let (price, high) = (self.known.price[kind], self.known.high[kind]);
        let mut before = f64::INFINITY;
        for away in 0..=high {
            let number = if full { high - away } else { away };
            let more = cost + i64::from(number) * price;
            self.set(kind, number, left);
            let (first, dearest) = self.outlook(turn + 1, left);
            if self.rounded(more, dearest) < self.limit {
                self.visit(turn + 1, left, more);
            }
            // The outlook by one need is convex in the number: once it rises it never falls again.
            let outlook = more as f64 + first;
            let worse = outlook >= before && before.is_finite() && self.rounded(more, first) >= self.limit;
            before = outlook;
            self.nodes += 1;
            // Of what costs nothing all is taken.
            if worse || price == 0 || self.is_over() {
                break;
            }
        }
        self.set(kind, 0, left);
    }

    /// The number of the last kind follows from what is left.
    fn last(&mut self, turn: usize, left: &mut [i128], cost: i64) {
        let kind = self.order[turn].kind;
        let (price, high) = (self.known.price[kind], self.known.high[kind]);
        let needed = |(l, need): (&i128, &Need)| match i128::from(need.most[kind]) {
            most if most > 0 && *l > 0 => (l + most - 1) / most,
            _ => 0,
        };
        let needed = left.iter().zip(self.known.needs).map(needed).max().unwrap_or(0);
        let fewest = if price == 0 { high } else { u32::try_from(needed).unwrap_or(u32::MAX) };
        for number in fewest..=high {
            let more = cost + i64::from(number) * price;
            if more >= self.limit || self.is_over() {
                break;
            }
            self.nodes += 1;
            self.set(kind, number, left);
            self.take(more, left);
        }
        self.set(kind, 0, left);
    }

    fn take(&mut self, cost: i64, left: &[i128]) {
        if cost < self.limit && left.iter().all(|&l| l <= 0) && !self.is_barred() {
            self.limit = cost;
            self.best = Some(self.numbers.clone());
        }
    }

    fn set(&mut self, kind: usize, number: u32, left: &mut [i128]) {
        let more = i128::from(number) - i128::from(self.numbers[kind]);
        self.numbers[kind] = number;
        for (l, need) in left.iter_mut().zip(self.known.needs) {
            *l -= more * i128::from(need.most[kind]);
        }
    }

    /// Least cost of what is left by the kinds from a turn on, in parts: of the first need, and of the dearest.
    fn outlook(&self, turn: usize, left: &[i128]) -> (f64, f64) {
        let (mut first, mut dearest) = (0.0, 0.0);
        for (j, &value) in left.iter().enumerate() {
            let cost = self.parts(j, turn, value);
            first = if j == 0 { cost } else { first };
            dearest = if cost > dearest { cost } else { dearest };
        }
        (first, dearest)
    }

    fn parts(&self, need: usize, turn: usize, value: i128) -> f64 {
        let (mut left, mut cost) = (value as f64, 0.0);
        for &(own, rate) in self.cheap[need].iter().filter(|c| c.0 >= turn) {
            let kind = self.order[own].kind;
            let holds = self.known.needs[need].most[kind] as f64 * f64::from(self.known.high[kind]);
            if left <= holds {
                return if left > 0.0 { cost + left * rate } else { cost };
            }
            left -= holds;
            cost += holds * rate;
        }
        if left > 0.0 { f64::INFINITY } else { cost }
    }

    /// The next cost that can be, made no dearer by rounding of floats.
    fn rounded(&self, cost: i64, more: f64) -> i64 {
        if !more.is_finite() {
            return i64::MAX;
        }
        let whole = cost + (more * (1.0 - 1e-12) - 1e-6).ceil().max(0.0) as i64;
        (whole + self.step - 1).div_euclid(self.step) * self.step
    }

    fn is_over(&self) -> bool {
        self.nodes > NODES || (self.best.is_some() && self.limit <= self.least)
    }

    fn is_barred(&self) -> bool {
        let below = |barred: &Vec<u32>| self.numbers.iter().zip(barred).all(|(n, b)| n <= b);
        self.known.barred.iter().any(below)
    }
}

/// Pivots of the program over the numbers at most.
const PIVOTS: usize = 500;
/// What a part of a joint need is counted in: fine enough to lose nothing, small enough to stay whole in floats.
const FINE: f64 = (1_u64 << 36) as f64;

/// The needs with one that stands for all of them in front: their sum by the prices of the program over the
/// numbers in parts, which alone gives the same cost. Tells the work too.
fn with_joint(known: &Known<'_>) -> (Vec<Need>, u64) {
    let most = |need: &Need| need.most.iter().copied().max().unwrap_or(0).max(1) as f64;
    if known.needs.len() < 2 {
        return (known.needs.to_vec(), 0);
    }
    let sizes: Vec<f64> = known.needs.iter().map(most).collect();
    let dear = 1000.0 * known.price.iter().copied().max().unwrap_or(0).max(1) as f64;
    let unit = |row, cost, entry| Column { cost, upper: f64::INFINITY, entries: vec![(row, entry)] };
    let rows = 0..sizes.len();
    let rhs = rows.clone().map(|j| known.needs[j].value as f64 / sizes[j]).collect();
    let mut program = Simplex::new(rhs, rows.clone().map(|j| unit(j, dear, 1.0)).collect());
    for j in rows.clone() {
        program.add(unit(j, 0.0, -1.0));
    }
    for kind in 0..known.price.len() {
        let entries = rows.clone().map(|j| (j, known.needs[j].most[kind] as f64 / sizes[j])).collect();
        let upper = f64::from(known.high[kind]);
        program.add(Column { cost: known.price[kind] as f64, upper, entries });
    }
    program.run(PIVOTS);
    let mut weights: Vec<f64> = program.duals().iter().map(|d| if *d > 0.0 { *d } else { 0.0 }).collect();
    let all: f64 = weights.iter().sum();
    weights.iter_mut().zip(&sizes).for_each(|(w, size)| *w *= FINE / (all.max(1e-9) * size));
    let sum =
        |of: &dyn Fn(&Need) -> f64| known.needs.iter().zip(&weights).map(|(n, w)| of(n) * w).sum::<f64>();
    // Rounded so that what satisfies each need satisfies the sum.
    let most = (0..known.price.len()).map(|k| sum(&|n| n.most[k] as f64).ceil() as i64 + 1).collect();
    let joint = Need { most, value: sum(&|n| n.value as f64).floor() as i128 - 1 };
    let needs = std::iter::once(joint).chain(known.needs.iter().cloned()).collect();
    (needs, program.take_work())
}

/// What a unit of value costs.
fn rate(known: &Known<'_>, need: &Need, kind: usize) -> f64 {
    known.price[kind] as f64 / need.most[kind] as f64
}

/// Kinds in the order in which it is dear to change what the program for the first need buys of them, dearest
/// first, so that few numbers of most kinds leave hope and that of the last one follows.
fn order(known: &Known<'_>) -> Vec<Turn> {
    let kinds = || (0..known.price.len()).filter(|&k| known.high[k] > 0);
    let Some(need) = known.needs.first() else {
        return kinds().map(|kind| Turn { kind, full: false }).collect();
    };
    let mut cheap: Vec<usize> = kinds().filter(|&k| need.most[k] > 0).collect();
    cheap.order_by(|&a, &b| rate(known, need, a).total_cmp(&rate(known, need, b)).then(a.cmp(&b)));
    let mut left = need.value;
    let split = cheap.iter().position(|&k| {
        left -= i128::from(need.most[k]) * i128::from(known.high[k]);
        left <= 0
    });
    let value = split.or(cheap.len().checked_sub(1)).map_or(0.0, |at| rate(known, need, cheap[at]));
    let reduced = |kind: usize| known.price[kind] as f64 - value * need.most[kind] as f64;
    let mut order: Vec<usize> = kinds().collect();
    order.order_by(|&a, &b| reduced(b).abs().total_cmp(&reduced(a).abs()).then(a.cmp(&b)));
    order.into_iter().map(|kind| Turn { kind, full: reduced(kind) < 0.0 }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// All numbers, one by one.
    fn brute(known: &Known<'_>, kind: usize, numbers: &mut Vec<u32>, best: &mut Option<i64>) {
        if kind == numbers.len() {
            let barred = known.barred.iter().any(|b| numbers.iter().zip(b).all(|(n, b)| n <= b));
            if !barred && known.needs.iter().all(|n| n.allows(numbers)) {
                let cost = numbers.iter().zip(known.price).map(|(&n, p)| i64::from(n) * p).sum();
                *best = Some(best.map_or(cost, |b| b.min(cost)));
            }
            return;
        }
        for number in 0..=known.high[kind] {
            numbers[kind] = number;
            brute(known, kind + 1, numbers, best);
        }
        numbers[kind] = 0;
    }

    #[test]
    fn agrees_with_trying_everything() {
        let mut seed = 11_u64;
        let mut below = |n: u64| {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (seed >> 33) % n
        };
        for round in 0..400 {
            let kinds = 1 + below(3) as usize;
            let price: Vec<i64> = (0..kinds).map(|_| below(9) as i64).collect();
            let high: Vec<u32> = (0..kinds).map(|_| below(7) as u32).collect();
            let needs: Vec<Need> = (0..1 + below(3))
                .map(|_| Need {
                    most: (0..kinds).map(|_| below(12) as i64).collect(),
                    value: i128::from(below(60)),
                })
                .collect();
            let barred: Vec<Vec<u32>> =
                (0..below(3)).map(|_| (0..kinds).map(|_| below(5) as u32).collect()).collect();
            let known = Known { price: &price, high: &high, needs: &needs, barred: &barred };
            let mut best = None;
            brute(&known, 0, &mut vec![0; kinds], &mut best);
            let found = match cheapest(&known, 0, 1000).0 {
                Cheapest::Numbers(numbers, cost) => {
                    assert!(needs.iter().all(|n| n.allows(&numbers)), "round {round}");
                    Some(cost)
                }
                Cheapest::None => None,
                Cheapest::Unknown(_) => panic!("round {round}: gave up"),
            };
            assert_eq!(found, best, "round {round}");
        }
    }
}
