//! Among plans of one cost: fewer different patterns, then one long offcut that is worth keeping.
//!
//! Two bars at a time are cut anew: one as a pattern that is already there or as full as can be, the other
//! with what is left of the two.

use crate::cover::Pattern;
use std::collections::BTreeMap;

/// Weights of the rows and rooms of the kinds.
pub(super) struct Tidy<'a> {
    pub(super) weights: &'a [i64],
    pub(super) rooms: &'a [i64],
}

/// How many bars are cut by each pattern.
type Tally = BTreeMap<Pattern, u32>;

/// Exchanges at most; each makes the plan tidier, so this is only a fence.
const ROUNDS: usize = 200;
/// Bars above which they are not filled anew.
const BARS: usize = 1000;
/// Patterns above which a plan is left as it is: the work grows with their cube.
const MANY: usize = 60;

impl Tidy<'_> {
    /// The same bars, cut more tidily.
    pub(super) fn tidy(&self, patterns: &[Pattern]) -> Vec<Pattern> {
        let mut tally = Tally::new();
        patterns.iter().for_each(|p| *tally.entry(p.clone()).or_default() += 1);
        let anew = if patterns.len() <= BARS { self.repeated(patterns) } else { None };
        if let Some(anew) = anew.filter(|anew| self.tidier(anew, &tally)) {
            tally = anew;
        }
        for _ in 0..ROUNDS {
            let Some(better) = self.fewer(&tally).or_else(|| self.longer(&tally)) else { break };
            tally = better;
        }
        tally.into_iter().flat_map(|(p, n)| std::iter::repeat_n(p, n as usize)).collect()
    }

    /// The same bars filled anew by patterns that repeat as often as can be. A pattern is taken if it fills
    /// its bars at least as well as the pieces left need on average; nothing if some piece finds no room.
    fn repeated(&self, patterns: &[Pattern]) -> Option<Tally> {
        let mut bars = vec![0_u32; self.rooms.len()];
        let mut demand = vec![0_u32; self.weights.len()];
        for pattern in patterns {
            bars[pattern.kind] += 1;
            pattern.takes.iter().for_each(|&(row, n)| demand[row] += n);
        }
        let mut tally = Tally::new();
        while demand.iter().any(|&n| n > 0) {
            let kind = (0..bars.len()).max_by_key(|&k| (bars[k], std::cmp::Reverse(k)))?;
            let (times, takes) = self.most_repeated(&demand, &bars, kind)?;
            takes.iter().for_each(|&(row, n)| demand[row] -= n * times);
            bars[kind] -= times;
            *tally.entry(Pattern { kind, takes }).or_default() += times;
        }
        Some(tally)
    }

    fn most_repeated(&self, demand: &[u32], bars: &[u32], kind: usize) -> Option<(u32, Vec<(usize, u32)>)> {
        let need: i64 = demand.iter().zip(self.weights).map(|(&n, w)| i64::from(n) * w).sum();
        let room: i64 = bars.iter().zip(self.rooms).map(|(&n, r)| i64::from(n) * r).sum();
        for times in (1..=bars[kind]).rev() {
            let pieces: Vec<(usize, u32)> =
                demand.iter().map(|n| n / times).enumerate().filter(|t| t.1 > 0).collect();
            let takes = self.fullest(&pieces, self.rooms[kind]);
            let used: i64 = takes.iter().map(|&(row, n)| self.weights[row] * i64::from(n)).sum();
            // used ÷ room of the bar ≥ need ÷ room of all, or the last bars that take all that is left
            let enough =
                i128::from(used) * i128::from(room) >= i128::from(need) * i128::from(self.rooms[kind]);
            if !takes.is_empty() && (enough || used * i64::from(times) == need) {
                return Some((times, takes));
            }
        }
        None
    }

    fn room(&self, pattern: &Pattern) -> i64 {
        let used: i64 = pattern.takes.iter().map(|&(row, n)| self.weights[row] * i64::from(n)).sum();
        self.rooms[pattern.kind] - used
    }

    fn longest(&self, tally: &Tally) -> i64 {
        tally.keys().map(|p| self.room(p)).max().unwrap_or(0)
    }

    /// A plan with fewer patterns, or as many and a longer offcut, where one bar of a pair takes a pattern
    /// that is there already.
    fn fewer(&self, tally: &Tally) -> Option<Tally> {
        if tally.len() > MANY {
            return None;
        }
        let list: Vec<&Pattern> = tally.keys().collect();
        for (i, a) in list.iter().enumerate() {
            for b in &list[..i] {
                for (first, second) in [(a, b), (b, a)] {
                    for known in list.iter().filter(|k| k.kind == first.kind && k != &first && k != &second) {
                        let Some(rest) = rest_of(first, second, known, second.kind) else { continue };
                        if self.room(&rest) < 0 {
                            continue;
                        }
                        let better = exchanged(tally, first, second, known, &rest);
                        if self.tidier(&better, tally) {
                            return Some(better);
                        }
                    }
                }
            }
        }
        None
    }

    /// A plan whose longest offcut is longer, by filling another bar as full as can be from the two.
    fn longer(&self, tally: &Tally) -> Option<Tally> {
        if tally.len() > MANY {
            return None;
        }
        let long = tally.keys().max_by_key(|p| self.room(p))?;
        for other in tally.keys().filter(|p| *p != long && self.room(p) > 0) {
            let both = joined(long, other);
            let full = Pattern { kind: other.kind, takes: self.fullest(&both, self.rooms[other.kind]) };
            let Some(rest) = rest_of(long, other, &full, long.kind) else { continue };
            let better = exchanged(tally, long, other, &full, &rest);
            if self.room(&rest) >= 0 && !rest.takes.is_empty() && self.tidier(&better, tally) {
                return Some(better);
            }
        }
        None
    }

    fn tidier(&self, new: &Tally, old: &Tally) -> bool {
        (new.len(), -self.longest(new)) < (old.len(), -self.longest(old))
    }

    /// Pieces that fill a room as full as can be, found by sums that can be reached.
    fn fullest(&self, pieces: &[(usize, u32)], room: i64) -> Vec<(usize, u32)> {
        let mut sums: BTreeMap<i64, Vec<(usize, u32)>> = BTreeMap::from([(0, Vec::new())]);
        for &(row, count) in pieces {
            for (sum, takes) in sums.clone() {
                for n in 1..=count {
                    let with = sum + self.weights[row] * i64::from(n);
                    if with > room || sums.len() > 2000 {
                        break;
                    }
                    let mut takes = takes.clone();
                    takes.push((row, n));
                    sums.entry(with).or_insert(takes);
                }
            }
        }
        sums.pop_last().map(|s| s.1).unwrap_or_default()
    }
}

