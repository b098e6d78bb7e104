//! How a published value came into this crate.

use serde::Serialize;

/// How far a value may be relied on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Mark {
    /// Read in the named source or in a reprint of its table.
    Read,
    /// Recalled from the named source, not checked against it.
    Memory,
    /// Worked out from values of the named source.
    Computed,
    /// Custom of the trade, without a source.
    CommonPractice,
}
