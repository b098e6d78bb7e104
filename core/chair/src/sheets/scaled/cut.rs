//! Sections through joints (ISO 128-3): along the middle plane of a tenon, so that its length and width show in true size.

use super::super::hatch;
use super::super::pens::{self, Pen};
use super::figures::{LANE, Placed, between};
use super::ink::{Ink, Words};
use super::lines::drawn;
use super::measure::Measure;
use super::views::{laid, wide};
use crate::chair::Chair;
use crate::joint::Joint;
use crate::length::Lengths;
use crate::part::{Part, PartId, Role, Side};
use crate::solids::windowed;
use crate::unbuildable::Unbuildable;
use crestrail_geometry::view::{Camera, Stretch, Subject, draft};
use crestrail_geometry::{Body, Place, Solid, Vec3, carve};
use crestrail_sheet::Align;
use kurbo::{Point, Rect, Size, Vec2};

/// How much of the guest is shown in front of the shoulder, and of the host past the tenon's end and beside its edges, mm.
const GUEST: f64 = 85.0;
const BEYOND: f64 = 30.0;
const BESIDE: f64 = 50.0;
/// Where the guest's width is told, in front of its shoulder, mm.
const RAIL: f64 = GUEST - 4.0;
/// How far behind the cutting plane things are drawn, mm.
const BEHIND: f64 = 40.0;
/// Corners of a tenon beyond this share of its length are those of its end.
const END: f64 = 0.7;
/// Less is not told, mm.
const LEAST: f64 = 1.0;
/// Planes nearer than this are one, mm.
const ON: f64 = 1e-3;

/// A section through the middle of a joint's tenon.
pub(super) struct Cut<'a> {
    /// `A`, `B` …
    pub(super) letter: char,
    pub(super) title: String,
    chair: &'a Chair,
    joint: &'a Joint,
    camera: Camera,
    lengths: Lengths,
}

/// The joints that are cut: where the side rail meets the back leg, and where the front rail meets the front leg.
pub(super) fn cuts(chair: &Chair, lengths: Lengths) -> Vec<Cut<'_>> {
    let find = |guest: Role, host: &dyn Fn(Role) -> bool, back: bool| {
        let own = chair.joints.iter().filter(move |joint| {
            joint.guest.role == guest
                && joint.guest.side != Side::Left
                && joint.host.side == Side::Right
                && host(joint.host.role)
        });
        own.max_by(|a, b| {
            let far = |j: &Joint| j.mouth.origin.x + if back { j.mouth.origin.y } else { 0.0 };
            far(a).total_cmp(&far(b))
        })
    };
    let leg = |role: Role| matches!(role, Role::FrontLeg | Role::BackLeg);
    let wanted = [find(Role::SideRail, &leg, true), find(Role::FrontRail, &leg, false)];
    let found = wanted.into_iter().flatten();
    found.zip('A'..).map(|(joint, letter)| Cut::of(chair, joint, letter, lengths)).collect()
}

impl<'a> Cut<'a> {
    /// Seen from where the thickness of the tenon is cut: from the right or from the front.
    fn of(chair: &'a Chair, joint: &'a Joint, letter: char, lengths: Lengths) -> Self {
        let normal = joint.mouth.z;
        let toward = if normal.x - normal.y > 0.0 { normal } else { -normal };
        let up = (Vec3::Z - toward * toward.z).unit();
        let camera = Camera::square(up.cross(toward), up);
        let title = format!("{} in {}", joint.guest.role.name(), joint.host.role.name());
        Self { letter, title, chair, joint, camera, lengths }
    }

    fn part(&self, id: PartId) -> Option<&Part> {
        self.chair.part(id)
    }

    /// The window along the picture's axes and the line of sight, relative to the mouth: low and high corner.
    fn window(&self) -> (Vec3, Vec3) {
        let (joint, camera) = (self.joint, &self.camera);
        let inwards = camera.right.dot(joint.mouth.x) > 0.0;
        let depth = joint.mortise.depth.max(joint.tenon.length) + BEYOND;
        let (low, high) = if inwards { (-GUEST, depth) } else { (-depth, GUEST) };
        let half = joint.tenon.width / 2.0 + BESIDE;
        (Vec3::new(low, -half, -BEHIND), Vec3::new(high, half, 0.0))
    }

