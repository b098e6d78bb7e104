//! The trade: from knob values to the report of a chair. See the crate's modules in the order
//! in which a design passes through them.

pub mod chair;
pub mod joint;
pub mod part;