fn joined(a: &Pattern, b: &Pattern) -> Vec<(usize, u32)> {
    let mut sum: BTreeMap<usize, u32> = BTreeMap::new();
    a.takes.iter().chain(&b.takes).for_each(|&(row, n)| *sum.entry(row).or_default() += n);
    sum.into_iter().collect()
}

/// What is left of two bars once one of them is cut as `known`; nothing if they do not hold it.
fn rest_of(a: &Pattern, b: &Pattern, known: &Pattern, kind: usize) -> Option<Pattern> {
    let mut both: BTreeMap<usize, u32> = joined(a, b).into_iter().collect();
    for &(row, n) in &known.takes {
        let left = both.get_mut(&row)?;
        *left = left.checked_sub(n)?;
    }
    Some(Pattern { kind, takes: both.into_iter().filter(|t| t.1 > 0).collect() })
}

/// The tally with one bar each of two patterns cut as two others; all bars of the pair if they are as many.
fn exchanged(tally: &Tally, a: &Pattern, b: &Pattern, c: &Pattern, d: &Pattern) -> Tally {
    let count = |p: &Pattern| tally.get(p).copied().unwrap_or(0);
    let times = count(a).min(count(b));
    let mut new = tally.clone();
    for gone in [a, b] {
        match new.get_mut(gone) {
            Some(n) if *n > times => *n -= times,
            _ => {
                new.remove(gone);
            }
        }
    }
    for come in [c, d] {
        *new.entry(come.clone()).or_default() += times;
    }
    new
}
