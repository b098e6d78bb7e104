//! The arms: level, from the back leg over a longer front leg or a post on the side rail.

use super::arms_of;
use super::back::BackLines;
use super::frame::Frame;
use super::post::{Facing, Zone};
use crate::choices::Arms;
use crate::design::Design;
use crate::settle::Settling;
use crestrail_geometry::{Place, Plane, Vec3};
use crestrail_phrases::phrase;

/// The right arm.
#[derive(Clone, Debug)]
pub struct ArmLines {
    /// The frame of the arm: origin half-way, x from front to back, y up, z outwards.
    pub place: Place,
    /// The plane of its lower face, its normal pointing up.
    pub underside: Plane,
    /// Where it ends in front, and the front face of the back leg; normals out of the arm.
    pub ends: [Plane; 2],
    /// The post that carries it, if it is not the front leg.
    pub post: Option<ArmPost>,
}

/// A post on the side rail.
#[derive(Clone, Copy, Debug)]
pub struct ArmPost {
    /// Origin in the middle of its foot on the side rail's top, x up, y forwards, z to the right.
    pub place: Place,
    /// Along the rail, mm; across it is as thick as the rail.
    pub deep: f64,
}

/// Back leg left above the arm, mm (common practice, no source).
const ABOVE_ARM: f64 = 30.0;

/// The greatest lean in plan of an arm, as its tangent: past it the tenon would be short-grained.
const MOST_SLANT: f64 = 0.17;

pub(super) fn arms(
    design: &Design,
    outer: &Frame,
    back: Option<&BackLines>,
    settling: &mut Settling,
) -> Option<ArmLines> {
    let back = back?;
    let on_posts = match arms_of(design) {
        Arms::None => return None,
        Arms::Legs => false,
        Arms::Posts => true,
    };
    let room = back.at(back.top).z - design.seat_height() - ABOVE_ARM;
    let why = phrase("The arms must join the back legs below their tops.");
    let height = design.seat_height() + settling.length("arm_height", design.arm_height(), 90.0, room, why);
    let middle = height - design.arm_thickness() / 2.0;
    let rear = outer.upper_front?;
    let post = on_posts.then(|| arm_post(design, outer));
    let front = post.map_or_else(|| outer.front.axis_at(middle), |p| p.place.origin);
    let behind = outer.back.axis_at(middle);
    let behind = rear.meet(Vec3::new(behind.x, front.y, middle), Vec3::Y)?;
    let run = behind.y - front.y;
    let slant = ((behind.x - front.x) / run).clamp(-MOST_SLANT, MOST_SLANT);
    let along = Vec3::new(slant, 1.0, 0.0).unit();
    let deep = post.map_or(outer.front.deep, |p| p.deep);
    let start = front.y - deep / 2.0 - design.arm_overhang();
    let origin = Vec3::new(behind.x - slant * (behind.y - start) / 2.0, (start + behind.y) / 2.0, middle);
    let end = Vec3::new(behind.x - slant * (behind.y - start), start, middle);
    Some(ArmLines {
        place: Place::new(origin, along, Vec3::Z),
        underside: Plane { normal: Vec3::Z, offset: middle - design.arm_thickness() / 2.0 },
        ends: [Plane::through(end, -along), rear.flipped()],
        post,
    })
}

fn arm_post(design: &Design, outer: &Frame) -> ArmPost {
    let deep = (design.front_leg() * 0.8).round();
    let share = design.post_setback() / 100.0;
    let front = outer.front.face(Facing::Back, Zone::Rails);
    let start = front.meet(outer.rail_line, outer.along).unwrap_or(outer.rail_line);
    let at = start + outer.along * (outer.run * share + deep / 2.0);
    let foot = at - outer.along.cross(outer.up).unit() * outer.aside;
    ArmPost { place: Place::new(foot, Vec3::Z, -Vec3::Y), deep }
}
