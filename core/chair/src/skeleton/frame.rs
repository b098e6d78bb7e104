//! Frames, each a front leg and a back leg with what ties them, and the bays between.

use super::arms::ArmLines;
use super::back::Zone as BackZone;
use super::low::Low;
use super::post::{Facing, Post, Square, Zone, plank, splay};
use super::seat::{Footprint, Heights, SeatLines};
use crate::choices::{Back, Places};
use crate::design::Design;
use crate::meeting::SHORT_GRAIN_LIMIT;
use crate::part::Side;
use crate::profile::{Bend, Profile, ZONE_MARGIN};
use crestrail_geometry::math::{atan2, cos, degrees, radians, sin, tan};
use crestrail_geometry::{Plane, Vec3};
use kurbo::{Point, Vec2};

/// A front leg and the back leg behind it.
#[derive(Clone, Debug)]
pub struct Frame {
    /// Right, or in the middle.
    pub side: Side,
    /// 1 for the outermost of its side.
    pub number: usize,
    /// The front leg.
    pub front: Post,
    /// The back leg.
    pub back: Post,
    /// The leaning front face of a back leg that goes on above the seat, its normal pointing out.
    pub upper_front: Option<Plane>,
    /// A point of the line from which the rail and the stretcher are set: their outer face on the
    /// outermost frame, their middle on the others; at the level of the rails' tops.
    pub rail_line: Vec3,
    /// Unit direction of the side rail, front to back, down the slope of the seat.
    pub along: Vec3,
    /// The same direction in plan.
    pub level: Vec3,
    /// Unit direction up in the plane of the frame.
    pub up: Vec3,
    /// Distance of the rail's middle inwards from its line, mm.
    pub aside: f64,
    /// Clear length between the legs at the rails, front to back, mm.
    pub run: f64,
    /// Angle in plan by which the rail runs inwards towards the back.
    pub taper: f64,
    /// The direction in which the frame goes together: its tenons point along or against it.
    pub way: Vec3,
}

/// The space between two neighbouring frames. The near one lies to the left.
#[derive(Clone, Debug)]
pub struct Bay {
    /// Right, or across the middle.
    pub side: Side,
    /// The frame to the left if it is not the mirror image of the one to the right: its place in
    /// [`super::Skeleton::frames`].
    pub near: Option<usize>,
    /// The frame to the right.
    pub far: usize,
    /// Faces of the legs that bound the bay, with normals out of the bay.
    pub front: BayEnds,
    /// See `front`.
    pub back: BayEnds,
}

/// The two faces at the ends of a piece across a bay, to the left and to the right, in each zone.
#[derive(Clone, Copy, Debug)]
pub struct BayEnds {
    /// Where rails join, and above.
    pub rails: [Plane; 2],
    /// Where stretchers join.
    pub below: [Plane; 2],
}

/// Half the widths over the legs, and the thickness of the rails, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Widths {
    front: f64,
    back: f64,
    rail: f64,
}

impl Widths {
    pub(super) fn of(design: &Design, rail: f64) -> Self {
        let front = design.seat_width() / 2.0;
        Self { front, back: front - design.narrowing() / 2.0, rail }
    }
}

/// How the back leg bends; heights along its plank.
pub(super) fn bend(design: &Design, heights: &Heights, low: &Low, zone: &BackZone) -> Bend {
    let lean = radians(design.splay());
    let along = |height: f64| height / cos(lean);
    let back = design.seat_depth();
    Bend {
        rake: radians(design.rake()),
        kick: radians(design.kick()),
        sideways: lean,
        front: back - design.back_leg_depth(),
        back,
        top: along(design.seat_height() + design.back_height()),
        top_depth: design.back_leg_top(),
        foot_depth: design.back_leg_foot(),
        rail_bottom: along(heights.rail_bottom(back, design.rail_width())),
        seat_top: along(heights.seat_top(back - design.back_leg_depth())),
        seat_front: along(design.seat_height()),
        straight: along(low.straight),
        first: zone.straight,
        knee: design.knee() / 100.0,
        below_floor: if lean > 0.0 { design.back_leg_thickness() * tan(lean) + 1.0 } else { 0.0 },
    }
}

/// The frames of the right half from the outside inwards.
pub(super) fn frames(
    design: &Design,
    heights: &Heights,
    profile: Option<&Profile>,
    widths: &Widths,
) -> Vec<Frame> {
    let legs = Legs { design, heights, profile };
    let outer = legs.outer(widths);
    let inner = match design.places() {
        Places::One => None,
        Places::Two => Some(legs.inner(0.0, Side::Middle, 1)),
        Places::Three => {
            let bay = (2.0 * widths.front - 4.0 * design.front_leg()) / 3.0;
            Some(legs.inner((bay + design.front_leg()) / 2.0, Side::Right, 2))
        }
    };
    [Some(outer), inner].into_iter().flatten().collect()
}

