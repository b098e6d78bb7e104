//! What a sitter meets on a resolved chair, measured on its finished parts.

use super::super::sitting::{BACK, SEAT, Sitting, around, corners, forwards};
use crate::chair::Chair;
use crate::part::{Part, Role};
use crestrail_geometry::Vec3;
use crestrail_geometry::math::{acos, atan2, cos, degrees, sin, tan};
use crestrail_sorting::Order as _;

/// Foam gives way under a sitter by this share of its thickness (common practice, no source).
const FOAM_GIVES: f64 = 1.0 / 3.0;
/// A seat higher than this is a high chair, on which the feet rest on a stretcher, mm (no source: between chairs for
/// tables, up to 520, and for counters, from 600).
const HIGH: f64 = 560.0;
/// What stands so far above the seat is beside the sitter, mm.
const BESIDE_SITTER: f64 = 40.0;

/// Sizes that a body has a say in; mm, from the loaded seat.
#[derive(Clone, Debug)]
pub(super) struct Measured {
    /// Height of the seat's front above the floor, under the sitter.
    pub(super) front_height: f64,
    /// Height above the floor of what the feet rest on: 0, or the footrest of a high chair.
    pub(super) feet: f64,
    /// Whether it is a high chair.
    pub(super) high: bool,
    /// Front edge of the seat to the line of the back, or to its rear edge.
    pub(super) depth: f64,
    /// Width of the seat for one sitter, in the middle of its depth.
    pub(super) width: f64,
    /// Least clear width between the arms, for one sitter.
    pub(super) between_arms: Option<f64>,
    /// Angle between seat and back, degrees.
    pub(super) back_angle: Option<f64>,
    /// Top of the arms above the middle of the seat.
    pub(super) arm_height: Option<f64>,
    /// Top of the arms above the floor.
    pub(super) arm_top: Option<f64>,
    /// Lower and upper edge of each piece of the back above the rear of the seat.
    pub(super) back_pieces: Vec<(f64, f64)>,
}

impl Measured {
    pub(super) fn of(chair: &Chair, sitting: &Sitting) -> Self {
        let slope = slope(chair);
        let front =
            around(chair, &[Role::FrontRail]).map_or(sitting.front, |rail| rail.low.y.min(sitting.front));
        let depth = sitting.back_line - front;
        let front_height = sitting.seat_height - sink(chair);
        let height_at = |share: f64| front_height - tan(slope) * depth * share;
        let high = front_height > HIGH;
        let footrest = around(chair, &[Role::FrontStretcher]).filter(|_| high);
        let places = sitting.places.len().max(1) as f64;
        let arm_top = sitting.arm.map(|arm| arm.z);
        Self {
            front_height,
            feet: footrest.map_or(0.0, |rest| rest.high.z),
            high,
            depth,
            width: width(chair, (front + sitting.back_line) / 2.0) / places,
            between_arms: arm_top.map(|_| between_arms(chair, sitting.seat_height) / places),
            back_angle: lean(chair).map(|lean| angle(lean, slope)),
            arm_height: arm_top.map(|top| top - height_at(0.5)),
            arm_top,
            back_pieces: back_pieces(chair, height_at(1.0)),
        }
    }

    /// Height of the seat's front above what the feet rest on.
    pub(super) fn seat_height(&self) -> f64 {
        self.front_height - self.feet
    }

    /// Where the back meets the sitter nearest to this height above the seat.
    pub(super) fn support_near(&self, height: f64) -> Option<f64> {
        let nearest = self.back_pieces.iter().map(|&(low, high)| height.clamp(low, high));
        nearest.min_by(|a, b| (a - height).abs().total_cmp(&(b - height).abs()))
    }
}

/// How far the seat falls towards the back, radians.
fn slope(chair: &Chair) -> f64 {
    let Some(seat) = chair.parts.iter().find(|part| SEAT.contains(&part.id.role)) else { return 0.0 };
    let axes = [seat.place.x, seat.place.y, seat.place.z];
    let up = axes.into_iter().max_by(|a, b| a.z.abs().total_cmp(&b.z.abs())).unwrap_or(Vec3::Z);
    atan2(up.y * up.z.signum(), up.z.abs())
}

/// How far the seat gives way under a sitter, mm.
fn sink(chair: &Chair) -> f64 {
    let foam = chair.parts.iter().find(|part| part.id.role == Role::Pad);
    foam.map_or(0.0, |pad| pad.size.thickness * FOAM_GIVES)
}

/// Width over seat and side rails at a depth: between the widest corner before it and the widest behind it the side is
/// straight.
fn width(chair: &Chair, depth: f64) -> f64 {
    let sides = chair.pieces().filter(|(p, _)| SEAT.contains(&p.id.role) || p.id.role == Role::SideRail);
    let points: Vec<Vec3> = sides.flat_map(|(part, body)| corners(part, body)).collect();
    let widest = |behind: bool| {
        let half = points.iter().filter(|p| (p.y > depth) == behind);
        half.copied().max_by(|a, b| a.x.total_cmp(&b.x))
    };
    match (widest(false), widest(true)) {
        (Some(a), Some(b)) if b.y - a.y > 1.0 => 2.0 * a.lerp(b, (depth - a.y) / (b.y - a.y)).x,
        (Some(one), _) | (None, Some(one)) => 2.0 * one.x,
        (None, None) => 0.0,
    }
}

/// Between what stands beside the sitter above the seat: arms, their posts, front legs that carry them.
fn between_arms(chair: &Chair, seat: f64) -> f64 {
    let beside = [Role::Arm, Role::ArmPost, Role::FrontLeg];
    let outer = chair.pieces().filter(|(p, _)| beside.contains(&p.id.role));
    let points = outer.flat_map(|(part, body)| corners(part, body));
    let inner = points.filter(|p| p.x > 0.0 && p.z > seat + BESIDE_SITTER).map(|p| p.x);
    2.0 * inner.min_by(f64::total_cmp).unwrap_or(0.0)
}

/// The way up the front of the back, from its lowest piece to its highest.
fn lean(chair: &Chair) -> Option<Vec3> {
    let mut pieces: Vec<&Part> = chair.parts.iter().filter(|p| BACK[..3].contains(&p.id.role)).collect();
    pieces.order_by(|a, b| a.place.origin.z.total_cmp(&b.place.origin.z));
    let face = |part: &Part| part.place.origin + forwards(part) * (part.size.thickness / 2.0);
    let (low, high) = (pieces.first()?, pieces.last()?);
    let up = face(high) - face(low);
    if up.z > 1.0 {
        return Some(Vec3::new(0.0, up.y, up.z).unit());
    }
    let own = if low.place.y.z.abs() > low.place.z.z.abs() { low.place.y } else { low.place.z };
    Some(own * own.z.signum())
}

/// Between the seat, seen towards the front, and the back, degrees.
fn angle(lean: Vec3, slope: f64) -> f64 {
    let forward = Vec3::new(0.0, -cos(slope), sin(slope));
    degrees(acos(forward.dot(lean).clamp(-1.0, 1.0)))
}

fn back_pieces(chair: &Chair, seat: f64) -> Vec<(f64, f64)> {
    let pieces = chair.pieces().filter(|(part, _)| BACK.contains(&part.id.role));
    let heights = pieces.map(|(part, body)| {
        let heights = corners(part, body).map(|p| p.z - seat);
        heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), z| (low.min(z), high.max(z)))
    });
    heights.collect()
}