    fn frame(&self) -> Place {
        Place {
            origin: self.joint.mouth.origin,
            x: self.camera.right,
            y: self.camera.up,
            z: self.camera.toward,
        }
    }

    /// What is drawn of each part that comes within the window.
    pub(super) fn drawn(&self) -> Result<Opened<'_>, Unbuildable> {
        let (frame, (low, high)) = (self.frame(), self.window());
        let beyond = outside(&frame, low, high);
        let mut solids = Vec::new();
        for (part, body) in self.chair.pieces() {
            let spots = body.solid.vertices.iter().map(|&v| frame.local_point(part.place.point(v)));
            let reach = crestrail_geometry::Bounds::around(&spots.collect::<Vec<_>>());
            let away = [
                (reach.low.x, reach.high.x, low.x, high.x),
                (reach.low.y, reach.high.y, low.y, high.y),
                (reach.low.z, reach.high.z, low.z, high.z),
            ];
            if away.iter().any(|&(a, b, c, d)| b < c + ON || a > d - ON) {
                continue;
            }
            if let Some(solid) = windowed(self.chair, part, &beyond)? {
                solids.push((part, solid));
            }
        }
        Ok(Opened { cut: self, frame, low, high, solids })
    }

    /// The trace of the cutting plane on the plan, with arrows and letters at both ends.
    pub(super) fn trace(&self, rect: Rect, flat: impl Fn(Vec3) -> Point) -> Ink {
        let mut ink = Ink::default();
        let at = flat(self.joint.mouth.origin);
        let across = self.camera.toward.cross(Vec3::Z);
        let way = flat(self.joint.mouth.origin + across * 1000.0) - at;
        let way = way / way.hypot2().sqrt();
        let look = flat(self.joint.mouth.origin - self.camera.toward * 1000.0) - at;
        let look = look / look.hypot2().sqrt();
        let ends = [-1.0, 1.0]
            .map(|sign| (at + way * sign * leaving(rect.inflate(1.0, 1.0), at, way * sign), way * sign));
        ink.line(ends[0].0, ends[1].0, Pen::Axis);
        for (end, out) in ends {
            wide(&mut ink, end, end + out * 4.0);
            let tip = end + out * 2.5;
            ink.line(tip - look * 6.0, tip, Pen::Thin);
            ink.solid_arrow(tip, -look);
            let letter = self.letter.to_string();
            let at = end + out * 7.0 + Vec2::new(0.0, 0.35 * pens::TITLE);
            ink.words(&Words::new(&letter, at, Align::Middle).sized(pens::TITLE).strong());
        }
        ink.named(vec![("section", self.letter.to_string())])
    }

    /// What the tenon measures, where it lies in the plane.
    pub(super) fn measures(&self) -> Vec<Measure> {
        let (joint, mouth) = (self.joint, &self.joint.mouth);
        if joint.kind.is_separate() {
            return Vec::new();
        }
        let spots: Vec<Vec3> = joint.tenon.bodies.iter().flat_map(|body| crossings(body, mouth)).collect();
        // The end may slant: the corners beyond half of the length are those of the end alone, haunches end before.
        let reach = spots.iter().map(|p| p.x).fold(0.0, f64::max) * END;
        let end = || spots.iter().copied().filter(|p| p.x > reach);
        let low = end().reduce(|a, b| if b.y < a.y - ON || (b.y < a.y + ON && b.x > a.x) { b } else { a });
        let high = end().map(|p| p.y).reduce(f64::max);
        let Some((low, high)) = low.zip(high) else { return Vec::new() };
        let corner = mouth.point(Vec3 { z: 0.0, ..low });
        let Some(shoulder) = joint.face.meet(corner, mouth.x) else { return Vec::new() };
        let measure = |name, from: Vec3, to: Vec3, along: Vec3| {
            let value = (to - from).dot(along);
            (value > LEAST).then_some(Measure { name, from, to, along, value })
        };
        let length = measure("length of the tenon", shoulder, corner, mouth.x);
        let width = measure("width of the tenon", corner, mouth.point(Vec3::new(low.x, high, 0.0)), mouth.y);
        [length, width, self.rail()].into_iter().flatten().collect()
    }

    /// How wide the guest is, where its edges lie in the plane.
    fn rail(&self) -> Option<Measure> {
        let (guest, mouth) = (self.part(self.joint.guest)?, &self.joint.mouth);
        let across = guest.place.y;
        if guest.sawn_to_outline || across.dot(self.camera.up).abs() < 1.0 - 1e-9 {
            return None;
        }
        let spot = guest.place.local_point(mouth.point(Vec3::X * -RAIL));
        let half = guest.size.width / 2.0;
        let at = |y: f64| guest.place.point(Vec3 { y, ..spot });
        let (from, to) =
            if across.dot(self.camera.up) > 0.0 { (at(-half), at(half)) } else { (at(half), at(-half)) };
        let along = (to - from).unit();
        Some(Measure { name: "width of the rail", from, to, along, value: guest.size.width })
    }
}

