//! Pieces sawn from planks by their true outlines.
//!
//! Rows of congruent pieces by exact pitch, then other pieces where they find room, each as far left and as
//! low as it can; the order of the pieces is searched. Overlap is decided exactly on convex parts: two
//! parts clash where their shift lies inside the sum of one and the other turned over (the no-fit polygon).

mod alike;
mod bed;
mod bound;
mod look;
mod memory;
mod plan;
mod polygon;
mod problem;
mod profile;
mod regions;
mod rows;
mod search;
mod side;
mod variant;

pub use plan::{Plan, Position, Sawn};
pub use problem::{Plank, Problem, Shape, Trim};

use crate::budget::{Budget, Listener, Meter};
use alike::Alike;
use bound::Bound;

/// The cheapest plan found within the budget, with a proven bound. Of plans that cost the same, the one that
/// leaves the longest end of a plank.
pub fn solve(problem: &Problem, budget: Budget, listener: Listener<'_>) -> Plan {
    match Alike::among(problem) {
        Some(alike) => alike.told_apart(problem, solve_unlike(&alike.problem, budget, listener)),
        None => solve_unlike(problem, budget, listener),
    }
}

/// The same where no two shapes are alike.
fn solve_unlike(problem: &Problem, budget: Budget, listener: Listener<'_>) -> Plan {
    let mut meter = Meter::new(budget, listener);
    let bound = Bound::new(problem);
    let found = search::search(problem, &bound, &mut meter);
    plan::plan(problem, &bound, &found, meter.work())
}

#[cfg(test)]
mod tests;
