//! Valuable layouts of strips: the board is ripped into strips (or cut across into lengths), each strip is
//! filled by a bounded knapsack; a piece less than half as high as its strip may be stacked.

use super::layout::{Area, Placed};
use super::problem::Size;
use crate::knapsack::Knapsack;
use crestrail_sorting::Order as _;

/// Steps of the filling of one strip: more hardly ever fills it better.
const STEPS: u64 = 1500;

/// One way of laying a piece.
#[derive(Clone, Copy, Debug)]
pub(super) struct Way {
    pub(super) row: usize,
    pub(super) size: Size,
}

/// Strips of other heights tried at each place.
pub(super) const WIDTH: usize = 2;

/// What is laid, and what it is worth.
#[derive(Clone, Debug, Default)]
pub(super) struct Laid {
    pub(super) value: i64,
    pub(super) placed: Vec<Placed>,
}

/// A maker of layouts for given values.
pub(super) struct Strips<'a> {
    pub(super) ways: &'a [Way],
    pub(super) values: &'a [i64],
    pub(super) work: u64,
}

impl Strips<'_> {
    /// The most valuable layout found for an area, strips along `axis` (0: ripped first).
    pub(super) fn best(&mut self, area: Area, limits: &[u32], axis: usize, width: usize) -> Laid {
        let ways: Vec<&Way> = self.useful(area, limits);
        let across = 1 - axis;
        let mut heights: Vec<i64> = ways.iter().map(|w| w.size[across]).collect();
        heights.sort_unstable();
        heights.dedup();
        let mut strips: Vec<(f64, i64, Laid)> = Vec::new();
        for height in heights {
            let mut strip = area;
            strip.size[across] = height;
            let laid = self.strip(strip, limits, axis);
            if laid.value > 0 {
                strips.push((laid.value as f64 / height as f64, height, laid));
            }
        }
        strips.order_by(|a, b| b.0.total_cmp(&a.0).then(b.1.cmp(&a.1)));
        strips.truncate(width);
        let mut best = Laid::default();
        for (place, (_, height, laid)) in strips.into_iter().enumerate() {
            let mut rest = area;
            rest.at[across] += height;
            rest.size[across] -= height;
            let mut left = limits.to_vec();
            laid.placed.iter().for_each(|p| left[p.row] -= 1);
            let more = self.best(rest, &left, axis, if place == 0 { width } else { 1 });
            if laid.value + more.value > best.value {
                best = Laid { value: laid.value + more.value, placed: [laid.placed, more.placed].concat() };
            }
        }
        best
    }

    fn useful(&self, area: Area, limits: &[u32]) -> Vec<&Way> {
        let fits = |w: &&Way| w.size[0] <= area.size[0] && w.size[1] <= area.size[1];
        self.ways.iter().filter(fits).filter(|w| limits[w.row] > 0 && self.values[w.row] > 0).collect()
    }

    /// One strip filled by a knapsack over pieces and stacks of pieces; a piece that may be turned is laid
    /// only the way that takes less length here, so that its limit holds.
    fn strip(&mut self, strip: Area, limits: &[u32], axis: usize) -> Laid {
        let across = 1 - axis;
        let mut items: Vec<(Way, u32)> = Vec::new();
        for &way in self.useful(strip, limits) {
            let stack =
                u32::try_from(strip.size[across] / way.size[across]).unwrap_or(1).min(limits[way.row]);
            let rate = |w: &Way, n: u32| w.size[axis] as f64 / f64::from(n);
            match items.iter_mut().find(|i| i.0.row == way.row) {
                Some(known) if rate(&way, stack) < rate(&known.0, known.1) => *known = (way, stack),
                Some(_) => (),
                None => items.push((way, stack)),
            }
        }
        let weights: Vec<i64> = items.iter().map(|i| i.0.size[axis]).collect();
        let values: Vec<i64> = items.iter().map(|i| self.values[i.0.row] * i64::from(i.1)).collect();
        let most: Vec<u32> = items.iter().map(|i| limits[i.0.row] / i.1).collect();
        let knapsack = Knapsack { weights: &weights, limits: &most, values: &values };
        let (taken, work) = knapsack.near(strip.size[axis], STEPS);
        self.work += 2 * work + 40 * items.len() as u64 + 300;
        let Some(taken) = taken else { return Laid::default() };
        self.laid(strip, axis, &items, &taken, limits)
    }

    fn laid(&self, strip: Area, axis: usize, items: &[(Way, u32)], taken: &[u32], limits: &[u32]) -> Laid {
        let mut left = limits.to_vec();
        let mut laid = Laid::default();
        let mut at = strip.at;
        let mut put = |way: &Way, n: u32, at: &mut Size, left: &mut [u32]| {
            let mut own = *at;
            for _ in 0..n.min(left[way.row]) {
                laid.placed.push(Placed { row: way.row, at: own, size: way.size });
                laid.value += self.values[way.row];
                own[1 - axis] += way.size[1 - axis];
                left[way.row] -= 1;
            }
            at[axis] += way.size[axis];
        };
        for (item, &n) in items.iter().zip(taken) {
            (0..n).for_each(|_| put(&item.0, item.1, &mut at, &mut left));
        }
        // A last stack that is not full may still find room.
        for item in items {
            while left[item.0.row] > 0 && at[axis] + item.0.size[axis] <= strip.at[axis] + strip.size[axis] {
                put(&item.0, item.1, &mut at, &mut left);
            }
        }
        laid
    }

    /// The better of strips along and across, with some choice of strips.
    pub(super) fn both(&mut self, area: Area, limits: &[u32]) -> Laid {
        let (along, across) = (self.best(area, limits, 0, WIDTH), self.best(area, limits, 1, WIDTH));
        if along.value >= across.value { along } else { across }
    }
}
