//! Species, trade sizes and board measure. This crate knows no chair.

pub mod board_measure;
pub mod density;

mod mark;
mod species;
mod species_table;
mod thickness;

pub use mark::Mark;
pub use species::{Kind, Movement, Species, Strength, all, species};
pub use thickness::{ThicknessSystem, TradeThickness, next_thickness};
