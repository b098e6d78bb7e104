//! For whom a seat is meant.

use crate::{Measure, Sex, Unmeasured, ansur, school};

/// For whom a seat is meant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Sitter {
    /// Anybody grown up: the answer is a share of women and of men.
    Adults,
    /// One grown-up person.
    Stature {
        /// Height of the body, mm, 1400 to 2050.
        mm: f64,
        /// Whose figures to use; without it those of women and men weighed equally.
        sex: Option<Sex>,
        /// Weight, kg, 40 to 160; it tells the width of the hips and the height of the thighs.
        weight_kg: Option<f64>,
    },
    /// One child.
    Child {
        /// Height of the body, mm, 1050 to 1800.
        stature_mm: f64,
    },
    /// A size of school chair.
    School {
        /// Its size mark, 0 to 7.
        mark: u8,
    },
}

/// Statures for which the lines of adults are drawn, mm. Our choice, no source: about 3.5 standard deviations below the mean of the
/// women (1628 − 3.5 · 64) and 4 above that of the men (1756 + 4 · 69), as far as anybody of a few thousand is to be expected.
pub(crate) const STATURES: (f64, f64) = (1400.0, 2050.0);
/// Weights for which the regressions of adults are used, kg. Our choice, no source: about what 98 % of the population weigh
/// (NHANES: 1 % of women below 44, 1 % of men above 154).
pub(crate) const WEIGHTS: (f64, f64) = (40.0, 160.0);

impl Sitter {
    /// Whether there is such a sitter.
    pub fn check(self) -> Result<(), Unmeasured> {
        match self {
            Self::Adults => Ok(()),
            Self::Stature { mm, weight_kg, .. } => {
                check_stature(mm)?;
                weight_kg.map_or(Ok(()), check_weight)
            }
            Self::Child { stature_mm } => school::seat_for(stature_mm).map(|_| ()),
            Self::School { mark } => school::size(mark).map(|_| ()),
        }
    }
}

pub(crate) fn check_stature(mm: f64) -> Result<(), Unmeasured> {
    let (least, most) = STATURES;
    if (least..=most).contains(&mm) { Ok(()) } else { Err(Unmeasured::Stature(mm, least, most)) }
}

pub(crate) fn check_weight(kg: f64) -> Result<(), Unmeasured> {
    let (least, most) = WEIGHTS;
    if (least..=most).contains(&kg) { Ok(()) } else { Err(Unmeasured::Weight(kg, least, most)) }
}

/// Whether a stature is among the middle 98 % of the survey's women, men, or either.
pub(crate) fn is_usual_stature(mm: f64, sex: Option<Sex>) -> bool {
    let usual = |sex| is_usual(sex, Measure::Stature, mm);
    match sex {
        Some(sex) => usual(sex),
        None => usual(Sex::Female) || usual(Sex::Male),
    }
}

/// Whether a weight is among the middle 98 % of the survey.
pub(crate) fn is_usual_weight(kg: f64, sex: Sex) -> bool {
    is_usual(sex, Measure::Weight, kg)
}

fn is_usual(sex: Sex, measure: Measure, value: f64) -> bool {
    ansur::share_below(sex, measure, value).is_ok_and(|share| share.percent().is_some())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bad_sitters_are_refused_by_name() {
        let person = |mm, weight_kg| Sitter::Stature { mm, sex: None, weight_kg };
        let says = |sitter: Sitter| sitter.check().expect_err("refused").to_string();
        assert_eq!(says(person(1399.0, None)), "a stature of 1399 mm is outside 1400 to 2050 mm");
        assert_eq!(says(person(1700.0, Some(12.0))), "a weight of 12 kg is outside 40 to 160 kg");
        assert_eq!(says(Sitter::School { mark: 8 }), "there is no school size mark 8: they are 0 to 7");
        assert_eq!(
            says(Sitter::Child { stature_mm: 900.0 }),
            "a stature of 900 mm is outside 1050 to 1800 mm"
        );
        assert!(person(f64::NAN, None).check().is_err());
        assert!(Sitter::Child { stature_mm: f64::NAN }.check().is_err());
    }

    #[test]
    fn good_sitters_are_taken() {
        assert_eq!(Sitter::Adults.check(), Ok(()));
        assert_eq!(Sitter::Stature { mm: 1400.0, sex: None, weight_kg: Some(160.0) }.check(), Ok(()));
        assert_eq!(Sitter::Child { stature_mm: 1050.0 }.check(), Ok(()));
        assert_eq!(Sitter::School { mark: 0 }.check(), Ok(()));
    }
}
