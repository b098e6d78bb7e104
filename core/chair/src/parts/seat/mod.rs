//! What one sits on.

mod across;
mod free;

use super::maker::Maker;
use crate::choices::Seat;

/// The seat.
pub(super) fn make(maker: &mut Maker<'_>) {
    match maker.design.seat() {
        Seat::Across | Seat::Lengthwise | Seat::Board | Seat::Pad | Seat::Cord => across::make(maker),
    }
}
