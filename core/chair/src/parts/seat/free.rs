//! Where a strip of the seat is free of the legs and posts that stand through it.

use crate::seating::CLEAR;
use crate::skeleton::SeatLines;
use crestrail_sorting::Order as _;

/// A free length of a strip across the seat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Free {
    /// Symmetric about the middle of the chair; `half` where a leg ends it, `None` where the seat's
    /// own edge does.
    Middle { half: Option<f64> },
    /// Between two legs on the right half.
    Right { from: f64, to: f64 },
}

/// The free lengths on the right half and in the middle of the strip from `front` to `back`. What lies
/// outside the outermost leg in the way is left out.
pub(super) fn free(seat: &SeatLines, front: f64, back: f64) -> Vec<Free> {
    let in_the_way = seat.through.iter().filter(|f| f.y.0 - CLEAR < back && f.y.1 + CLEAR > front);
    let mut blocks: Vec<(f64, f64)> = in_the_way.map(|f| (f.x.0 - CLEAR, f.x.1 + CLEAR)).collect();
    blocks.order_by(|a, b| a.0.total_cmp(&b.0));
    let Some(&first) = blocks.first() else { return vec![Free::Middle { half: None }] };
    let mut found = Vec::new();
    if first.0 > 0.0 {
        found.push(Free::Middle { half: Some(first.0) });
    }
    found.extend(blocks.windows(2).map(|pair| Free::Right { from: pair[0].1, to: pair[1].0 }));
    found
}
