//! How many of each kind of stock a plan may buy: what the linear programs say of it, and the cheapest
//! numbers that all of them allow.
//!
//! The prices of any linear program give each piece a value and tell what one of a kind holds at most. So
//! the numbers of a plan that leaves nothing out must hold the value of all pieces (an inequality of
//! Benders for the counts; J. N. Hooker, G. Ottosson, Mathematical Programming 96, 2003, for this way of
//! going on from one set of numbers to the next; both from memory). Where stock has several prices, whole
//! numbers that satisfy this cost more than the program in parts.

use crate::units::gcd;

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
    /// There were too many ways to look at.
    Unknown,
}

/// Ways looked at in one search.
const NODES: u32 = 60_000;

/// The cheapest numbers that cost less than `below`, and the work it took. Nothing allowed costs less than
/// `least`, so that the first numbers at that cost will do.
pub(crate) fn cheapest(known: &Known<'_>, least: i64, below: i64) -> (Cheapest, u64) {
    let mut tree = Tree::new(known, least, below);
    let mut left: Vec<i128> = known.needs.iter().map(|n| n.value).collect();
    tree.visit(0, &mut left, 0);
    let work = u64::from(tree.nodes) * 4 * (known.needs.len() as u64 + 2);
    let answer = match tree.best {
        _ if tree.nodes > NODES => Cheapest::Unknown,
        Some(numbers) => Cheapest::Numbers(numbers, tree.limit),
        None => Cheapest::None,
    };
    (answer, work)
}

struct Tree<'a> {
    known: &'a Known<'a>,
    /// Kinds that cost nothing, then those that hold most for their price.
    order: Vec<usize>,
    /// Least cost of a unit of value by the kinds from a place on, for each need.
    rates: Vec<Vec<f64>>,
    step: i64,
    least: i64,
    limit: i64,
    numbers: Vec<u32>,
    best: Option<Vec<u32>>,
    nodes: u32,
}

impl<'a> Tree<'a> {
    fn new(known: &'a Known<'a>, least: i64, limit: i64) -> Self {
        let kinds = known.price.len();
        let rate = |kind: usize, need: &Need| known.price[kind] as f64 / (need.most[kind] as f64).max(1e-3);
        let first = |kind: usize| known.needs.first().map_or(0.0, |need| rate(kind, need));
        let mut order: Vec<usize> = (0..kinds).filter(|&k| known.high[k] > 0).collect();
        order.sort_by(|&a, &b| first(a).total_cmp(&first(b)).then(a.cmp(&b)));
        let mut rates = vec![vec![f64::INFINITY; known.needs.len()]; order.len() + 1];
        for place in (0..order.len()).rev() {
            for (j, need) in known.needs.iter().enumerate() {
                let own = rate(order[place], need);
                let later = rates[place + 1][j];
                rates[place][j] = if own < later { own } else { later };
            }
        }
        let step = known.price.iter().fold(0, |g, &p| gcd(g, p)).max(1);
        Self { known, order, rates, step, least, limit, numbers: vec![0; kinds], best: None, nodes: 0 }
    }

    /// Numbers of the kinds from a place on, when so much of each need is left.
    fn visit(&mut self, place: usize, left: &mut Vec<i128>, cost: i64) {
        self.nodes += 1;
        let done = self.best.is_some() && self.limit <= self.least;
        if done || self.nodes > NODES || self.outlook(place, left, cost) >= self.limit {
            return;
        }
        if left.iter().all(|&l| l <= 0) && !self.is_barred() {
            self.limit = cost;
            self.best = Some(self.numbers.clone());
            return;
        }
        let Some(&kind) = self.order.get(place) else { return };
        let most = self.most(kind, left, cost);
        let fewest = if self.known.price[kind] == 0 { most } else { 0 };
        for number in (fewest..=most).rev() {
            self.take(kind, number, left, -1);
            self.visit(place + 1, left, cost + i64::from(number) * self.known.price[kind]);
            self.take(kind, number, left, 1);
        }
    }

    fn take(&mut self, kind: usize, number: u32, left: &mut [i128], sign: i128) {
        self.numbers[kind] = if sign < 0 { number } else { 0 };
        for (l, need) in left.iter_mut().zip(self.known.needs) {
            *l += sign * i128::from(need.most[kind]) * i128::from(number);
        }
    }

    /// The most of a kind that is worth a look: all that is free, else what the needs and the limit leave.
    fn most(&self, kind: usize, left: &[i128], cost: i64) -> u32 {
        let (price, high) = (self.known.price[kind], self.known.high[kind]);
        if price == 0 {
            return high;
        }
        let paid = u32::try_from((self.limit - 1 - cost).max(0) / price).unwrap_or(u32::MAX);
        let wanted = |(l, need): (&i128, &Need)| {
            let most = i128::from(need.most[kind]);
            if *l <= 0 { 0 } else { (l + most - 1).checked_div(most).unwrap_or(0) }
        };
        let needed = left.iter().zip(self.known.needs).map(wanted).max().unwrap_or(0);
        let more =
            if self.known.barred.is_empty() { u32::try_from(needed).unwrap_or(u32::MAX) } else { high };
        high.min(paid).min(more)
    }

    /// No numbers that begin so cost less.
    fn outlook(&self, place: usize, left: &[i128], cost: i64) -> i64 {
        let more = |(l, rate): (&i128, &f64)| if *l <= 0 { 0.0 } else { *l as f64 * rate };
        let dearest =
            left.iter().zip(&self.rates[place]).map(more).fold(0.0, |m, v| if v > m { v } else { m });
        if !dearest.is_finite() {
            return i64::MAX;
        }
        // Rounding of floats never makes it dearer than it is.
        let whole = cost + (dearest * (1.0 - 1e-12) - 1e-6).ceil().max(0.0) as i64;
        (whole + self.step - 1).div_euclid(self.step) * self.step
    }

    fn is_barred(&self) -> bool {
        let below = |barred: &Vec<u32>| self.numbers.iter().zip(barred).all(|(n, b)| n <= b);
        self.known.barred.iter().any(below)
    }
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
                Cheapest::Unknown => panic!("round {round}: gave up"),
            };
            assert_eq!(found, best, "round {round}");
        }
    }
}
