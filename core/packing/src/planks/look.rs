//! Where one variant finds room among what lies near it.

use super::bed::Placed;
use super::regions::Regions;
use super::variant::TOUCH;
use std::rc::Rc;

/// Looks for places of one variant among what lies near.
pub(super) struct Look {
    near: Vec<(Placed, Rc<Regions>)>,
    /// Where its origin may lie across the plank.
    range: (f64, f64),
    work: u64,
}

impl Look {
    /// Among nothing yet.
    pub(super) fn new(range: (f64, f64)) -> Self {
        Self { near: Vec::new(), range, work: 0 }
    }

    /// Another piece that lies near, and where the variant clashes with it.
    pub(super) fn add(&mut self, placed: Placed, regions: Rc<Regions>) {
        self.near.push((placed, regions));
    }

    /// Steps done.
    pub(super) fn work(&self) -> u64 {
        self.work
    }

    /// The next place where the variant just clears a part of another: the only ones that no step might find.
    pub(super) fn touching(&mut self, x: f64) -> f64 {
        let mut next = f64::INFINITY;
        for (placed, regions) in &self.near {
            let after = regions.rights.partition_point(|right| placed.x + right <= x + TOUCH);
            if let Some(right) = regions.rights.get(after) {
                next = next.min(placed.x + right);
            }
        }
        self.work += 8 * self.near.len() as u64;
        next
    }

    /// The lowest free y at x: from below, lifted over one clash after the other until there is none.
    pub(super) fn free(&mut self, x: f64) -> Option<f64> {
        let mut y = self.range.0;
        loop {
            let before = y;
            for (placed, regions) in &self.near {
                y = regions.lifted(x - placed.x, placed.y, y, &mut self.work);
                if y > self.range.1 + TOUCH {
                    return None;
                }
            }
            if y == before {
                return Some(y);
            }
        }
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
