//! Numbers for the objects of a file.

use pdf_writer::Ref;

/// Hands out the numbers in turn.
pub(super) struct Ids(Ref);

impl Ids {
    pub(super) fn new() -> Self {
        Self(Ref::new(1))
    }

    pub(super) fn next(&mut self) -> Ref {
        self.0.bump()
    }

    pub(super) fn several(&mut self, count: usize) -> Vec<Ref> {
        (0..count).map(|_| self.next()).collect()
    }
}
