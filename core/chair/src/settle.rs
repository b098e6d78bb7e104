//! Wishes that give way: a size that has no room is drawn to the nearest one that has, and says so.

/// A knob whose value was not taken as it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Settled {
    /// Name of the knob.
    pub knob: &'static str,
    /// What was asked for and what was taken, in words; `None` for a choice, of which the reason says enough.
    pub figures: Option<Figures>,
    /// Why, as a sentence for somebody who knows nothing about joints.
    pub why: &'static str,
}

/// A wish in figures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figures {
    /// What the knob asks for.
    pub wish: f64,
    /// What was taken.
    pub taken: f64,
    /// The unit of both; none for a count.
    pub unit: &'static str,
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
        let taken = wish.max(least).min(most);
        self.figures(knob, Figures { wish, taken, unit: "mm" }, why);
        taken
    }

    /// A share in percent that was worked out elsewhere.
    pub fn share(&mut self, knob: &'static str, wish: f64, taken: f64, why: &'static str) {
        self.figures(knob, Figures { wish, taken, unit: "%" }, why);
    }

    /// A count of which only as many were taken as have room.
    pub fn count(&mut self, knob: &'static str, wish: usize, taken: usize, why: &'static str) -> usize {
        self.figures(knob, Figures { wish: wish as f64, taken: taken as f64, unit: "" }, why);
        taken
    }

    /// A choice that could not be kept.
    pub fn choice(&mut self, knob: &'static str, why: &'static str) {
        self.add(Settled { knob, figures: None, why });
    }

    fn figures(&mut self, knob: &'static str, figures: Figures, why: &'static str) {
        if (figures.wish - figures.taken).abs() > NOTHING {
            self.add(Settled { knob, figures: Some(figures), why });
        }
    }

    /// Two pieces may ask for one knob; the first says it.
    fn add(&mut self, settled: Settled) {
        if !self.settled.iter().any(|s| s.knob == settled.knob) {
            self.settled.push(settled);
        }
    }
}
