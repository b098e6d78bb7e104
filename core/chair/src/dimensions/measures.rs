//! Which sizes a view shows squarely, where they lie on the chair, and how they move with their knobs.

use crate::chair::Chair;
use crate::choices::{Arms, Back, Stretchers};
use crate::design::Design;
use crate::drawing::Look;
use crate::knob::Kind;
use crate::part::{Role, Side};
use crestrail_geometry::math::{cos, radians, sin};
use crestrail_geometry::{Bounds, Vec3};

/// A size of the chair that a knob turns.
pub(super) struct Measure {
    pub(super) knob: &'static str,
    /// Value of the knob.
    pub(super) value: f64,
    /// Its least and greatest value.
    pub(super) limits: (f64, f64),
    pub(super) shape: Shape,
}

pub(super) enum Shape {
    Length(Span),
    Angle(Turn),
    /// The box around the parts that are counted, corner by corner.
    Count(Vec<Vec3>),
}

/// A length between two points of the chair, mm.
#[derive(Clone, Copy)]
pub(super) struct Span {
    /// The two ends at the knob's value.
    pub(super) ends: [Vec3; 2],
    /// How far each moves with each mm of the knob; zero for an end that stays.
    pub(super) moves: [Vec3; 2],
    pub(super) lay: Lay,
}

/// Where the line of a length is laid.
#[derive(Clone, Copy)]
pub(super) enum Lay {
    /// Left or right of the chair.
    Beside,
    /// Below it.
    Below,
    /// Away from the chair along this unit vector.
    Out(Vec3),
}

/// An angle from `zero` towards `quarter`, both unit vectors.
pub(super) struct Turn {
    pub(super) vertex: Vec3,
    pub(super) zero: Vec3,
    pub(super) quarter: Vec3,
    /// mm.
    pub(super) radius: f64,
}

impl Turn {
    /// The point of the arc at an angle in degrees.
    pub(super) fn at(&self, degrees: f64) -> Vec3 {
        let angle = radians(degrees);
        self.vertex + (self.zero * cos(angle) + self.quarter * sin(angle)) * self.radius
    }
}

/// Seen along the eye by less, front and side count as such: the sine of 12°.
const ASIDE: f64 = 0.21;
/// A length that is seen shorter than this share of itself is not told.
const SQUARE: f64 = 0.42;
/// An angle is told where its plane faces the eye by this much.
const FLAT: f64 = 0.9;
/// A part that lies elsewhere than its knob says, because it had to give way, is not told, mm.
const AS_SET: f64 = 2.0;
/// Share of an edge at which its angle is drawn.
const ALONG: f64 = 0.8;
/// A foot reaches up to here, mm.
const FOOT: f64 = 1.0;
/// The end of the back leg, below its highest corner, mm.
const HEAD: f64 = 30.0;
/// From the underside of the seat rails to where legs bend below them, mm.
const BELOW_RAILS: f64 = 60.0;

/// The sizes that this view shows, the most telling first.
pub(super) fn of(chair: &Chair, design: &Design, look: &Look) -> Vec<Measure> {
    let sizes = Sizes { chair, design, look };
    let rows = if look.toward(Vec3::X).abs() < ASIDE {
        sizes.front()
    } else if look.toward(Vec3::Y).abs() < ASIDE {
        sizes.side()
    } else {
        sizes.corner()
    };
    rows.into_iter().flatten().collect()
}

struct Sizes<'a> {
    chair: &'a Chair,
    design: &'a Design,
    look: &'a Look,
}

