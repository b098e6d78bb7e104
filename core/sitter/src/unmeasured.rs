//! Questions that the figures cannot answer.

use crate::{Measure, Rule};
use core::fmt;

/// Why there is no answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Unmeasured {
    /// A size that is no number, or endless.
    NotANumber,
    /// A percentile outside 1 to 99.
    Percentile(f64),
    /// A stature outside the figures, mm: what was asked, the least and the greatest.
    Stature(f64, f64, f64),
    /// A weight outside the figures, kg: what was asked, the least and the greatest.
    Weight(f64, f64, f64),
    /// A size mark that no school chair has.
    SchoolMark(u8),
    /// A year of age that the survey of children does not give.
    Age(u8),
    /// A measure that is not worked out from stature.
    NoLine(Measure),
    /// A rule for which there are no figures of children.
    NotForChildren(Rule),
}

impl fmt::Display for Unmeasured {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotANumber => f.write_str("the size is not a number"),
            Self::Percentile(p) => write!(f, "percentile {p} is outside 1 to 99"),
            Self::Stature(mm, least, most) => {
                write!(f, "a stature of {mm} mm is outside {least:.0} to {most:.0} mm")
            }
            Self::Weight(kg, least, most) => {
                write!(f, "a weight of {kg} kg is outside {least:.0} to {most:.0} kg")
            }
            Self::SchoolMark(mark) => write!(f, "there is no school size mark {mark}: they are 0 to 7"),
            Self::Age(age) => {
                write!(f, "there are no figures of children of {age} years: they are of 3 to 17")
            }
            Self::NoLine(measure) => write!(f, "{measure} is not worked out from the height of the body"),
            Self::NotForChildren(rule) => write!(f, "there are no figures of children for the {rule}"),
        }
    }
}

impl core::error::Error for Unmeasured {}
