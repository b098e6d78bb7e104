//! The air in which a chair will stand, and how dry the wood was when it was made.

use crestrail_timber::OutOfRange;
use crestrail_timber::Species;
use crestrail_timber::moisture::Humidity;
use crestrail_timber::movement::Across;

/// The seasons of a place as moisture of the wood, % of its ovendry mass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Climate {
    /// In the driest weeks.
    pub dry: f64,
    /// In the dampest.
    pub damp: f64,
    /// When the chair is made.
    pub made: f64,
}

/// How a size across the grain changes from the making of the chair to either season, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    /// In the driest weeks: below zero where it shrinks.
    pub dry: f64,
    /// In the dampest: above zero where it swells.
    pub damp: f64,
}

impl Change {
    /// The greater of the two, either way.
    pub fn most(self) -> f64 {
        self.dry.abs().max(self.damp.abs())
    }
}

impl Climate {
    /// Of the relative humidity in the driest and the dampest weeks, and the moisture at making, %.
    pub fn of(humidity: [Humidity; 2], made: f64) -> Self {
        let [dry, damp] = humidity.map(Humidity::moisture_in_a_room);
        Self { dry, damp, made }
    }

    /// Change of a size across the grain, taken as tangential, the greater.
    pub fn change(&self, species: &Species, size: f64) -> Result<Change, OutOfRange> {
        let to = |moisture| species.movement.change(Across::Tangential, size, self.made, moisture);
        Ok(Change { dry: to(self.dry)?, damp: to(self.damp)? })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 30 and 65 % of relative humidity make about 6 and 12 % of moisture (the handbook's table).
    #[test]
    fn a_heated_house() {
        let house = Climate::of([Humidity::percent(30), Humidity::percent(65)], 9.0);
        assert!((house.dry - 6.2).abs() < 0.1 && (house.damp - 12.0).abs() < 0.1, "{house:?}");
        // Red oak, Table 13-5: 0.00369 for 1 %; 400 mm.
        let oak = crestrail_timber::species("oak_red").unwrap();
        let change = house.change(oak, 400.0).unwrap();
        assert!((change.damp - 400.0 * 0.003_69 * (house.damp - 9.0)).abs() < 1e-9);
        assert!(change.dry < 0.0 && change.most() == change.damp.max(-change.dry));
    }
}
