//! What is measured on a chair: each figure with the two corners it lies between.

use crate::chair::Chair;
use crate::part::Role;
use crestrail_geometry::Vec3;
use crestrail_geometry::math::{atan2, degrees, hypot};
use crestrail_sorting::Order as _;

/// A length or an angle of the model.
#[derive(Clone, Debug, PartialEq)]
pub struct Measure {
    /// What is measured.
    pub name: &'static str,
    /// A corner of some part, chair space, mm.
    pub from: Vec3,
    /// Another.
    pub to: Vec3,
    /// The direction along which the length is told, a unit vector; for an angle that from which it is told.
    pub along: Vec3,
    /// mm, or degrees of an angle.
    pub value: f64,
}

impl Measure {
    fn length(name: &'static str, from: Vec3, to: Vec3, along: Vec3) -> Self {
        Self { name, from, to, along, value: (to - from).dot(along) }
    }
}

/// Nearer levels and widths are one, mm.
const SAME: f64 = 0.5;
/// Corners of one level differ by less, mm.
const LEVEL: f64 = 0.05;
/// A foot reaches up to here, mm.
const FOOT: f64 = 1.0;
/// A back that leans less is upright, degrees.
const UPRIGHT: f64 = 0.2;

const SEAT: [Role; 5] = [Role::SeatSlat, Role::SeatBoard, Role::PadBoard, Role::Pad, Role::Cord];

/// All corners of some parts.
pub(super) struct Corners<'a>(pub(super) &'a Chair);

impl Corners<'_> {
    fn of(&self, is_own: impl Fn(Role, Vec3) -> bool) -> Vec<Vec3> {
        let mut found = Vec::new();
        for (part, body) in self.0.pieces() {
            let spots = body.solid.vertices.iter().map(|&v| part.place.point(v));
            found.extend(spots.filter(|&p| is_own(part.id.role, p)));
        }
        found
    }

    fn all(&self) -> Vec<Vec3> {
        self.of(|_, _| true)
    }

    fn role(&self, role: Role) -> Vec<Vec3> {
        self.of(|own, _| own == role)
    }

    fn feet(&self, role: Role) -> Vec<Vec3> {
        self.of(|own, p| own == role && p.z < FOOT)
    }

    fn seat(&self) -> Vec<Vec3> {
        self.of(|own, _| SEAT.contains(&own))
    }
}

/// The corner that lies furthest along `way`; of several the one furthest along `then`.
fn furthest(corners: &[Vec3], way: Vec3, then: Vec3) -> Option<Vec3> {
    let most = corners.iter().map(|p| p.dot(way)).reduce(f64::max)?;
    let level = corners.iter().filter(|p| p.dot(way) > most - LEVEL);
    level.copied().reduce(|a, b| if b.dot(then) > a.dot(then) { b } else { a })
}

/// Widths across the chair, the least first; all lie evenly about its middle.
pub(super) fn widths(chair: &Chair) -> Vec<Measure> {
    let corners = Corners(chair);
    let top = |p: Vec3, all: &[Vec3]| all.iter().all(|q| q.z < p.z + 30.0);
    let legs = corners.role(Role::BackLeg);
    let heads: Vec<Vec3> = legs.iter().copied().filter(|&p| top(p, &legs)).collect();
    let sets = [
        ("width", corners.all()),
        ("width over the front feet", corners.feet(Role::FrontLeg)),
        ("width over the back feet", corners.feet(Role::BackLeg)),
        ("width of the seat", corners.seat()),
        ("width of the back", heads),
    ];
    let mut found: Vec<Measure> = Vec::new();
    for (name, set) in sets {
        let Some((left, right)) = furthest(&set, -Vec3::X, -Vec3::Z).zip(furthest(&set, Vec3::X, -Vec3::Z))
        else {
            continue;
        };
        let measure = Measure::length(name, left, right, Vec3::X);
        if found.iter().all(|known| (known.value - measure.value).abs() > SAME) {
            found.push(measure);
        }
    }
    found.order_by(|a, b| a.value.total_cmp(&b.value));
    found
}

/// Heights above the floor as seen from the front; corners are taken as far along `aside` as there are.
pub(super) fn front_heights(chair: &Chair, aside: Vec3) -> Vec<Measure> {
    let corners = Corners(chair);
    let mut levels = Levels::new(&corners.all(), aside);
    levels.top("height", &corners.all());
    levels.top("height of the seat", &corners.seat());
    levels.both(["underside of the front rail", "top of the front rail"], &corners.role(Role::FrontRail));
    levels.both(
        ["underside of the front stretcher", "top of the front stretcher"],
        &corners.role(Role::FrontStretcher),
    );
    levels.both(["underside of the crest rail", "top of the crest rail"], &corners.role(Role::CrestRail));
    levels.both(
        ["underside of the lower back rail", "top of the lower back rail"],
        &corners.role(Role::LowerBackRail),
    );
    for slat in slats(chair) {
        levels.both(["underside of a back slat", "top of a back slat"], &slat);
    }
    levels.done()
}

/// The corners of each back slat, or of all together where they are more than can be told apart.
fn slats(chair: &Chair) -> Vec<Vec<Vec3>> {
    const MOST: usize = 4;
    let own = chair.pieces().filter(|(part, _)| part.id.role == Role::BackSlat);
    let each: Vec<Vec<Vec3>> =
        own.map(|(part, body)| body.solid.vertices.iter().map(|&v| part.place.point(v)).collect()).collect();
    if each.len() > MOST { vec![each.concat()] } else { each }
}

