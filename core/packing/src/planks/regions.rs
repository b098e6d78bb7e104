//! All shifts at which two variants clash.

use super::variant::Region;

/// The shifts at which two variants clash, and their range along the plank.
#[derive(Clone, Debug)]
pub(super) struct Regions {
    pub(super) list: Vec<Region>,
    pub(super) low: f64,
    pub(super) high: f64,
    /// The right ends of all regions, from the left.
    pub(super) rights: Vec<f64>,
    /// For each stretch of the range the regions that come to it.
    stretches: Vec<Vec<usize>>,
}

/// Stretches of a range with many regions: a part of a bent leg comes to few of them.
const STRETCHES: usize = 24;
/// So few regions are all looked at.
const FEW: usize = 4;

impl Regions {
    pub(super) fn new(list: Vec<Region>) -> Self {
        let low = list.iter().map(|r| r.low[0]).fold(f64::INFINITY, f64::min);
        let high = list.iter().map(|r| r.high[0]).fold(f64::NEG_INFINITY, f64::max);
        let mut rights: Vec<f64> = list.iter().map(|r| r.high[0]).collect();
        rights.sort_by(f64::total_cmp);
        let count = if list.len() > FEW { STRETCHES } else { 1 };
        let mut regions = Self { list, low, high, rights, stretches: vec![Vec::new(); count] };
        for i in 0..regions.list.len() {
            let (from, to) = (regions.list[i].low[0], regions.list[i].high[0]);
            for stretch in regions.stretch(from)..=regions.stretch(to) {
                regions.stretches[stretch].push(i);
            }
        }
        regions
    }

    /// The stretch in which a shift along the plank lies.
    fn stretch(&self, at: f64) -> usize {
        let count = self.stretches.len();
        let share = (at - self.low) / (self.high - self.low).max(f64::MIN_POSITIVE);
        ((share * count as f64) as usize).min(count - 1)
    }

    /// `y` lifted over what it meets, one region after the other; the fixed piece lies `base` across, the other `at`
    /// along from it. What was left behind before may be met once more.
    pub(super) fn lifted(&self, at: f64, base: f64, mut y: f64, work: &mut u64) -> f64 {
        *work += 4;
        if at <= self.low || at >= self.high {
            return y;
        }
        let near = &self.stretches[self.stretch(at)];
        for &region in near {
            let region = &self.list[region];
            if region.is_beside(at, y - base) {
                y = region.above(at, y - base).map_or(y, |high| y.max(high + base));
                *work += 20;
            }
        }
        *work += 2 * near.len() as u64;
        y
    }
}
