//! Solids that are carved already.
//!
//! Laths, slats and pegs are made alike, and a knob that is moved leaves most parts as they were. Told in its own frame on a grid
//! (`Body::on_grid`) what is alike is so to the last bit, and carving gives the same solid for the same bodies; so the last ones
//! are kept. Nothing but time depends on it.

use core::cell::RefCell;
use crestrail_geometry::{Body, CarveError, Solid, Vec3, carve};
use std::sync::Arc;

/// A solid with its measures, in the part's own frame.
#[derive(Clone, Debug)]
pub(super) struct Carved {
    pub(super) solid: Arc<Solid>,
    /// mm³.
    pub(super) volume: f64,
    /// mm².
    pub(super) surface: f64,
    /// Centre of mass, mm.
    pub(super) centre: Vec3,
}

/// What a solid was carved from.
#[derive(Debug, PartialEq)]
struct Bodies {
    added: Vec<Body>,
    cut: Vec<Body>,
}

/// Solids kept: those of the largest bench before and after a knob was moved.
const KEPT: usize = 160;

#[derive(Default)]
struct Known {
    /// Questions counted, to tell what was asked for last.
    asked: u64,
    solids: Vec<Kept>,
}

struct Kept {
    print: u64,
    bodies: Bodies,
    carved: Carved,
    asked: u64,
}

thread_local! {
    static KNOWN: RefCell<Known> = RefCell::default();
}

/// The union of the bodies `added` less that of the bodies `cut`.
pub(super) fn carved(added: Vec<Body>, cut: Vec<Body>) -> Result<Carved, CarveError> {
    let bodies = Bodies { added, cut };
    let print = bodies.print();
    KNOWN.with_borrow_mut(|known| match known.recall(print, &bodies) {
        Some(carved) => Ok(carved),
        None => {
            let solid = carve(&bodies.added, &bodies.cut)?;
            let ((volume, centre), surface) = (solid.volume_and_centre(), solid.surface_area());
            let carved = Carved { solid: Arc::new(solid), volume, surface, centre };
            known.keep(print, bodies, carved.clone());
            Ok(carved)
        }
    })
}

impl Known {
    fn recall(&mut self, print: u64, bodies: &Bodies) -> Option<Carved> {
        self.asked += 1;
        let kept = self.solids.iter_mut().find(|kept| kept.print == print && kept.bodies == *bodies)?;
        kept.asked = self.asked;
        Some(kept.carved.clone())
    }

    /// Keeps a solid, in the place of the one that nobody has asked for the longest.
    fn keep(&mut self, print: u64, bodies: Bodies, carved: Carved) {
        let kept = Kept { print, bodies, carved, asked: self.asked };
        let full = self.solids.len() == KEPT;
        match self.solids.iter_mut().min_by_key(|kept| kept.asked).filter(|_| full) {
            Some(oldest) => *oldest = kept,
            None => self.solids.push(kept),
        }
    }
}

impl Bodies {
    /// A number that differs for most bodies that differ.
    fn print(&self) -> u64 {
        let mut print = self.added.len() as u64;
        // Fowler, Noll, Vo: by words instead of bytes.
        let mut take =
            |value: f64| print = (print ^ value.to_bits()).wrapping_mul(0x0100_0000_01b3).rotate_left(23);
        for body in self.added.iter().chain(&self.cut) {
            match body {
                Body::Convex(planes) => planes.iter().for_each(|plane| take(plane.offset)),
                Body::Prism(prism) => {
                    prism.outline.iter().for_each(|point| take(point.x + 3.0 * point.y));
                    take(prism.to);
                }
            }
        }
        print
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crestrail_geometry::Place;

    fn cuboid(length: f64) -> Body {
        Body::cuboid(&Place::HOME, Vec3::ZERO, Vec3::new(length, 20.0, 10.0))
    }

    #[test]
    fn what_is_alike_is_carved_once() {
        let hole = Body::cuboid(&Place::HOME, Vec3::new(5.0, 5.0, -1.0), Vec3::new(9.0, 9.0, 11.0));
        let first = carved(vec![cuboid(100.0)], vec![hole.clone()]).unwrap();
        let other = carved(vec![cuboid(100.0), hole.clone()], Vec::new()).unwrap();
        let again = carved(vec![cuboid(100.0)], vec![hole]).unwrap();
        assert!(Arc::ptr_eq(&first.solid, &again.solid) && !Arc::ptr_eq(&first.solid, &other.solid));
        assert!((first.volume - 19840.0).abs() < 1e-6 && other.volume > first.volume);
    }

    #[test]
    fn the_last_ones_are_kept() {
        let ask = |length: usize| carved(vec![cuboid(length as f64)], Vec::new()).unwrap().solid;
        let first = ask(1);
        for length in 2..=KEPT {
            ask(length);
        }
        assert!(Arc::ptr_eq(&first, &ask(1)));
        let second = ask(2);
        // One more than is kept: the third was not asked for since.
        ask(KEPT + 1);
        assert!(Arc::ptr_eq(&first, &ask(1)) && Arc::ptr_eq(&second, &ask(2)));
        KNOWN.with_borrow(|known| {
            assert_eq!(known.solids.len(), KEPT);
            assert!(known.solids.iter().all(|kept| kept.bodies.added != [cuboid(3.0)]));
        });
    }
}
