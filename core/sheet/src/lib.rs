//! A drawing as data: shapes, lines and text on a sheet; SVG and PDF from it; how a large drawing is cut up over
//! sheets of paper, and how text and tables are set on pages. This crate knows no chair: what is drawn, and how it looks, is the caller's.

mod colour;
mod extent;
mod font;
mod moved;
pub mod paper;
pub mod pdf;
mod scaled;
pub mod setting;
mod sheet;
pub mod svg;
pub mod tiling;

pub use colour::Colour;
pub use font::{BadFont, Face, Faces};
pub use sheet::{
    Align, Circle, Fill, Group, Item, Path, Rule, Sheet, Stroke, Text, Trace, Unit, Weight, Window,
};