impl Sizes<'_> {
    fn front(&self) -> Vec<Option<Measure>> {
        let half = self.design.seat_width() / 2.0;
        let height = self.rail_top();
        vec![
            self.width(Lay::Below),
            self.seat_height(half, Lay::Beside),
            self.back_height(half),
            self.counted(),
            self.splay(half, height),
            self.arm_height(half),
            self.front_stretcher(half),
        ]
    }

    fn side(&self) -> Vec<Option<Measure>> {
        let half = self.design.seat_width() / 2.0;
        vec![
            self.depth(half, Lay::Below),
            self.rake(),
            self.slope(half),
            self.kick(),
            self.seat_height(half, Lay::Beside),
            self.stretcher(half),
            self.arm_height(half),
            self.front_splay(),
        ]
    }

    fn corner(&self) -> Vec<Option<Measure>> {
        let half = self.design.seat_width() / 2.0;
        let seen = if self.look.toward(Vec3::X) > 0.0 { 1.0 } else { -1.0 };
        let from_front = self.look.toward(Vec3::Y) < 0.0;
        let width = from_front.then(|| self.width(Lay::Out(-Vec3::Y))).flatten();
        // The height stands at the front leg that is furthest out on the picture, which is the one on the other side.
        let aside = if from_front { -seen } else { seen };
        vec![
            width,
            self.depth(seen * half, Lay::Out(Vec3::X * seen)),
            self.seat_height(aside * half, Lay::Out(Vec3::X * aside)),
        ]
    }

    /// The row of a knob, with its value.
    fn measure(&self, knob: &'static str, value: f64, shape: Shape) -> Option<Measure> {
        let row = self.design.knobs().iter().find(|row| row.name == knob)?;
        let limits = match row.kind {
            Kind::Range { min, max, .. } => (min, max),
            Kind::Count { min, max, .. } => (min.into(), max.into()),
            Kind::Choice { .. } => return None,
        };
        (limits.0 < limits.1).then_some(Measure { knob, value, limits, shape })
    }

    fn length(&self, knob: &'static str, value: f64, span: Span) -> Option<Measure> {
        let way = (span.ends[1] - span.ends[0]).unit();
        (self.look.squareness(way) > SQUARE).then(|| self.measure(knob, value, Shape::Length(span))).flatten()
    }

    /// From a point that stays straight up.
    fn upright(&self, knob: &'static str, value: f64, foot: Vec3, lay: Lay) -> Option<Measure> {
        let span = Span { ends: [foot, foot + Vec3::Z * value], moves: [Vec3::ZERO, Vec3::Z], lay };
        self.length(knob, value, span)
    }

    fn angle(&self, knob: &'static str, value: f64, turn: Turn) -> Option<Measure> {
        let normal = turn.zero.cross(turn.quarter);
        let faces = self.look.toward(normal).abs() > FLAT;
        faces.then(|| self.measure(knob, value, Shape::Angle(turn))).flatten()
    }

    fn corners(&self, is_own: impl Fn(Role, Side) -> bool) -> impl Iterator<Item = Vec3> {
        let pieces = self.chair.pieces().filter(move |(part, _)| is_own(part.id.role, part.id.side));
        pieces.flat_map(|(part, body)| body.solid.vertices.iter().map(|&v| part.place.point(v)))
    }

    fn around(&self, role: Role) -> Option<Bounds> {
        let bounds = self.corners(|own, _| own == role).fold(Bounds::NOTHING, Bounds::with);
        (bounds.low.x <= bounds.high.x).then_some(bounds)
    }

    /// Height of the seat rails' tops in front, where the width is told.
    fn rail_top(&self) -> f64 {
        self.around(Role::FrontRail).map_or(self.design.seat_height(), |rail| rail.high.z)
    }

    fn below_rails(&self) -> f64 {
        self.rail_top() - self.design.rail_width() - BELOW_RAILS
    }

    fn has_back(&self) -> bool {
        self.design.back() != Back::Open
    }

    fn width(&self, lay: Lay) -> Option<Measure> {
        let width = self.design.seat_width();
        // Legs that stand upright carry the width down to the floor.
        let upright = matches!(lay, Lay::Out(_)) || self.design.splay() == 0.0;
        let level = Vec3::Z * if upright { 0.0 } else { self.rail_top() };
        let half = Vec3::X * (width / 2.0);
        let span = Span { ends: [level - half, level + half], moves: [Vec3::X * -0.5, Vec3::X * 0.5], lay };
        self.length("seat_width", width, span)
    }

    fn depth(&self, x: f64, lay: Lay) -> Option<Measure> {
        let depth = self.design.seat_depth();
        let level = if matches!(lay, Lay::Out(_)) { 0.0 } else { self.rail_top() };
        let from = Vec3::new(x, 0.0, level);
        let span = Span { ends: [from, from + Vec3::Y * depth], moves: [Vec3::ZERO, Vec3::Y], lay };
        self.length("seat_depth", depth, span)
    }

    fn seat_height(&self, x: f64, lay: Lay) -> Option<Measure> {
        self.upright("seat_height", self.design.seat_height(), Vec3::X * x, lay)
    }

    fn back_height(&self, half: f64) -> Option<Measure> {
        if !self.has_back() {
            return None;
        }
        let (value, seat) = (self.design.back_height(), self.design.seat_height());
        let half = half - self.design.narrowing() / 2.0;
        self.upright("back_height", value, Vec3::new(half, self.design.seat_depth(), seat), Lay::Beside)
    }

    fn arm_height(&self, half: f64) -> Option<Measure> {
        if self.design.arms() == Arms::None {
            return None;
        }
        let (value, seat) = (self.design.arm_height(), self.design.seat_height());
        let top = self.around(Role::Arm)?.high.z;
        let as_set = (top - seat - value).abs() < AS_SET;
        as_set.then(|| self.upright("arm_height", value, Vec3::new(half, 0.0, seat), Lay::Beside)).flatten()
    }

    fn stretcher(&self, half: f64) -> Option<Measure> {
        if self.design.stretchers() == Stretchers::None {
            return None;
        }
        self.low(Role::SideStretcher, "stretcher_height", self.design.stretcher_height(), half)
    }

    fn front_stretcher(&self, half: f64) -> Option<Measure> {
        if self.design.stretchers() != Stretchers::Box {
            return None;
        }
        self.low(Role::FrontStretcher, "front_stretcher_height", self.design.front_stretcher_height(), half)
    }

    fn low(&self, role: Role, knob: &'static str, value: f64, half: f64) -> Option<Measure> {
        let bounds = self.around(role)?;
        let as_set = ((bounds.low.z + bounds.high.z) / 2.0 - value).abs() < AS_SET;
        let foot = Vec3::new(half, bounds.high.y, 0.0);
        as_set.then(|| self.upright(knob, value, foot, Lay::Beside)).flatten()
    }

    /// The front face of the back leg, from the seat upwards.
    fn rake(&self) -> Option<Measure> {
        if !self.has_back() {
            return None;
        }
        let degrees = self.design.rake();
        let legs = || self.corners(|role, _| role == Role::BackLeg);
        let top = legs().map(|p| p.z).reduce(f64::max)?;
        let high = foremost(legs().filter(|p| p.z > top - HEAD))?;
        let (sin, cos) = (sin(radians(degrees)), cos(radians(degrees)));
        let length = (high.z - self.design.seat_height()) / cos;
        let vertex = high - Vec3::new(0.0, sin, cos) * length;
        let turn = Turn { vertex, zero: Vec3::Z, quarter: Vec3::Y, radius: length * ALONG };
        self.angle("rake", degrees, turn)
    }

    /// The front face of the back leg, from the seat rails down to the floor.
    fn kick(&self) -> Option<Measure> {
        let degrees = self.design.kick();
        self.angle("kick", degrees, self.leg(self.foot(Role::BackLeg)?, degrees, Vec3::Y))
    }

    /// The front leg in front, from the seat rails down to the floor.
    fn front_splay(&self) -> Option<Measure> {
        let degrees = self.design.front_splay();
        self.angle("front_splay", degrees, self.leg(self.foot(Role::FrontLeg)?, degrees, -Vec3::Y))
    }

    fn splay(&self, half: f64, height: f64) -> Option<Measure> {
        let degrees = self.design.splay();
        let vertex = Vec3::new(half, 0.0, height);
        let radius = height * ALONG;
        self.angle("splay", degrees, Turn { vertex, zero: -Vec3::Z, quarter: Vec3::X, radius })
    }

    /// The foremost corner of a leg's foot.
    fn foot(&self, leg: Role) -> Option<Vec3> {
        foremost(self.corners(|role, _| role == leg).filter(|p| p.z < FOOT))
    }

    /// An edge of a leg that runs down to `foot`, this many degrees off upright.
    fn leg(&self, foot: Vec3, degrees: f64, quarter: Vec3) -> Turn {
        let (sin, cos) = (sin(radians(degrees)), cos(radians(degrees)));
        let length = (self.below_rails() - foot.z) / cos;
        let vertex = foot - (quarter * sin - Vec3::Z * cos) * length;
        Turn { vertex, zero: -Vec3::Z, quarter, radius: length * ALONG }
    }

    fn slope(&self, half: f64) -> Option<Measure> {
        let vertex = Vec3::new(half, 0.0, self.design.seat_height());
        let radius = self.design.seat_depth() * ALONG;
        let turn = Turn { vertex, zero: Vec3::Y, quarter: -Vec3::Z, radius };
        self.angle("seat_slope", self.design.seat_slope(), turn)
    }

    /// Slats or laths of the back.
    fn counted(&self) -> Option<Measure> {
        let (knob, value, role) = match self.design.back() {
            Back::Slats => ("back_slats", self.design.back_slats(), Role::BackSlat),
            Back::Laths => ("laths", self.design.laths(), Role::Lath),
            Back::Splat | Back::Panel | Back::Open => return None,
        };
        let Bounds { low, high } = self.around(role)?;
        self.measure(knob, value as f64, Shape::Count(vec![low, high]))
    }
}

/// The point nearest to the front, the first of several.
fn foremost(points: impl Iterator<Item = Vec3>) -> Option<Vec3> {
    points.reduce(|a, b| if b.y < a.y { b } else { a })
}