/// Where the edges of a tenon's body cross its middle plane, in the frame of its mouth: there z is 0.
fn crossings(body: &Body, mouth: &Place) -> Vec<Vec3> {
    let Ok(solid) = carve(&[body.local_to(mouth)], &[]) else { return Vec::new() };
    let mut found = Vec::new();
    for ring in solid.faces.iter().flat_map(|face| &face.rings) {
        for (i, &a) in ring.corners.iter().enumerate() {
            let b = ring.corners[(i + 1) % ring.corners.len()];
            let (a, b) = (solid.vertices[a as usize], solid.vertices[b as usize]);
            if a.z < 0.0 && b.z > 0.0 {
                found.push(a + (b - a) * (a.z / (a.z - b.z)));
            }
        }
    }
    found
}

/// How far from `at` a ray leaves the rectangle.
fn leaving(rect: Rect, at: Point, way: Vec2) -> f64 {
    let side = |low: f64, high: f64, at: f64, way: f64| match way {
        w if w > 1e-9 => (high - at) / w,
        w if w < -1e-9 => (low - at) / w,
        _ => f64::INFINITY,
    };
    side(rect.x0, rect.x1, at.x, way.x).min(side(rect.y0, rect.y1, at.y, way.y))
}

/// Larger than any chair, mm.
const FAR: f64 = 4000.0;

/// The six bodies round a box that leave only what is in it.
fn outside(frame: &Place, low: Vec3, high: Vec3) -> Vec<Body> {
    let wide = Vec3::new(FAR, FAR, FAR);
    let cuboid = |low: Vec3, high: Vec3| Body::cuboid(frame, low, high);
    vec![
        cuboid(-wide, Vec3 { x: low.x, ..wide }),
        cuboid(Vec3 { x: high.x, ..-wide }, wide),
        cuboid(-wide, Vec3 { y: low.y, ..wide }),
        cuboid(Vec3 { y: high.y, ..-wide }, wide),
        cuboid(-wide, Vec3 { z: low.z, ..wide }),
        cuboid(Vec3 { z: high.z, ..-wide }, wide),
    ]
}

/// The parts within the window, cut open.
pub(super) struct Opened<'a> {
    cut: &'a Cut<'a>,
    frame: Place,
    low: Vec3,
    high: Vec3,
    solids: Vec<(&'a Part, Solid)>,
}