/// How deep the seat is, as seen from above.
pub(super) fn seat_depth(chair: &Chair) -> Option<Measure> {
    let seat = Corners(chair).seat();
    let (from, to) = (furthest(&seat, -Vec3::Y, -Vec3::X)?, furthest(&seat, Vec3::Y, -Vec3::X)?);
    Some(Measure::length("depth of the seat", from, to, Vec3::Y))
}

/// Heights as seen from the side, without those told in `known`.
pub(super) fn side_heights(chair: &Chair, aside: Vec3, known: &[Measure]) -> Vec<Measure> {
    let corners = Corners(chair);
    let mut levels = Levels::new(&corners.all(), aside);
    levels.known = known.iter().map(|measure| measure.value).filter(|value| *value > SAME).collect();
    levels.both(["underside of the arm", "top of the arm"], &corners.role(Role::Arm));
    levels.both(["underside of the side rail", "top of the side rail"], &corners.role(Role::SideRail));
    levels.both(
        ["underside of the side stretcher", "top of the side stretcher"],
        &corners.role(Role::SideStretcher),
    );
    levels.both(["underside of the back rail", "top of the back rail"], &corners.role(Role::BackRail));
    levels.both(
        ["underside of the back stretcher", "top of the back stretcher"],
        &corners.role(Role::BackStretcher),
    );
    levels.done()
}

/// Heights from one floor, no two of them the same.
struct Levels {
    floor: Option<Vec3>,
    aside: Vec3,
    known: Vec<f64>,
    found: Vec<Measure>,
}

impl Levels {
    fn new(all: &[Vec3], aside: Vec3) -> Self {
        Self { floor: furthest(all, -Vec3::Z, aside), aside, known: Vec::new(), found: Vec::new() }
    }

    fn add(&mut self, name: &'static str, corner: Option<Vec3>) {
        let Some((from, to)) = self.floor.zip(corner) else { return };
        let measure = Measure::length(name, from, to, Vec3::Z);
        let apart = |known: &f64| (known - measure.value).abs() > SAME;
        if measure.value > SAME && self.known.iter().all(apart) {
            self.known.push(measure.value);
            self.found.push(measure);
        }
    }

    fn top(&mut self, name: &'static str, corners: &[Vec3]) {
        self.add(name, furthest(corners, Vec3::Z, self.aside));
    }

    fn both(&mut self, [low, high]: [&'static str; 2], corners: &[Vec3]) {
        self.add(low, furthest(corners, -Vec3::Z, self.aside));
        self.add(high, furthest(corners, Vec3::Z, self.aside));
    }

    fn done(mut self) -> Vec<Measure> {
        self.found.order_by(|a, b| a.value.total_cmp(&b.value));
        self.found
    }
}

/// Depths from the foremost corner, as seen from the side.
pub(super) fn depths(chair: &Chair) -> Vec<Measure> {
    let corners = Corners(chair);
    let all = corners.all();
    let (front, back) = (-Vec3::Y, Vec3::Y);
    let Some(from) = furthest(&all, front, -Vec3::Z) else { return Vec::new() };
    let sets = [
        ("depth", all, back),
        ("front of the seat", corners.seat(), front),
        ("front of the front feet", corners.feet(Role::FrontLeg), front),
        ("back of the front feet", corners.feet(Role::FrontLeg), back),
        ("front of the back feet", corners.feet(Role::BackLeg), front),
        ("back of the back feet", corners.feet(Role::BackLeg), back),
    ];
    let mut found: Vec<Measure> = Vec::new();
    for (name, set, way) in sets {
        let Some(to) = furthest(&set, way, -Vec3::Z) else { continue };
        let measure = Measure::length(name, from, to, Vec3::Y);
        let apart = |known: &Measure| (known.value - measure.value).abs() > SAME;
        if measure.value > SAME && found.iter().all(apart) {
            found.push(measure);
        }
    }
    found.order_by(|a, b| a.value.total_cmp(&b.value));
    found
}

/// How far the back leans from upright, degrees: the longest edge behind the back leg's upper half. `from` is its lower,
/// `to` its upper corner.
pub(super) fn rake(chair: &Chair) -> Option<Measure> {
    let (part, body) =
        chair.pieces().find(|(part, _)| part.id.role == Role::BackLeg && part.place.origin.x < 0.0)?;
    let spots: Vec<Vec3> = body.solid.vertices.iter().map(|&v| part.place.point(v)).collect();
    let high = spots.iter().map(|p| p.z).reduce(f64::max)?;
    let mut best: Option<(f64, Vec3, Vec3)> = None;
    for ring in body.solid.faces.iter().flat_map(|face| &face.rings) {
        for (i, &a) in ring.corners.iter().enumerate() {
            let ends = [spots[a as usize], spots[ring.corners[(i + 1) % ring.corners.len()] as usize]];
            let [low, top] = if ends[0].z < ends[1].z { ends } else { [ends[1], ends[0]] };
            let (rise, run) = (top.z - low.z, hypot(top.x - low.x, top.y - low.y));
            if low.z < high * 0.4 || top.z < high - 60.0 || run > rise {
                continue;
            }
            // Of edges about as long the one furthest back.
            let worth = rise + 2.0 * (top.y + low.y);
            if best.as_ref().is_none_or(|(most, ..)| worth > *most + LEVEL) {
                best = Some((worth, low, top));
            }
        }
    }
    let (_, from, to) = best?;
    let value = degrees(atan2(to.y - from.y, to.z - from.z));
    (value > UPRIGHT).then_some(Measure { name: "rake of the back", from, to, along: Vec3::Z, value })
}
