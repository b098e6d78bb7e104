//! Random designs over all knobs, always the same for one seed.

use crate::choices::{Choice, Family};
use crate::design::Design;
use crate::knob::{Kind, Knob};
use serde_json::{Map, Value, json};

/// SplitMix64 (Steele, Lea and Flood 2014).
pub(crate) struct Random(u64);

impl Random {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn below(&mut self, count: usize) -> usize {
        (self.next() % count as u64) as usize
    }

    fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A design of any kind: a third at limits and first values, the others anywhere.
    pub(crate) fn design(&mut self) -> Design {
        let family = Family::ALL[self.below(Family::ALL.len())].0;
        let limits = self.below(3) == 0;
        let value = |knob: &Knob| (knob.name.to_owned(), self.value(knob, limits));
        let values: Map<String, Value> = family.knobs().iter().map(value).collect();
        Design::from_value(&Value::Object(values)).expect("values within limits")
    }

    fn value(&mut self, knob: &Knob, limits: bool) -> Value {
        match knob.kind {
            Kind::Choice { .. } => {
                let picks = knob.picks();
                json!(picks[self.below(picks.len())].name)
            }
            Kind::Count { min, max, .. } => json!(usize::from(min) + self.below(usize::from(max - min) + 1)),
            Kind::Range { min, max, default, .. } if limits => {
                json!([min, max, default, default][self.below(4)])
            }
            Kind::Range { min, max, .. } => json!(min + (max - min) * self.share()),
        }
    }
}
