//! Pieces onto bars, boards and planks at least cost, each with a proven bound. This crate knows no wood.
//!
//! - [`bars`]: lengths only, exact;
//! - [`boards`]: rectangles by guillotine cuts, as a table saw makes them;
//! - [`planks`]: true outlines, rows by exact pitch and other pieces in what is left.
//!
//! Every search is *anytime*: it tells its progress, can be stopped, and gives the best so far. A
//! [`Budget`] counts work, never time, so that all machines give the same plan.

mod budget;
mod counts;
mod cover;
mod exact;
mod floor;
mod knapsack;
mod penalty;
mod refused;
mod search;
mod shares;
mod simplex;
mod tally;
mod units;

pub mod bars;
pub mod boards;
pub mod planks;

pub use budget::{Budget, Listener, Progress};
pub use refused::Refused;
pub use units::{DEAREST, LONGEST, MOST};
