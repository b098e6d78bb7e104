//! Rows of congruent pieces by their exact pitch.
//!
//! A stack is pieces one above the other, all alike or every other one turned, every other one shifted
//! along; each lies as near as the outlines allow to *all* below it, not only to the next. Stacks follow
//! along the plank as near as the outlines allow, all alike or every other one turned, at the same edge or
//! at the other.

use super::bed::{Pairs, Placed};
use super::variant::Variant;
use crestrail_sorting::Order as _;
use std::collections::BTreeMap;

/// Shifts along tried for every other piece of a stack, as shares of the length.
const SHIFTS: [f64; 9] = [0.0, 0.02, -0.02, 0.05, -0.05, 0.1, -0.1, 0.2, -0.2];

/// The arrangement with most pieces of one shape on a bed, the shortest of them; left ones first.
pub(super) fn fullest(shape: usize, bed: [f64; 2], most: usize, pairs: &mut Pairs<'_>) -> Vec<Placed> {
    let own: Vec<usize> = (0..pairs.variants.len()).filter(|&v| pairs.variants[v].shape == shape).collect();
    let mut stacks: Vec<Vec<Placed>> = Vec::new();
    for &first in &own {
        for &second in &own {
            let length = pairs.variants[first].high[0] - pairs.variants[first].low[0];
            for shift in SHIFTS {
                stacks.push(stack(first, second, shift * length, bed, pairs));
            }
        }
    }
    // Only high stacks and short ones can be part of the best; the rest would be tried in vain.
    stacks.retain(|s| !s.is_empty());
    let variants = pairs.variants;
    stacks.order_by(|a, b| b.len().cmp(&a.len()).then(span(a, variants).total_cmp(&span(b, variants))));
    stacks.truncate(TRIED);
    let mut best: Vec<Placed> = Vec::new();
    let mut known = Known::new();
    for a in &stacks {
        for b in &stacks {
            for top in [false, true] {
                let rows = along([a, b], top, bed, most, pairs, &mut known);
                let longer = rows.len() > best.len();
                if longer
                    || (rows.len() == best.len() && span(&rows, variants) < span(&best, variants) - 1e-9)
                {
                    best = rows;
                }
            }
        }
    }
    best
}

/// Least shifts along the plank by both variants and by the bits of their shift across.
type Known = BTreeMap<(usize, usize, u64), f64>;

/// Stacks tried against each other.
const TRIED: usize = 8;

fn span(placed: &[Placed], variants: &[Variant]) -> f64 {
    let right = placed.iter().map(|p| p.x + variants[p.variant].high[0]).fold(f64::NEG_INFINITY, f64::max);
    let left = placed.iter().map(|p| p.x + variants[p.variant].low[0]).fold(f64::INFINITY, f64::min);
    right - left
}

/// A stack at the lower edge of the bed, its left end at zero.
fn stack(first: usize, second: usize, shift: f64, bed: [f64; 2], pairs: &mut Pairs<'_>) -> Vec<Placed> {
    let mut placed: Vec<Placed> = Vec::new();
    for k in 0.. {
        let (variant, x) = if k % 2 == 0 { (first, 0.0) } else { (second, shift) };
        let own = &pairs.variants[variant];
        let (low, high) = (own.low[1], own.high[1]);
        let y = placed.iter().fold(-low, |y, p| y.max(p.y + beyond(pairs, p.variant, variant, 0, x - p.x)));
        if y + high > bed[1] + 1e-9 || k > 500 {
            break;
        }
        placed.push(Placed { variant, x, y });
    }
    let left = placed.iter().map(|p| p.x + pairs.variants[p.variant].low[0]).fold(f64::INFINITY, f64::min);
    placed.iter_mut().for_each(|p| p.x -= left);
    placed
}

/// The least shift along the other axis that clears a pair, at a shift along `axis`.
fn beyond(pairs: &mut Pairs<'_>, fixed: usize, moving: usize, axis: usize, at: f64) -> f64 {
    let regions = pairs.of(fixed, moving);
    pairs.work += 12 * regions.list.len() as u64;
    regions.list.iter().filter_map(|r| r.beyond(axis, at)).fold(f64::NEG_INFINITY, f64::max)
}

/// Stacks one after the other, every other one `b`; with `top` those lie at the upper edge.
fn along(
    [a, b]: [&[Placed]; 2],
    top: bool,
    bed: [f64; 2],
    most: usize,
    pairs: &mut Pairs<'_>,
    known: &mut Known,
) -> Vec<Placed> {
    let height = b.iter().map(|p| p.y + pairs.variants[p.variant].high[1]).fold(0.0, f64::max);
    let lift = if top { bed[1] - height } else { 0.0 };
    let mut placed: Vec<Placed> = Vec::new();
    for k in 0.. {
        let (next, up) = if k % 2 == 0 { (a, 0.0) } else { (b, lift) };
        let mut start: f64 = 0.0;
        // Only the last stacks can be near: those before them lie behind.
        let recent = placed.len().saturating_sub(2 * (a.len() + b.len()));
        for p in &placed[recent..] {
            for q in next {
                let shift = q.y + up - p.y;
                let least = known.entry((p.variant, q.variant, shift.to_bits()));
                let least = *least.or_insert_with(|| beyond(pairs, p.variant, q.variant, 1, shift));
                start = start.max(p.x - q.x + least);
            }
        }
        let fits = |q: &&Placed| start + q.x + pairs.variants[q.variant].high[0] <= bed[0] + 1e-9;
        let part: Vec<Placed> =
            next.iter().filter(fits).map(|q| Placed { x: q.x + start, y: q.y + up, ..*q }).collect();
        let whole = part.len() == next.len();
        placed.extend(part);
        if !whole || placed.len() >= most {
            break;
        }
    }
    placed.truncate(most);
    placed
}
