//! The blank that a part is set out on: the squared stick or plank, its four long faces, and the face side and face edge
//! from which everything is measured.
//!
//! Legs and posts have their face side and face edge where the mortises are; rails, slats and boards on the face that is
//! seen and on the upper edge, so that these come flush (common practice, no source).

use crate::chair::{Chair, PartBody};
use crate::part::{Part, Role};
use crestrail_geometry::{Solid, Vec3};
use kurbo::Point;

/// The names of the four faces, in the order in which the blank is rolled from one to the next.
pub(super) const NAMES: [&str; 4] = ["face side", "face edge", "back side", "back edge"];

/// A mortise counts towards a face that looks its way by more than this cosine.
const FACING: f64 = 0.7;
/// What a mortise weighs beside the way a face looks.
const MORTISE: f64 = 10.0;
/// A section counts as square where one side is at most so much larger than the other.
const SQUARE: f64 = 1.2;

/// One of the four long faces of a blank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Face {
    /// Face side, face edge, back side or back edge.
    pub name: &'static str,
    /// Out of the blank, in chair space.
    pub normal: Vec3,
    /// What is above when one looks at the face with the datum end to the left, in chair space.
    pub up: Vec3,
    /// The name of the face from which distances across it are measured: the face edge, or the face side.
    pub from: &'static str,
    /// Whether that one lies below as one looks at it.
    pub below: bool,
    /// Its height, mm.
    pub height: f64,
    /// How far along `up` its upper edge lies, mm.
    top: f64,
    /// How far along the normal the face lies, mm.
    out: f64,
}

/// A squared blank.
#[derive(Clone, Debug, PartialEq)]
pub struct Blank {
    /// From the datum end along the part, in chair space.
    pub along: Vec3,
    /// Length over all, tenons in, mm.
    pub length: f64,
    /// From the face side to the face edge first, then on around.
    pub faces: [Face; 4],
    /// How far along `along` the datum end lies, mm.
    start: f64,
}

impl Blank {
    /// The blank of a part of the chair.
    pub fn of(chair: &Chair, part: &Part, body: &PartBody) -> Self {
        let along = part.place.x;
        let sides = [part.place.z, -part.place.z, part.place.y, -part.place.y];
        let (width, thickness) = (part.size.width, part.size.thickness);
        let broad = match () {
            () if part.sawn_to_outline || width > SQUARE * thickness => 0..2,
            () if thickness > SQUARE * width => 2..4,
            () => 0..4,
        };
        let side = best(&sides[broad], |n| wish(chair, part, n, 0));
        let edges: Vec<Vec3> = sides.iter().copied().filter(|n| n.dot(side).abs() < 0.5).collect();
        let edge = best(&edges, |n| wish(chair, part, n, 1));
        let solid = body.solid.posed(&part.place);
        let (start, end) = span(&solid, along);
        let stock = crate::sheets::template::timber(chair, part)
            .map_or_else(|_| solid.clone(), |s| s.posed(&part.place));
        let rolled = [side, edge, -side, -edge];
        let face = |i: usize| {
            let normal = rolled[i];
            let up = normal.cross(along);
            let from = [1, 0, 1, 0][i];
            let (low, top) = span(&stock, up);
            let below = up.dot(rolled[from]) < 0.0;
            let out = span(&stock, normal).1;
            Face { name: NAMES[i], normal, up, from: NAMES[from], below, height: top - low, top, out }
        };
        Self { along, length: end - start, faces: [0, 1, 2, 3].map(face), start }
    }

    /// Distance from the datum end, mm.
    pub fn distance(&self, p: Vec3) -> f64 {
        p.dot(self.along) - self.start
    }

    /// Where a point of chair space lies on a face: x from the datum end, y from the face's upper edge down, mm.
    pub fn on(&self, face: usize, p: Vec3) -> Point {
        let face = &self.faces[face];
        Point::new(self.distance(p), face.top - face.up.dot(p))
    }

    /// The point of chair space that lies so on the surface of a face.
    pub fn point(&self, face: usize, p: Point) -> Vec3 {
        let side = &self.faces[face];
        self.along * (self.start + p.x) + side.up * (side.top - p.y) + side.normal * side.out
    }

    /// The upper corner of a face at the datum end, in chair space.
    pub fn corner(&self, face: usize) -> Vec3 {
        self.point(face, Point::ZERO)
    }

    /// Distance across a face from the edge it is measured from, of a point of [`Blank::on`], mm.
    pub fn across(&self, face: usize, p: Point) -> f64 {
        let face = &self.faces[face];
        if face.below { face.height - p.y } else { p.y }
    }

    /// The face that looks most nearly along a direction of chair space.
    pub fn facing(&self, direction: Vec3) -> usize {
        let score = |i: &usize| self.faces[*i].normal.dot(direction);
        [1, 2, 3].into_iter().fold(0, |best, i| if score(&i) > score(&best) + 1e-9 { i } else { best })
    }

    /// The order of the faces from the top of a drawing, so that neighbours on it are neighbours on the blank.
    pub fn unrolled(&self) -> [usize; 4] {
        let downwards = self.faces[0].up.dot(self.faces[1].normal) < 0.0;
        if downwards { [0, 1, 2, 3] } else { [3, 2, 1, 0] }
    }
}

fn best(of: &[Vec3], score: impl Fn(Vec3) -> f64) -> Vec3 {
    // Of two that score alike the first is taken.
    of.iter()
        .copied()
        .reduce(|best, n| if score(n) > score(best) + 1e-6 { n } else { best })
        .unwrap_or(Vec3::Z)
}

/// How well a face serves as the face side (`rank` 0) or the face edge (1).
fn wish(chair: &Chair, part: &Part, normal: Vec3, rank: usize) -> f64 {
    let hosted = chair.joints.iter().filter(|j| j.host == part.id && j.face.normal.dot(normal) > FACING);
    let mortises = if upright(part.id.role) { MORTISE * hosted.count() as f64 } else { 0.0 };
    mortises + liked(part, rank).dot(normal)
}

fn upright(role: Role) -> bool {
    matches!(role, Role::FrontLeg | Role::BackLeg | Role::ArmPost)
}

/// Where the face side and the face edge would rather look, chair space.
fn liked(part: &Part, rank: usize) -> Vec3 {
    use Role::*;
    let outwards = part.place.point(Vec3::ZERO).x.signum();
    let front = Vec3::new(0.1 * outwards, -1.0, 0.2);
    let up = Vec3::new(0.1 * outwards, -0.2, 1.0);
    match (part.id.role, rank) {
        (FrontLeg, _) => Vec3::new(-0.5 * outwards, 1.0, 0.0),
        (BackLeg | ArmPost, _) => Vec3::new(-0.5 * outwards, -1.0, 0.0),
        (SeatSlat | SeatBoard | PadBoard | Arm, 0) => up,
        (SeatSlat | SeatBoard | PadBoard | Arm, _) => front,
        (SideRail | SideStretcher, 0) => Vec3::new(outwards, 0.1, 0.2),
        (BackRail | BackStretcher | Ledge, 0) => -front,
        (_, 0) => front,
        (_, _) => Vec3::new(0.3 * outwards, -0.1, 1.0),
    }
}

fn span(solid: &Solid, along: Vec3) -> (f64, f64) {
    let ends = solid.vertices.iter().map(|v| v.dot(along));
    ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)))
}
