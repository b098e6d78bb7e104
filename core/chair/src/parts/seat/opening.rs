//! What rails and legs leave free in a bay, in the coordinates of the seat.

use super::field::{Edge, Field, mirrored, widened};
use crate::part::{PartId, Role};
use crate::parts::maker::{Maker, id, leg_id};
use crate::skeleton::{Bay, Facing, Footprint, Post, Zone};
use crestrail_geometry::{Plane, Vec3};

/// Which face of a rail.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Face {
    /// The one towards the opening.
    Inner,
    /// The one away from it.
    Outer,
    /// Neither: the plane half-way between.
    Middle,
}

/// The side of the bay on which a rail lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Beside {
    Front,
    Back,
    Near,
    Far,
}

impl Beside {
    /// Direction into the bay, in the coordinates of the seat.
    fn inwards(self) -> Vec3 {
        match self {
            Self::Front => Vec3::Y,
            Self::Back => -Vec3::Y,
            Self::Near => Vec3::X,
            Self::Far => -Vec3::X,
        }
    }
}

/// The rail on that side of the bay; the near one of a bay across the middle is the far one's twin.
pub(super) fn rail_id(maker: &Maker<'_>, bay: &Bay, beside: Beside) -> Option<PartId> {
    let frame = |i: usize| leg_id(Role::SideRail, &maker.lines.frames[i]);
    match beside {
        Beside::Front => Some(id(Role::FrontRail, bay.side, 1)),
        Beside::Back => Some(id(Role::BackRail, bay.side, 1)),
        Beside::Near => bay.near.map(frame),
        Beside::Far => Some(frame(bay.far)),
    }
}

/// A face of that rail in the coordinates of the seat, its normal pointing into the bay.
pub(super) fn rail_face(maker: &Maker<'_>, bay: &Bay, beside: Beside, face: Face) -> Option<Plane> {
    let rail = rail_id(maker, bay, beside)?;
    let part = maker.parts.iter().find(|p| p.id == rail)?;
    let frame = &maker.lines.seat.frame;
    let half = match face {
        Face::Inner => part.size.thickness / 2.0,
        Face::Outer => -part.size.thickness / 2.0,
        Face::Middle => 0.0,
    };
    let z = frame.local_direction(part.place.z);
    let inwards = if z.dot(beside.inwards()) > 0.0 { z } else { -z };
    Some(Plane::through(frame.local_point(part.place.origin) + inwards * half, inwards))
}

/// Where a plane cuts the level `z`, as a side.
fn edge(plane: &Plane, z: f64) -> Edge {
    let n = plane.normal;
    Edge { at: (plane.offset - n.z * z) / n.x, by: n.y / n.x }
}

fn depth(plane: &Plane, z: f64) -> f64 {
    (plane.offset - plane.normal.z * z) / plane.normal.y
}

/// The bay between such faces of its rails from the height `low` to `high`, the most inward line counting;
/// legs take `room` more than their own.
pub(super) fn field(
    maker: &Maker<'_>,
    bay: &Bay,
    faces: [Face; 4],
    (low, high): (f64, f64),
    room: f64,
) -> Option<Field> {
    let [front, back, near, far] = faces;
    let levels = [low, high];
    let front = rail_face(maker, bay, Beside::Front, front)?;
    let back = rail_face(maker, bay, Beside::Back, back)?;
    let far = rail_face(maker, bay, Beside::Far, far)?;
    let least = |a: Edge, b: Edge| if a.at < b.at { a } else { b };
    let right = least(edge(&far, low), edge(&far, high));
    let left = match rail_face(maker, bay, Beside::Near, near) {
        Some(near) => least(edge(&near, low).mirrored(), edge(&near, high).mirrored()).mirrored(),
        None => right.mirrored(),
    };
    Some(Field {
        front: levels.iter().map(|&z| depth(&front, z)).fold(f64::NEG_INFINITY, f64::max),
        back: levels.iter().map(|&z| depth(&back, z)).fold(f64::INFINITY, f64::min),
        left,
        right,
        blocks: legs(maker, bay, (low, high)).iter().map(|f| widened(f, room)).collect(),
    })
}

/// The legs at the bay's corners.
pub(super) fn legs(maker: &Maker<'_>, bay: &Bay, levels: (f64, f64)) -> Vec<Footprint> {
    let frames = &maker.lines.frames;
    let of = |i: usize| {
        let posts = [&frames[i].front, &frames[i].back];
        posts.into_iter().filter_map(|post| footprint(maker, post, levels)).collect::<Vec<_>>()
    };
    let far = of(bay.far);
    let near = bay.near.map_or_else(|| far.iter().map(mirrored).collect(), of);
    [far, near].concat()
}

/// The box that a leg takes between two levels.
fn footprint(maker: &Maker<'_>, post: &Post, (low, high): (f64, f64)) -> Option<Footprint> {
    let frame = &maker.lines.seat.frame;
    let face = |facing| frame.local_plane(&post.face(facing, Zone::Rails));
    let mut corners = Vec::new();
    for side in [Facing::Left, Facing::Right] {
        for deep in [Facing::Front, Facing::Back] {
            for z in [low, high] {
                corners.push(Plane::corner(&face(side), &face(deep), &Plane { normal: Vec3::Z, offset: z })?);
            }
        }
    }
    let range = |value: fn(&Vec3) -> f64| {
        let all = || corners.iter().map(value);
        (all().fold(f64::INFINITY, f64::min), all().fold(f64::NEG_INFINITY, f64::max))
    };
    Some(Footprint { x: range(|p| p.x), y: range(|p| p.y) })
}
