//! All fillings of one bar that nothing can be added to and that are worth more than asked.

use crate::knapsack::Knapsack;
use crestrail_sorting::Order as _;

/// A walk over the fillings; `None` when there are too many.
pub(super) struct Walk<'a> {
    knapsack: &'a Knapsack<'a>,
    order: Vec<usize>,
    density: Vec<f64>,
    taken: Vec<u32>,
    ask: i64,
    most: usize,
    found: Vec<Vec<u32>>,
    /// Steps taken.
    pub(super) steps: u64,
}

/// Steps of a walk for each filling that may be listed: more means that the list is not worth its time.
const STEPS: u64 = 400;

impl<'a> Walk<'a> {
    pub(super) fn new(knapsack: &'a Knapsack<'a>, ask: i64, most: usize) -> Self {
        let mut order: Vec<usize> = (0..knapsack.weights.len()).filter(|&i| knapsack.limits[i] > 0).collect();
        let dense = |i: usize| knapsack.values[i] as f64 / knapsack.weights[i] as f64;
        order.order_by(|&a, &b| dense(b).total_cmp(&dense(a)).then(a.cmp(&b)));
        let density = order.iter().map(|&i| dense(i)).collect();
        let taken = vec![0; knapsack.weights.len()];
        Self { knapsack, order, density, taken, ask, most, found: Vec::new(), steps: 0 }
    }

    /// The fillings of a bar with `room`.
    pub(super) fn list(mut self, room: i64) -> (Option<Vec<Vec<u32>>>, u64) {
        let whole = self.go(0, room, 0);
        (whole.then_some(self.found), self.steps)
    }

    fn go(&mut self, k: usize, room: i64, value: i64) -> bool {
        self.steps += 1;
        if self.steps > STEPS * self.most as u64 || self.found.len() > self.most {
            return false;
        }
        let more = self.density.get(k).map_or(0.0, |d| d * room as f64 * (1.0 + 1e-12) + 1.0);
        if value as f64 + more <= self.ask as f64 {
            return true;
        }
        let Some(&item) = self.order.get(k) else {
            if value > self.ask && self.is_full(room) {
                self.found.push(self.taken.clone());
            }
            return true;
        };
        let weight = self.knapsack.weights[item];
        let most = (room / weight).min(i64::from(self.knapsack.limits[item])) as u32;
        for n in (0..=most).rev() {
            self.taken[item] = n;
            let worth = self.knapsack.values[item] * i64::from(n);
            if !self.go(k + 1, room - i64::from(n) * weight, value + worth) {
                return false;
            }
        }
        self.taken[item] = 0;
        true
    }

    fn is_full(&self, room: i64) -> bool {
        self.order
            .iter()
            .all(|&i| self.taken[i] == self.knapsack.limits[i] || self.knapsack.weights[i] > room)
    }
}
