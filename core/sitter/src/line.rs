//! Straight lines from stature to the other measures.

use crate::line_table::{BOTH, Cells, MEN, WOMEN};
use crate::{Measure, Sex, Unmeasured};

/// A regression on stature: measure = intercept + slope · stature, in mm (weight: kg). Source: [`crate::ansur::SOURCE`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// The measure at no stature, mm or kg.
    pub intercept: f64,
    /// What the measure grows by with each mm of stature.
    pub slope: f64,
    /// Standard deviation of people of one stature round the line, mm or kg.
    pub residual_sd: f64,
    /// Share of the variance that stature explains, 0 to 1: 0.002 for the width of the hips of women and men together, of which
    /// stature tells nothing.
    pub r2: f64,
}

impl Line {
    fn of([intercept, slope, residual_sd, r2]: Cells) -> Self {
        Self {
            intercept: f64::from(intercept) / 1e3,
            slope: f64::from(slope) / 1e6,
            residual_sd: f64::from(residual_sd) / 1e3,
            r2: f64::from(r2) / 1e4,
        }
    }

    /// The measure on the line at this stature, mm.
    pub fn at(self, stature_mm: f64) -> f64 {
        self.intercept + self.slope * stature_mm
    }
}

/// The line of a measure for one sex, or for women and men weighed equally. Stature itself has none.
pub fn line(measure: Measure, sex: Option<Sex>) -> Result<Line, Unmeasured> {
    let rows = match sex {
        Some(Sex::Female) => &WOMEN,
        Some(Sex::Male) => &MEN,
        None => &BOTH,
    };
    // The rows leave out stature, the first measure.
    let row = (measure as usize).checked_sub(1).ok_or(Unmeasured::NoLine(measure))?;
    Ok(Line::of(rows[row]))
}
