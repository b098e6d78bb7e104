//! Body measures of adults: ANSUR II, US soldiers measured 2010–12.

use crate::ansur_table::{MEN, WOMEN};
use crate::normal::ELEVEN;
use crate::{Mark, Measure, Sex, Share, Source, Spread, Unmeasured};

/// Where these figures come from.
pub const SOURCE: Source = Source::new(
    Mark::Computed,
    "ANSUR II, US Army soldiers measured 2010–12 (1986 women, 4082 men), barefoot and lightly clothed; leaner than other people",
);

/// Tenths of a millimetre, tenths of a kilogram.
const PER_UNIT: f64 = 10.0;

/// How a measure is spread over women or men.
pub fn spread(sex: Sex, measure: Measure) -> Spread {
    let rows = match sex {
        Sex::Female => &WOMEN,
        Sex::Male => &MEN,
    };
    Spread::new(ELEVEN, &rows[measure as usize], PER_UNIT)
}

/// Share of women or men whose measure is below `value`, mm (weight: kg).
pub fn share_below(sex: Sex, measure: Measure, value: f64) -> Result<Share, Unmeasured> {
    spread(sex, measure).share_below(value)
}

/// The value, mm (weight: kg), that `percent` of women or men stay below; `percent` is from 1 to 99.
pub fn value_at(sex: Sex, measure: Measure, percent: f64) -> Result<f64, Unmeasured> {
    spread(sex, measure).value_at(percent)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The order of the rows is the order of the measures.
    #[test]
    fn all_stands_in_the_order_of_the_tables() {
        for (row, measure) in Measure::ALL.into_iter().enumerate() {
            assert_eq!(measure as usize, row, "{measure}");
        }
    }
}
