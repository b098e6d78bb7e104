//! Finished and rough sizes: two types, so that nobody cuts to the one where the other was meant.

use serde::Serialize;

/// Size of a part as it leaves the bench, its tenons in, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Finished {
    /// Along the grain.
    pub length: f64,
    /// Across the grain: the face.
    pub width: f64,
    /// Across the grain: the edge.
    pub thickness: f64,
}

/// Size to which a part is first sawn, mm. Only the cutting list makes one from a [`Finished`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Rough {
    /// Along the grain.
    pub length: f64,
    /// Across the grain: the face.
    pub width: f64,
    /// Across the grain: the edge; the trade thickness is at least this.
    pub thickness: f64,
}

/// What a part is first sawn larger, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Allowances {
    /// Along the grain.
    pub length: f64,
    /// Across the face.
    pub width: f64,
    /// Through the thickness.
    pub thickness: f64,
}

impl Rough {
    /// Area of the face, mm².
    pub fn face(&self) -> f64 {
        self.length * self.width
    }
}

/// Rounded to a tenth of a millimetre, the finest that is marked by hand.
pub(crate) fn tenths(mm: f64) -> f64 {
    (mm * 10.0).round() / 10.0
}
