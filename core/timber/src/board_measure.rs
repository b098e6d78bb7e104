//! Board foot and surface measure, the units in which hardwood is sold in North America.
//!
//! Here alone sizes are inches and feet, for the rules are written in them; the conversions from
//! millimetres are exact (1 in = 25.4 mm).

/// One inch in millimetres, exactly.
pub const INCH: f64 = 25.4;

/// One board foot in mm³: 144 cubic inches, so 1/12 ft³ or 2.3597 litres.
pub const BOARD_FOOT: f64 = 144.0 * INCH * INCH * INCH;

/// Board feet of a volume of timber in mm³.
pub fn board_feet_of_volume(volume: f64) -> f64 {
    volume / BOARD_FOOT
}

/// The thickness, mm, that a seller by board foot charges for: stock under one inch counts as one inch.
/// Trade rule [read in a lumber yard's text].
pub fn charged_thickness(thickness: f64) -> f64 {
    thickness.max(INCH)
}

/// Board feet charged for a board: thickness × width in inches × length in feet / 12, with stock under one inch
/// charged as one inch.
pub fn board_feet(thickness_in: f64, width_in: f64, length_ft: f64) -> f64 {
    thickness_in.max(1.0) * width_in * length_ft / 12.0
}

/// Tally of surface measure. The NHLA rule: width in inches × whole feet of length / 12, rounded
/// to the nearest whole square foot; exact halves go up and down in turns, so that neither side gains.
///
/// That halves alternate, and that a fraction of a foot of length is dropped, is from memory of the rule book; this
/// tally begins by rounding a half up.
#[derive(Clone, Debug, Default)]
pub struct SurfaceTally {
    last_half_went_up: bool,
}

impl SurfaceTally {
    /// An empty tally.
    pub fn new() -> Self {
        Self::default()
    }

    /// Surface measure of the next board, ft².
    pub fn measure(&mut self, width_in: f64, length_ft: f64) -> f64 {
        let twelfths = width_in * length_ft.floor();
        let whole = (twelfths / 12.0).floor();
        let rest = twelfths - 12.0 * whole;
        if rest > 6.0 || (rest == 6.0 && self.half_goes_up()) { whole + 1.0 } else { whole }
    }

    fn half_goes_up(&mut self) -> bool {
        self.last_half_went_up = !self.last_half_went_up;
        self.last_half_went_up
    }
}

/// Board feet from the surface measure, ft², and the thickness in inches (at least one is charged).
pub fn board_feet_of_surface(surface: f64, thickness_in: f64) -> f64 {
    surface * thickness_in.max(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Examples printed in texts on buying lumber.
    #[test]
    fn board_feet_of_printed_examples() {
        assert_eq!(board_feet(1.0, 9.0, 8.0), 6.0);
        assert_eq!(board_feet(1.5, 9.0, 8.0), 9.0);
        assert!((board_feet(2.0, 16.0, 8.0) - 21.3).abs() < 0.05);
    }

    #[test]
    fn thin_stock_is_charged_as_an_inch() {
        assert_eq!(board_feet(0.75, 9.0, 8.0), 6.0);
        assert_eq!(charged_thickness(19.0), 25.4);
        assert_eq!(charged_thickness(50.8), 50.8);
        assert_eq!(board_feet_of_surface(8.0, 0.5), 8.0);
    }

    /// 1 board foot is 1/12 ft³ and 2.3597 L; twelve of them fill a cubic foot.
    #[test]
    fn board_foot_in_metric() {
        assert!((BOARD_FOOT * 1e-6 - 2.3597).abs() < 0.000_05);
        assert!((board_feet_of_volume(304.8 * 304.8 * 304.8) - 12.0).abs() < 1e-9);
    }

    /// Examples printed with the NHLA rule: 6½ in × 8 ft is 4⅓, so 4; 8 × 12 is 8; 10 × 13 is 10 10/12, so 11.
    #[test]
    fn surface_measure_of_printed_examples() {
        let mut tally = SurfaceTally::new();
        assert_eq!(tally.measure(6.5, 8.0), 4.0);
        assert_eq!(tally.measure(8.0, 12.0), 8.0);
        assert_eq!(tally.measure(10.0, 13.0), 11.0);
        assert_eq!(board_feet_of_surface(11.0, 2.0), 22.0);
    }

    #[test]
    fn halves_alternate_and_part_feet_are_dropped() {
        let mut tally = SurfaceTally::new();
        // 9 in × 10 ft is 7½ ft².
        let four: Vec<f64> = (0..4).map(|_| tally.measure(9.0, 10.0)).collect();
        assert_eq!(four, [8.0, 7.0, 8.0, 7.0]);
        assert_eq!(tally.measure(8.0, 12.9), 8.0);
    }
}
