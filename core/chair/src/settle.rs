//! Wishes that give way: a size that has no room is drawn to the nearest one that has, and says so.

/// A knob whose value was not taken as it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Settled {
    /// Name of the knob.
    pub knob: &'static str,
    /// What it asks for, in its own unit.
    pub wish: f64,
    /// What was taken.
    pub taken: f64,
    /// The sign of the unit, with its space.
    pub unit: &'static str,
    /// Why, as a sentence for somebody who knows nothing about joints.
    pub why: &'static str,
}

/// Collects the wishes that gave way.
#[derive(Clone, Debug, Default)]
pub struct Settling {
    /// Those that did, in the order in which they came up.
    pub settled: Vec<Settled>,
}

/// Differences below this are not worth a word, in any unit.
const NOTHING: f64 = 1e-6;

impl Settling {
    /// A length in mm drawn into `least..=most`; `most` wins where the two cross.
    pub fn length(&mut self, knob: &'static str, wish: f64, least: f64, most: f64, why: &'static str) -> f64 {
        self.take(knob, wish, wish.max(least).min(most), " mm", why)
    }

    /// A value in the sign's unit that was worked out elsewhere.
    pub fn take(
        &mut self,
        knob: &'static str,
        wish: f64,
        taken: f64,
        unit: &'static str,
        why: &'static str,
    ) -> f64 {
        let known = self.settled.iter().any(|s| s.knob == knob);
        if (wish - taken).abs() > NOTHING && !known {
            self.settled.push(Settled { knob, wish, taken, unit, why });
        }
        taken
    }
}
