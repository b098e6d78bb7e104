//! Frames that have no answer.

use core::fmt;

/// Why a frame or its loads have no answer, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trouble {
    /// The value at fault, such as `members[3].iz`, or the node that nothing holds, such as `nodes[2]`.
    pub place: String,
    /// A plain sentence.
    pub why: String,
}

impl Trouble {
    pub(crate) fn new(place: impl Into<String>, why: impl Into<String>) -> Self {
        Self { place: place.into(), why: why.into() }
    }
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.place, self.why)
    }
}

impl core::error::Error for Trouble {}

/// A node's movement in words: the first three are along an axis, the others about one.
pub(crate) fn movement(direction: usize) -> &'static str {
    ["move along x", "move along y", "move along z", "turn about x", "turn about y", "turn about z"]
        [direction % 6]
}
