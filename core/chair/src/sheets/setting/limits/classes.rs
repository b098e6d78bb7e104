//! Permissible deviations by the published tables.

/// A table of sizes: over the first number up to the second, mm, and the deviation, mm.
type Steps = &'static [(f64, f64, f64)];

/// Linear sizes of class f, fine: ± (ISO 2768-1, table 1; from memory).
const FINE: Steps = &[
    (0.5, 3.0, 0.05),
    (3.0, 6.0, 0.05),
    (6.0, 30.0, 0.1),
    (30.0, 120.0, 0.15),
    (120.0, 400.0, 0.2),
    (400.0, 1000.0, 0.3),
    (1000.0, 2000.0, 0.5),
];

/// Linear sizes of class m, medium: ± (ISO 2768-1, table 1; from memory).
const MEDIUM: Steps = &[
    (0.5, 3.0, 0.1),
    (3.0, 6.0, 0.1),
    (6.0, 30.0, 0.2),
    (30.0, 120.0, 0.3),
    (120.0, 400.0, 0.5),
    (400.0, 1000.0, 0.8),
    (1000.0, 2000.0, 1.2),
];

/// The standard tolerance IT11, the whole width of the zone (ISO 286-1; from memory).
const IT11: Steps = &[
    (0.0, 3.0, 0.06),
    (3.0, 6.0, 0.075),
    (6.0, 10.0, 0.09),
    (10.0, 18.0, 0.11),
    (18.0, 30.0, 0.13),
    (30.0, 50.0, 0.16),
];

/// ± of class f; nothing for a size beyond the table.
pub(super) fn fine(size: f64) -> Option<f64> {
    step(FINE, size)
}

/// ± of class m; nothing for a size beyond the table.
pub(super) fn medium(size: f64) -> Option<f64> {
    step(MEDIUM, size)
}

/// The width of the zone of IT11; nothing for a size beyond the table.
pub(super) fn it11(size: f64) -> Option<f64> {
    step(IT11, size)
}

fn step(steps: Steps, size: f64) -> Option<f64> {
    steps.iter().find(|(low, high, _)| size > *low && size <= *high).map(|row| row.2)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Sizes at both sides of a step; the standards count the upper end of a step in.
    #[test]
    fn a_size_at_the_end_of_a_step_is_still_in_it() {
        assert_eq!(
            [fine(6.0), fine(6.01), fine(400.0), fine(401.0)],
            [Some(0.05), Some(0.1), Some(0.2), Some(0.3)]
        );
        assert_eq!([medium(30.0), medium(120.5)], [Some(0.2), Some(0.5)]);
        assert_eq!([it11(10.0), it11(10.5)], [Some(0.09), Some(0.11)]);
        assert_eq!([fine(0.2), fine(2500.0), it11(80.0)], [None; 3]);
    }

    /// The tolerance unit of ISO 286-1, i = 0.45 D^(1/3) + 0.001 D in thousandths of a mm with D the geometric mean of the
    /// step, of which IT11 is a hundred: the rounded values of the table lie within a tenth of it, so their cubes within three.
    #[test]
    fn it11_follows_its_formula() {
        for &(low, high, zone) in IT11.iter().filter(|row| row.0 > 0.0) {
            let mean: f64 = f64::sqrt(low * high);
            let root = (zone * 10.0 - 0.001 * mean) / 0.45;
            let error = root * root * root / mean - 1.0;
            assert!(error.abs() < 0.3, "{low} to {high}: {error}");
        }
    }
}
