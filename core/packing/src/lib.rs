//! Pieces onto bars, boards and planks at least cost, each with a proven bound. This crate knows no wood.
//!
//! - [`bars`]: lengths only, exact.
//!
//! Every search is *anytime*: it tells its progress, can be stopped, and gives the best so far. A
//! [`Budget`] counts work, never time, so that all machines give the same plan.

mod budget;
mod cover;
mod exact;
mod refused;
mod search;
mod simplex;
mod units;

pub mod bars;

pub use budget::{Budget, Listener, Progress};
pub use refused::Refused;
pub use units::{DEAREST, LONGEST, MOST};