struct Legs<'a> {
    design: &'a Design,
    heights: &'a Heights,
    profile: Option<&'a Profile>,
}

impl Legs<'_> {
    fn outer(&self, widths: &Widths) -> Frame {
        let (design, heights) = (self.design, self.heights);
        let side = design.front_leg();
        let (sideways, forwards) = splay(design, true);
        let square = Square { side, sideways, forwards, tapered: [Some(Facing::Left), Some(Facing::Back)] };
        let depth = square.half_deep();
        let at = Vec3::new(widths.front - square.half_across(), depth, heights.rail_top(depth));
        let front = square.post(design, at, self.taper_from());
        let behind = Vec3::new(widths.back, 0.0, heights.rail_top(design.seat_depth()));
        let (back, upper_front) = self.back(behind, sideways, Some(Facing::Left));
        let set_back = design.set_back();
        let start = Vec3::new(widths.front - set_back, 2.0 * depth, heights.rail_top(2.0 * depth));
        let y = self.back_front(&back, start);
        let run = y - start.y;
        let taper = atan2(widths.front - widths.back, run);
        let tie = Tie { start, taper, aside: widths.rail / 2.0, sideways };
        tie.frame(Side::Right, 1, [front, back], upper_front, run, heights)
    }

    fn inner(&self, x: f64, side: Side, number: usize) -> Frame {
        let (design, heights) = (self.design, self.heights);
        let (sideways, forwards) = splay(design, false);
        let square =
            Square { side: design.front_leg(), sideways, forwards, tapered: [None, Some(Facing::Back)] };
        let depth = square.half_deep();
        let front = square.post(design, Vec3::new(x, depth, heights.rail_top(depth)), self.taper_from());
        let half = self.back_thickness() / 2.0;
        let behind = Vec3::new(x + half, 0.0, heights.rail_top(design.seat_depth()));
        let (back, upper_front) = self.back(behind, sideways, None);
        let start = Vec3::new(x, 2.0 * depth, heights.rail_top(2.0 * depth));
        let run = self.back_front(&back, start) - start.y;
        let tie = Tie { start, taper: 0.0, aside: 0.0, sideways };
        tie.frame(side, number, [front, back], upper_front, run, heights)
    }

    /// Height at which the taper of a front leg begins.
    fn taper_from(&self) -> f64 {
        self.heights.rail_bottom(0.0, self.design.rail_width()) - ZONE_MARGIN
    }

    fn back_thickness(&self) -> f64 {
        if self.profile.is_some() { self.design.back_leg_thickness() } else { self.design.front_leg() }
    }

    /// The depth at which a line backwards from `start` meets the back leg.
    fn back_front(&self, back: &Post, start: Vec3) -> f64 {
        back.face(Facing::Front, Zone::Rails).meet(start, Vec3::Y).map_or(start.y, |p| p.y)
    }

    /// The back leg whose right face passes through `outer` (x and z count); `inner` is its face towards
    /// the middle of the chair, if it has one.
    fn back(&self, outer: Vec3, sideways: f64, inner: Option<Facing>) -> (Post, Option<Plane>) {
        let design = self.design;
        let Some(profile) = self.profile else {
            let forwards = -tan(radians(design.kick()));
            let square = Square {
                side: design.front_leg(),
                sideways,
                forwards,
                tapered: [inner, Some(Facing::Front)],
            };
            let y = design.seat_depth() - square.half_deep();
            let at = Vec3::new(outer.x - square.half_across(), y, self.heights.rail_top(y));
            return (square.post(design, at, self.taper_from_behind()), None);
        };
        let place = plank(outer, design.back_leg_thickness(), sideways);
        let plane = |(at, along): (Point, Vec2), front: f64| {
            let line = place.direction(Vec3::new(along.y, -along.x, 0.0));
            let normal = line.cross(place.z) * front;
            Plane::through(place.point(Vec3::new(at.y, -at.x, 0.0)), normal)
        };
        // Directions run upwards; seen so, the front lies to the left of a line in the plank.
        let up = Vec2::new(0.0, 1.0);
        let rails = [(profile.zone_front, 1.0), (profile.zone_back, -1.0)]
            .map(|(y, front)| plane((Point::new(y, 0.0), up), -front));
        let down = |(at, along): (Point, Vec2)| (at, -along);
        let front = [plane(down(profile.lower_front), -1.0), rails[0]];
        let back = [plane(down(profile.lower_back), 1.0), rails[1]];
        let post = Post::sawn(place, design.back_leg_thickness(), design.back_leg_depth(), front, back);
        (post, Some(plane(profile.upper_front, -1.0)))
    }

    fn taper_from_behind(&self) -> f64 {
        self.heights.rail_bottom(self.design.seat_depth(), self.design.rail_width()) - ZONE_MARGIN
    }
}

/// What ties a front leg to its back leg.
struct Tie {
    start: Vec3,
    taper: f64,
    aside: f64,
    sideways: f64,
}

