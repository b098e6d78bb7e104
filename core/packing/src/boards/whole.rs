//! Whole orders board after board, without the program: plans at once, and plans to begin with.

use super::beam::Look;
use super::cutter::Slicer;
use super::fit;
use super::joined;
use super::sets::BySets;
use super::strips::Laid;
use super::table::whole;
use crate::budget::Meter;
use crate::cover::{Cover, Pattern};

/// How boards are filled.
#[derive(Clone, Copy, Debug)]
enum Fill {
    Fit,
    Strips,
    Beam(Look),
}

/// Layouts side by side of the first beam over a whole order, and how many times more each next one has.
const FIRST_WIDTH: usize = 8;
const WIDER: usize = 2;
/// Layouts side by side, times the pieces of the order, at most: more would take much memory.
const WIDEST: u64 = 400_000;
/// Each beam is tried with these: small rests first, or large pieces first.
const SLACKS: [f64; 2] = [0.03, 0.3];

impl Slicer {
    /// Boards of the kind that costs least for the area used, until nothing is left.
    fn filled(&mut self, rest: &Cover, by: Fill, work: &mut u64) -> Vec<Pattern> {
        let mut rest = rest.clone();
        let areas = self.areas.clone();
        let mut patterns = Vec::new();
        while rest.demand.iter().any(|&n| n > 0) {
            let mut best: Option<(f64, Pattern)> = None;
            for kind in (0..rest.price.len()).filter(|&k| rest.high[k] > 0) {
                let full = self.rooms[kind][0] * self.rooms[kind][1];
                let laid = match by {
                    Fill::Fit => self.fit(kind, &rest.demand),
                    Fill::Strips => self.best(kind, &areas, &rest.demand, false, work),
                    Fill::Beam(look) => self.beamed(kind, &areas, &rest.demand, full, look, work),
                };
                let rate = rest.price[kind] as f64 / laid.value.max(1) as f64;
                if !laid.placed.is_empty() && best.as_ref().is_none_or(|b| rate < b.0) {
                    best = Some((rate, self.remember(kind, laid)));
                }
            }
            let Some((_, pattern)) = best else { break };
            let times = pattern.takes.iter().map(|&(row, n)| rest.demand[row] / n).min().unwrap_or(1);
            let times = times.min(rest.high[pattern.kind]).max(1);
            rest.take(&pattern, times);
            patterns.extend(std::iter::repeat_n(pattern, times as usize));
        }
        patterns
    }

    /// A board filled by best fit.
    pub(super) fn fit(&self, kind: usize, limits: &[u32]) -> Laid {
        let order: Vec<usize> = (0..limits.len()).collect();
        fit::fill(vec![whole(self.rooms[kind])], &self.ways, &order, &self.areas, limits, true)
    }

    /// The cheaper plan of strips and of best fit.
    pub(super) fn quick(&mut self, rest: &Cover, meter: &mut Meter<'_>) -> Vec<Pattern> {
        let fitted = self.fitted(rest);
        meter.spend(1000);
        self.stripped(rest, fitted, meter)
    }

    /// The plan of strips, unless the other is cheaper.
    pub(super) fn stripped(
        &mut self,
        rest: &Cover,
        other: Vec<Pattern>,
        meter: &mut Meter<'_>,
    ) -> Vec<Pattern> {
        let mut work = 0;
        let strips = self.filled(rest, Fill::Strips, &mut work);
        meter.spend(work);
        if rest.cost(&other) < rest.cost(&strips) { other } else { strips }
    }

    /// The plan of best fit alone.
    pub(super) fn fitted(&mut self, rest: &Cover) -> Vec<Pattern> {
        self.filled(rest, Fill::Fit, &mut 0)
    }

    /// All pieces on the one board there is, by joining blocks, for half of the work that is left.
    fn joined(&mut self, order: &Cover, meter: &mut Meter<'_>) -> Option<Vec<Pattern>> {
        let kind = (0..order.high.len()).find(|&k| order.high[k] > 0)?;
        let (placed, work) = joined::all(&self.ways, &order.demand, self.rooms[kind], meter.left() / 2);
        meter.spend(work);
        placed.map(|placed| vec![self.remember(kind, Laid { value: 0, placed })])
    }

    /// A plan to begin with: at once, and by beams that become wider as long as there is work for them; for small
    /// orders from one set of boards after the other.
    pub(super) fn begun(&mut self, order: &Cover, enough: i64, meter: &mut Meter<'_>) -> Vec<Pattern> {
        let fitted = self.fitted(order);
        meter.spend(1000);
        if order.cost(&fitted) <= enough {
            return fitted;
        }
        if let Some(BySets { patterns, floor }) = self.by_sets(order, &fitted, meter) {
            self.floor = floor;
            return patterns;
        }
        let mut best = self.stripped(order, fitted, meter);
        // Where one board is all there is, nothing but its layout counts; else the program finds most.
        let single = order.high.iter().sum::<u32>() <= 1;
        let share = if single { meter.left() } else { meter.left() / 10 };
        let pieces: u64 = order.demand.iter().map(|&n| u64::from(n)).sum();
        let guess = pieces * (self.ways.len() * FIRST_WIDTH) as u64;
        let (mut width, mut spent, mut last) = (FIRST_WIDTH, 0, guess);
        while order.cost(&best) > enough
            && width as u64 * pieces <= WIDEST
            && spent + last * WIDER as u64 <= share
        {
            last = 0;
            for slack in SLACKS {
                let found = self.filled(order, Fill::Beam(Look { width, slack }), &mut last);
                if order.cost(&found) < order.cost(&best) {
                    best = found;
                }
            }
            meter.spend(last);
            spent += last;
            if single && width == FIRST_WIDTH && order.cost(&best) > enough {
                best = self.joined(order, meter).unwrap_or(best);
            }
            width *= WIDER;
        }
        best
    }
}
