//! What one sits on.

mod across;
mod board;
mod buttons;
mod cord;
mod field;
mod free;
mod ledges;
mod lengthwise;
mod opening;
mod pad;
mod plate;

use super::maker::Maker;
use crate::choices::Seat;

/// The seat.
pub(super) fn make(maker: &mut Maker<'_>) {
    match maker.design.seat() {
        Seat::Across => across::make(maker),
        Seat::Lengthwise => lengthwise::make(maker),
        Seat::Board => board::make(maker),
        Seat::Pad => pad::make(maker),
        Seat::Cord => cord::make(maker),
    }
}

#[cfg(test)]
mod tests;