impl Tie {
    fn frame(
        &self,
        side: Side,
        number: usize,
        [front, back]: [Post; 2],
        upper_front: Option<Plane>,
        run: f64,
        heights: &Heights,
    ) -> Frame {
        let level = Vec3::new(-sin(self.taper), cos(self.taper), 0.0);
        let fall = level.y * tan(heights.slope);
        let way = if degrees(self.taper.abs()) <= SHORT_GRAIN_LIMIT { Vec3::Y } else { level };
        Frame {
            side,
            number,
            front,
            back,
            upper_front,
            rail_line: self.start,
            along: (level - Vec3::Z * fall).unit(),
            level,
            up: Vec3::new(-self.sideways, 0.0, 1.0).unit(),
            aside: self.aside,
            run,
            taper: self.taper,
            way,
        }
    }
}

/// The bays from the right inwards.
pub(super) fn bays(frames: &[Frame], places: Places) -> Vec<Bay> {
    match places {
        Places::One => vec![middle(frames, 0)],
        Places::Two => vec![between(frames, 1, 0)],
        Places::Three => vec![between(frames, 1, 0), middle(frames, 1)],
    }
}

/// The bay between a frame and its mirror image.
fn middle(frames: &[Frame], far: usize) -> Bay {
    let right = &frames[far];
    let ends = |post: &Post| {
        let pair = |zone| {
            let inner = post.face(Facing::Left, zone).flipped();
            [inner.mirrored_x(), inner]
        };
        BayEnds { rails: pair(Zone::Rails), below: pair(Zone::Below) }
    };
    Bay { side: Side::Middle, near: None, far, front: ends(&right.front), back: ends(&right.back) }
}

fn between(frames: &[Frame], near: usize, far: usize) -> Bay {
    let ends = |left: &Post, right: &Post| {
        let pair =
            |zone| [left.face(Facing::Right, zone), right.face(Facing::Left, zone)].map(|p| p.flipped());
        BayEnds { rails: pair(Zone::Rails), below: pair(Zone::Below) }
    };
    let (left, right) = (&frames[near], &frames[far]);
    Bay {
        side: Side::Right,
        near: Some(near),
        far,
        front: ends(&left.front, &right.front),
        back: ends(&left.back, &right.back),
    }
}

/// Room between the seat and the legs behind it, mm, so that the seat can move with the seasons.
const SEAT_TO_LEG: f64 = 3.0;

/// The plane of the seat with its outline.
pub(super) fn seat_lines(
    design: &Design,
    heights: &Heights,
    frames: &[Frame],
    arms: Option<&ArmLines>,
) -> SeatLines {
    let outer = &frames[0];
    let slope = cos(heights.slope);
    let overhang = design.seat_overhang();
    let front_back = outer.rail_line.y;
    let open = design.back() == Back::Open;
    let back = if open { design.seat_depth() + overhang } else { front_back + outer.run - SEAT_TO_LEG };
    let half = outer.rail_line.x + design.set_back() + overhang + front_back * tan(outer.taper);
    SeatLines {
        frame: heights.frame,
        rise: heights.rise,
        front: -overhang / slope,
        back: back / slope,
        rail_back: (design.seat_depth() - design.set_back()) / slope,
        side: (half, tan(outer.taper) * slope),
        through: through(design, heights, frames, arms),
    }
}

fn through(design: &Design, heights: &Heights, frames: &[Frame], arms: Option<&ArmLines>) -> Vec<Footprint> {
    let at = |post: &Post, deep: (f64, f64)| {
        let low = heights.rail_top(deep.0);
        let (left, right) = (post.face(Facing::Left, Zone::Rails), post.face(Facing::Right, Zone::Rails));
        let x = |plane: Plane, z: f64| plane.meet(Vec3::new(0.0, deep.0, z), Vec3::X).map_or(0.0, |p| p.x);
        let top = low + heights.rise;
        Footprint {
            x: (x(left, low).min(x(left, top)), x(right, low).max(x(right, top))),
            y: (deep.0 / cos(heights.slope), deep.1 / cos(heights.slope)),
        }
    };
    let mut found = Vec::new();
    if design.back() != Back::Open {
        let zone = (design.seat_depth() - design.back_leg_depth(), design.seat_depth());
        found.extend(frames.iter().map(|frame| at(&frame.back, zone)));
    }
    if let Some(arms) = arms {
        found.push(match arms.post {
            None => {
                let lean = tan(radians(design.front_splay())) * heights.rise;
                at(&frames[0].front, (0.0, frames[0].rail_line.y + lean))
            }
            Some(post) => {
                let (x, y) = (frames[0].aside, post.deep / 2.0);
                let foot = heights.frame.local_point(post.place.origin);
                Footprint { x: (foot.x - x, foot.x + x), y: (foot.y - y, foot.y + y) }
            }
        });
    }
    found
}
