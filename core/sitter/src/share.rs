//! A share of people, never none and never all.

use core::fmt;
use crestrail_phrases::word;

/// A share of people in percent. The surveys end at their 1st and 99th percentile, so beyond these it only says `under 1 %` and
/// `over 99 %`.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Share(Part);

#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
enum Part {
    UnderOne,
    Percent(f64),
    OverNinetyNine,
}

impl Share {
    /// Under one in a hundred.
    pub const UNDER_ONE: Self = Self(Part::UnderOne);
    /// Over ninety-nine in a hundred.
    pub const OVER_NINETY_NINE: Self = Self(Part::OverNinetyNine);

    /// The share that stands for `percent`, which is a number.
    pub(crate) fn of(percent: f64) -> Self {
        match percent {
            p if p < 1.0 => Self::UNDER_ONE,
            p if p > 99.0 => Self::OVER_NINETY_NINE,
            p => Self(Part::Percent(p)),
        }
    }

    /// Percent from 1 to 99, or `None` in the tails.
    pub fn percent(self) -> Option<f64> {
        match self.0 {
            Part::Percent(p) => Some(p),
            Part::UnderOne | Part::OverNinetyNine => None,
        }
    }

    /// Percent that it surely reaches: 0, the share, or 99.
    pub fn at_least(self) -> f64 {
        match self.0 {
            Part::UnderOne => 0.0,
            Part::Percent(p) => p,
            Part::OverNinetyNine => 99.0,
        }
    }

    /// Percent that it surely does not pass: 1, the share, or 100.
    pub fn at_most(self) -> f64 {
        match self.0 {
            Part::UnderOne => 1.0,
            Part::Percent(p) => p,
            Part::OverNinetyNine => 100.0,
        }
    }

    /// Everybody else.
    #[must_use]
    pub fn others(self) -> Self {
        match self.0 {
            Part::UnderOne => Self::OVER_NINETY_NINE,
            Part::Percent(p) => Self(Part::Percent(100.0 - p)),
            Part::OverNinetyNine => Self::UNDER_ONE,
        }
    }
}

impl fmt::Display for Share {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            Part::UnderOne => f.write_str(word("under 1 %")),
            Part::Percent(p) => write!(f, "{p:.0} %"),
            Part::OverNinetyNine => f.write_str(word("over 99 %")),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn never_none_and_never_all() {
        for (percent, says) in [
            (-5.0, "under 1 %"),
            (0.999, "under 1 %"),
            (1.0, "1 %"),
            (37.4, "37 %"),
            (99.0, "99 %"),
            (99.001, "over 99 %"),
            (100.0, "over 99 %"),
        ] {
            assert_eq!(Share::of(percent).to_string(), says);
        }
    }

    #[test]
    fn the_others_and_the_order() {
        assert_eq!(Share::of(0.2).others(), Share::of(99.8));
        assert_eq!(Share::of(30.0).others().percent(), Some(70.0));
        assert!(Share::UNDER_ONE < Share::of(1.0) && Share::of(99.0) < Share::OVER_NINETY_NINE);
        assert!(Share::of(40.0) < Share::of(41.0));
        assert_eq!((Share::UNDER_ONE.at_least(), Share::UNDER_ONE.at_most()), (0.0, 1.0));
        assert_eq!((Share::of(99.5).at_least(), Share::of(99.5).at_most()), (99.0, 100.0));
    }
}
