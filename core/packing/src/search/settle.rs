//! A node whose counts are whole: a plan that meets its bound, or proof that there is none.

use super::Search;
use super::dive::try_of;
use crate::budget::Meter;
use crate::cover::{Cover, Cutter, Pattern, Relaxed};
use crate::exact;

/// Most patterns listed to close a node: first try, last try.
pub(super) const LISTED: [usize; 2] = [1500, 20_000];
/// Most nodes of the tree over listed patterns: among some of them, among all.
const NODES: [usize; 2] = [150, 2000];
/// Known patterns that are tried together.
const NEAR: usize = 250;
/// Tries to settle whole numbers before they are left open.
pub(super) const MOST_TRIES: u32 = 6;
/// Work of the first try to settle a node; each further one may take four times as much.
const FIRST_SHARE: u64 = 4_000_000;

impl<C: Cutter> Search<'_, C> {
    /// A node whose counts are whole: dives, the known patterns that matter, then the list of all of them.
    /// True if nothing better is left. With each try it may work longer.
    pub(super) fn settle(
        &mut self,
        cover: &Cover,
        relaxed: &Relaxed,
        tries: u32,
        meter: &mut Meter<'_>,
    ) -> bool {
        let mut exactly = cover.clone();
        let whole: Vec<u32> = relaxed.counts.iter().map(|c| (c + 0.5).floor() as u32).collect();
        (exactly.low, exactly.high) = (whole.clone(), whole);
        let share = FIRST_SHARE << (2 * tries.min(8));
        meter.within(share, |m| self.dive(&exactly, None, m));
        if relaxed.bound < self.best.cost {
            meter.within(share, |m| self.restrict(&exactly, relaxed, m));
        }
        let dives = if tries == 0 { 0..0 } else { 4 * (tries as usize - 1)..4 * tries as usize };
        for t in dives {
            if relaxed.bound < self.best.cost {
                meter.within(share, |m| self.dive(&exactly, Some(try_of(t)), m));
            }
        }
        let most = LISTED[usize::from(tries > 1)];
        relaxed.bound >= self.best.cost
            || meter.within(share, |m| self.close(cover, relaxed, most, m))
            || meter.within(share, |m| self.close_by_waste(cover, most, m))
    }

    /// Closes a node whose counts are all fixed: no bar may waste more than all of them together do.
    fn close_by_waste(&mut self, cover: &Cover, most: usize, meter: &mut Meter<'_>) -> bool {
        let fixed = cover.low == cover.high;
        let Some((sizes, rooms)) = self.cutter.sizes().filter(|_| fixed) else { return false };
        let room: i64 = rooms.iter().zip(&cover.high).map(|(r, &n)| r * i64::from(n)).sum();
        let need: i64 = sizes.iter().zip(&cover.demand).map(|(w, &n)| w * i64::from(n)).sum();
        let ask: Vec<i64> = rooms.iter().map(|r| r - (room - need) - 1).collect();
        let sizes = sizes.to_vec();
        self.close_listed(cover, &sizes, &ask, most, meter)
    }

    /// Looks for a better plan among the known patterns that could be part of one.
    pub(super) fn restrict(&mut self, cover: &Cover, relaxed: &Relaxed, meter: &mut Meter<'_>) {
        let target = i128::from(self.dearest(cover)) * i128::from(relaxed.scale) - relaxed.exact;
        let short = |p: &Pattern| {
            let worth: i64 = p.takes.iter().map(|&(row, n)| relaxed.values[row] * i64::from(n)).sum();
            relaxed.ask[p.kind] - worth
        };
        let mut near: Vec<(i64, &Pattern)> = (self.pool.list().iter())
            .filter(|p| cover.high[p.kind] > 0)
            .map(|p| (short(p), p))
            .filter(|(short, _)| i128::from(*short) <= target)
            .collect();
        near.sort();
        let near: Vec<Pattern> = near.into_iter().take(NEAR).map(|(_, p)| p.clone()).collect();
        let limit = self.dearest(cover) + self.step;
        if let Some(patterns) = exact::solve(cover, &near, limit, self.step, NODES[0], meter).better {
            self.offer(patterns, meter);
        }
    }

    /// Closes a node by its full list of useful patterns; true if nothing better is left in it.
    pub(super) fn close(
        &mut self,
        cover: &Cover,
        relaxed: &Relaxed,
        most: usize,
        meter: &mut Meter<'_>,
    ) -> bool {
        let spare = i128::from(self.dearest(cover)) * i128::from(relaxed.scale) - relaxed.exact;
        let Ok(spare) = i64::try_from(spare.max(0)) else { return false };
        let ask: Vec<i64> = relaxed.ask.iter().map(|a| a.saturating_sub(spare).saturating_sub(1)).collect();
        self.close_listed(cover, &relaxed.values, &ask, most, meter)
    }

    fn close_listed(
        &mut self,
        cover: &Cover,
        values: &[i64],
        ask: &[i64],
        most: usize,
        meter: &mut Meter<'_>,
    ) -> bool {
        let Some(all) = self.cutter.all(values, &cover.demand, ask, most, meter) else { return false };
        let limit = self.dearest(cover) + self.step;
        let result = exact::solve(cover, &all, limit, self.step, NODES[1], meter);
        if let Some(patterns) = result.better {
            self.offer(patterns, meter);
        }
        result.complete
    }

    /// What a plan of a node may cost to be of use. Where the counts are fixed all plans cost the same.
    fn dearest(&self, cover: &Cover) -> i64 {
        let cheaper = self.best.cost - self.step;
        let fixed: i64 = cover.price.iter().zip(&cover.low).map(|(p, &n)| p * i64::from(n)).sum();
        if cover.low == cover.high { cheaper.min(fixed) } else { cheaper }
    }
}
