//! The order of assembly: which part goes into which, from where and how far, proven by moving the
//! finished solids.
//!
//! The chair is taken apart: parts that no joint holds are lifted off, then the rest is drawn apart
//! along one line into the groups that cannot be parted along it (`split`), and each group again
//! along another line (`apart`). Read backwards that is the order in which it goes together. Whether
//! one solid blocks another is found by sweeping the one along the line (`pieces`); a set that no line
//! takes apart is blocked, and the joints that hold it are named (`blame`).

mod apart;
mod blame;
mod loose;
mod pieces;
mod split;
mod travel;

#[cfg(test)]
mod tests;

use crate::joint::Joint;
use crate::part::{Part, PartId};
use apart::Apart;
use crestrail_geometry::{Solid, Vec3};
use crestrail_sorting::Order as _;
use pieces::Pieces;

/// How a chair goes together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Assembly {
    /// The steps in their order.
    pub steps: Vec<Step>,
    /// What cannot be put together, if anything.
    pub blocked: Option<Blocked>,
}

/// One step: moves that can be made one after the other or all together.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Counted from 1.
    pub number: usize,
    /// What is done.
    pub task: Task,
    /// What is moved. Of two that mirror each other the right one comes first.
    pub moves: Vec<Move>,
}

/// What is done in a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Task {
    /// Parts and sub-frames are joined.
    Join,
    /// Pegs or wedges are driven.
    Peg,
    /// Parts that no joint holds are laid in place.
    Lay,
    /// Cord is woven: it bends, so nothing is proven of its way.
    Weave,
}

/// Parts, or a finished sub-frame, that move into others along a straight line.
#[derive(Clone, Debug, PartialEq)]
pub struct Move {
    /// What moves, with the pegs it already has.
    pub goes_in: Vec<PartId>,
    /// What it goes into, and all else that is already joined to that.
    pub into: Vec<PartId>,
    /// Unit direction of the movement, in chair space.
    pub direction: Vec3,
    /// The last part of the way, in which tenons or pegs are in their holes, mm; zero where only an edge
    /// sits in a groove.
    pub by: f64,
    /// How far the way is free, counted back from home, mm; infinite where nothing ever is in the way.
    pub clear: f64,
    /// Where the way is not free for ever: the direction from which it comes to the beginning of `by`.
    pub before: Option<Vec3>,
    /// 1 for what goes onto the middle of the step, 2 for what goes onto that on the same side, and so on.
    pub rank: usize,
}

/// A set of parts that no straight movement takes apart.
#[derive(Clone, Debug, PartialEq)]
pub struct Blocked {
    /// The parts.
    pub parts: Vec<PartId>,
    /// The joints that hold them together, as guest and host: if it were not for any one of them the
    /// parts would come apart; all joints of the parts where no single one is to blame.
    pub joints: Vec<(PartId, PartId)>,
}

impl Assembly {
    /// The order in which parts with these finished solids go together.
    pub fn of(parts: &[(&Part, &Solid)], joints: &[Joint]) -> Self {
        let pieces = Pieces::new(parts, joints);
        let mut apart = Apart::new(&pieces);
        apart.put_together(&pieces.timber());
        apart.weave();
        apart.finish()
    }
}

impl Step {
    /// All parts that it leaves joined to its first move; of two frames made alike, one.
    pub fn whole(&self) -> Vec<PartId> {
        let mut all: Vec<PartId> = Vec::new();
        for m in &self.moves {
            let ids = || m.goes_in.iter().chain(&m.into);
            if all.is_empty() || ids().any(|id| all.contains(id)) {
                all.extend(ids());
            }
        }
        all
    }
}

impl Move {
    /// The same move on the other side of the chair.
    fn mirrored(&self) -> Self {
        let twins = |ids: &[PartId]| {
            let mut twins: Vec<PartId> = ids.iter().map(|id| id.mirrored()).collect();
            twins.order();
            twins
        };
        Self {
            goes_in: twins(&self.goes_in),
            into: twins(&self.into),
            direction: self.direction.mirrored_x() + Vec3::ZERO,
            before: self.before.map(|before| before.mirrored_x() + Vec3::ZERO),
            ..*self
        }
    }
}
