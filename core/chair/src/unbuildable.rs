//! Designs that cannot be built.

use core::fmt;

/// The stage at which a design turned out to be impossible.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    /// Lines and planes in space.
    Skeleton,
    /// The timber of each part.
    Parts,
    /// Mortises, tenons and pegs.
    Joints,
    /// The finished bodies.
    Solids,
}

/// Why a design cannot be built, and which knobs clash.
#[derive(Clone, Debug, PartialEq)]
pub struct Unbuildable {
    /// Where it was found.
    pub stage: Stage,
    /// Names of the knobs that clash, the likeliest remedy first.
    pub knobs: Vec<&'static str>,
    /// A plain sentence with the figures.
    pub why: String,
}

impl Unbuildable {
    /// A clash of `knobs` found at `stage`.
    pub fn new(stage: Stage, knobs: &[&'static str], why: impl Into<String>) -> Self {
        Self { stage, knobs: knobs.to_vec(), why: why.into() }
    }
}

impl fmt::Display for Unbuildable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.why)
    }
}

impl core::error::Error for Unbuildable {}
