//! Species, moisture, movement, trade sizes and board measure. This crate knows no chair.

pub mod at_moisture;
pub mod board_measure;
pub mod density;
pub mod moisture;
pub mod movement;

mod mark;
mod range;
mod species;
mod species_table;
mod thickness;

pub use mark::Mark;
pub use range::OutOfRange;
pub use species::{Kind, Movement, Species, Strength, all, species};
pub use thickness::{ThicknessSystem, TradeThickness, next_thickness};
