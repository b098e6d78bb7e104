//! The most valuable filling of one bar: bounded knapsack, exact.
//!
//! Branch and bound comes first; it is quick when few pieces go on a bar, whatever the unit of length. If
//! it meets a hard case, dynamic programming over the length takes over.

use crestrail_sorting::Order as _;

/// The knapsack's answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Filled {
    /// The best filling above what was asked, and its value.
    Best(i64, Vec<u32>),
    /// No filling is worth more than asked.
    None,
}

/// Lengths and limits of one bar; values come with each call.
#[derive(Clone, Debug)]
pub(crate) struct Knapsack<'a> {
    pub(crate) weights: &'a [i64],
    pub(crate) limits: &'a [u32],
    pub(crate) values: &'a [i64],
}

struct Branch {
    /// Weight, value and limit of each item, dearest per length first.
    items: Vec<(i64, i64, u32)>,
    density: Vec<f64>,
    lightest: Vec<i64>,
    taken: Vec<u32>,
    best: i64,
    found: Option<Vec<u32>>,
    nodes: u64,
    most: u64,
}

impl Knapsack<'_> {
    /// The best filling of a bar with `room` that is worth more than `ask`, and the work it took.
    pub(crate) fn best(&self, room: i64, ask: i64) -> (Filled, u64) {
        let order = self.order(room);
        let table = self.table_size(&order, room);
        let mut branch = self.branch(&order, ask, table.map_or(u64::MAX, |t| t / 4 + 500));
        if branch.go(0, room, 0) {
            let filled = branch
                .found
                .map_or(Filled::None, |taken| Filled::Best(branch.best, self.spread(&order, &taken)));
            return (filled, branch.nodes * 8);
        }
        let filled = self.by_table(&order, room, ask);
        (filled, branch.nodes * 8 + table.unwrap_or(0))
    }

    /// A good filling found within so many steps, not always the best; nothing if none is worth anything.
    pub(crate) fn near(&self, room: i64, steps: u64) -> (Option<Vec<u32>>, u64) {
        let order = self.order(room);
        let mut branch = self.branch(&order, 0, steps);
        branch.go(0, room, 0);
        (branch.found.map(|taken| self.spread(&order, &taken)), branch.nodes * 8)
    }

    /// Items that fit and are worth something, dearest per length first.
    fn order(&self, room: i64) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.weights.len())
            .filter(|&i| self.limits[i] > 0 && self.values[i] > 0 && self.weights[i] <= room)
            .collect();
        let density = |i: usize| self.values[i] as f64 / self.weights[i] as f64;
        order.order_by(|&a, &b| density(b).total_cmp(&density(a)).then(a.cmp(&b)));
        order
    }

    fn branch(&self, order: &[usize], ask: i64, most: u64) -> Branch {
        let items: Vec<_> =
            order.iter().map(|&i| (self.weights[i], self.values[i], self.limits[i])).collect();
        let mut lightest = vec![i64::MAX; items.len() + 1];
        for k in (0..items.len()).rev() {
            lightest[k] = lightest[k + 1].min(items[k].0);
        }
        let density = items.iter().map(|i| i.1 as f64 / i.0 as f64).collect();
        Branch {
            taken: vec![0; items.len()],
            items,
            density,
            lightest,
            best: ask,
            found: None,
            nodes: 0,
            most,
        }
    }

    fn spread(&self, order: &[usize], taken: &[u32]) -> Vec<u32> {
        let mut all = vec![0; self.weights.len()];
        order.iter().zip(taken).for_each(|(&i, &n)| all[i] = n);
        all
    }

    /// Steps of the table, unless it would take too much memory.
    fn table_size(&self, order: &[usize], room: i64) -> Option<u64> {
        let copies: u64 = order.iter().map(|&i| u64::from(bundles(self.most_of(i, room)).len() as u32)).sum();
        let size = copies.saturating_mul(room.max(0) as u64 + 1);
        (size <= 40_000_000).then_some(size)
    }

    fn most_of(&self, item: usize, room: i64) -> u32 {
        let fit = room / self.weights[item];
        u32::try_from(fit).unwrap_or(u32::MAX).min(self.limits[item])
    }

    /// Dynamic programming over the length, items in bundles of 1, 2, 4 …
    fn by_table(&self, order: &[usize], room: i64, ask: i64) -> Filled {
        let width = room as usize + 1;
        let mut best = vec![0_i64; width];
        let mut steps: Vec<(usize, u32, Vec<bool>)> = Vec::new();
        for &item in order {
            for bundle in bundles(self.most_of(item, room)) {
                let weight = self.weights[item] as usize * bundle as usize;
                let value = self.values[item] * i64::from(bundle);
                let mut took = vec![false; width];
                for at in (weight..width).rev() {
                    let with = best[at - weight] + value;
                    if with > best[at] {
                        (best[at], took[at]) = (with, true);
                    }
                }
                steps.push((item, bundle, took));
            }
        }
        if best[width - 1] <= ask {
            return Filled::None;
        }
        let (mut all, mut at) = (vec![0; self.weights.len()], width - 1);
        for (item, bundle, took) in steps.iter().rev() {
            if took[at] {
                all[*item] += bundle;
                at -= self.weights[*item] as usize * *bundle as usize;
            }
        }
        Filled::Best(best[width - 1], all)
    }
}

