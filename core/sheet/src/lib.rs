//! A drawing as data: shapes, lines and text on a sheet, and SVG from it. This crate knows no
//! chair: what is drawn, and how it looks, is the caller's.

mod colour;
mod sheet;
pub mod svg;

pub use colour::Colour;
pub use sheet::{Align, Circle, Fill, Group, Item, Path, Rule, Sheet, Stroke, Text, Trace, Unit, Weight};
