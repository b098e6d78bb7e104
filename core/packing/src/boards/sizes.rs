//! No layout of a board is worth more than this, each piece as often as asked for at most: by area, and by
//! areas changed so that large pieces count for the room they block.
//!
//! A dual feasible function f keeps sums that fit: if lengths add up to at most 1, so do their f. Then the
//! sum of f(length)·g(width) over the pieces of a board is at most 1 too, whatever the layout (Fekete and
//! Schepers, Mathematical Programming 91, 2001). Used here: f(x) = x, and for k = 1, 2, …
//! u(x) = x where (k+1)·x is whole, else ⌊(k+1)·x⌋ ÷ k.

use super::problem::Size;
use super::strips::Way;

/// Largest k of the function u; 0 stands for f(x) = x.
const FINEST: i64 = 5;

/// Shares of one board that the pieces of each row take at least, one list for each pair of functions.
#[derive(Clone, Debug)]
pub(super) struct Shares(Vec<Vec<f64>>);

impl Shares {
    /// For a board with this room; pieces that may be turned take the smaller share.
    pub(super) fn new(ways: &[Way], rows: usize, room: Size) -> Self {
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
        Self(lists)
    }

    /// The most that a board can be worth: the least over all pairs of functions.
    pub(super) fn most(&self, values: &[i64], limits: &[u32]) -> i64 {
        self.0.iter().map(|shares| filled(shares, values, limits)).min().unwrap_or(i64::MAX)
    }
}

fn changed(size: i64, room: i64, k: i64) -> f64 {
    let steps = (k + 1) * size;
    if k == 0 || steps % room == 0 { size as f64 / room as f64 } else { (steps / room) as f64 / k as f64 }
}

/// The fractional knapsack: dearest per share first, the last one in part.
fn filled(shares: &[f64], values: &[i64], limits: &[u32]) -> i64 {
    let wanted = |r: &usize| limits[*r] > 0 && values[*r] > 0 && shares[*r].is_finite();
    let mut order: Vec<usize> = (0..values.len()).filter(wanted).collect();
    // A share of zero makes the value per share infinite, which comes first.
    let rate = |r: usize| values[r] as f64 / shares[r];
    order.sort_by(|&a, &b| rate(b).total_cmp(&rate(a)).then(a.cmp(&b)));
    let (mut room, mut most) = (1.0_f64, 0.0);
    for row in order {
        let limit = f64::from(limits[row]);
        let n = if shares[row] > 0.0 { (room / shares[row]).min(limit) } else { limit };
        most += n * values[row] as f64;
        room = (room - n * shares[row]).max(0.0);
    }
    // A little more, so that rounding never makes it less than it is.
    (most * (1.0 + 1e-9)) as i64 + 1
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two pieces wider and longer than half a board do not fit on it together, though their area would.
    #[test]
    fn large_pieces_block_a_board() {
        let ways = [Way { row: 0, size: [60, 60] }];
        let shares = Shares::new(&ways, 1, [100, 100]);
        assert!(shares.most(&[1000], &[2]) <= 1001);
    }

    #[test]
    fn the_functions_keep_what_fits() {
        for k in 0..=FINEST {
            for parts in [[20, 30, 50], [33, 33, 34], [10, 45, 45], [1, 1, 98]] {
                let sum: f64 = parts.iter().map(|&p| changed(p, 100, k)).sum();
                assert!(sum <= 1.0 + 1e-12, "k {k}: {parts:?} add up to {sum}");
            }
        }
    }
}
