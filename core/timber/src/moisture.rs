//! The moisture that wood takes on in air that stays as it is.
//!
//! Hailwood and Horrobin's equation as the USDA Wood Handbook prints it, Eq. 4-5 (FPL-GTR-282, 2021, and earlier editions):
//!
//! EMC = (1800 / W) [ K h / (1 − K h) + (K₁ K h + 2 K₁ K₂ K² h²) / (1 + K₁ K h + K₁ K₂ K² h²) ]
//!
//! EMC in % of the ovendry mass, h the relative humidity as a share, W, K, K₁ and K₂ polynomials of the temperature, printed once
//! for °C and once for °F. They stand for an average over species and over drying and taking up; single pieces
//! differ by one or two per cent (FPL-GTR-229 warns of the old data's poor provenance).

use crate::range::{OutOfRange, within};

/// The handbook's table goes from 30 to 130 °F and from 5 to 95 % of relative humidity; nothing is said beyond.
const HUMIDITY: [f64; 2] = [0.0, 0.95];
const CELSIUS: [f64; 2] = [-1.2, 54.5];
const FAHRENHEIT: [f64; 2] = [29.8, 130.1];

/// Relative humidity for which the table stands: from 0 to 95 %.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Humidity(f64);

impl Humidity {
    /// Of whole per cent.
    ///
    /// # Panics
    ///
    /// Above 95; in a constant that is an error of the compiler.
    pub const fn percent(whole: u8) -> Self {
        assert!(whole <= 95, "the handbook's table ends at 95 % of relative humidity");
        Self(whole as f64 / 100.0)
    }

    /// Moisture in equilibrium, %, at room temperature, 20 °C; ten degrees more make wood drier by some 0.3 %.
    pub fn moisture_in_a_room(self) -> f64 {
        at_celsius(self.0, 20.0)
    }
}

/// Moisture in equilibrium, %, with air of relative humidity `humidity` (a share, 0 to 0.95) at `celsius` °C (−1.2 to 54.5).
pub fn equilibrium(humidity: f64, celsius: f64) -> Result<f64, OutOfRange> {
    let t = within("temperature", celsius, CELSIUS, " °C")?;
    Ok(at_celsius(within("relative humidity", humidity, HUMIDITY, "")?, t))
}

fn at_celsius(humidity: f64, t: f64) -> f64 {
    let [w, k, k1, k2] = [
        349.0 + 1.29 * t + 0.0135 * t * t,
        0.805 + 0.000_736 * t - 0.000_002_73 * t * t,
        6.27 - 0.009_38 * t - 0.000_303 * t * t,
        1.91 + 0.040_7 * t - 0.000_293 * t * t,
    ];
    hailwood_horrobin(humidity, w, k, k1, k2)
}

/// The same at `fahrenheit` °F (29.8 to 130.1), by the coefficients printed for °F. The two forms differ by 0.07 % at most.
pub fn equilibrium_fahrenheit(humidity: f64, fahrenheit: f64) -> Result<f64, OutOfRange> {
    let t = within("temperature", fahrenheit, FAHRENHEIT, " °F")?;
    let [w, k, k1, k2] = [
        330.0 + 0.452 * t + 0.004_15 * t * t,
        0.791 + 0.000_463 * t - 0.000_000_844 * t * t,
        6.34 + 0.000_775 * t - 0.000_093_5 * t * t,
        1.09 + 0.028_4 * t - 0.000_090_4 * t * t,
    ];
    Ok(hailwood_horrobin(within("relative humidity", humidity, HUMIDITY, "")?, w, k, k1, k2))
}

fn hailwood_horrobin(h: f64, w: f64, k: f64, k1: f64, k2: f64) -> f64 {
    let kh = k * h;
    let (one, two) = (k1 * kh, k1 * k2 * kh * kh);
    1800.0 / w * (kh / (1.0 - kh) + (one + 2.0 * two) / (1.0 + one + two))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The handbook's table as a timber merchant reproduces it: relative humidity %, °F, °C, moisture %. One cell is a
    /// misprint, marked in the file: at 20 % and 110 °F it prints 3.0 between 4.2 and 3.8.
    const TABLE: &str = include_str!("../data/emc_table.csv");

    #[test]
    fn every_cell_of_the_table_in_both_forms() {
        let mut cells = 0;
        for line in TABLE.lines().skip(1).filter(|line| !line.contains("misprint")) {
            let figures: Vec<f64> = line.split(',').take(4).map(|text| text.parse().expect(line)).collect();
            let [humidity, fahrenheit, celsius, printed] = figures[..] else { panic!("{line}") };
            let forms = [
                equilibrium(humidity / 100.0, celsius).expect(line),
                equilibrium_fahrenheit(humidity / 100.0, fahrenheit).expect(line),
            ];
            assert!(forms.iter().all(|emc| (emc - printed).abs() <= 0.1), "{line}: {forms:?}");
            cells += 1;
        }
        assert!(cells > 130, "{cells}");
    }

    #[test]
    fn both_forms_agree() {
        for (percent, celsius) in (0..=95).step_by(5).flat_map(|h| (0..=50).step_by(5).map(move |t| (h, t))) {
            let (humidity, celsius) = (f64::from(percent) / 100.0, f64::from(celsius));
            let one = equilibrium(humidity, celsius).expect("within the range");
            let other = equilibrium_fahrenheit(humidity, celsius * 1.8 + 32.0).expect("within the range");
            assert!((one - other).abs() < 0.07, "{humidity} {celsius}: {one} {other}");
        }
    }

    /// Damper air makes damper wood, warmer air of the same humidity drier wood (above freezing).
    #[test]
    fn damper_and_warmer() {
        let at = |humidity, celsius| equilibrium(humidity, celsius).expect("within the range");
        assert!((1..19).all(|k| at(f64::from(k) * 0.05, 20.0) > at(f64::from(k - 1) * 0.05, 20.0)));
        assert!((2..11).all(|k| at(0.5, f64::from(k) * 5.0) < at(0.5, f64::from(k - 1) * 5.0)));
        assert_eq!(at(0.0, 20.0), 0.0);
    }

    #[test]
    fn a_room_is_that_of_the_equation() {
        for percent in 0..=95 {
            let humidity = f64::from(percent) / 100.0;
            assert_eq!(Ok(Humidity::percent(percent).moisture_in_a_room()), equilibrium(humidity, 20.0));
        }
        assert!(std::panic::catch_unwind(|| Humidity::percent(96)).is_err());
    }

    #[test]
    fn what_is_outside_is_named() {
        for (humidity, celsius) in [(1.2, 20.0), (-0.1, 20.0), (f64::NAN, 20.0)] {
            assert_eq!(equilibrium(humidity, celsius).unwrap_err().what, "relative humidity");
        }
        for celsius in [-40.0, 80.0, f64::INFINITY, f64::NAN] {
            assert_eq!(equilibrium(0.5, celsius).unwrap_err().what, "temperature");
        }
        assert_eq!(
            equilibrium(1.2, 20.0).unwrap_err().to_string(),
            "The relative humidity is 1.2; give one from 0 to 0.95."
        );
        assert_eq!(equilibrium_fahrenheit(0.5, 0.0).unwrap_err().unit, " °F");
    }
}
