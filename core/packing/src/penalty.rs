//! What leaving out a piece costs.

use crate::units::gcd;

/// One kind of stock: its price, how many there are (nothing for without end), how many may be used.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Offer {
    pub(crate) price: i64,
    pub(crate) count: Option<u32>,
    pub(crate) limit: u32,
}

/// Penalties stay below this times a thousand, so that sums of them stay exact.
const MOST: i64 = 10_000_000_000;

/// Cost of leaving out a piece of each row: twice a bar or board of its own where there are some without
/// end, so that it never pays; else more than all stock together, and more for large pieces, so that as
/// little as can be is left out.
pub(crate) fn penalties(offers: &[Offer], sizes: &[i64], fits: &dyn Fn(usize, usize) -> bool) -> Vec<i64> {
    let step = offers.iter().fold(0, |g, o| gcd(g, o.price)).max(1);
    let all: i64 =
        offers.iter().map(|o| o.price.saturating_mul(i64::from(o.limit))).fold(0, i64::saturating_add);
    let smallest = sizes.iter().copied().min().unwrap_or(1).max(1);
    let endless = |row: usize| {
        let kinds = (0..offers.len()).filter(|&k| offers[k].count.is_none() && fits(row, k));
        kinds.map(|k| offers[k].price).min().filter(|p| *p > 0)
    };
    let rare = |row: usize| {
        let share = (sizes[row].saturating_mul(4) / smallest).clamp(4, 1000);
        (all / step + 1).min(MOST / step).saturating_mul(step).saturating_mul(share)
    };
    (0..sizes.len()).map(|row| endless(row).map_or_else(|| rare(row), |price| price * 2)).collect()
}
