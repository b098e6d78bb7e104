//! Which of many flat faces overlap another, without looking at all of them.
//!
//! Each of the four axes of [`Bounds`] is cut into stretches. For each stretch two sets, a bit a face, tell who begins in it or
//! before, and who ends in it or later. Those that overlap a face begin no later than it ends and end no
//! sooner than it begins, on every axis: the common part of eight sets, in which hardly another is left.

use super::flat::Bounds;
use crate::math::{max, min};

/// Stretches of an axis.
const STRETCHES: usize = 64;

/// Faces by what they span.
#[derive(Clone, Debug)]
pub(super) struct Near {
    all: Vec<Bounds>,
    axes: [Axis; 4],
}

#[derive(Clone, Debug)]
struct Axis {
    low: f64,
    /// Stretches in a millimetre.
    per_mm: f64,
    /// Words in a set.
    words: usize,
    /// For each stretch, who begins in it or before.
    begun: Vec<u64>,
    /// For each stretch, who ends in it or later.
    lasting: Vec<u64>,
}

impl Near {
    pub(super) fn of(all: Vec<Bounds>) -> Self {
        let axes = [0, 1, 2, 3].map(|axis| Axis::of(all.iter().map(|b| (b.low[axis], b.high[axis]))));
        Self { all, axes }
    }

    /// The indices of those that overlap `bounds`, in order.
    pub(super) fn to<'a>(&'a self, bounds: &'a Bounds) -> impl DoubleEndedIterator<Item = usize> + 'a {
        let mut found = Vec::new();
        self.each(bounds, self.all.len(), |index| found.push(index));
        found.into_iter()
    }

    /// Shows the indices below `end` of those that overlap `bounds`, in order.
    pub(super) fn each(&self, bounds: &Bounds, end: usize, mut show: impl FnMut(usize)) {
        let sets = [0, 1, 2, 3].map(|axis| self.axes[axis].across(bounds.low[axis], bounds.high[axis]));
        for at in 0..end.div_ceil(64) {
            let mut word = sets.iter().fold(u64::MAX, |all, [begun, lasting]| all & begun[at] & lasting[at]);
            while word != 0 {
                let index = 64 * at + word.trailing_zeros() as usize;
                if index >= end {
                    return;
                }
                word &= word - 1;
                if self.all[index].overlap(bounds) {
                    show(index);
                }
            }
        }
    }
}

impl Axis {
    fn of(spans: impl ExactSizeIterator<Item = (f64, f64)> + Clone) -> Self {
        let nothing = (f64::INFINITY, f64::NEG_INFINITY);
        let (low, high) = spans.clone().fold(nothing, |(low, high), (l, h)| (min(low, l), max(high, h)));
        let words = spans.len().div_ceil(64);
        let empty = vec![0; STRETCHES * words];
        let per_mm = STRETCHES as f64 / max(high - low, 1.0);
        let mut axis = Self { low, per_mm, words, begun: empty.clone(), lasting: empty };
        for (index, (low, high)) in spans.enumerate() {
            let (word, bit) = (index / 64, 1 << (index % 64));
            let (from, to) = (axis.stretch(low), axis.stretch(high));
            axis.begun[from * words + word] |= bit;
            axis.lasting[to * words + word] |= bit;
        }
        for at in words..STRETCHES * words {
            axis.begun[at] |= axis.begun[at - words];
        }
        for at in (words..STRETCHES * words).rev() {
            axis.lasting[at - words] |= axis.lasting[at];
        }
        axis
    }

    fn stretch(&self, at: f64) -> usize {
        (((at - self.low) * self.per_mm) as usize).min(STRETCHES - 1)
    }

    /// Who begins before a span ends, and who ends after it begins.
    fn across(&self, low: f64, high: f64) -> [&[u64]; 2] {
        let set = |at: f64| self.stretch(at) * self.words..(self.stretch(at) + 1) * self.words;
        [&self.begun[set(high)], &self.lasting[set(low)]]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Point;

    /// Boxes strewn over a sheet, some of them long, some without width.
    fn strewn(count: usize) -> Vec<Bounds> {
        let mut seed = 7_u32;
        let mut next = |most: f64| {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            f64::from(seed >> 8) / f64::from(1 << 24) * most
        };
        let mut one = || {
            let (corner, size) = ((next(900.0), next(900.0)), (next(80.0), next(300.0)));
            Bounds::of(&[corner.into(), Point::new(corner.0 + size.0, corner.1 + size.1)])
        };
        (0..count).map(|_| one()).collect()
    }

    #[test]
    fn none_is_missed_and_none_is_added() {
        for count in [0, 1, 63, 64, 200] {
            let all = strewn(count);
            let near = Near::of(all.clone());
            for bounds in strewn(50).iter().chain(&all) {
                let slow: Vec<usize> = (0..count).filter(|&i| all[i].overlap(bounds)).collect();
                assert_eq!(near.to(bounds).collect::<Vec<_>>(), slow);
            }
        }
    }
}
