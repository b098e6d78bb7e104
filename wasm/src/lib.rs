//! The core for a browser: plain data in, plain data out.
//!
//! Every call that can fail returns `{ok: …}` or `{error: {where, why, mend?}}`. The binding knows
//! nothing of chairs: it reads a request, calls the core, and writes the answer.
//!
//! It is compiled twice for the page, so that nobody waits for what he may never ask for: with the feature `steps`, what
//! the first view and each step of a knob need, and with `papers`, what is put on paper or taken away as a file. Neither
//! keeps anything between calls, so the two need not know of each other.

mod panic;
mod progress;
mod refused;
mod reply;
mod request;

#[cfg(feature = "steps")]
mod ranges;
#[cfg(feature = "steps")]
mod showroom;
#[cfg(feature = "steps")]
mod step;
#[cfg(feature = "steps")]
mod steps;
#[cfg(feature = "steps")]
mod stopwatch;
#[cfg(feature = "steps")]
mod timing;

#[cfg(feature = "papers")]
mod book;
#[cfg(feature = "papers")]
mod exchange;
#[cfg(feature = "papers")]
mod file;
#[cfg(feature = "papers")]
mod orders;
#[cfg(feature = "papers")]
mod papers;
#[cfg(feature = "papers")]
mod plan;
#[cfg(feature = "papers")]
mod publishing;
#[cfg(feature = "papers")]
mod quotes;
#[cfg(feature = "papers")]
mod scaled;
#[cfg(feature = "papers")]
mod sheets;
#[cfg(feature = "papers")]
mod work;

#[cfg(feature = "papers")]
pub use book::bench_book;
#[cfg(feature = "papers")]
pub use exchange::{exchange, shapes};
#[cfg(feature = "papers")]
pub use papers::*;
#[cfg(feature = "papers")]
pub use publishing::{checked_in, publish_showroom};
#[cfg(feature = "papers")]
pub use quotes::{quote, quote_print, read_attached};
#[cfg(feature = "steps")]
pub use ranges::{Ranges, ranges};
#[cfg(feature = "steps")]
pub use showroom::{look_at, offer_of, read_showroom, write_told_link};
#[cfg(feature = "steps")]
pub use steps::*;
#[cfg(feature = "steps")]
pub use timing::check_times;
#[cfg(feature = "papers")]
pub use work::{work, work_on_paper};

use wasm_bindgen::prelude::wasm_bindgen;

/// Runs once, when the module is loaded.
#[wasm_bindgen(start)]
pub fn start() {
    panic::install();
}
