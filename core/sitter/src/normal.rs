//! The normal curve.

use core::f64::consts::SQRT_2;

/// Percent of a normal spread that lies below `z` standard deviations from its mean. `libm` gives the same bits on every
/// machine.
pub(crate) fn percent_below(z: f64) -> f64 {
    50.0 * libm::erfc(-z / SQRT_2)
}

/// A percentile and its place on the normal curve, in standard deviations.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Knot {
    pub(crate) percent: f64,
    pub(crate) z: f64,
}

const fn knot(percent: f64, z: f64) -> Knot {
    Knot { percent, z }
}

const Z_1: f64 = 2.326_347_874_040_841;
const Z_2_5: f64 = 1.959_963_984_540_054;
const Z_5: f64 = 1.644_853_626_951_473;
const Z_10: f64 = 1.281_551_565_544_6;
const Z_25: f64 = 0.674_489_750_196_082;

/// The percentiles kept of ANSUR II.
pub(crate) const ELEVEN: &[Knot] = &[
    knot(1.0, -Z_1),
    knot(2.5, -Z_2_5),
    knot(5.0, -Z_5),
    knot(10.0, -Z_10),
    knot(25.0, -Z_25),
    knot(50.0, 0.0),
    knot(75.0, Z_25),
    knot(90.0, Z_10),
    knot(95.0, Z_5),
    knot(97.5, Z_2_5),
    knot(99.0, Z_1),
];

/// The percentiles kept of NHANES.
pub(crate) const NINE: &[Knot] = &[
    knot(1.0, -Z_1),
    knot(5.0, -Z_5),
    knot(10.0, -Z_10),
    knot(25.0, -Z_25),
    knot(50.0, 0.0),
    knot(75.0, Z_25),
    knot(90.0, Z_10),
    knot(95.0, Z_5),
    knot(99.0, Z_1),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn knots_lie_on_the_curve() {
        for knot in ELEVEN.iter().chain(NINE) {
            assert!((percent_below(knot.z) - knot.percent).abs() < 1e-12, "{knot:?}");
        }
    }

    /// Printed tables of the normal curve: below 1 lies 84.1345 %, below 3 lies 99.8650 %.
    #[test]
    fn as_printed() {
        for (z, percent) in [(1.0, 84.134_474_6), (-1.0, 15.865_525_4), (3.0, 99.865_010_2)] {
            assert!((percent_below(z) - percent).abs() < 1e-7, "{z}");
        }
    }
}
