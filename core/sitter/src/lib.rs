//! People's sizes, and what a seat must leave them. This crate knows no chair.
//!
//! Three sources of figures: [`ansur`] (body measures of adults), [`nhanes`] (weight and stature of adults and children) and
//! [`school`] (sizes of school chairs by stature). [`suits`] puts a size of a seat to a [`Sitter`] by a [`Rule`].
//!
//! ```
//! use crestrail_sitter::{Rule, Sitter, Suits, suits};
//!
//! let answer = suits(Rule::SeatHeight, 440.0, Sitter::Adults)?;
//! let Suits::Shares { women, men } = answer.suits else { unreachable!() };
//! assert_eq!((women.to_string(), men.to_string()), ("13 %".into(), "72 %".into()));
//! # Ok::<(), crestrail_sitter::Unmeasured>(())
//! ```

pub mod ansur;
pub mod nhanes;
pub mod school;

mod ansur_table;
mod fit;
mod line;
mod line_table;
mod mark;
mod measure;
mod nhanes_table;
mod normal;
mod prediction;
mod range;
mod rule;
mod share;
mod sitter;
mod spread;
mod unmeasured;

pub use ansur::{share_below, value_at};
pub use fit::{Answer, Suits, suits};
pub use line::{Line, line};
pub use mark::{Mark, Source};
pub use measure::{Measure, Sex};
pub use prediction::{Prediction, predicted, predicted_by_weight};
pub use range::Range;
pub use rule::{Rule, SHOE};
pub use share::Share;
pub use sitter::Sitter;
pub use spread::Spread;
pub use unmeasured::Unmeasured;
