//! The parts of the bench.

pub(crate) mod bars;
pub(crate) mod boards;
pub(crate) mod clock;
pub(crate) mod orders;
pub(crate) mod planks;
pub(crate) mod quick;

use serde_json::Value;
use std::path::PathBuf;

/// One file of open problems.
pub(crate) fn file(name: &str) -> Value {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../tests/data/packing").join(name);
    let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    serde_json::from_str(&text).expect("problems")
}

/// The rows of one file of open problems.
pub(crate) fn data(name: &str) -> Vec<Value> {
    file(name).as_array().cloned().expect("a list of problems")
}

/// The middle of some figures, and the largest.
pub(crate) fn middle_and_worst(mut figures: Vec<f64>) -> (f64, f64) {
    figures.sort_by(f64::total_cmp);
    (figures.get(figures.len() / 2).copied().unwrap_or(0.0), figures.last().copied().unwrap_or(0.0))
}

/// The items of a list within a file.
pub(crate) fn data_of(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}
