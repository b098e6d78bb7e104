//! Shares of a board that rectangles take at least: by area, and by areas changed so that large pieces count
//! for the room they block.

use super::problem::Size;
use super::strips::Way;
use crate::shares::{Shares, changed};

/// Largest k of the function u.
const FINEST: i64 = 5;

/// For a board with this room, one list for each pair of functions; pieces that may be turned take the
/// smaller share.
pub(super) fn shares(ways: &[Way], rows: usize, room: Size) -> Shares {
    let mut lists = Vec::new();
    for f in 0..=FINEST {
        for g in 0..=FINEST {
            let mut shares = vec![f64::INFINITY; rows];
            for way in ways.iter().filter(|w| w.size[0] <= room[0] && w.size[1] <= room[1]) {
                let share = changed(way.size[0], room[0], f) * changed(way.size[1], room[1], g);
                shares[way.row] = shares[way.row].min(share);
            }
            lists.push(shares);
        }
    }
    Shares(lists)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two pieces wider and longer than half a board do not fit on it together, though their area would.
    #[test]
    fn large_pieces_block_a_board() {
        let ways = [Way { row: 0, size: [60, 60] }];
        let shares = shares(&ways, 1, [100, 100]);
        assert!(shares.most(&[1000], &[2]) <= 1001);
    }
}
