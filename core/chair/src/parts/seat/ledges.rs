//! Strips inside the rails on which the board of a pad lies.

use super::opening::{Beside, Face, field, rail_face, rail_id};
use crate::part::{Role, Side};
use crate::parts::maker::{Maker, id};
use crate::parts::stick;
use crate::seating::ledge::{APART, HEIGHT, OUT, SUNK};
use crate::skeleton::{Bay, Facing, Zone};
use crestrail_geometry::{Plane, Vec3};

/// The shortest strip worth its screws, mm (common practice, no source).
const SHORTEST: f64 = 60.0;

/// Strips on the rails round a bay; they carry a board `board` mm thick.
pub(super) fn make(maker: &mut Maker<'_>, bay: &Bay, board: f64, numbers: &mut [usize; 2]) {
    for beside in [Beside::Front, Beside::Back] {
        if let Some(ends) = ends_across(maker, bay, beside, board) {
            strip(maker, bay, beside, ends, board, bay.side, numbers);
        }
    }
    let sides = [(Beside::Near, bay.near), (Beside::Far, Some(bay.far))];
    for (beside, frame) in sides {
        if let Some(frame) = frame.map(|i| &maker.lines.frames[i]) {
            let legs = [(&frame.front, Facing::Back), (&frame.back, Facing::Front)];
            let ends = legs.map(|(leg, facing)| {
                let face = leg.face(facing, Zone::Rails);
                Plane { offset: face.offset + APART, ..face }.flipped()
            });
            strip(maker, bay, beside, ends, board, Side::Right, numbers);
        }
    }
}

/// Between the strips of the sides, and clear of the legs, in chair space.
fn ends_across(maker: &Maker<'_>, bay: &Bay, beside: Beside, board: f64) -> Option<[Plane; 2]> {
    let levels = (-SUNK - board - HEIGHT - APART, 0.0);
    let field = field(maker, bay, [Face::Inner; 4], levels, APART)?;
    let near = match beside {
        Beside::Front => (field.front, field.front + 2.0 * OUT),
        _ => (field.back - 2.0 * OUT, field.back),
    };
    let middle = (field.left.x(near.0) + field.right.x(near.0)) / 2.0;
    let beside_strip = OUT + 2.0 * APART;
    let (right, left) = (field.right.moved(-beside_strip), field.left.moved(beside_strip));
    let in_the_way = || field.blocks.iter().filter(|b| b.y.0 < near.1 && b.y.1 > near.0);
    let high = in_the_way().filter(|b| b.x.0 > middle).map(|b| b.x.0);
    let low = in_the_way().filter(|b| b.x.1 < middle).map(|b| b.x.1);
    let high = high.fold(right.x(near.0).min(right.x(near.1)), f64::min);
    let low = low.fold(left.x(near.0).max(left.x(near.1)), f64::max);
    let frame = &maker.lines.seat.frame;
    let ends = [Plane { normal: -Vec3::X, offset: -low }, Plane { normal: Vec3::X, offset: high }];
    (high - low >= SHORTEST).then(|| ends.map(|end| frame.plane(&end)))
}

fn strip(
    maker: &mut Maker<'_>,
    bay: &Bay,
    beside: Beside,
    ends: [Plane; 2],
    board: f64,
    side: Side,
    numbers: &mut [usize; 2],
) {
    let seat = &maker.lines.seat;
    let rail = rail_id(maker, bay, beside).and_then(|rail| maker.parts.iter().find(|p| p.id == rail));
    let Some((rail, face)) = rail.zip(rail_face(maker, bay, beside, Face::Inner)) else { return };
    let inwards = seat.frame.direction(face.normal);
    let tops = seat.rail_tops();
    let tops = Plane { offset: tops.offset - SUNK - board, ..tops };
    let middle = rail.place.moved(inwards * ((rail.size.thickness + OUT) / 2.0));
    let timber = stick::under(&tops, &middle, HEIGHT, OUT, ends);
    if timber.size.length < SHORTEST {
        return;
    }
    let number = &mut numbers[usize::from(side == Side::Right)];
    *number += 1;
    maker.add(id(Role::Ledge, side, *number), timber);
}
