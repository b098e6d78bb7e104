//! The slats of the seat.

use super::{Made, id, stick};
use crate::design::Design;
use crate::part::{Part, Role, Side};
use crate::skeleton::{SeatBand, Skeleton};
use crestrail_geometry::math::{cos, sin};
use crestrail_geometry::{Place, Plane, Vec3};

/// Slats across the seat, from the front, cut off along the sides of the seat; the one between
/// the back legs keeps clear of them.
pub(super) fn slats(design: &Design, lines: &Skeleton) -> Vec<Part> {
    let alike = lines.taper == 0.0 && lines.seat_bands.iter().all(|band| band.between_legs.is_none());
    let letter = |number: usize| if alike { "J".to_owned() } else { format!("J{number}") };
    (1..)
        .zip(&lines.seat_bands)
        .map(|(number, band)| slat(design, lines, number, letter(number), band))
        .collect()
}

fn slat(design: &Design, lines: &Skeleton, number: usize, letter: String, band: &SeatBand) -> Part {
    let thickness = design.seat_slat_thickness();
    let middle = Vec3::new(0.0, (band.front + band.back) / 2.0, design.seat_height() - thickness / 2.0);
    let place = Place::new(middle, Vec3::X, Vec3::Y);
    let right = match band.between_legs {
        Some(half) => Plane { normal: Vec3::X, offset: half },
        None => seat_side(design, lines, band.front),
    };
    let ends = [right.mirrored_x(), right];
    let (stock, size) = stick::between(&place, band.back - band.front, thickness, ends);
    let made = Made { design, letter };
    made.part(id(Role::SeatSlat, Side::Middle, number), place, stock, size, false)
}

/// The outer edge of the seat on the right.
fn seat_side(design: &Design, lines: &Skeleton, depth: f64) -> Plane {
    let edge = Vec3::new(lines.seat_half_width(design, depth), depth, 0.0);
    Plane::through(edge, Vec3::new(cos(lines.taper), sin(lines.taper), 0.0))
}
