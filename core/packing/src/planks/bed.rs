//! One plank being filled: each piece goes as far to the left as it can, then as low as it can.

use super::variant::{Regions, TOUCH, Variant, forbidden};
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
    clear: f64,
    known: Vec<Option<Rc<Regions>>>,
    /// Steps done since last asked.
    pub(super) work: u64,
}

impl<'a> Pairs<'a> {
    pub(super) fn new(variants: &'a [Variant], clear: f64) -> Self {
        Self { variants, clear, known: vec![None; variants.len() * variants.len()], work: 0 }
    }

    /// Shifts of `moving` from `fixed` that are forbidden.
    pub(super) fn of(&mut self, fixed: usize, moving: usize) -> Rc<Regions> {
        let place = fixed * self.variants.len() + moving;
        let known = self.known[place].get_or_insert_with(|| {
            let regions = forbidden(&self.variants[fixed], &self.variants[moving], self.clear);
            self.work += 300 * regions.list.len() as u64;
            Rc::new(regions)
        });
        Rc::clone(known)
    }
}

/// A plank with what lies on it.
#[derive(Clone, Debug)]
pub(super) struct Bed {
    size: [f64; 2],
    step: f64,
    pub(super) placed: Vec<Placed>,
    /// No place for the variant is left of this.
    from: Vec<f64>,
}

impl Bed {
    /// An empty bed; places are looked for at steps and then drawn together.
    pub(super) fn new(size: [f64; 2], step: f64, variants: usize) -> Self {
        Self { size, step, placed: Vec::new(), from: vec![f64::NEG_INFINITY; variants] }
    }

    /// Places one piece of a shape; false if there is no room.
    pub(super) fn place(&mut self, shape: usize, pairs: &mut Pairs<'_>) -> bool {
        let mut best: Option<(f64, Placed)> = None;
        for variant in (0..pairs.variants.len()).filter(|&v| pairs.variants[v].shape == shape) {
            let right = pairs.variants[variant].high[0];
            let before = best.map_or(f64::INFINITY, |b| b.0 - right);
            let Some((x, y)) = self.leftmost(variant, before, pairs) else { continue };
            if best.is_none_or(|b| x + right < b.0 - TOUCH) {
                best = Some((x + right, Placed { variant, x, y }));
            }
        }
        best.iter().for_each(|b| self.placed.push(b.1));
        best.is_some()
    }

    /// The leftmost place of a variant that is left of `before`.
    fn leftmost(&mut self, variant: usize, before: f64, pairs: &mut Pairs<'_>) -> Option<(f64, f64)> {
        let own = &pairs.variants[variant];
        let last = (self.size[0] - own.high[0]).min(before);
        let range = (-own.low[1], self.size[1] - own.high[1]);
        let mut x = (-own.low[0]).max(self.from[variant]);
        if range.0 > range.1 + TOUCH || x > last + TOUCH {
            return None;
        }
        let near: Vec<(Placed, Rc<Regions>)> =
            self.placed.iter().map(|p| (*p, pairs.of(p.variant, variant))).collect();
        let touching = self.touching(&near, x, last);
        let (mut at, mut clash) = (0, None);
        loop {
            if let Some(y) = free(&near, x, range, &mut pairs.work) {
                let found = clash.map_or((x, y), |c| drawn(&near, c, (x, y), range, &mut pairs.work));
                self.from[variant] = found.0;
                return Some(found);
            }
            clash = Some(x);
            self.from[variant] = x;
            while touching.get(at).is_some_and(|t| *t <= x + TOUCH) {
                at += 1;
            }
            x = touching.get(at).map_or(x + self.step, |t| t.min(x + self.step));
            if x > last + TOUCH {
                return None;
            }
        }
    }

    /// Places where the variant just clears a part of another: the only ones that no step might find.
    fn touching(&self, near: &[(Placed, Rc<Regions>)], from: f64, to: f64) -> Vec<f64> {
        let mut list: Vec<f64> = (near.iter())
            .flat_map(|(p, regions)| regions.list.iter().map(move |r| p.x + r.high[0]))
            .filter(|x| *x > from && *x <= to)
            .collect();
        list.sort_by(f64::total_cmp);
        list.dedup_by(|a, b| (*a - *b).abs() < TOUCH);
        list
    }
}

/// The lowest free y at x.
fn free(near: &[(Placed, Rc<Regions>)], x: f64, range: (f64, f64), work: &mut u64) -> Option<f64> {
    let mut taken: Vec<(f64, f64)> = Vec::new();
    for (placed, regions) in near {
        let shift = x - placed.x;
        *work += 6;
        if shift <= regions.low || shift >= regions.high {
            continue;
        }
        for region in &regions.list {
            if let Some((low, high)) = region.slice(0, shift) {
                taken.push((low + placed.y + TOUCH, high + placed.y - TOUCH));
                *work += 40;
            }
        }
        *work += 5 * regions.list.len() as u64;
    }
    taken.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut y = range.0;
    for (low, high) in taken {
        if low > y {
            break;
        }
        y = y.max(high + TOUCH);
    }
    (y <= range.1 + TOUCH).then_some(y)
}

/// Draws a found place to the left, towards a place that clashes, by halves.
fn drawn(
    near: &[(Placed, Rc<Regions>)],
    clash: f64,
    found: (f64, f64),
    range: (f64, f64),
    work: &mut u64,
) -> (f64, f64) {
    let (mut bad, mut good) = (clash, found);
    for _ in 0..14 {
        let middle = (bad + good.0) / 2.0;
        match free(near, middle, range, work) {
            Some(y) => good = (middle, y),
            None => bad = middle,
        }
    }
    good
}
