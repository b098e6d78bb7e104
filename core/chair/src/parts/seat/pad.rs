//! A padded board of plywood, dropped between the rails of each place.

use super::field::Field;
use super::ledges;
use super::opening::{Face, field};
use super::plate::plate;
use crate::material::Material;
use crate::part::Role;
use crate::parts::maker::{Maker, id};
use crate::seating::ledge::SUNK;
use crate::seating::{PAD_ROOM, PLY_ROOM, plywood};
use crate::skeleton::Bay;

/// Ledges, board and pad of every place.
pub(super) fn make(maker: &mut Maker<'_>) {
    let mut numbers = [0; 2];
    for bay in &maker.lines.bays {
        let Some(opening) = opening(maker, bay, 0.0) else { continue };
        let across = opening.right.x(opening.back) - opening.left.x(opening.back);
        let board = plywood(across.min(opening.back - opening.front));
        ledges::make(maker, bay, board, &mut numbers);
        let seat = &maker.lines.seat;
        let levels = [-SUNK - board, -SUNK, seat.rise];
        let pieces =
            [(Role::PadBoard, Material::Plywood, PLY_ROOM), (Role::Pad, Material::Padding, PAD_ROOM)];
        for ((role, material, room), pair) in pieces.into_iter().zip(levels.windows(2)) {
            if let Some(field) = self::opening(maker, bay, room) {
                let timber = plate(seat, &field.outline(), pair[0], pair[1]);
                maker.add_of(id(role, bay.side, 1), timber, material);
            }
        }
    }
}

/// The opening between the inner faces of rails and legs, `room` smaller all round.
fn opening(maker: &Maker<'_>, bay: &Bay, room: f64) -> Option<Field> {
    let levels = (-SUNK - plywood(f64::INFINITY), maker.lines.seat.rise);
    let field = field(maker, bay, [Face::Inner; 4], levels, room)?;
    let right = field.right.moved(-room - post_in_the_way(maker, bay, &field));
    Some(Field {
        front: field.front + room,
        back: field.back - room,
        left: if bay.near.is_some() { field.left.moved(room) } else { right.mirrored() },
        right,
        ..field
    })
}

/// How far the square post of an arm stands out from a slanting rail into the opening, mm.
fn post_in_the_way(maker: &Maker<'_>, bay: &Bay, field: &Field) -> f64 {
    let posts = maker.lines.arms.as_ref().filter(|arms| arms.post.is_some() && bay.far == 0);
    let post = posts.and(maker.lines.seat.through.last());
    let out = |y: f64, x: f64| field.right.x(y) - x;
    post.map_or(0.0, |f| out(f.y.0, f.x.0).max(out(f.y.1, f.x.0)).max(0.0))
}
