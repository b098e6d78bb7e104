//! The side view of the back leg: a bent, tapered outline sawn from a plank.

use crate::choices::Stretchers;
use crate::design::Design;
use crate::unbuildable::{Stage, Unbuildable};
use crestrail_geometry::math::{cos, hypot, radians, sin, tan};
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
    /// A point of the upper front face, and its direction upwards.
    pub upper_front: (Point, Vec2),
    /// Middle of the foot and middle of the top: the grain of the plank runs along this line.
    pub chord: (Point, Point),
    /// Depth of the foot: from its front corner to its back corner, mm.
    pub foot: (f64, f64),
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
    /// The back leg of a design whose rails reach down to `rail_bottom` and whose lowest back slat
    /// begins `first_slat` above the seat, along the lean.
    pub fn of(design: &Design, rail_bottom: f64, first_slat: f64) -> Result<Self, Unbuildable> {
        let (rake, kick) = (radians(design.rake()), radians(design.kick()));
        let room = Room::of(design, rail_bottom, first_slat)?;
        let radius = room.widest(rake, kick) * design.knee() / 100.0;
        // The knees begin just outside the zone of the rails, so that the shoulders meet flat wood.
        let (low_reach, high_reach) = (radius * tan(kick / 2.0), radius * tan(rake / 2.0));
        let (low, high) = (rail_bottom - ZONE_MARGIN - low_reach, design.seat_height() + high_reach);
        let c = corners(design, low, high, rake, kick);
        let path = rounded(&c, radius);
        Ok(Self {
            path,
            zone_front: c.low_front.x,
            zone_back: c.low_back.x,
            lower_straight: low - low_reach * cos(kick),
            upper_straight: high + high_reach * cos(rake),
            lower_front: (c.low_front, unit(c.foot_front - c.low_front)),
            upper_front: (c.high_front, unit(c.top_front - c.high_front)),
            chord: (c.foot_front.midpoint(c.foot_back), c.top_front.midpoint(c.top_back)),
            foot: (c.foot_front.x, c.foot_back.x),
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
const ZONE_MARGIN: f64 = 6.0;

/// Straight leg wanted below the lower knee where there is no stretcher, mm, so that the foot is a
/// leg and not a curve (common practice, no source).
const STRAIGHT_FOOT: f64 = 60.0;

/// The widest rounding of a knee, mm: beyond it a knee no longer reads as one.
const WIDEST_KNEE: f64 = 600.0;

/// Room for the two knees, along the leg.
struct Room {
    below: f64,
    above: f64,
}

impl Room {
    fn of(design: &Design, rail_bottom: f64, first_slat: f64) -> Result<Self, Unbuildable> {
        let straight = match design.stretchers() {
            Stretchers::None => STRAIGHT_FOOT,
            Stretchers::Sides | Stretchers::H | Stretchers::Box => {
                design.stretcher_height() + design.stretcher_width() / 2.0 + ZONE_MARGIN
            }
        };
        let below = rail_bottom - ZONE_MARGIN - straight;
        if below <= 0.0 {
            return Err(Unbuildable::new(
                Stage::Skeleton,
                &["stretcher_height", "stretcher_width", "rail_width", "seat_height"],
                format!(
                    "The stretchers reach too near the seat rails: {:.0} mm are missing between them.",
                    -below
                ),
            ));
        }
        Ok(Self { below, above: first_slat - ZONE_MARGIN })
    }

    /// The greatest radius at which both knees end within their room. A knee of angle a takes
    /// r tan(a/2) on each side of its corner.
    fn widest(&self, rake: f64, kick: f64) -> f64 {
        let above = self.above / (tan(rake / 2.0) * (1.0 + 1.0 / cos(rake)));
        let below = self.below / (tan(kick / 2.0) * (1.0 + cos(kick)));
        // A straight leg has no knee and divides by zero: the minimum then takes the other bound.
        above.min(below).min(WIDEST_KNEE)
    }
}

fn corners(design: &Design, low: f64, high: f64, rake: f64, kick: f64) -> Corners {
    let back = design.seat_depth();
    let front = back - design.back_leg_depth();
    let top = seat_and_back(design);
    let top_front = Point::new(front + (top - high) * tan(rake), top);
    let foot_front = front + low * tan(kick);
    Corners {
        foot_front: Point::new(foot_front, 0.0),
        low_front: Point::new(front, low),
        high_front: Point::new(front, high),
        top_front,
        // The top is cut square to the limb, so its back corner is the lower one.
        top_back: top_front + Vec2::new(cos(rake), -sin(rake)) * design.back_leg_top(),
        high_back: Point::new(back, high),
        low_back: Point::new(back, low),
        foot_back: Point::new(foot_front + design.back_leg_foot(), 0.0),
    }
}

/// Height of the top of the back legs above the floor.
fn seat_and_back(design: &Design) -> f64 {
    design.seat_height() + design.back_height()
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
