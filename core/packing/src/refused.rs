//! Why a problem was refused.

use std::fmt;

/// A problem that has no meaning: where the trouble is, and what it is in plain words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refused {
    /// Path of the value, such as `pieces[3].length`.
    pub place: String,
    /// What is wrong, as a person would say it.
    pub why: String,
}

impl Refused {
    /// A refusal of the value at `place`.
    pub fn new(place: impl Into<String>, why: impl Into<String>) -> Self {
        Self { place: place.into(), why: why.into() }
    }
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.place, self.why)
    }
}

impl std::error::Error for Refused {}
