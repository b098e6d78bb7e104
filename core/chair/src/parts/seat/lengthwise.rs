//! Slats from front to back, parallel to the middle.
//!
//! No slat straddles a leg, or it would miss the back rail: before each leg lies one slat on the side
//! rail, and between the legs as many as fit evenly lie on the front and the back rail.

use crate::choices::Back;
use crate::part::{Role, Side, Size};
use crate::parts::maker::{Maker, Timber, id};
use crate::parts::stick;
use crate::seating::CLEAR;
use crate::skeleton::{Footprint, SeatLines};
use crestrail_geometry::{Body, Place, Plane, Vec3};
use crestrail_sorting::Order as _;

/// The shortest slat, mm (common practice, no source).
const SHORTEST: f64 = 60.0;

/// A slat's strip on the right half, or across the middle where `from` is the mirror image of `to`.
#[derive(Clone, Copy, Debug)]
struct Strip {
    from: f64,
    /// `None`: up to the side of the seat.
    to: Option<f64>,
}

/// The slats of the right half and the one in the middle.
pub(super) fn make(maker: &mut Maker<'_>) {
    let mut numbers = [0; 2];
    let open = maker.design.back() == Back::Open;
    let seat = &maker.lines.seat;
    let back = if open { seat.back } else { seat.rail_back };
    for strip in strips(seat, maker.design.seat_slat_width(), maker.design.seat_slat_gap()) {
        for (front, back) in free(seat, strip, back) {
            slat(maker, strip, front, back, &mut numbers);
        }
    }
}

/// What stands through the seat, one above the other seen from the front: the strips of x they take.
fn columns(seat: &SeatLines) -> Vec<(f64, f64)> {
    let mut columns: Vec<(f64, f64)> = Vec::new();
    let outermost = seat.through.first().map_or(f64::INFINITY, |f| f.x.0);
    for f in &seat.through {
        // Legs and posts of arms stand in the outermost frame, as the first leg does.
        match columns.first_mut().filter(|_| f.x.1 > outermost) {
            Some(outer) => *outer = (outer.0.min(f.x.0), outer.1.max(f.x.1)),
            None => columns.push(f.x),
        }
    }
    columns.order_by(|a, b| a.0.total_cmp(&b.0));
    columns
}

/// All strips from the middle outwards.
fn strips(seat: &SeatLines, width: f64, gap: f64) -> Vec<Strip> {
    let room = gap.max(CLEAR);
    let columns = columns(seat);
    let mut strips = Vec::new();
    // Where the strips begin: the middle of the chair, until a column has been passed.
    let mut start = None;
    for (i, &(low, high)) in columns.iter().enumerate() {
        between(start, low - room, width, gap, &mut strips);
        let outermost = i + 1 == columns.len();
        let from = low - room + gap;
        let to = (!outermost).then_some(high + room - gap);
        strips.push(Strip { from, to });
        start = Some(high + room);
    }
    if columns.is_empty() {
        let edge = seat.half_width(seat.front).min(seat.half_width(seat.back));
        between(None, edge, width, gap, &mut strips);
        if let Some(last) = strips.last_mut() {
            last.to = None;
        }
    }
    strips
}

/// Even strips up to `end`: from `start`, or from the mirror image of `end` with only the right half kept.
fn between(start: Option<f64>, end: f64, width: f64, gap: f64, strips: &mut Vec<Strip>) {
    let from = start.unwrap_or(-end);
    let count = ((end - from + gap) / (width + gap)).round().max(1.0) as usize;
    let step = (end - from + gap) / count as f64;
    let all = (0..count).map(|i| from + step * i as f64).map(|x| (x, x + step - gap));
    let kept = all.filter(|(low, high)| start.is_some() || low + high > -1e-9);
    strips.extend(kept.filter(|(low, high)| high > low).map(|(from, to)| Strip { from, to: Some(to) }));
}

/// The lengths of a strip that are free of legs and posts.
fn free(seat: &SeatLines, strip: Strip, back: f64) -> Vec<(f64, f64)> {
    let to = strip.to.unwrap_or(f64::INFINITY);
    let meets = |f: &&Footprint| f.x.0 - CLEAR < to && f.x.1 + CLEAR > strip.from;
    let mut blocks: Vec<(f64, f64)> =
        seat.through.iter().filter(meets).map(|f| (f.y.0 - CLEAR, f.y.1 + CLEAR)).collect();
    blocks.order_by(|a, b| a.0.total_cmp(&b.0));
    let mut from = seat.front;
    let mut free = Vec::new();
    for (low, high) in blocks {
        free.push((from, low));
        from = from.max(high);
    }
    free.push((from, back));
    free.retain(|(from, to)| to - from >= SHORTEST);
    free
}

fn slat(maker: &mut Maker<'_>, strip: Strip, front: f64, back: f64, numbers: &mut [usize; 2]) {
    let seat = &maker.lines.seat;
    let to = strip.to.unwrap_or_else(|| seat.half_width(front).max(seat.half_width(back)));
    let side = if (strip.from + to).abs() < 1e-6 { Side::Middle } else { Side::Right };
    let own = Vec3::new((strip.from + to) / 2.0, (front + back) / 2.0, seat.rise / 2.0);
    let own = Place::new(own, Vec3::Y, -Vec3::X);
    let size = Size { length: back - front, width: to - strip.from, thickness: seat.rise };
    let half = size.length / 2.0;
    let mut planes = stick::sides(size.width, size.thickness);
    planes.extend([Vec3::X, -Vec3::X].map(|normal| Plane { normal, offset: half }));
    if strip.to.is_none() {
        // The side of the seat takes the place of the face towards it.
        planes[1] = own.local_plane(&seat.right_edge());
    }
    let number = &mut numbers[usize::from(side == Side::Right)];
    *number += 1;
    let timber = Timber::whole(seat.frame.place(&own), Body::Convex(planes), size);
    maker.add(id(Role::SeatSlat, side, *number), timber);
}
