//! The float functions of the whole core, over `libm`, so that every machine gives the same bits.
//!
//! The standard library's `sin`, `atan2`, `hypot` and their kin differ in the last bit between
//! native targets and wasm; clippy bans them in this workspace and names this module instead.

pub use core::f64::consts::{FRAC_PI_2, PI, TAU};

/// Sine of `x` (radians).
pub fn sin(x: f64) -> f64 {
    libm::sin(x)
}

/// Cosine of `x` (radians).
pub fn cos(x: f64) -> f64 {
    libm::cos(x)
}

/// Tangent of `x` (radians).
pub fn tan(x: f64) -> f64 {
    libm::tan(x)
}

/// Arc cosine, in radians; the argument is first held inside −1…1, so rounding cannot give NaN.
pub fn acos(x: f64) -> f64 {
    libm::acos(x.clamp(-1.0, 1.0))
}

/// Arc sine, in radians; the argument is first held inside −1…1, so rounding cannot give NaN.
pub fn asin(x: f64) -> f64 {
    libm::asin(x.clamp(-1.0, 1.0))
}

/// Arc tangent, in radians.
pub fn atan(x: f64) -> f64 {
    libm::atan(x)
}

/// Angle of the point (x, y) from the positive x axis, in radians.
pub fn atan2(y: f64, x: f64) -> f64 {
    libm::atan2(y, x)
}

/// Length of the vector (x, y).
pub fn hypot(x: f64, y: f64) -> f64 {
    libm::hypot(x, y)
}

/// `x` raised to `y`.
pub fn pow(x: f64, y: f64) -> f64 {
    libm::pow(x, y)
}

/// Natural logarithm.
pub fn ln(x: f64) -> f64 {
    libm::log(x)
}

/// Exponential.
pub fn exp(x: f64) -> f64 {
    libm::exp(x)
}

/// The lesser of two numbers of which neither is NaN. In wasm `f64::min`, which minds NaN, is a call.
#[inline]
pub fn min(a: f64, b: f64) -> f64 {
    if b < a { b } else { a }
}

/// The greater of two numbers of which neither is NaN. In wasm `f64::max`, which minds NaN, is a call.
#[inline]
pub fn max(a: f64, b: f64) -> f64 {
    if b > a { b } else { a }
}

/// The whole number nearest to `x`, halves away from zero. In wasm `f64::round` is a call.
#[inline]
pub fn nearest(x: f64) -> i64 {
    let whole = x as i64;
    let rest = x - whole as f64;
    whole.saturating_add(i64::from(rest >= 0.5) - i64::from(rest <= -0.5))
}

/// Degrees to radians.
pub fn radians(degrees: f64) -> f64 {
    degrees * (PI / 180.0)
}

/// Radians to degrees.
pub fn degrees(radians: f64) -> f64 {
    radians * (180.0 / PI)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nearest_rounds_as_the_standard_library_does() {
        let last = 4_503_599_627_370_495.5; // 2⁵² − ½, the last half.
        let whole =
            [0.0, 0.5, 1.5, 2.5, 0.499_999_999_999_999_94, 7.2, 7.8, last, 1e17, 1e300, f64::INFINITY];
        for x in whole.into_iter().flat_map(|x| [x, -x]).chain([f64::NAN]) {
            assert_eq!(nearest(x), x.round() as i64, "{x}");
        }
    }
}
