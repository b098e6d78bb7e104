//! Where one variant finds room among what lies near it.

use super::bed::Placed;
use super::regions::Regions;
use super::variant::TOUCH;
use std::rc::Rc;

/// Looks for places of one variant among what lies near.
pub(super) struct Look {
    near: Vec<Near>,
    /// Where its origin may lie across the plank.
    range: (f64, f64),
    /// The lifts that left no room at the last place without any; mostly they leave none at the next one either.
    chain: Vec<(u32, u32)>,
    /// What finding them took.
    taken: u64,
    work: u64,
}

/// Something that lies near, and where the variant clashes with it.
struct Near {
    placed: Placed,
    regions: Rc<Regions>,
    /// How many of its regions' right ends were passed.
    passed: usize,
}

impl Look {
    /// Among nothing yet.
    pub(super) fn new(range: (f64, f64)) -> Self {
        Self { near: Vec::new(), range, chain: Vec::new(), taken: 0, work: 0 }
    }

    /// Another piece that lies near, and where the variant clashes with it.
    pub(super) fn add(&mut self, placed: Placed, regions: Rc<Regions>) {
        self.near.push(Near { placed, regions, passed: 0 });
    }

    /// Steps done.
    pub(super) fn work(&self) -> u64 {
        self.work
    }

    /// The next place where the variant just clears a part of another: the only ones that no step might find. Asked
    /// for places from left to right.
    pub(super) fn touching(&mut self, x: f64) -> f64 {
        let mut next = f64::INFINITY;
        for Near { placed, regions, passed } in &mut self.near {
            while let Some(right) = regions.rights.get(*passed) {
                let right = placed.x + right;
                if right > x + TOUCH {
                    next = if right < next { right } else { next };
                    break;
                }
                *passed += 1;
            }
        }
        self.work += 8 * self.near.len() as u64;
        next
    }

    /// The lowest free y at x: from below, lifted over one clash after the other until there is none.
    pub(super) fn free(&mut self, x: f64) -> Option<f64> {
        let mut y = self.lifted_as_before(x);
        if y > self.range.1 + TOUCH {
            // Counted like a whole look, so that the same work gives the same plans.
            self.work += self.taken;
            return None;
        }
        let began = self.work;
        self.chain.clear();
        y = self.range.0;
        loop {
            let before = y;
            for (number, Near { placed, regions, .. }) in self.near.iter().enumerate() {
                let chain = &mut self.chain;
                y = regions.lifted(x - placed.x, placed.y, y, &mut self.work, |region| {
                    chain.push((number as u32, region));
                });
                if y > self.range.1 + TOUCH {
                    self.taken = self.work - began;
                    return None;
                }
            }
            if y == before {
                self.taken = self.work - began;
                return Some(y);
            }
        }
    }

    /// How high the lifts of the last look lift it at x.
    fn lifted_as_before(&self, x: f64) -> f64 {
        let mut y = self.range.0;
        for &(near, region) in &self.chain {
            let Near { placed, regions, .. } = &self.near[near as usize];
            y = regions.lifted_over(region, x - placed.x, placed.y, y);
        }
        y
    }

    /// Draws a found place to the left, towards a place that clashes, by halves.
    pub(super) fn drawn(&mut self, clash: f64, found: (f64, f64)) -> (f64, f64) {
        let (mut bad, mut good) = (clash, found);
        for _ in 0..14 {
            let middle = (bad + good.0) / 2.0;
            match self.free(middle) {
                Some(y) => good = (middle, y),
                None => bad = middle,
            }
        }
        good
    }
}
