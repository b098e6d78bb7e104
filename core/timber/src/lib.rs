//! Species, trade sizes and board measure. This crate knows no chair.

mod species;

pub use species::Species;
