//! Orders as a chair workshop has them, drawn at random from a seed; for the bench and the tests.

use crestrail_packing::{bars, boards};

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

/// Chairs of one design: 8 to 20 lengths, two or four of each a chair, from 2 to 8 bars.
pub(crate) fn bars(seed: u64) -> bars::Problem {
    let mut dice = Dice(seed * 977 + 5);
    let chairs = [6, 8, 12, 24, 36, 48][dice.below(6) as usize];
    let pieces: Vec<bars::Piece> = (0..8 + dice.below(13))
        .map(|_| bars::Piece {
            length: dice.between(180, 1100),
            count: chairs * [1, 2, 2, 4][dice.below(4) as usize],
        })
        .collect();
    let stock: Vec<bars::Bar> = (0..2 + dice.below(7))
        .map(|_| {
            let length = 1800.0 + 100.0 * dice.below(32) as f64;
            let price = (length * (0.45 + 0.001 * dice.below(150) as f64)) as i64;
            bars::Bar { length, price, count: (dice.below(3) == 0).then(|| 1 + dice.below(12) as u32) }
        })
        .collect();
    let stock = [stock, vec![bars::Bar { length: 2400.0, price: 1290, count: None }]].concat();
    bars::Problem::new(&stock, &pieces, 3.0, 15.0).expect("a sound problem")
}

/// Chairs of one design: 4 to 12 sizes of rails, slats, panels, two or four of each a chair.
pub(crate) fn boards(seed: u64) -> boards::Problem {
    let mut dice = Dice(seed * 733 + 11);
    let chairs = [2, 4, 6, 8, 12, 24, 48][dice.below(7) as usize];
    let pieces: Vec<boards::Piece> = (0..4 + dice.below(9))
        .map(|_| boards::Piece {
            length: dice.between(200, 950),
            width: dice.between(35, 130),
            count: chairs * [1, 2, 2, 4][dice.below(4) as usize],
            grain: dice.below(5) > 0,
        })
        .collect();
    let stock: Vec<boards::Board> = (0..2 + dice.below(4))
        .map(|_| {
            let (length, width) =
                (1800.0 + 300.0 * dice.below(6) as f64, 150.0 + 25.0 * dice.below(7) as f64);
            let price = (length * width * (0.008 + 0.00001 * dice.below(300) as f64)) as i64;
            boards::Board { length, width, price, count: None }
        })
        .collect();
    boards::Problem::new(&stock, &pieces, 3.0, boards::Trim { end: 25.0, edge: 8.0 })
        .expect("a sound problem")
}
