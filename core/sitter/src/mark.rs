//! How a figure came into this crate.

/// How far a figure may be relied on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// Read in the named source or in a reprint of its table.
    Read,
    /// Recalled from the named source, not checked against it.
    Memory,
    /// Worked out from figures of the named source.
    Computed,
    /// Custom of the trade, without a source.
    CommonPractice,
}

/// Who says so, and how it was learnt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Source {
    /// The source in words.
    pub text: &'static str,
    /// How its figure came here.
    pub mark: Mark,
}

impl Source {
    pub(crate) const fn new(mark: Mark, text: &'static str) -> Self {
        Self { text, mark }
    }
}
