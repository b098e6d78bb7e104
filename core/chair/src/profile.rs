//! The side view of the back leg: a bent, tapered outline sawn from a plank.

use crate::unbuildable::{Stage, Unbuildable};
use crestrail_geometry::math::{atan2, cos, hypot, sin, tan};
use crestrail_phrases::say;
use kurbo::{Arc, BezPath, Point, Shape, Vec2};

/// How far the flattened outline may lie from the true curve, mm: a tenth of a pencil line.
pub const OUTLINE_TOLERANCE: f64 = 0.05;

/// The outline of the back leg in the side view of the chair: x of the outline is the chair's
/// depth (y), y of the outline is height (z).
#[derive(Clone, Debug)]
pub struct Profile {
    /// The closed outline with its rounded knees.
    pub path: BezPath,
    /// Depth of the flat front face in the zone of the seat rails, mm.
    pub zone_front: f64,
    /// Depth of the flat back face in that zone, mm.
    pub zone_back: f64,
    /// Height at which the lower front face begins to run straight, mm.
    pub lower_straight: f64,
    /// Height at which the upper front face begins to run straight, mm.
    pub upper_straight: f64,
    /// A point of the lower front face, and its direction downwards.
    pub lower_front: (Point, Vec2),
    /// A point of the lower back face, and its direction downwards.
    pub lower_back: (Point, Vec2),
    /// A point of the upper front face, and its direction upwards.
    pub upper_front: (Point, Vec2),
    /// Depth square to the lean where the upper limb begins and where it ends, mm.
    pub upper_depth: (f64, f64),
    /// Lean of the plank sideways, radians.
    pub sideways: f64,
    /// Middle of the foot and middle of the top: the grain of the plank runs along this line.
    pub chord: (Point, Point),
}

/// How a back leg bends. Heights are counted along its plank, which may lean sideways; depths are the
/// chair's; mm and radians.
#[derive(Clone, Copy, Debug)]
pub struct Bend {
    /// Lean above the seat.
    pub rake: f64,
    /// Lean below the seat.
    pub kick: f64,
    /// Lean of the plank sideways.
    pub sideways: f64,
    /// Depth of the front face at the rails.
    pub front: f64,
    /// Depth of the back face at the rails.
    pub back: f64,
    /// Height of the top.
    pub top: f64,
    /// Depth of the leg at its top, square to the lean.
    pub top_depth: f64,
    /// Depth of the leg at the floor.
    pub foot_depth: f64,
    /// Lower edge of the rails.
    pub rail_bottom: f64,
    /// Top of the seat where it meets the leg.
    pub seat_top: f64,
    /// Top of the seat in front, from which the back is measured.
    pub seat_front: f64,
    /// Height up to which the lower limb must be straight.
    pub straight: f64,
    /// Length along the lean, from the level of the seat in front, at which the upper limb must be straight.
    pub first: f64,
    /// Roundness as a share of the widest that has room.
    pub knee: f64,
    /// How far the outline goes on below the floor, where it is cut off.
    pub below_floor: f64,
}

/// The eight corners of the outline before its knees are rounded.
struct Corners {
    foot_front: Point,
    low_front: Point,
    high_front: Point,
    top_front: Point,
    top_back: Point,
    high_back: Point,
    low_back: Point,
    foot_back: Point,
}

impl Profile {
    /// The outline of a back leg.
    pub fn of(bend: &Bend) -> Result<Self, Unbuildable> {
        let (rake, kick) = (bend.rake, bend.kick);
        let room = Room::of(bend)?;
        // The knees begin just outside the zone of the rails, so that the shoulders meet flat wood. How far they
        // reach depends on how much the tapered back face turns, and that a little on where they begin.
        let mut turns = Turns { low: kick, high: rake };
        let mut knees = room.knees(bend, &turns);
        for _ in 0..ROUNDS {
            turns = Turns::of(&corners(bend, knees.low, knees.high));
            knees = room.knees(bend, &turns);
        }
        let Knees { radius, low, high, low_reach, high_reach } = knees;
        let c = corners(bend, low, high);
        let path = rounded(&c, radius);
        let upper = unit(c.top_front - c.high_front);
        Ok(Self {
            path,
            zone_front: c.low_front.x,
            zone_back: c.low_back.x,
            lower_straight: low - low_reach * cos(kick),
            upper_straight: high + high_reach * cos(rake),
            lower_front: (c.low_front, unit(c.foot_front - c.low_front)),
            lower_back: (c.low_back, unit(c.foot_back - c.low_back)),
            upper_front: (c.high_front, upper),
            upper_depth: ((bend.back - bend.front) * upper.y, bend.top_depth),
            sideways: bend.sideways,
            chord: (c.foot_front.midpoint(c.foot_back), c.top_front.midpoint(c.top_back)),
        })
    }

    /// The outline as corners within [`OUTLINE_TOLERANCE`] of the curve, told in the frame with
    /// its origin at the foot end of the chord, x along the chord and y towards the front.
    pub fn outline(&self) -> Vec<Point> {
        let (foot, top) = self.chord;
        let along = unit(top - foot);
        let front = Vec2::new(-along.y, along.x);
        crestrail_geometry::flatten(&self.path, OUTLINE_TOLERANCE)
            .into_iter()
            .map(|p| Point::new((p - foot).dot(along), (p - foot).dot(front)))
            .collect()
    }
}

/// Flat wood kept below the lowest shoulder, mm (common practice, no source: a saw's width and more).
pub const ZONE_MARGIN: f64 = 6.0;

/// Straight leg wanted below the lower knee where there is no stretcher, mm, so that the foot is a
/// leg and not a curve (common practice, no source).
pub const STRAIGHT_FOOT: f64 = 60.0;

