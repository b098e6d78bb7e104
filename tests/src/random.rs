//! Random designs, always the same ones for one seed.

use crestrail_chair::choices::{Choice, Family};
use crestrail_chair::design::Design;
use crestrail_chair::knob::{Kind, Knob};
use serde_json::{Map, Value, json};

/// SplitMix64 (Steele, Lea and Flood 2014): small, and the same on every machine.
#[derive(Clone, Debug)]
pub struct Random(u64);

impl Random {
    /// The sequence of a seed.
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next 64 bits.
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// From 0 to 1, without 1.
    pub fn share(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// One of so many places, from 0.
    pub fn below(&mut self, count: usize) -> usize {
        (self.bits() % count as u64) as usize
    }

    /// A design of any kind within its knob box. Every third one has values anywhere, every third values on the
    /// page's steps, and every third defaults mixed with limits, where sizes coincide.
    pub fn design(&mut self) -> Design {
        let way = self.below(3);
        let family = Family::ALL[self.below(Family::ALL.len())].0;
        let values: Map<String, Value> =
            family.knobs().iter().map(|knob| (knob.name.to_owned(), self.value(knob, way))).collect();
        Design::from_value(&Value::Object(values)).expect("values within the knobs' limits")
    }

    fn value(&mut self, knob: &Knob, way: usize) -> Value {
        match knob.kind {
            Kind::Choice { .. } => {
                let picks = knob.picks();
                json!(picks[self.below(picks.len())].name)
            }
            Kind::Count { min, max, .. } => json!(min as usize + self.below((max - min) as usize + 1)),
            Kind::Range { min, max, step, default, .. } => json!(match way {
                0 => min + (max - min) * self.share(),
                1 => min + step * self.below(((max - min) / step) as usize + 1) as f64,
                _ => [min, max, default, default, default, default][self.below(6)],
            }),
        }
    }
}
