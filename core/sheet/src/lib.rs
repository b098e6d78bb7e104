//! A drawing as data: shapes, lines and text on a sheet; SVG and PDF from it; and how a large drawing is cut up over
//! sheets of paper. This crate knows no chair: what is drawn, and how it looks, is the caller's.

mod colour;
mod extent;
mod font;
mod moved;
pub mod paper;
pub mod pdf;
mod sheet;
pub mod svg;
pub mod tiling;

pub use colour::Colour;
pub use font::{BadFont, Face, Faces};
pub use sheet::{
    Align, Circle, Fill, Group, Item, Path, Rule, Sheet, Stroke, Text, Trace, Unit, Weight, Window,
};
