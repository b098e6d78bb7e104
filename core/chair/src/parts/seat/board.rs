//! A solid board, its grain from side to side, held by buttons so that it can swell and shrink.

use super::buttons;
use super::field::{Edge, Field, mirrored};
use super::plate::plate;
use crate::choices::Back;
use crate::part::{Role, Side};
use crate::parts::maker::{Maker, id};
use crate::seating::{BOARD_CLEAR, CLEAR};
use crate::skeleton::Footprint;

/// The notch round what stands there: the board moves to the front and the back.
fn cleared(f: &Footprint) -> Footprint {
    Footprint { x: (f.x.0 - CLEAR, f.x.1 + CLEAR), y: (f.y.0 - BOARD_CLEAR, f.y.1 + BOARD_CLEAR) }
}

/// The board over all places, notched round what stands through it, and its buttons.
pub(super) fn make(maker: &mut Maker<'_>) {
    let seat = &maker.lines.seat;
    let open = maker.design.back() == Back::Open;
    let right = Edge { at: seat.side.0, by: seat.side.1 };
    let through: Vec<Footprint> = seat.through.iter().map(cleared).collect();
    let twins = through.iter().filter(|f| f.x.0 > 0.0).map(mirrored);
    let field = Field {
        front: seat.front,
        back: if open { seat.back } else { seat.rail_back.max(seat.back) },
        left: right.mirrored(),
        right,
        blocks: through.iter().copied().chain(twins).collect(),
    };
    let board = id(Role::SeatBoard, Side::Middle, 1);
    maker.add(board, plate(seat, &field.outline(), 0.0, seat.rise));
    buttons::make(maker);
}
