//! The parts of the bench.

pub(crate) mod bars;
pub(crate) mod orders;

use serde_json::Value;
use std::path::PathBuf;

/// The rows of one file of open problems.
pub(crate) fn data(name: &str) -> Vec<Value> {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../tests/data/packing").join(name);
    let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    serde_json::from_str(&text).expect("a list of problems")
}

/// The middle of some figures, and the largest.
pub(crate) fn middle_and_worst(mut figures: Vec<f64>) -> (f64, f64) {
    figures.sort_by(f64::total_cmp);
    (figures.get(figures.len() / 2).copied().unwrap_or(0.0), figures.last().copied().unwrap_or(0.0))
}
