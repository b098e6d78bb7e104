//! Reading the program's own JSON files: which file it is, and its fields one by one, each with a
//! plain refusal.

mod fields;
mod header;
mod syntax;

pub(crate) use fields::clipped;
pub use fields::{Fields, Limits, is_stray, number, text};
pub use header::{FileKind, open};
pub use syntax::{MAX_BYTES, parse};
