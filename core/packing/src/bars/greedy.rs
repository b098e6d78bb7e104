//! Quick plans: the longest piece left goes on the bar that it fills best for the money, and so on; or the
//! longest piece left goes on the first bar with room for it, as one does by hand.

use crate::cover::{Cover, Pattern};
use crestrail_sorting::Order as _;

/// Steps of one filling: more hardly ever fills a bar better.
const STEPS: u32 = 300;

struct Fill<'a> {
    weights: &'a [i64],
    order: &'a [usize],
    limits: Vec<u32>,
    taken: Vec<u32>,
    best: Vec<u32>,
    least: i64,
    steps: u32,
}

/// Fills bars of the given rooms until nothing is left or nothing fits; returns the work too.
pub(super) fn plan(weights: &[i64], rooms: &[i64], rest: &Cover) -> (Vec<Pattern>, u64) {
    let mut rest = rest.clone();
    let mut order: Vec<usize> = (0..weights.len()).collect();
    order.order_by_key(|&i| (std::cmp::Reverse(weights[i]), i));
    let (mut patterns, mut work) = (Vec::new(), 0);
    for &row in &order {
        while rest.demand[row] > 0 {
            let Some(pattern) = next(weights, rooms, &rest, &order, row, &mut work) else { break };
            let times = pattern.takes.iter().map(|&(r, n)| rest.demand[r] / n).min().unwrap_or(1);
            let times = times.min(rest.high[pattern.kind]);
            rest.take(&pattern, times);
            patterns.extend(std::iter::repeat_n(pattern, times as usize));
        }
    }
    (patterns, work)
}

/// By hand: the longest pieces first, each on the first bar begun that has room, else on a new one of the kind
/// that costs least for its length; returns the work too.
pub(super) fn by_hand(weights: &[i64], rooms: &[i64], rest: &Cover) -> (Vec<Pattern>, u64) {
    let mut order: Vec<usize> = (0..weights.len()).collect();
    order.order_by_key(|&i| (std::cmp::Reverse(weights[i]), i));
    let mut high = rest.high.clone();
    let (mut begun, mut work): (Vec<(i64, Pattern)>, u64) = (Vec::new(), 0);
    for row in order {
        let mut left = rest.demand[row];
        let put = |bar: &mut (i64, Pattern), left: &mut u32| {
            let n = u32::try_from(bar.0 / weights[row]).unwrap_or(u32::MAX).min(*left);
            if n > 0 {
                bar.1.takes.push((row, n));
                bar.0 -= weights[row] * i64::from(n);
                *left -= n;
            }
        };
        begun.iter_mut().for_each(|bar| put(bar, &mut left));
        while left > 0 {
            let rate = |k: &usize| rest.price[*k] as f64 / rooms[*k] as f64;
            let fit = (0..rooms.len()).filter(|&k| high[k] > 0 && rooms[k] >= weights[row]);
            let Some(kind) = fit.min_by(|a, b| rate(a).total_cmp(&rate(b))) else { break };
            high[kind] -= 1;
            let mut bar = (rooms[kind], Pattern { kind, takes: Vec::new() });
            put(&mut bar, &mut left);
            begun.push(bar);
        }
        work += 4 * begun.len() as u64;
    }
    let patterns = begun.into_iter().map(|(_, mut pattern)| {
        pattern.takes.sort_unstable();
        pattern
    });
    (patterns.collect(), work)
}

/// The bar and its filling that cost least for the length used, or that end the plan for less.
fn next(
    weights: &[i64],
    rooms: &[i64],
    rest: &Cover,
    order: &[usize],
    row: usize,
    work: &mut u64,
) -> Option<Pattern> {
    let left: i64 = rest.demand.iter().zip(weights).map(|(&n, w)| i64::from(n) * w).sum();
    let mut best: Option<(f64, i64, Pattern)> = None;
    for kind in (0..rooms.len()).filter(|&k| rest.high[k] > 0 && rooms[k] >= weights[row]) {
        let (taken, used) = fill(weights, order, &rest.demand, row, rooms[kind], work);
        // A bar that takes all that is left needs no other after it, so that its offcut costs nothing more.
        let share = if used == left { rooms[kind].min(left) } else { used };
        let rate = rest.price[kind] as f64 / share as f64;
        let better = best.as_ref().is_none_or(|(r, u, _)| rate < *r || (rate == *r && used > *u));
        if better {
            let takes = taken.iter().copied().enumerate().filter(|t| t.1 > 0).collect();
            best = Some((rate, used, Pattern { kind, takes }));
        }
    }
    best.map(|b| b.2)
}

/// The fullest filling of a room with one piece of `row` in it, within a few steps, and how much it uses.
fn fill(
    weights: &[i64],
    order: &[usize],
    demand: &[u32],
    row: usize,
    room: i64,
    work: &mut u64,
) -> (Vec<u32>, i64) {
    let mut limits = demand.to_vec();
    limits[row] -= 1;
    let taken = vec![0; weights.len()];
    let room = room - weights[row];
    let mut fill = Fill { weights, order, limits, best: taken.clone(), taken, least: room, steps: 0 };
    fill.go(0, room);
    *work += u64::from(fill.steps) * 8;
    let Fill { mut best, least, .. } = fill;
    best[row] += 1;
    (best, room + weights[row] - least)
}

impl Fill<'_> {
    /// Tries pieces from place `k` of the order on; true when the bar is full or the steps are used up.
    fn go(&mut self, k: usize, room: i64) -> bool {
        self.steps += 1;
        if room < self.least {
            self.least = room;
            self.best = self.taken.clone();
        }
        if room == 0 || self.steps > STEPS {
            return true;
        }
        for at in k..self.order.len() {
            let item = self.order[at];
            let most = (room / self.weights[item]).min(i64::from(self.limits[item])) as u32;
            for n in (1..=most).rev() {
                self.taken[item] = n;
                if self.go(at + 1, room - i64::from(n) * self.weights[item]) {
                    return true;
                }
            }
            self.taken[item] = 0;
        }
        false
    }
}