impl Opened<'_> {
    /// Edges behind and in the plane, as far as they are seen, and not those of the window.
    fn stretches(&self) -> Vec<Stretch> {
        let subjects: Vec<Subject<'_>> = (self.solids.iter().enumerate())
            .map(|(owner, (part, solid))| Subject { owner, solid, place: part.place })
            .collect();
        let all = draft(&subjects, &self.cut.camera);
        all.into_iter().filter(|stretch| stretch.seen && !self.is_rim(stretch.from, stretch.to)).collect()
    }

    /// Whether an edge lies in one of the window's own planes, other than the cutting plane.
    fn is_rim(&self, from: Vec3, to: Vec3) -> bool {
        let [a, b] = [from, to].map(|p| self.frame.local_point(p));
        let on = |x: f64, y: f64, at: f64| (x - at).abs() < ON && (y - at).abs() < ON;
        on(a.x, b.x, self.low.x)
            || on(a.x, b.x, self.high.x)
            || on(a.y, b.y, self.low.y)
            || on(a.y, b.y, self.high.y)
            || on(a.z, b.z, self.low.z)
    }

    /// The faces that the plane cuts, in the frame: for each part its rings.
    fn faces(&self) -> Vec<(&Part, Vec<Vec<Point>>)> {
        let mut found = Vec::new();
        for (part, solid) in &self.solids {
            let mut rings = Vec::new();
            for face in &solid.faces {
                let normal = self.frame.local_direction(part.place.direction(face.normal));
                let spot = |v: u32| self.frame.local_point(part.place.point(solid.vertices[v as usize]));
                if normal.z < 1.0 - 1e-6 || spot(face.rings[0].corners[0]).z.abs() > ON {
                    continue;
                }
                for ring in &face.rings {
                    rings.push(ring.corners.iter().map(|&v| spot(v)).map(|p| Point::new(p.x, p.y)).collect());
                }
            }
            if !rings.is_empty() {
                found.push((*part, rings));
            }
        }
        found
    }

    /// The section at a scale, around the origin of its frame.
    pub(super) fn ink(&self, scale: u32) -> Ink {
        let mut ink = Ink::default();
        let place = |p: Point| laid(p, scale);
        let origin = self.cut.camera.flat(self.frame.origin);
        let lines = drawn(&self.stretches(), |p| place((p - origin).to_point()));
        ink.add(self.hatching(scale));
        ink.lines(self.breaks(scale), Pen::Thin);
        ink.lines(lines.seen.iter().map(|run| pens::open(run)).collect(), Pen::Outline);
        let (low, high) = (Point::new(self.low.x, self.low.y), Point::new(self.high.x, self.high.y));
        let rect = Rect::from_points(place(low), place(high));
        let mut all = ink.named(vec![("view", format!("section {}", self.cut.letter))]);
        all.take(rect);
        all.add(self.dimensions(scale, rect));
        all.add(self.letters(scale, rect));
        let text = format!("{0}–{0}  (1:{scale})  {1}", self.cut.letter, self.cut.title);
        let top = all.room.map_or(rect.y0, |room| room.y0);
        all.words(&Words::new(&text, Point::new(rect.x0, top - 4.0), Align::Start).strong());
        all
    }

    /// Where the window breaks off what is cut.
    fn breaks(&self, scale: u32) -> Vec<crestrail_sheet::Trace> {
        let mut found = Vec::new();
        for (_, rings) in self.faces() {
            for ring in rings {
                for (i, &a) in ring.iter().enumerate() {
                    let b = ring[(i + 1) % ring.len()];
                    let lift = |p: Point| self.frame.point(Vec3::new(p.x, p.y, 0.0));
                    if self.is_rim(lift(a), lift(b)) {
                        found.push(pens::open(&wavy(laid(a, scale), laid(b, scale))));
                    }
                }
            }
        }
        found
    }

    fn hatching(&self, scale: u32) -> Ink {
        let mut ink = Ink::default();
        let mut others = 0;
        for (part, rings) in self.faces() {
            let (slope, apart) = match part.id {
                // What holds a joint is not hatched where it is cut along (ISO 128-3, as for pins; from memory).
                id if id.role.is_small() => continue,
                id if id == self.cut.joint.host => (1.0, 2.2),
                id if id == self.cut.joint.guest => (-1.0, 2.2),
                _ => {
                    others += 1;
                    (if others % 2 == 1 { 1.0 } else { -1.0 }, 1.4 + 0.5 * f64::from(others))
                }
            };
            let rings: Vec<Vec<Point>> =
                rings.iter().map(|ring| ring.iter().map(|&p| laid(p, scale)).collect()).collect();
            let lines = hatch::within(&rings, slope, apart);
            ink.lines(lines.iter().map(|ends| pens::open(ends)).collect(), Pen::Thin);
        }
        ink
    }

    fn dimensions(&self, scale: u32, rect: Rect) -> Ink {
        let mut ink = Ink::default();
        for measure in self.cut.measures() {
            let flat = |p: Vec3| {
                let own = self.frame.local_point(p);
                laid(Point::new(own.x, own.y), scale)
            };
            let text = self.cut.lengths.write(measure.value);
            let placed = Placed { measure: &measure, text, from: flat(measure.from), to: flat(measure.to) };
            let way = placed.to - placed.from;
            let unit = way / way.hypot2().sqrt().max(1e-9);
            // Below the window for the length, beside the host for the width.
            let out = if unit.x.abs() > unit.y.abs() {
                Vec2::new(-unit.y, unit.x) * unit.x.signum()
            } else {
                let right = if placed.from.x + placed.to.x > 0.0 { 1.0 } else { -1.0 };
                Vec2::new(-unit.y, unit.x) * (-unit.y).signum() * right
            };
            let edge = if out.y.abs() > out.x.abs() {
                (rect.y1 + LANE - placed.from.y.max(placed.to.y)) / out.y
            } else if out.x > 0.0 {
                (rect.x1 + LANE - placed.from.x.min(placed.to.x)) / out.x
            } else {
                (rect.x0 - LANE - placed.from.x.max(placed.to.x)) / out.x
            };
            ink.add(between(&placed, placed.from + out * edge, placed.to + out * edge));
        }
        ink
    }

    /// The letters of guest and host above the window, each with a line to it.
    fn letters(&self, scale: u32, rect: Rect) -> Ink {
        let mut ink = Ink::default();
        let joint = self.cut.joint;
        let ways = [(joint.guest, -0.6 * GUEST), (joint.host, joint.tenon.length * 0.5)];
        for (id, along) in ways {
            let Some(part) = self.cut.part(id) else { continue };
            let faces = self.faces();
            let Some((_, rings)) = faces.iter().find(|(other, _)| other.id == id) else { continue };
            let spot = self.frame.local_point(joint.mouth.point(Vec3::X * along));
            let Some(high) = highest(rings, spot.x) else { continue };
            let at = laid(Point::new(spot.x, high - 6.0_f64.min(6.0)), scale);
            let foot = Point::new(at.x, rect.y0 - 2.0);
            ink.line(foot, at, Pen::Thin);
            ink.dot(at);
            let text = format!("{}  {}", part.letter, part.id.role.name());
            ink.words(&Words::new(&text, foot - Vec2::new(0.0, 1.5), Align::Middle));
        }
        ink
    }
}

