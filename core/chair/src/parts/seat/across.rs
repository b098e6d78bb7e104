//! Slats from side to side.

use super::free::{Free, free};
use crate::choices::Back;
use crate::part::{Role, Side};
use crate::parts::maker::{Maker, id};
use crate::parts::stick;
use crestrail_geometry::{Place, Plane, Vec3};

/// The narrowest seat slat, mm (common practice, no source).
const LEAST_SLAT: f64 = 22.0;

/// The shortest seat slat, mm (common practice, no source).
const SHORTEST: f64 = 60.0;

/// Slats from the front, cut off along the sides of the seat; those that would run through a leg keep
/// clear of it.
pub(super) fn make(maker: &mut Maker<'_>) {
    let mut numbers = [0; 2];
    for (front, back) in strips(maker) {
        for free in free(&maker.lines.seat, front, back) {
            slat(maker, front, back, free, &mut numbers);
        }
    }
}

/// Front and back edge of each strip, in the plane of the seat.
fn strips(maker: &Maker<'_>) -> Vec<(f64, f64)> {
    let (design, seat) = (maker.design, &maker.lines.seat);
    let gap = design.seat_slat_gap();
    let length = seat.back - seat.front;
    // n slats of about the wished width never differ from it by more than half of a slat and gap over n.
    let count = ((length + gap) / (design.seat_slat_width() + gap)).round().max(2.0) as usize;
    let width = (length + gap) / count as f64 - gap;
    let start = |i: usize| seat.front + (width + gap) * i as f64;
    let mut strips: Vec<_> = (0..count).map(|i| (start(i), start(i) + width)).collect();
    // Between the back legs the seat goes on to the back face of the back rail, unless a slat there
    // would be too narrow.
    let between = seat.back + gap;
    if design.back() != Back::Open && seat.rail_back - between >= LEAST_SLAT {
        strips.push((between, seat.rail_back));
    }
    strips
}

fn slat(maker: &mut Maker<'_>, front: f64, back: f64, free: Free, numbers: &mut [usize; 2]) {
    let seat = &maker.lines.seat;
    let (side, ends) = match free {
        Free::Middle { half } => {
            let right =
                half.map_or_else(|| seat.right_edge(), |half| Plane { normal: Vec3::X, offset: half });
            (Side::Middle, [right.mirrored_x(), right])
        }
        Free::Right { from, to } => {
            (Side::Right, [Plane { normal: -Vec3::X, offset: -from }, Plane { normal: Vec3::X, offset: to }])
        }
    };
    let middle = Vec3::new(0.0, (front + back) / 2.0, seat.rise / 2.0);
    let place = seat.frame.place(&Place::new(middle, Vec3::X, Vec3::Y));
    let timber = stick::between(&place, back - front, seat.rise, ends.map(|end| seat.frame.plane(&end)));
    if timber.size.length < SHORTEST {
        return;
    }
    let number = &mut numbers[usize::from(side == Side::Right)];
    *number += 1;
    maker.add(id(Role::SeatSlat, side, *number), timber);
}