/// The widest rounding of a knee, mm: beyond it a knee no longer reads as one.
const WIDEST_KNEE: f64 = 600.0;

/// Room for the two knees, along the leg.
struct Room {
    below: f64,
    above: f64,
}

impl Room {
    fn of(bend: &Bend) -> Result<Self, Unbuildable> {
        let below = bend.rail_bottom - ZONE_MARGIN - bend.straight;
        let above = bend.first + (bend.seat_front - bend.seat_top) / cos(bend.rake) - ZONE_MARGIN;
        if below <= 0.0 || above <= 0.0 {
            return Err(Unbuildable::new(
                Stage::Skeleton,
                &["stretcher_height", "stretcher_width", "rail_width", "seat_height", "back_clear"],
                say!(
                    "The back leg has no room to bend between the seat rails and what is joined next: {:.0} mm are missing.",
                    -below.min(above)
                ),
            ));
        }
        Ok(Self { below, above })
    }

    /// The knees for faces that turn by so much, their corners moved out of the zone of the rails.
    fn knees(&self, bend: &Bend, turns: &Turns) -> Knees {
        let radius = self.widest(turns) * bend.knee;
        let (low_reach, high_reach) = (radius * tan(turns.low / 2.0), radius * tan(turns.high / 2.0));
        let (low, high) = (bend.rail_bottom - ZONE_MARGIN - low_reach, bend.seat_top + high_reach);
        Knees { radius, low, high, low_reach, high_reach }
    }

    /// The greatest radius at which both knees end within their room. A knee of angle a takes
    /// r tan(a/2) on each side of its corner.
    fn widest(&self, turns: &Turns) -> f64 {
        let above = self.above / (tan(turns.high / 2.0) * (1.0 + 1.0 / cos(turns.high)));
        let below = self.below / (tan(turns.low / 2.0) * (1.0 + cos(turns.low)));
        // A straight leg has no knee and divides by zero: the minimum then takes the other bound.
        above.min(below).min(WIDEST_KNEE)
    }
}

/// Rounds after which the turns of the faces stand still to far less than a saw's width.
const ROUNDS: usize = 4;

/// The greater turn of the two faces at each knee, radians.
struct Turns {
    low: f64,
    high: f64,
}

impl Turns {
    fn of(c: &Corners) -> Self {
        let lean = |from: Point, to: Point| atan2((to.x - from.x).abs(), (to.y - from.y).abs());
        Self {
            low: lean(c.low_front, c.foot_front).max(lean(c.low_back, c.foot_back)),
            high: lean(c.high_front, c.top_front).max(lean(c.high_back, c.top_back)),
        }
    }
}

/// The rounding of the knees, the heights of their corners, and how far they reach along the faces, mm.
struct Knees {
    radius: f64,
    low: f64,
    high: f64,
    low_reach: f64,
    high_reach: f64,
}

fn corners(bend: &Bend, low: f64, high: f64) -> Corners {
    let (rake, kick, back, front) = (bend.rake, bend.kick, bend.back, bend.front);
    let foot = -bend.below_floor;
    let top_front = Point::new(front + (bend.top - high) * tan(rake), bend.top);
    let foot_front = Point::new(front + (low - foot) * tan(kick), foot);
    // Going on below the floor in the direction of the taper keeps the foot's depth at the floor.
    let floor_back = front + low * tan(kick) + bend.foot_depth;
    let fall = (floor_back - back) / low;
    Corners {
        foot_front,
        low_front: Point::new(front, low),
        high_front: Point::new(front, high),
        top_front,
        // The top is cut square to the limb, so its back corner is the lower one.
        top_back: top_front + Vec2::new(cos(rake), -sin(rake)) * bend.top_depth,
        high_back: Point::new(back, high),
        low_back: Point::new(back, low),
        foot_back: Point::new(back + (low - foot) * fall, foot),
    }
}

fn unit(v: Vec2) -> Vec2 {
    v / hypot(v.x, v.y)
}

fn rounded(c: &Corners, radius: f64) -> BezPath {
    let mut path = BezPath::new();
    path.move_to(c.foot_back);
    fillet(&mut path, c.foot_back, c.low_back, c.high_back, radius);
    fillet(&mut path, c.low_back, c.high_back, c.top_back, radius);
    path.line_to(c.top_back);
    path.line_to(c.top_front);
    fillet(&mut path, c.top_front, c.high_front, c.low_front, radius);
    fillet(&mut path, c.high_front, c.low_front, c.foot_front, radius);
    path.line_to(c.foot_front);
    path.close_path();
    path
}

/// Turns less than this many radians are left as they are: the arc would be shorter than a hair.
const STRAIGHT: f64 = 1e-4;

/// Goes on from `before` round the corner `at` towards `after` by an arc of `radius` that touches
/// both lines.
fn fillet(path: &mut BezPath, before: Point, at: Point, after: Point, radius: f64) {
    let (inward, onward) = (unit(at - before), unit(after - at));
    let turn = crestrail_geometry::math::atan2(inward.cross(onward), inward.dot(onward));
    if turn.abs() < STRAIGHT {
        return path.line_to(at);
    }
    let reach = radius * tan(turn.abs() / 2.0);
    let side = Vec2::new(-inward.y, inward.x) * turn.signum();
    let start = at - inward * reach;
    let centre = start + side * radius;
    let start_angle = crestrail_geometry::math::atan2(-side.y, -side.x);
    path.line_to(start);
    let arc = Arc::new(centre, (radius, radius), start_angle, turn, 0.0);
    path.extend(arc.path_elements(OUTLINE_TOLERANCE / 10.0).skip(1));
}
