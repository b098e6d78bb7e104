//! Front and back legs.

use super::maker::{Maker, Timber, leg_id};
use super::stick;
use crate::part::{Role, Size};
use crate::profile::Profile;
use crate::skeleton::{Facing, Frame, Post, Zone};
use crestrail_geometry::{Body, Place, Plane, Prism, Vec3};

/// The floor, its normal pointing out of what stands on it.
const FLOOR: Plane = Plane { normal: Vec3::new(0.0, 0.0, -1.0), offset: 0.0 };

/// The legs of every frame.
pub(super) fn make(maker: &mut Maker<'_>) {
    let lines = maker.lines;
    for (place, frame) in lines.frames.iter().enumerate() {
        let outermost = place == 0;
        let top = if outermost { lines.front_leg_top() } else { lines.seat.rail_tops() };
        let mut front = square(&frame.front, top);
        if let (true, Some(width)) = (outermost, lines.chamfer) {
            chamfer(&mut front, frame, width, maker.design.set_back());
        }
        maker.add(leg_id(Role::FrontLeg, frame), front);
        let back = match &lines.profile {
            Some(profile) => sawn(profile, &frame.back),
            None => square(&frame.back, lines.seat.rail_tops()),
        };
        maker.add(leg_id(Role::BackLeg, frame), back);
    }
}

/// A straight leg from the floor to the plane `top`.
fn square(post: &Post, top: Plane) -> Timber {
    let place = post.place;
    let ends = [FLOOR, top].map(|p| place.local_plane(&p));
    let side = post.across;
    let (low, high) = stick::span(side, side, &ends);
    let mut planes: Vec<Plane> = post.long_faces().iter().map(|p| place.local_plane(p)).collect();
    planes.extend(ends);
    let size = Size { length: high - low, width: side, thickness: side };
    Timber::whole(place, Body::Convex(planes), size)
}

/// Planes off the outer edges: the whole width at the corner where no rail comes, at its neighbours no
/// more than the rails are set back, so that their shoulders meet flat wood.
fn chamfer(leg: &mut Timber, frame: &Frame, width: f64, set_back: f64) {
    let rails = |facing| frame.front.face(facing, Zone::Rails);
    let (front, right) = (rails(Facing::Front), rails(Facing::Right));
    let beside = (set_back * core::f64::consts::SQRT_2).min(width);
    let edges =
        [(front, right, width), (front, rails(Facing::Left), beside), (rails(Facing::Back), right, beside)];
    for (a, b, width) in edges.into_iter().filter(|(.., width)| *width >= LEAST_CHAMFER) {
        if let Some(cut) = plane_off(leg.place.origin, a, b, width) {
            leg.stock = leg.stock.clipped(leg.place.local_plane(&cut));
        }
    }
}

/// The face `width` broad that replaces the edge of two faces at a right angle.
fn plane_off(near: Vec3, a: Plane, b: Plane, width: f64) -> Option<Plane> {
    let level = Plane::through(near, a.normal.cross(b.normal));
    let edge = Plane::corner(&a, &b, &level)?;
    // It cuts each face back by its width times the cosine of 45°.
    let back = width * core::f64::consts::FRAC_1_SQRT_2;
    Some(Plane::through(edge - b.normal * back, a.normal + b.normal))
}

/// The narrowest edge worth planing off, mm.
const LEAST_CHAMFER: f64 = 1.0;

/// A back leg, sawn to its outline from a plank and cut off level with the floor.
fn sawn(profile: &Profile, post: &Post) -> Timber {
    let thickness = post.across;
    let (foot, top) = profile.chord;
    let flat = post.place;
    let along = flat.direction(Vec3::new(top.y - foot.y, foot.x - top.x, 0.0));
    let origin = flat.point(Vec3::new(foot.y, -foot.x, 0.0));
    let place = Place::new(origin, along, flat.y);
    let outline = profile.outline();
    let size = plank(&outline, thickness);
    let clip = if profile.sideways > 0.0 { vec![place.local_plane(&FLOOR)] } else { Vec::new() };
    let prism = Prism { place: Place::HOME, outline, from: -thickness / 2.0, to: thickness / 2.0, clip };
    Timber { sawn: true, ..Timber::whole(place, Body::Prism(prism), size) }
}

/// The box of plank from which the outline is sawn.
fn plank(outline: &[kurbo::Point], thickness: f64) -> Size {
    let span = |value: fn(&kurbo::Point) -> f64| {
        let (low, high) = outline
            .iter()
            .map(value)
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)));
        high - low
    };
    Size { length: span(|p| p.x), width: span(|p| p.y), thickness }
}
