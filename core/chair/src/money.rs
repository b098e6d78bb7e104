//! Money in whole minor units, and the currencies of ISO 4217.

mod currency;
mod preferred;

pub use currency::{CURRENCIES, Currency};
pub use preferred::Fineness;

use core::fmt;
use serde::{Serialize, Serializer};

/// An amount in whole minor units of a currency, such as cents.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Money(pub i64);

/// A quantity in millionths of its unit, so that quantity × rate is exact before the one rounding.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Quantity(i64);

impl Money {
    /// The sum, or `None` where it passes what 64 bits hold.
    pub fn plus(self, other: Self) -> Option<Self> {
        self.0.checked_add(other.0).map(Self)
    }

    /// The price of a quantity at this rate for one unit. The one rounding rule of the program: to the nearest
    /// minor unit, exact halves away from zero. `None` where the result passes what 64 bits hold.
    pub fn times(self, quantity: Quantity) -> Option<Self> {
        let exact = i128::from(self.0) * i128::from(quantity.0);
        let half = i128::from(Quantity::ONE / 2) * exact.signum();
        i64::try_from((exact + half) / i128::from(Quantity::ONE)).ok().map(Self)
    }

    /// An amount in major units, such as euros, where it is a whole number of minor units.
    pub fn from_major(major: f64, minor_digits: u8) -> Option<Self> {
        let minor = major * ten_to(minor_digits) as f64;
        let whole = minor.round();
        let exact = (minor - whole).abs() <= 1e-6 && whole.abs() <= MAX_EXACT;
        exact.then_some(Self(whole as i64))
    }

    /// The amount in major units with its decimals, such as `1234.50`.
    pub fn decimal(self, minor_digits: u8) -> Decimal {
        Decimal { amount: self, minor_digits }
    }
}

/// The greatest whole number up to which each one has its own `f64`: 2⁵³.
const MAX_EXACT: f64 = 9_007_199_254_740_992.0;

fn ten_to(digits: u8) -> u64 {
    10_u64.pow(u32::from(digits))
}

impl Quantity {
    const ONE: i64 = 1_000_000;

    /// A quantity rounded to `decimals` (at most 6) decimals of its unit. `None` if it is not finite, or
    /// beyond what is exact.
    pub fn rounded(value: f64, decimals: u8) -> Option<Self> {
        let scale = ten_to(decimals.min(6));
        let whole = (value * scale as f64).round();
        let millionths = Self::ONE / i64::try_from(scale).ok()?;
        let exact = whole.is_finite() && whole.abs() <= MAX_EXACT;
        if exact { (whole as i64).checked_mul(millionths).map(Self) } else { None }
    }

    /// A number of things.
    pub fn count(n: u32) -> Self {
        Self(i64::from(n) * Self::ONE)
    }

    /// The quantity as a number.
    pub fn value(self) -> f64 {
        self.0 as f64 / Self::ONE as f64
    }
}

impl fmt::Display for Quantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.value().fmt(f)
    }
}

impl Serialize for Quantity {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_f64(self.value())
    }
}

/// An amount written in major units.
#[derive(Clone, Copy, Debug)]
pub struct Decimal {
    amount: Money,
    minor_digits: u8,
}

impl Decimal {
    /// The number as files have it.
    pub fn to_number(self) -> serde_json::Value {
        serde_json::from_str(&self.to_string()).unwrap_or_default()
    }
}

impl fmt::Display for Decimal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let minor = self.amount.0.unsigned_abs();
        let sign = if self.amount.0 < 0 { "-" } else { "" };
        let scale = ten_to(self.minor_digits);
        write!(f, "{sign}{}", minor / scale)?;
        match self.minor_digits {
            0 => Ok(()),
            digits => write!(f, ".{:0width$}", minor % scale, width = usize::from(digits)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn halves_go_away_from_zero() {
        let half = Quantity::rounded(0.5, 6).expect("small");
        assert_eq!(Money(5).times(half), Some(Money(3)));
        assert_eq!(Money(-5).times(half), Some(Money(-3)));
        assert_eq!(Money(4).times(half), Some(Money(2)));
        assert_eq!(Money(1).times(Quantity::rounded(0.499_999, 6).expect("small")), Some(Money(0)));
    }

    #[test]
    fn overflow_is_told() {
        assert_eq!(Money(i64::MAX).plus(Money(1)), None);
        assert_eq!(Money(i64::MAX).times(Quantity::count(2)), None);
        assert_eq!(Money(i64::MAX).times(Quantity::count(1)), Some(Money(i64::MAX)));
        assert_eq!(Quantity::rounded(f64::NAN, 3), None);
        assert_eq!(Quantity::rounded(1e300, 0), None);
    }

    #[test]
    fn decimals_follow_the_currency() {
        let text = |minor: i64, digits: u8| Money(minor).decimal(digits).to_string();
        assert_eq!(text(123_450, 2), "1234.50");
        assert_eq!(text(-5, 2), "-0.05");
        assert_eq!(text(5, 0), "5");
        assert_eq!(text(1, 3), "0.001");
        assert_eq!(text(i64::MIN, 2), "-92233720368547758.08");
    }

    #[test]
    fn major_units_must_be_whole_minor_units() {
        assert_eq!(Money::from_major(1234.56, 2), Some(Money(123_456)));
        assert_eq!(Money::from_major(0.29, 2), Some(Money(29)));
        assert_eq!(Money::from_major(0.295, 2), None);
        assert_eq!(Money::from_major(12.5, 0), None);
        assert_eq!(Money::from_major(f64::NAN, 2), None);
    }

    proptest! {
        /// A price is within half a minor unit of the exact product.
        #[test]
        fn price_is_the_nearest(rate in -10_000_000_i64..10_000_000, q in 0_i64..10_000_000_000) {
            let price = Money(rate).times(Quantity(q)).expect("small");
            let error = i128::from(price.0) * 1_000_000 - i128::from(rate) * i128::from(q);
            prop_assert!(error.abs() <= 500_000);
        }

        /// What is written can be read back.
        #[test]
        fn decimal_reads_back(minor in -1_000_000_000_i64..1_000_000_000, digits in 0_u8..=4) {
            let major: f64 = Money(minor).decimal(digits).to_string().parse().expect("a number");
            prop_assert_eq!(Money::from_major(major, digits), Some(Money(minor)));
        }
    }
}
