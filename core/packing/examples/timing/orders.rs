//! Orders as a chair workshop has them, drawn at random from a seed.

/// Numbers at random, always the same for one seed (Knuth's 64-bit congruence).
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    /// A whole number from 0 to below `n`.
    pub(crate) fn below(&mut self, n: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % n
    }

    /// A whole number of millimetres between two.
    pub(crate) fn between(&mut self, least: u64, most: u64) -> f64 {
        (least + self.below(most - least + 1)) as f64
    }
}
