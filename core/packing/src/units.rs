//! Lengths as whole hundredths of a millimetre, so that sums are exact.
//!
//! Rounding is on the safe side: what must fit (pieces, kerfs, trims) is rounded up, what it must fit
//! into is rounded down. A plan therefore never needs more than there is; at worst a fit that is exact
//! to less than a hundredth of a millimetre is not used.

use crate::refused::Refused;

/// Hundredths of a millimetre.
pub(crate) type Hundredths = i64;

/// Longest length taken, mm: 100 m. Far above any timber, and small enough that no sum overflows.
pub const LONGEST: f64 = 100_000.0;

/// Dearest price of one bar, board or plank, in minor units.
pub const DEAREST: i64 = 1_000_000_000;

/// Most pieces of one problem, and most of one kind of stock that are counted.
pub const MOST: u32 = 100_000;

/// A length of 10.000 000 000 1 mm is meant to be 10 mm: floats carry such dust.
const DUST: f64 = 1e-6;

/// A length that must fit: rounded up.
pub(crate) fn up(mm: f64) -> Hundredths {
    (mm * 100.0 - DUST).ceil() as Hundredths
}

/// A length to fit into: rounded down.
pub(crate) fn down(mm: f64) -> Hundredths {
    (mm * 100.0 + DUST).floor() as Hundredths
}

/// Back to millimetres.
pub(crate) fn millimetres(length: Hundredths) -> f64 {
    length as f64 / 100.0
}

/// A size above zero and not above [`LONGEST`].
pub(crate) fn size(place: &str, mm: f64) -> Result<f64, Refused> {
    if mm.is_finite() && mm > 0.0 && mm <= LONGEST && up(mm) > 0 {
        return Ok(mm);
    }
    Err(Refused::new(place, format!("A size is {mm} mm; it must be above 0 and at most {LONGEST} mm.")))
}

/// A least size: zero or more.
pub(crate) fn least(place: &str, mm: f64) -> Result<f64, Refused> {
    if mm.is_finite() && (0.0..=LONGEST).contains(&mm) {
        return Ok(mm);
    }
    Err(Refused::new(place, format!("A least size is {mm} mm; it must be from 0 to {LONGEST} mm.")))
}

/// A kerf or trim: zero or more.
pub(crate) fn allowance(place: &str, mm: f64) -> Result<f64, Refused> {
    if mm.is_finite() && (0.0..=1000.0).contains(&mm) {
        return Ok(mm);
    }
    Err(Refused::new(place, format!("An allowance is {mm} mm; it must be from 0 to 1000 mm.")))
}

/// A price, zero for what is already there.
pub(crate) fn price(place: &str, price: i64) -> Result<i64, Refused> {
    if (0..=DEAREST).contains(&price) {
        return Ok(price);
    }
    Err(Refused::new(place, format!("A price is {price}; it must be from 0 to {DEAREST} minor units.")))
}

/// How many pieces all rows ask for together, refused where that is more than [`MOST`].
pub(crate) fn total(counts: impl Iterator<Item = u32>) -> Result<u32, Refused> {
    let sum: u64 = counts.map(u64::from).sum();
    if sum <= u64::from(MOST) {
        return Ok(sum as u32);
    }
    Err(Refused::new("pieces", format!("There are {sum} pieces; at most {MOST} are planned at once.")))
}

/// Greatest common divisor; of zero and n it is n.
pub(crate) fn gcd(a: i64, b: i64) -> i64 {
    if b == 0 { a.abs() } else { gcd(b, a % b) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounds_to_the_safe_side() {
        assert_eq!((up(10.004), down(10.004)), (1001, 1000));
        assert_eq!((up(0.1 + 0.2), down(0.1 + 0.2)), (30, 30));
    }

    #[test]
    fn refuses_what_is_no_size() {
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e9] {
            assert!(size("x", bad).is_err(), "{bad} was taken");
        }
    }
}
