//! A range of sizes, open at either end.

use core::fmt;

/// Sizes from one to another, mm; an end may be open.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// The least size, if there is one.
    pub at_least: Option<f64>,
    /// The greatest size, if there is one.
    pub at_most: Option<f64>,
}

impl Range {
    /// From one size to another.
    pub const fn between(at_least: f64, at_most: f64) -> Self {
        Self { at_least: Some(at_least), at_most: Some(at_most) }
    }

    /// A size and all above it.
    pub const fn from(at_least: f64) -> Self {
        Self { at_least: Some(at_least), at_most: None }
    }

    /// A size and all below it.
    pub const fn up_to(at_most: f64) -> Self {
        Self { at_least: None, at_most: Some(at_most) }
    }

    /// Whether a size is in it; both ends are.
    pub fn holds(self, value: f64) -> bool {
        self.at_least.is_none_or(|least| value >= least) && self.at_most.is_none_or(|most| value <= most)
    }

    /// What both allow. Where they share nothing, its ends are the wrong way round and it holds no size.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        self.ends_of(other, f64::max, f64::min)
    }

    /// The least range that holds both; an end that either leaves open stays as the other has it.
    pub(crate) fn span(self, other: Self) -> Self {
        self.ends_of(other, f64::min, f64::max)
    }

    /// The range with each end so much further out.
    #[must_use]
    pub fn widened(self, by: f64) -> Self {
        Self { at_least: self.at_least.map(|least| least - by), at_most: self.at_most.map(|most| most + by) }
    }

    fn ends_of(self, other: Self, least: fn(f64, f64) -> f64, most: fn(f64, f64) -> f64) -> Self {
        let pick = |a: Option<f64>, b: Option<f64>, of: fn(f64, f64) -> f64| match (a, b) {
            (Some(a), Some(b)) => Some(of(a, b)),
            (a, b) => a.or(b),
        };
        Self {
            at_least: pick(self.at_least, other.at_least, least),
            at_most: pick(self.at_most, other.at_most, most),
        }
    }
}

impl fmt::Display for Range {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.at_least, self.at_most) {
            (Some(least), Some(most)) => write!(f, "{least:.0} to {most:.0} mm"),
            (Some(least), None) => write!(f, "{least:.0} mm or more"),
            (None, Some(most)) => write!(f, "{most:.0} mm or less"),
            (None, None) => f.write_str("any size"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ends_are_in_it() {
        let range = Range::between(370.0, 390.0);
        assert!(range.holds(370.0) && range.holds(390.0) && !range.holds(390.1) && !range.holds(369.9));
        assert!(Range::from(5.0).holds(1e9) && !Range::from(5.0).holds(4.9));
        assert!(Range::up_to(5.0).holds(-1e9) && !Range::up_to(5.0).holds(5.1));
        assert_eq!(Range::from(5.0).to_string(), "5 mm or more");
    }

    #[test]
    fn both_ranges_hold_in_what_they_share() {
        assert_eq!(Range::between(1.0, 5.0).and(Range::up_to(3.0)), Range::between(1.0, 3.0));
        assert_eq!(Range::from(2.0).and(Range::from(4.0)), Range::from(4.0));
        assert_eq!(Range::between(1.0, 3.0).span(Range::between(2.0, 5.0)), Range::between(1.0, 5.0));
        assert_eq!(Range::up_to(3.0).widened(2.0), Range::up_to(5.0));
    }
}
