//! A bound at once, from shares alone: it stands before any program is solved and whatever the budget.
//!
//! By each list of shares the pieces are given values so that no kind of stock holds more value than its
//! price. Then their sum is a bound, and whole numbers of each kind must hold that sum.

use crate::counts::{self, Holds};
use crate::cover::Cover;
use crate::search::Found;
use crate::shares::{Shares, filled};

/// One kind of stock: its price, how many may be used, and what pieces take of it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Kind<'a> {
    pub(crate) price: i64,
    pub(crate) limit: u32,
    pub(crate) shares: &'a Shares,
}

/// The bound of one problem.
#[derive(Clone, Debug)]
pub(crate) struct Floor<'a> {
    kinds: Vec<Kind<'a>>,
    /// Whether no plan need leave anything out.
    endless: bool,
}

/// Rounding of floats never makes a bound larger than this share of what it is.
const SAFE: f64 = 1.0 - 1e-6;

impl<'a> Floor<'a> {
    /// For stock with these shares; `endless` if each piece fits some kind of which there are as many as
    /// wanted.
    pub(crate) fn new(cover: &Cover, shares: &'a [Shares], endless: bool) -> Self {
        let stock = cover.price.iter().zip(&cover.high).zip(shares);
        Self {
            kinds: stock.map(|((&price, &limit), shares)| Kind { price, limit, shares }).collect(),
            endless,
        }
    }

    /// No plan costs less, penalties for what it leaves out among its cost.
    pub(crate) fn whole(&self, cover: &Cover) -> i64 {
        if self.endless { all(&self.kinds, &cover.demand) } else { penal(&self.kinds, cover) }
    }

    /// What a plan costs without penalties, and the bound of all that make as much; `bound` is one with
    /// penalties.
    pub(crate) fn told(&self, cover: &Cover, found: &Found, bound: i64) -> (i64, i64) {
        let penalty: i64 = found.missing.iter().zip(&cover.penalty).map(|(&n, p)| i64::from(n) * p).sum();
        let made: Vec<u32> = cover.demand.iter().zip(&found.missing).map(|(d, m)| d - m).collect();
        let cost = found.cost - penalty;
        // What is told of all pieces is in the bound already.
        let known = self.endless && made == cover.demand;
        let least = if known { 0 } else { all(&self.kinds, &made) };
        (cost, (bound - penalty).max(least).clamp(0, cost))
    }
}

/// No stock that holds all these pieces costs less.
pub(crate) fn all(kinds: &[Kind<'_>], demand: &[u32]) -> i64 {
    lists(kinds).map(|list| all_by(kinds, demand, list)).max().unwrap_or(0)
}

fn lists(kinds: &[Kind<'_>]) -> std::ops::Range<usize> {
    0..kinds.iter().map(|k| k.shares.0.len()).min().unwrap_or(0)
}

fn all_by(kinds: &[Kind<'_>], demand: &[u32], list: usize) -> i64 {
    // Any values will do here, for what a board holds of them is worked out; those by what is paid for tell most.
    // What is free, such as a rack, holds its part of the sum for nothing and gives no value.
    let paid: Vec<Kind<'_>> = kinds.iter().filter(|k| k.price > 0).copied().collect();
    let values = values(&paid, demand.len(), list);
    let need: f64 = values.iter().zip(demand).map(|(v, &n)| v * f64::from(n)).sum();
    let most = |k: &Kind<'_>, l: usize| filled(&k.shares.0[l], &values, demand);
    let holds = |k: &Kind<'_>| Holds { most: most(k, list).min(most(k, 0)), price: k.price, limit: k.limit };
    counts::least(need * SAFE, kinds.iter().map(holds).collect())
}

/// The value of each piece or its penalty, whatever is less, all added up.
fn penal(kinds: &[Kind<'_>], cover: &Cover) -> i64 {
    let sum = |list: usize| {
        let values = values(kinds, cover.demand.len(), list);
        let cheaper = values.iter().zip(&cover.penalty).map(|(v, &p)| v.min(p as f64));
        cheaper.zip(&cover.demand).map(|(v, &n)| v * f64::from(n)).sum::<f64>()
    };
    (lists(kinds).map(sum).fold(0.0, f64::max) * SAFE).ceil() as i64
}

/// Values of the pieces by one list: what they take of the kind that takes least money for them.
fn values(kinds: &[Kind<'_>], rows: usize, list: usize) -> Vec<f64> {
    let of = |row: usize| {
        let each = kinds.iter().filter(|k| k.limit > 0).map(|k| (k.price as f64, k.shares.0[list][row]));
        let least = each.filter(|e| e.1.is_finite()).map(|(p, s)| p * s).fold(f64::INFINITY, f64::min);
        if least.is_finite() { least } else { 0.0 }
    };
    (0..rows).map(of).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_of_just_over_half_need_three_bars() {
        let shares = Shares::of_lengths(&[51], 100);
        let kinds = [Kind { price: 7, limit: 9, shares: &shares }];
        assert_eq!(all(&kinds, &[3]), 21);
        let cover = Cover { demand: vec![3], penalty: vec![4], price: vec![7], low: vec![0], high: vec![9] };
        assert_eq!(penal(&kinds, &cover), 12);
    }

    /// Ten pieces of 30 and one free bar of 100: three come from it, seven are paid for, so three bars at 7.
    #[test]
    fn a_free_bar_takes_its_part_and_no_more() {
        let shares = Shares::of_lengths(&[30], 100);
        let kinds = [(0, 1), (7, 9)].map(|(price, limit)| Kind { price, limit, shares: &shares });
        assert_eq!(all(&kinds, &[10]), 21);
        assert_eq!(all(&kinds, &[3]), 0);
    }

    #[test]
    fn whole_numbers_of_two_kinds() {
        // 250 of length: bars of 100 at 10 and of 60 at 7. Two and one hold 260 for 27; 240 costs less.
        let (long, short) = (Shares::of_lengths(&[10], 100), Shares::of_lengths(&[10], 60));
        let kinds = [(10, &long), (7, &short)].map(|(price, shares)| Kind { price, limit: 9, shares });
        assert_eq!(all(&kinds, &[25]), 27);
    }
}
