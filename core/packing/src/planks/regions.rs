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
    stretches: Vec<Vec<u32>>,
    /// Stretches in a millimetre.
    per_mm: f64,
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
        let per_mm = count as f64 / (high - low).max(f64::MIN_POSITIVE);
        let mut regions = Self { list, low, high, rights, stretches: vec![Vec::new(); count], per_mm };
        for i in 0..regions.list.len() {
            let (from, to) = (regions.list[i].low[0], regions.list[i].high[0]);
            for stretch in regions.stretch(from)..=regions.stretch(to) {
                regions.stretches[stretch].push(i as u32);
            }
        }
        regions
    }

    /// The same turned by half a turn: where the fixed piece may not lie from the other, or both turned over.
    pub(super) fn turned_over(&self) -> Self {
        Self::new(self.list.iter().map(Region::turned_over).collect())
    }

    /// The stretch in which a shift along the plank lies.
    fn stretch(&self, at: f64) -> usize {
        (((at - self.low) * self.per_mm) as usize).min(self.stretches.len() - 1)
    }

    /// `y` lifted over what it meets, one region after the other; the fixed piece lies `base` across, the other `at`
    /// along from it. What was left behind before may be met once more. Tells each region that lifts it.
    pub(super) fn lifted(
        &self,
        at: f64,
        base: f64,
        mut y: f64,
        work: &mut u64,
        mut told: impl FnMut(u32),
    ) -> f64 {
        *work += 4;
        if at <= self.low || at >= self.high {
            return y;
        }
        let near = &self.stretches[self.stretch(at)];
        for &region in near {
            let own = &self.list[region as usize];
            if own.is_beside(at, y - base) {
                if let Some(high) = own.above(at, y - base) {
                    y = y.max(high + base);
                    told(region);
                }
                *work += 20;
            }
        }
        *work += 2 * near.len() as u64;
        y
    }

    /// `y` lifted over one region.
    pub(super) fn lifted_over(&self, region: u32, at: f64, base: f64, y: f64) -> f64 {
        let own = &self.list[region as usize];
        let high = if own.is_beside(at, y - base) { own.above(at, y - base) } else { None };
        high.map_or(y, |high| y.max(high + base))
    }
}