/// The highest point of rings over a place.
fn highest(rings: &[Vec<Point>], x: f64) -> Option<f64> {
    let mut best: Option<f64> = None;
    for ring in rings {
        for (i, &a) in ring.iter().enumerate() {
            let b = ring[(i + 1) % ring.len()];
            if (a.x > x) != (b.x > x) {
                let y = a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
                best = Some(best.map_or(y, |most| most.max(y)));
            }
        }
    }
    best
}

/// A line broken off by hand (ISO 128-2, line 01.1.18): a wave of small rise along it.
fn wavy(a: Point, b: Point) -> Vec<Point> {
    let way = b - a;
    let long = way.hypot2().sqrt();
    let aside = Vec2::new(-way.y, way.x) / long.max(1e-9);
    let count = ((long / 1.0) as usize).clamp(2, 400);
    let at = |i: usize| {
        let share = i as f64 / count as f64;
        let bend = crestrail_geometry::math::sin(share * long * 0.9) * 0.5;
        a + way * share + aside * bend * (crestrail_geometry::math::sin(share * core::f64::consts::PI))
    };
    (0..=count).map(at).collect()
}

/// The rooms of several sections one below the other, or beside each other where `level`.
pub(super) fn beside(inks: &[Ink], level: bool) -> (Ink, Size) {
    const APART: f64 = 10.0;
    let (mut all, mut at) = (Ink::default(), Point::ORIGIN);
    for ink in inks {
        let Some(room) = ink.room else { continue };
        all.add(ink.moved(at - room.origin()));
        at +=
            if level { Vec2::new(room.width() + APART, 0.0) } else { Vec2::new(0.0, room.height() + APART) };
    }
    let size = all.room.map_or(Size::ZERO, |room| room.size());
    (all, size)
}
