//! The plan: which planks to take and what lies where on each.

use super::bound::Bound;
use super::problem::Problem;
use super::search::Found;
use crestrail_sorting::Order as _;

/// A piece on a plank: its outline turned about its own origin, then moved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Position {
    /// Which shape, by its place in the problem.
    pub shape: usize,
    /// Where its origin comes to lie, mm from the corner of the plank.
    pub x: f64,
    /// The same across.
    pub y: f64,
    /// Turn, degrees, counter-clockwise; the tilt is part of it.
    pub turn: f64,
}

/// Planks of one kind that are sawn alike.
#[derive(Clone, Debug, PartialEq)]
pub struct Sawn {
    /// Which plank, by its place in the problem.
    pub plank: usize,
    /// How many planks are sawn so.
    pub times: u32,
    /// The pieces, from the left.
    pub pieces: Vec<Position>,
    /// How much of the length is left at the right end, mm, the trim not counted.
    pub offcut: f64,
    /// Share of the plank that becomes pieces.
    pub yields: f64,
}

/// What to saw, and a cost that no plan can undercut.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Cost of the planks, minor units.
    pub cost: i64,
    /// No plan that makes as much costs less.
    pub bound: i64,
    /// The planks.
    pub planks: Vec<Sawn>,
    /// How many of each shape the stock did not give.
    pub missing: Vec<u32>,
    /// Work done.
    pub work: u64,
}

pub(super) fn plan(problem: &Problem, bound: &Bound, found: &Found, work: u64) -> Plan {
    let made: Vec<u32> = problem.shapes.iter().zip(&found.missing).map(|(s, m)| s.count - m).collect();
    let planks: Vec<Sawn> = found.beds.iter().map(|bed| sawn(problem, bed)).collect();
    let cost = planks.iter().map(|p| problem.planks[p.plank].price * i64::from(p.times)).sum();
    let bound = bound.least(problem, &made).min(cost);
    Plan { cost, bound, planks, missing: found.missing.clone(), work }
}

fn sawn(problem: &Problem, filled: &super::search::Filled) -> Sawn {
    let plank = &problem.planks[filled.kind];
    let at = |offset: f64, trim: f64| offset + trim + problem.margin;
    let pieces = filled.placed.iter().map(|p| Position {
        shape: problem.variants[p.variant].shape,
        x: at(p.x, problem.trim.end),
        y: at(p.y, problem.trim.edge),
        turn: problem.variants[p.variant].turn,
    });
    let right = |p: &super::bed::Placed| p.x + problem.variants[p.variant].high[0];
    let used = filled.placed.iter().map(right).fold(0.0, f64::max);
    let area: f64 = filled.placed.iter().map(|p| problem.variants[p.variant].area).sum();
    let mut pieces: Vec<Position> = pieces.collect();
    pieces.order_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    Sawn {
        plank: filled.kind,
        times: filled.times,
        pieces,
        offcut: (problem.beds[filled.kind][0] - used - problem.clear).max(0.0),
        yields: area / (plank.length * plank.width),
    }
}
