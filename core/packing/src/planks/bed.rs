//! One plank being filled: each piece goes as far to the left as it can, then as low as it can.

use super::look::Look;
use super::regions::Regions;
use super::variant::{TOUCH, Terms, Variant, forbidden};
use std::rc::Rc;

/// A piece on a plank; x and y are its origin, counted from the corner of the bed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Placed {
    pub(super) variant: usize,
    pub(super) x: f64,
    pub(super) y: f64,
}

/// Where pairs of variants may not lie, worked out when first asked.
#[derive(Clone, Debug)]
pub(super) struct Pairs<'a> {
    pub(super) variants: &'a [Variant],
    terms: Vec<Terms>,
    /// For each variant the one that is it turned over, bit for bit.
    over: Vec<Option<usize>>,
    known: Vec<Option<Rc<Regions>>>,
    /// Steps done since last asked.
    pub(super) work: u64,
}

/// Steps to the shorter side of a piece.
const STEPS: f64 = 8.0;

impl<'a> Pairs<'a> {
    pub(super) fn new(variants: &'a [Variant], clear: f64) -> Self {
        let terms = variants.iter().map(|v| Terms::new(v, clear)).collect();
        let is_over = |a: &Variant, b: &Variant| {
            a.shape == b.shape
                && a.turn.rem_euclid(90.0) == 0.0
                && (a.turn - b.turn).rem_euclid(360.0) == 180.0
        };
        let over = variants.iter().map(|a| variants.iter().position(|b| is_over(a, b))).collect();
        Self { variants, terms, over, known: vec![None; variants.len() * variants.len()], work: 0 }
    }

    /// Shifts of `moving` from `fixed` that are forbidden.
    pub(super) fn of(&mut self, fixed: usize, moving: usize) -> Rc<Regions> {
        let place = fixed * self.variants.len() + moving;
        if let Some(known) = &self.known[place] {
            return Rc::clone(known);
        }
        let regions = self
            .turned(fixed, moving)
            .unwrap_or_else(|| Rc::new(forbidden(&self.terms[fixed], &self.terms[moving])));
        self.work += 600 * regions.list.len() as u64;
        self.known[place] = Some(Rc::clone(&regions));
        regions
    }

    /// The same from a pair that is known already: with the other one fixed, or with both turned over, everything is
    /// turned over; with both of these it is as it was.
    fn turned(&self, fixed: usize, moving: usize) -> Option<Rc<Regions>> {
        let known = |fixed: usize, moving: usize| self.known[fixed * self.variants.len() + moving].as_ref();
        let turned = self.over[fixed].zip(self.over[moving]);
        if let Some(same) = turned.and_then(|(f, m)| known(m, f)) {
            return Some(Rc::clone(same));
        }
        let over = known(moving, fixed).or_else(|| turned.and_then(|(f, m)| known(f, m)));
        over.map(|regions| Rc::new(regions.turned_over()))
    }
}

/// A piece that is to be placed: its shape, and the variant it has to take, if any.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Next {
    pub(super) shape: usize,
    pub(super) variant: Option<usize>,
}

/// A plank with what lies on it.
#[derive(Clone, Debug)]
pub(super) struct Bed {
    size: [f64; 2],
    pub(super) placed: Vec<Placed>,
    /// No place for the variant is left of this.
    from: Vec<f64>,
}

impl Bed {
    /// An empty bed.
    pub(super) fn new(size: [f64; 2], variants: usize) -> Self {
        Self { size, placed: Vec::new(), from: vec![f64::NEG_INFINITY; variants] }
    }

    /// Places one piece; false if there is no room that ends left of `most`. Where its variant has none, any other may.
    pub(super) fn place(&mut self, next: Next, most: f64, pairs: &mut Pairs<'_>) -> bool {
        let own: Vec<usize> =
            (0..pairs.variants.len()).filter(|&v| pairs.variants[v].shape == next.shape).collect();
        let wanted: Vec<usize> = own.iter().copied().filter(|v| Some(*v) == next.variant).collect();
        let best = self.best(&wanted, f64::INFINITY, pairs).or_else(|| self.best(&own, most, pairs));
        best.iter().for_each(|b| self.placed.push(*b));
        best.is_some()
    }

    /// The variant that ends farthest to the left, left of `most`.
    fn best(&mut self, variants: &[usize], most: f64, pairs: &mut Pairs<'_>) -> Option<Placed> {
        let mut best: Option<(f64, Placed)> = None;
        for &variant in variants {
            let right = pairs.variants[variant].high[0];
            let before = best.map_or(most, |b| b.0) - right;
            let Some((x, y)) = self.leftmost(variant, before, pairs) else { continue };
            if best.is_none_or(|b| x + right < b.0 - TOUCH) {
                best = Some((x + right, Placed { variant, x, y }));
            }
        }
        best.map(|b| b.1)
    }

    /// The leftmost place of a variant that is left of `before`.
    fn leftmost(&mut self, variant: usize, before: f64, pairs: &mut Pairs<'_>) -> Option<(f64, f64)> {
        let own = &pairs.variants[variant];
        let last = (self.size[0] - own.high[0]).min(before);
        let range = (-own.low[1], self.size[1] - own.high[1]);
        // Places are looked for at steps and then drawn together; a finer step finds little more.
        let step = (own.high[0] - own.low[0]).min(own.high[1] - own.low[1]) / STEPS;
        let mut x = (-own.low[0]).max(self.from[variant]);
        if range.0 > range.1 + TOUCH || x > last + TOUCH {
            return None;
        }
        let mut look = Look::new(range);
        for placed in &self.placed {
            let regions = pairs.of(placed.variant, variant);
            if placed.x + regions.high > x && placed.x + regions.low < last + step {
                look.add(*placed, regions);
            }
        }
        let mut clash = None;
        let found = loop {
            if let Some(y) = look.free(x) {
                break Some(clash.map_or((x, y), |c| look.drawn(c, (x, y))));
            }
            clash = Some(x);
            self.from[variant] = x;
            x = look.touching(x).min(x + step);
            if x > last + TOUCH {
                break None;
            }
        };
        pairs.work += look.work() + 4 * self.placed.len() as u64;
        found.iter().for_each(|f| self.from[variant] = f.0);
        found
    }
}
