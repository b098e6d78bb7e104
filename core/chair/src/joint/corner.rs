//! What was done where two tenons meet inside one part.

use crate::part::PartId;
use crestrail_phrases::word;

/// How two tenons share their host.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// Both end in a mitre.
    Mitred,
    /// Each loses half of its height where it passes the other.
    Halved,
    /// One stands above the other.
    Staggered,
    /// One goes on, the other ends before it.
    Stopped,
    /// They come from opposite sides and end before each other.
    EndToEnd,
}

impl Way {
    /// What a maker calls it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Mitred => word("mitred"),
            Self::Halved => word("halved past each other"),
            Self::Staggered => word("staggered in height"),
            Self::Stopped => word("one stopped before the other"),
            Self::EndToEnd => word("end to end"),
        }
    }
}

/// How a tenon passes another one.
#[derive(Clone, Debug, PartialEq)]
pub struct Corner {
    /// The guest whose tenon it meets.
    pub with: PartId,
    /// The way that was taken.
    pub way: Way,
    /// Why this one, as a sentence.
    pub why: String,
    /// Every way that was weighed: the glue area of all tenons that meet, both cheeks of each, mm², or why it has
    /// no room.
    pub weighed: Vec<(Way, Result<f64, String>)>,
}
