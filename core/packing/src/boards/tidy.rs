//! The same pieces on the same board, laid so that most of what is left is worth keeping.
//!
//! The cost of a plan does not tell such layouts apart, a maker's rack does: a long rest goes back to it.

use super::cutter::Slicer;
use super::layout::{Area, Placed, parting, pushed};
use super::strips::{Laid, Strips, WIDTH};
use super::table::whole;

impl Slicer {
    /// The layout, or another of its pieces on a board of this kind that leaves more that is worth keeping.
    pub(super) fn tidied(&self, kind: usize, placed: Vec<Placed>) -> Vec<Placed> {
        let area = whole(self.rooms[kind]);
        let mut limits = vec![0; self.areas.len()];
        placed.iter().for_each(|p| limits[p.row] += 1);
        let mut best = (self.left(area, &placed), placed);
        for laid in self.others(kind, &limits) {
            let whole = laid.placed.len() == best.1.len();
            let left = self.left(area, &laid.placed);
            if whole && left > best.0 {
                best = (left, laid.placed);
            }
        }
        best.1
    }

    /// Strips along and across, and best fit.
    fn others(&self, kind: usize, limits: &[u32]) -> [Laid; 3] {
        let area = whole(self.rooms[kind]);
        let strips =
            |axis| Strips { ways: &self.ways, values: &self.areas, work: 0 }.best(area, limits, axis, WIDTH);
        [strips(0), strips(1), self.fit(kind, limits)]
    }

    /// What is left that is worth keeping, and the largest part that is left.
    fn left(&self, area: Area, placed: &[Placed]) -> (i64, i64) {
        let pushed = pushed(area.at, placed);
        let parting = parting(area, pushed.as_deref().unwrap_or(placed), self.worth);
        parting.map_or((0, 0), |parting| parting.left(self.worth))
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Axis, Board, Piece, Problem, Trim, solve};
    use crate::Budget;
    use std::ops::ControlFlow;

    /// Three short pieces on a long board: they lie side by side at one end, the first cut frees the rest.
    #[test]
    fn a_long_rest_stays_whole() {
        let boards = [Board { length: 2000.0, width: 150.0, price: 10, count: None }];
        let piece = |length: f64, width: f64| Piece { length, width, count: 1, grain: true };
        let pieces = [piece(400.0, 45.0), piece(380.0, 40.0), piece(300.0, 40.0)];
        let problem = Problem::new(&boards, &pieces, 3.0, Trim { end: 0.0, edge: 0.0 }).unwrap();
        let plan = solve(&problem, Budget::of(1_000_000), &mut |_| ControlFlow::Continue(()));
        let sawn = &plan.boards[0];
        assert!(sawn.pieces.iter().all(|p| p.x + p.length <= 400.0), "{sawn:?}");
        let first = sawn.cuts[0];
        assert_eq!(
            (first.axis, first.at, first.from, first.to),
            (Axis::Across, 400.0, 0.0, 150.0),
            "{sawn:?}"
        );
    }
}
