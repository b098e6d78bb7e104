//! What a measure of somebody likely is whose stature, and perhaps weight, is known.

use crate::normal::percent_below;
use crate::sitter::{check_stature, check_weight, is_usual_stature, is_usual_weight};
use crate::{Measure, Sex, Share, Unmeasured, line};

/// A measure of people of one stature: normally spread round a mean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prediction {
    /// The likeliest value, mm or kg.
    pub mean: f64,
    /// Standard deviation of people of this stature, mm or kg.
    pub sd: f64,
    /// Whether the stature or weight lies outside the middle 98 % of the survey, so that the line is drawn on beyond it.
    pub stretched: bool,
}

impl Prediction {
    /// Share of people like this whose measure is below `value`.
    pub fn share_below(self, value: f64) -> Result<Share, Unmeasured> {
        if !value.is_finite() {
            return Err(Unmeasured::NotANumber);
        }
        Ok(Share::of(percent_below((value - self.mean) / self.sd)))
    }

    /// The value `sds` standard deviations above the mean, or below it if negative.
    pub fn at(self, sds: f64) -> f64 {
        self.mean + sds * self.sd
    }
}

/// A measure of somebody of this stature, mm. Where the sex is not given, the line of women and men weighed equally is taken.
pub fn predicted(measure: Measure, stature_mm: f64, sex: Option<Sex>) -> Result<Prediction, Unmeasured> {
    let line = line(measure, sex)?;
    check_stature(stature_mm)?;
    Ok(Prediction {
        mean: line.at(stature_mm),
        sd: line.residual_sd,
        stretched: !is_usual_stature(stature_mm, sex),
    })
}

/// As [`predicted`], with the weight in kg. It betters the width of the hips and the height of the thighs; the other measures do
/// not use it. Where the sex is not given, women and men are mixed equally.
pub fn predicted_by_weight(
    measure: Measure,
    stature_mm: f64,
    weight_kg: f64,
    sex: Option<Sex>,
) -> Result<Prediction, Unmeasured> {
    check_stature(stature_mm)?;
    check_weight(weight_kg)?;
    let of = |sex| plane(measure, sex).map(|plane| plane.at(stature_mm, weight_kg, sex));
    match (of(Sex::Female), of(Sex::Male), sex) {
        (Some(woman), _, Some(Sex::Female)) => Ok(woman),
        (_, Some(man), Some(Sex::Male)) => Ok(man),
        (Some(woman), Some(man), None) => Ok(mixed(woman, man)),
        _ => predicted(measure, stature_mm, sex),
    }
}

/// Mean and standard deviation of two normal spreads mixed equally.
fn mixed(a: Prediction, b: Prediction) -> Prediction {
    let apart = 0.5 * (a.mean - b.mean);
    Prediction {
        mean: 0.5 * (a.mean + b.mean),
        sd: (0.5 * (a.sd * a.sd + b.sd * b.sd) + apart * apart).sqrt(),
        stretched: a.stretched && b.stretched,
    }
}

/// A regression on stature in mm and weight in kg.
struct Plane {
    intercept: f64,
    per_mm: f64,
    per_kg: f64,
    sd: f64,
}

impl Plane {
    fn at(&self, stature_mm: f64, weight_kg: f64, sex: Sex) -> Prediction {
        Prediction {
            mean: self.intercept + self.per_mm * stature_mm + self.per_kg * weight_kg,
            sd: self.sd,
            stretched: !is_usual_stature(stature_mm, Some(sex)) || !is_usual_weight(weight_kg, sex),
        }
    }
}

/// Worked out from the records of [`crate::ansur::SOURCE`].
fn plane(measure: Measure, sex: Sex) -> Option<Plane> {
    let (intercept, per_mm, per_kg, sd) = match (measure, sex) {
        (Measure::HipBreadth, Sex::Female) => (305.58, -0.0524, 2.6375, 18.1),
        (Measure::HipBreadth, Sex::Male) => (261.42, -0.0272, 1.9359, 14.1),
        (Measure::ThighClearance, Sex::Female) => (148.30, -0.0371, 1.1793, 7.6),
        (Measure::ThighClearance, Sex::Male) => (165.93, -0.0404, 1.0002, 8.4),
        _ => return None,
    };
    Some(Plane { intercept, per_mm, per_kg, sd })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A regression plane goes through the means: women 1628.47 mm and 67.76 kg, men 1756.21 mm and 85.52 kg, with the mean hips
    /// and thighs of `data/anthropometry.csv`.
    #[test]
    fn planes_go_through_the_means() {
        let women = [(Measure::HipBreadth, 398.96), (Measure::ThighClearance, 167.86)];
        let men = [(Measure::HipBreadth, 379.3), (Measure::ThighClearance, 180.46)];
        for (sex, stature, weight, means) in
            [(Sex::Female, 1628.47, 67.76, women), (Sex::Male, 1756.21, 85.52, men)]
        {
            for (measure, mean) in means {
                let got = predicted_by_weight(measure, stature, weight, Some(sex)).expect("in range");
                assert!((got.mean - mean).abs() < 0.2, "{measure}: {} for {mean}", got.mean);
                let plain = predicted(measure, stature, Some(sex)).expect("in range");
                assert!(got.sd < 0.75 * plain.sd, "weight tells much of {measure}");
            }
        }
    }

    #[test]
    fn weight_leaves_other_measures_alone() {
        for sex in [None, Some(Sex::Female), Some(Sex::Male)] {
            assert_eq!(
                predicted_by_weight(Measure::PoplitealHeight, 1700.0, 120.0, sex),
                predicted(Measure::PoplitealHeight, 1700.0, sex)
            );
        }
    }

    #[test]
    fn a_mixture_lies_between_and_spreads_wider() {
        let of = |sex| predicted_by_weight(Measure::HipBreadth, 1700.0, 75.0, sex).expect("in range");
        let (woman, man, either) = (of(Some(Sex::Female)), of(Some(Sex::Male)), of(None));
        assert!(man.mean < either.mean && either.mean < woman.mean);
        assert!(either.sd > man.sd.max(woman.sd));
    }

    #[test]
    fn far_statures_are_told() {
        let stretched = |mm, sex| predicted(Measure::KneeHeight, mm, sex).expect("in range").stretched;
        assert!(!stretched(1500.0, Some(Sex::Female)) && stretched(1500.0, Some(Sex::Male)));
        assert!(!stretched(1900.0, None) && stretched(1940.0, None) && stretched(1450.0, None));
        assert_eq!(predicted(Measure::Stature, 1700.0, None), Err(Unmeasured::NoLine(Measure::Stature)));
    }
}