/// Bundles that make up every number up to n: 1, 2, 4 … and the rest.
fn bundles(n: u32) -> Vec<u32> {
    let (mut rest, mut size, mut list) = (n, 1, Vec::new());
    while rest > 0 {
        let bundle = size.min(rest);
        list.push(bundle);
        rest -= bundle;
        size *= 2;
    }
    list
}

impl Branch {
    /// Tries items from `k` on; false if it gave up.
    fn go(&mut self, k: usize, room: i64, value: i64) -> bool {
        self.nodes += 1;
        if self.nodes > self.most {
            return false;
        }
        if value > self.best {
            self.best = value;
            self.found = Some(self.taken.clone());
        }
        if k == self.items.len() || room < self.lightest[k] {
            return true;
        }
        let (weight, worth, limit) = self.items[k];
        let most = (room / weight).min(i64::from(limit)) as u32;
        for n in (0..=most).rev() {
            let (left, sum) = (room - i64::from(n) * weight, value + i64::from(n) * worth);
            if !self.can_beat(k + 1, left, sum) {
                // With fewer of the dearer item the outlook is no better.
                break;
            }
            self.taken[k] = n;
            if !self.go(k + 1, left, sum) {
                return false;
            }
        }
        self.taken[k] = 0;
        true
    }

    /// Whether filling the room with the dearest item left, even in part, could beat the best. One whole
    /// part is added so that rounding never hides a better filling.
    fn can_beat(&self, k: usize, room: i64, value: i64) -> bool {
        let more = self.density.get(k).map_or(0.0, |d| d * room as f64 * (1.0 + 1e-12) + 1.0);
        value as f64 + more > self.best as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// All fillings, one by one.
    fn brute(weights: &[i64], limits: &[u32], values: &[i64], room: i64) -> i64 {
        let Some((&w, rest)) = weights.split_first() else { return 0 };
        (0..=limits[0])
            .take_while(|n| i64::from(*n) * w <= room)
            .map(|n| {
                i64::from(n) * values[0] + brute(rest, &limits[1..], &values[1..], room - i64::from(n) * w)
            })
            .max()
            .unwrap_or(0)
    }

    #[test]
    fn both_ways_agree_with_trying_everything() {
        let mut seed = 7_u64;
        let mut next = |n: u64| {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (seed >> 33) % n
        };
        for _ in 0..300 {
            let n = 1 + next(5) as usize;
            let weights: Vec<i64> = (0..n).map(|_| 1 + next(30) as i64).collect();
            let limits: Vec<u32> = (0..n).map(|_| next(4) as u32).collect();
            let values: Vec<i64> = (0..n).map(|_| next(50) as i64).collect();
            let room = next(100) as i64;
            let knapsack = Knapsack { weights: &weights, limits: &limits, values: &values };
            let best = brute(&weights, &limits, &values, room);
            let order = knapsack.order(room);
            for filled in [knapsack.best(room, -1).0, knapsack.by_table(&order, room, -1)] {
                let Filled::Best(value, taken) = filled else { panic!("nothing found") };
                assert_eq!(value, best, "{knapsack:?} in {room}");
                assert_eq!(taken.iter().zip(&values).map(|(&t, v)| i64::from(t) * v).sum::<i64>(), best);
                assert!(taken.iter().zip(&weights).map(|(&t, w)| i64::from(t) * w).sum::<i64>() <= room);
            }
            assert_eq!(knapsack.best(room, best).0, Filled::None);
        }
    }
}
