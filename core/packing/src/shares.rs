//! Shares of a bar, board or plank that pieces take at least.
//!
//! A list of shares is *valid* for a kind of stock if, whatever is laid on one of it, the shares of the
//! pieces add up to at most 1: the areas are one such list. A dual feasible function f keeps sums that fit:
//! if parts of a whole add up to at most 1, so do their f. Then the f of lengths on a bar, and the products
//! f(length)·g(width) on a board, are valid as well (Fekete and Schepers, Mathematical Programming 91,
//! 2001). Used here: f(x) = x, and for k = 1, 2, … u(x) = x where (k+1)·x is whole, else ⌊(k+1)·x⌋ ÷ k.

use crestrail_sorting::Order as _;

/// Valid lists of shares of one kind of stock, a share for each row of pieces; infinite where a piece does
/// not fit. The first list is the plain one, by length or area.
#[derive(Clone, Debug)]
pub(crate) struct Shares(pub(crate) Vec<Vec<f64>>);

impl Shares {
    /// For lengths on a bar with this room.
    pub(crate) fn of_lengths(weights: &[i64], room: i64) -> Self {
        let share = |w: i64, k| if w <= room { changed(w, room, k) } else { f64::INFINITY };
        Self((0..=FINEST_LENGTH).map(|k| weights.iter().map(|&w| share(w, k)).collect()).collect())
    }

    /// The most that one can be worth: the least over all lists.
    pub(crate) fn most(&self, values: &[i64], limits: &[u32]) -> i64 {
        let values: Vec<f64> = values.iter().map(|&v| v as f64).collect();
        let most = self.0.iter().map(|list| filled(list, &values, limits)).fold(f64::INFINITY, f64::min);
        // A little more, so that rounding never makes it less than it is.
        (most * (1.0 + 1e-9)) as i64 + 1
    }
}

/// Largest k of the function u for lengths on bars.
const FINEST_LENGTH: i64 = 20;

/// The changed share of a part of a whole; k = 0 stands for f(x) = x.
pub(crate) fn changed(part: i64, whole: i64, k: i64) -> f64 {
    let steps = (k + 1) * part;
    if k == 0 || steps % whole == 0 { part as f64 / whole as f64 } else { (steps / whole) as f64 / k as f64 }
}

/// The fractional knapsack: dearest per share first, the last one in part.
pub(crate) fn filled(shares: &[f64], values: &[f64], limits: &[u32]) -> f64 {
    let wanted = |r: &usize| limits[*r] > 0 && values[*r] > 0.0 && shares[*r].is_finite();
    let mut order: Vec<usize> = (0..values.len()).filter(wanted).collect();
    // A share of zero makes the value per share infinite, which comes first.
    let rate = |r: usize| values[r] / shares[r];
    order.order_by(|&a, &b| rate(b).total_cmp(&rate(a)).then(a.cmp(&b)));
    let (mut room, mut most) = (1.0_f64, 0.0);
    for row in order {
        let limit = f64::from(limits[row]);
        let n = if shares[row] > 0.0 { (room / shares[row]).min(limit) } else { limit };
        most += n * values[row];
        room = (room - n * shares[row]).max(0.0);
    }
    most
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_functions_keep_what_fits() {
        for k in 0..=FINEST_LENGTH {
            for parts in [[20, 30, 50], [33, 33, 34], [10, 45, 45], [1, 1, 98]] {
                let sum: f64 = parts.iter().map(|&p| changed(p, 100, k)).sum();
                assert!(sum <= 1.0 + 1e-12, "k {k}: {parts:?} add up to {sum}");
            }
        }
    }
}
