//! Weight and stature of people at large: NHANES 2009–12, a survey of the population of the United States.

use crate::nhanes_table::{Groups, STATURE, WEIGHT};
use crate::normal::NINE;
use crate::{Mark, Sex, Source, Spread, Unmeasured};

/// Where these figures come from.
pub const SOURCE: Source = Source::new(
    Mark::Computed,
    "NHANES 2009–12, a survey of the population of the United States; pregnant women left out",
);

/// Years of age of the children.
const AGES: core::ops::RangeInclusive<u8> = 3..=17;
/// Rows of adults before those of children.
const ADULT_ROWS: u8 = 3;

/// Of whom figures are asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    /// 20 years and more.
    Adult(Sex),
    /// Women and men of 20 years and more.
    Adults,
    /// Girls and boys of so many years, 3 to 17.
    Age(u8),
}

impl Group {
    fn row(self) -> Result<u8, Unmeasured> {
        match self {
            Self::Adult(Sex::Female) => Ok(0),
            Self::Adult(Sex::Male) => Ok(1),
            Self::Adults => Ok(2),
            Self::Age(age) if AGES.contains(&age) => Ok(ADULT_ROWS + age - AGES.start()),
            Self::Age(age) => Err(Unmeasured::Age(age)),
        }
    }

    fn spread(self, rows: &'static Groups, per_unit: f64) -> Result<Spread, Unmeasured> {
        Ok(Spread::new(NINE, &rows[usize::from(self.row()?)], per_unit))
    }
}

/// How the weight is spread, kg.
pub fn weight(group: Group) -> Result<Spread, Unmeasured> {
    group.spread(&WEIGHT, 10.0)
}

/// How the stature is spread, mm.
pub fn stature(group: Group) -> Result<Spread, Unmeasured> {
    group.spread(&STATURE, 1.0)
}
