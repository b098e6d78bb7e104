//! How a measure is spread over people: some percentiles, and what lies between them.

use crate::normal::{Knot, percent_below};
use crate::{Share, Unmeasured};

/// Halvings that find a place on the curve to the last bits of a double.
const HALVINGS: u32 = 60;

/// Some percentiles of a measure. Between two of them it is taken as normally spread: straight on probability paper, which
/// keeps it rising. Below the first and above the last, the 1st and the 99th, nothing is said but that.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    knots: &'static [Knot],
    /// Whole numbers, `per_unit` of them to a unit.
    counts: &'static [i16],
    per_unit: f64,
}

impl Spread {
    /// `counts` rise and are as many as the knots: the tests read every table.
    pub(crate) const fn new(knots: &'static [Knot], counts: &'static [i16], per_unit: f64) -> Self {
        Self { knots, counts, per_unit }
    }

    /// Percentiles and values, from the least.
    pub fn figures(self) -> impl Iterator<Item = (f64, f64)> {
        self.knots.iter().zip(self.counts).map(move |(knot, count)| (knot.percent, self.value(*count)))
    }

    /// Share of people whose measure is below `value`.
    pub fn share_below(self, value: f64) -> Result<Share, Unmeasured> {
        if !value.is_finite() {
            return Err(Unmeasured::NotANumber);
        }
        let mut low: Option<(Knot, f64)> = None;
        for (knot, count) in self.knots.iter().zip(self.counts) {
            let here = self.value(*count);
            if value == here {
                return Ok(Share::of(knot.percent));
            }
            if value < here {
                let z = low.map(|(below, from)| along(below.z, knot.z, (value - from) / (here - from)));
                return Ok(z.map_or(Share::UNDER_ONE, |z| Share::of(percent_below(z))));
            }
            low = Some((*knot, here));
        }
        Ok(Share::OVER_NINETY_NINE)
    }

    /// The value that `percent` of people stay below, for percentiles from 1 to 99.
    pub fn value_at(self, percent: f64) -> Result<f64, Unmeasured> {
        let mut low: Option<(Knot, f64)> = None;
        for (knot, count) in self.knots.iter().zip(self.counts) {
            let here = self.value(*count);
            if percent == knot.percent {
                return Ok(here);
            }
            if let Some((below, from)) = low
                && below.percent < percent
                && percent < knot.percent
            {
                let z = place_of(percent, below.z, knot.z);
                return Ok(along(from, here, (z - below.z) / (knot.z - below.z)));
            }
            low = Some((*knot, here));
        }
        Err(Unmeasured::Percentile(percent))
    }

    fn value(self, count: i16) -> f64 {
        f64::from(count) / self.per_unit
    }
}

fn along(from: f64, to: f64, part: f64) -> f64 {
    from + (to - from) * part
}

/// Where between two places on the normal curve `percent` lies below.
fn place_of(percent: f64, mut low: f64, mut high: f64) -> f64 {
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if percent_below(middle) < percent {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::normal::NINE;

    const SOME: Spread = Spread::new(NINE, &[10, 20, 25, 40, 50, 60, 80, 95, 130], 10.0);

    #[test]
    fn knots_are_met_exactly_and_between_them_it_rises() {
        for (percent, value) in SOME.figures() {
            assert_eq!(SOME.value_at(percent), Ok(value));
            assert_eq!(SOME.share_below(value), Ok(Share::of(percent)));
        }
        let shares: Vec<f64> = (0..=120)
            .map(|i| SOME.share_below(1.0 + f64::from(i) * 0.1).expect("finite").at_least())
            .collect();
        assert!(shares.windows(2).all(|w| w[0] < w[1]), "{shares:?}");
    }

    #[test]
    fn there_and_back() {
        for tenth in 10..=990 {
            let percent = f64::from(tenth) / 10.0;
            let value = SOME.value_at(percent).expect("within");
            let back = SOME.share_below(value).expect("finite").at_least();
            assert!((back - percent).abs() < 1e-9, "{percent} came back as {back}");
        }
    }

    /// Percentiles of a normal spread give back the normal spread: mean 100, standard deviation 10, so 84.134 % below 110.
    #[test]
    fn a_normal_spread_stays_one() {
        const NORMAL: Spread =
            Spread::new(NINE, &[7674, 8355, 8718, 9326, 10000, 10674, 11282, 11645, 12326], 100.0);
        let share = NORMAL.share_below(110.0).expect("finite").at_least();
        assert!((share - 84.134).abs() < 0.02, "{share}");
    }

    #[test]
    fn tails_and_bad_input() {
        assert_eq!(SOME.share_below(0.99), Ok(Share::UNDER_ONE));
        assert_eq!(SOME.share_below(13.01), Ok(Share::OVER_NINETY_NINE));
        assert_eq!(SOME.share_below(f64::INFINITY), Err(Unmeasured::NotANumber));
        assert_eq!(SOME.value_at(0.5), Err(Unmeasured::Percentile(0.5)));
        assert_eq!(SOME.value_at(99.5), Err(Unmeasured::Percentile(99.5)));
        assert!(SOME.value_at(f64::NAN).is_err());
    }
}
