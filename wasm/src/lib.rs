//! The core for a browser: plain data in, plain data out.
//!
//! Every call that can fail returns `{ok: …}` or `{error: {where, why, mend?}}`. The binding knows
//! nothing of chairs: it reads a request, calls the core, and writes the answer.
//!
//! It is compiled twice for the page, so that nobody waits for what he may never ask for: with the feature `steps`, what
//! the first view and each step of a knob need, and with `papers`, what is put on paper or taken away as a file. Neither
//! keeps anything between calls but the language that it is told to speak (`speak`), so the two need not know of each other.

mod panic;
mod progress;
mod refused;
mod reply;
mod request;
mod speech;

#[cfg(feature = "bench")]
mod bench;
#[cfg(feature = "papers")]
mod papers;
#[cfg(feature = "steps")]
mod steps;

#[cfg(feature = "bench")]
pub use bench::*;
#[cfg(feature = "papers")]
pub use papers::*;
#[cfg(feature = "steps")]
pub use steps::*;

pub use speech::speak;

use wasm_bindgen::prelude::wasm_bindgen;

/// Runs once, when the module is loaded.
#[wasm_bindgen(start)]
pub fn start() {
    panic::install();
}
