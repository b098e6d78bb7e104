//! Wooden buttons under a solid board: a tongue in a slot of the rail, screwed up into the board.
//!
//! Half-way back one button on each side rail sits tight, so that the board stays in its place; those
//! in front and behind can move in and out of their slots.

use super::opening::{Beside, Face, rail_face, rail_id};
use crate::housing::{Cut, Housing};
use crate::part::{PartId, Role, Side, Size};
use crate::parts::maker::{Maker, Timber, id};
use crate::seating::button::{BELOW, BODY, DEPTH, HEIGHT, OFF, PLAY, TONGUE, TONGUE_HEIGHT, WIDTH};
use crate::skeleton::Bay;
use crestrail_geometry::{Body, Place, Plane, Prism, Vec3};
use kurbo::Point;

/// Where the buttons of a rail across a bay stand, as shares of its length.
const SHARES: [f64; 2] = [0.25, 0.75];

/// Least distance of a button's middle from an arm's post, mm.
const FROM_POST: f64 = 30.0;

/// The buttons of every bay, and those of the outer side rails.
pub(super) fn make(maker: &mut Maker<'_>) {
    let mut numbers = [0; 2];
    for bay in &maker.lines.bays {
        for beside in [Beside::Front, Beside::Back] {
            across(maker, bay, beside, &mut numbers);
        }
        if bay.far == 0 {
            let spots = side_spots(maker, bay);
            spots.into_iter().for_each(|at| button(maker, bay, Beside::Far, at, Side::Right, &mut numbers));
        }
    }
}

fn across(maker: &mut Maker<'_>, bay: &Bay, beside: Beside, numbers: &mut [usize; 2]) {
    let Some((middle, length)) = rail_middle(maker, bay, beside) else { return };
    for share in SHARES {
        let at = middle + Vec3::X * (length * (share - 0.5));
        // In the bay across the middle the left one is the twin of the right one.
        if bay.near.is_some() || at.x > 0.0 {
            button(maker, bay, beside, at, Side::Right, numbers);
        }
    }
}

/// The middle of a rail in the coordinates of the seat, and its length.
fn rail_middle(maker: &Maker<'_>, bay: &Bay, beside: Beside) -> Option<(Vec3, f64)> {
    let rail = rail_id(maker, bay, beside)?;
    let part = maker.parts.iter().find(|p| p.id == rail)?;
    let (low, high) = (part.stock.exit(Vec3::ZERO, -Vec3::X)?, part.stock.exit(Vec3::ZERO, Vec3::X)?);
    let middle = part.place.point(Vec3::X * ((high.distance - low.distance) / 2.0));
    Some((maker.lines.seat.frame.local_point(middle), high.distance + low.distance))
}

/// Half-way back, or just behind the post of an arm that stands there.
fn side_spots(maker: &Maker<'_>, bay: &Bay) -> Option<Vec3> {
    let (middle, _) = rail_middle(maker, bay, Beside::Far)?;
    let post = maker.lines.arms.as_ref().and_then(|arms| arms.post);
    let away = post.map_or(0.0, |post| {
        let at = maker.lines.seat.frame.local_point(post.place.origin).y;
        let free = post.deep / 2.0 + FROM_POST;
        if (middle.y - at).abs() < free { at + free - middle.y } else { 0.0 }
    });
    let along = maker.lines.seat.frame.local_direction(maker.lines.outer().along);
    Some(middle + along * (away / along.y))
}

fn button(maker: &mut Maker<'_>, bay: &Bay, beside: Beside, at: Vec3, side: Side, numbers: &mut [usize; 2]) {
    let rail = rail_id(maker, bay, beside);
    let Some((rail, mouth)) = rail.zip(mouth(maker, bay, beside, at)) else { return };
    let number = &mut numbers[usize::from(side == Side::Right)];
    *number += 1;
    let button = id(Role::Button, side, *number);
    maker.add(button, timber(&mouth));
    maker.housings.push(slot(rail, button, &mouth));
}

/// A button's own place in chair space: origin above the rail's inner face, as it is at the height of the
/// tongue, in the plane of the rails' tops; x away from the rail, y along it, z up.
fn mouth(maker: &Maker<'_>, bay: &Bay, beside: Beside, at: Vec3) -> Option<Place> {
    let face: Plane = rail_face(maker, bay, beside, Face::Inner)?;
    let away = Vec3 { z: 0.0, ..face.normal }.unit();
    let tongue = face.meet(Vec3 { z: -BELOW - TONGUE_HEIGHT / 2.0, ..at }, away)?.dot(away);
    let origin = Vec3 { z: 0.0, ..at } + away * (tongue - at.dot(away));
    let inner = Place::new(origin, away, Vec3::Z.cross(away));
    Some(maker.lines.seat.frame.place(&inner))
}

/// The block with its tongue, seen along the rail.
fn timber(mouth: &Place) -> Timber {
    let (root, end, tongue) = (OFF, OFF + BODY, -BELOW - TONGUE_HEIGHT);
    let corners = [
        (root, -HEIGHT),
        (end, -HEIGHT),
        (end, 0.0),
        (root, 0.0),
        (root, -BELOW),
        (-TONGUE, -BELOW),
        (-TONGUE, tongue),
        (root, tongue),
    ];
    let middle = Vec3::new((end - TONGUE) / 2.0, 0.0, -HEIGHT / 2.0);
    let outline = corners.map(|(x, z)| Point::new(x - middle.x, z - middle.z)).to_vec();
    let standing = Place { origin: Vec3::ZERO, x: Vec3::X, y: Vec3::Z, z: -Vec3::Y };
    let prism = Prism { place: standing, outline, from: -WIDTH / 2.0, to: WIDTH / 2.0, clip: Vec::new() };
    let place = mouth.place(&Place { origin: middle, ..Place::HOME });
    let size = Size { length: end + TONGUE, width: WIDTH, thickness: HEIGHT };
    Timber::whole(place, Body::Prism(prism), size)
}

fn slot(host: PartId, guest: PartId, mouth: &Place) -> Housing {
    let (length, width) = (WIDTH + 2.0 * PLAY, TONGUE_HEIGHT + 2.0 * PLAY);
    let low = Vec3::new(-DEPTH, -length / 2.0, -BELOW - TONGUE_HEIGHT - PLAY);
    let high = Vec3::new(OFF, length / 2.0, -BELOW + PLAY);
    let body = Body::cuboid(mouth, low, high);
    Housing { host, guest, cut: Cut::Slot, length, width, depth: DEPTH, body }
}
