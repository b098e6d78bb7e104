//! Line drawings: every edge that a draughtsman draws, parted into stretches that are seen and stretches that are hidden.
//!
//! A point of an edge is hidden where faces stand before it on both sides of the edge as drawn; before only one side, the
//! edge is the rim of what stands there, and both are drawn on the same spot. So nothing depends on how edges that
//! lie behind each other by design are rounded, and the camera need not stand aside.

use super::flat::{Bounds, EDGE_ON, Edge, Shown, add_seen};
use super::meet::{TOUCH, side};
use super::near::Near;
use super::{Camera, Subject};
use crate::math::{max, min};
use crate::{Ring, Solid, Vec3};
use crestrail_sorting::Order as _;
use kurbo::{Line, Point, Vec2};

/// How far beside an edge it is looked for what stands before it, mm: far beyond rounding, far below any size.
const BESIDE: f64 = 1e-3;
/// Shorter edges and stretches are none, mm in the picture.
const SPECK: f64 = 1e-3;

/// A stretch of an edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// The owner of the subject whose edge it is.
    pub owner: usize,
    /// In space, mm.
    pub from: Vec3,
    /// In space, mm.
    pub to: Vec3,
    /// In the picture: to the right and up, mm.
    pub line: Line,
    /// Sharp, or the silhouette of a curve; never smooth.
    pub edge: Edge,
    /// Whether nothing stands before it.
    pub seen: bool,
}

/// The edges of all subjects, in their order. The camera may look along faces and edges; an edge seen end on is none.
pub fn draft(subjects: &[Subject<'_>], camera: &Camera) -> Vec<Stretch> {
    let mut faces = Vec::new();
    subjects.iter().for_each(|subject| add_seen(&mut faces, subject, camera));
    let near = Near::of(faces.iter().map(|face| face.bounds).collect());
    let mut drawn = Vec::new();
    for subject in subjects {
        for (from, to, edge) in edges(subject, camera) {
            let line = Line::new(camera.flat(from), camera.flat(to));
            let whole = Stretch { owner: subject.owner, from, to, line, edge, seen: true };
            parted(&whole, camera, &faces, &near, &mut drawn);
        }
    }
    drawn
}

/// The edges that are drawn: sharp ones, and those where the body turns away from the eye.
fn edges(subject: &Subject<'_>, camera: &Camera) -> Vec<(Vec3, Vec3, Edge)> {
    let solid = subject.solid;
    let spot = |v: u32| subject.place.point(solid.vertices[v as usize]);
    let long = |from: Vec3, to: Vec3| (camera.flat(to) - camera.flat(from)).hypot2() > SPECK * SPECK;
    let kind = |front: usize, all: usize, sharp: bool| match (front, sharp) {
        (f, _) if f > 0 && f < all => Some(Edge::Silhouette),
        (_, true) => Some(Edge::Sharp),
        _ => None,
    };
    let sides = sides(solid, subject, camera);
    let runs = sides.chunk_by(|x, y| (x.0, x.1) == (y.0, y.1));
    runs.filter_map(|run| {
        let front = run.iter().filter(|side| side.2).count();
        let edge = kind(front, run.len(), run.iter().any(|side| side.3))?;
        let (from, to) = (spot(run[0].0), spot(run[0].1));
        long(from, to).then_some((from, to, edge))
    })
    .collect()
}

/// For each side of each edge: its corners, whether its face is turned to the eye, whether it is sharp. Sorted.
fn sides(solid: &Solid, subject: &Subject<'_>, camera: &Camera) -> Vec<(u32, u32, bool, bool)> {
    let mut sides = Vec::new();
    for face in &solid.faces {
        let front = camera.toward.dot(subject.place.direction(face.normal)) > EDGE_ON;
        for Ring { corners, sharp } in &face.rings {
            let next = corners.iter().cycle().skip(1);
            let all = corners.iter().zip(next).zip(sharp);
            sides.extend(all.map(|((&a, &b), &sharp)| (a.min(b), a.max(b), front, sharp)));
        }
    }
    sides.sort_unstable();
    sides
}

/// Adds an edge in stretches that are alike in being seen.
fn parted(whole: &Stretch, camera: &Camera, faces: &[Shown], near: &Near, drawn: &mut Vec<Stretch>) {
    let wire = Wire::new(whole, camera);
    let bounds = Bounds::of(&[whole.line.p0, whole.line.p1]).widened(2.0 * BESIDE);
    let (mut left, mut right) = (Vec::new(), Vec::new());
    for face in near.to(&bounds).map(|index| &faces[index]) {
        if let Some(behind) = wire.behind(face) {
            wire.covered(face, behind, wire.aside, &mut left);
            wire.covered(face, behind, -wire.aside, &mut right);
        }
    }
    let hidden = common(&joined(left, wire.speck), &joined(right, wire.speck));
    let mut at = 0.0;
    let mut add = |from: f64, to: f64, seen: bool| {
        if to - from > wire.speck {
            drawn.push(whole.between(from, to, seen));
        }
    };
    for (start, end) in hidden {
        add(at, start, true);
        add(start, end, false);
        at = end;
    }
    add(at, 1.0, true);
}

impl Stretch {
    fn between(&self, start: f64, end: f64, seen: bool) -> Self {
        let at = |share: f64| self.from + (self.to - self.from) * share;
        let flat = |share: f64| self.line.p0.lerp(self.line.p1, share);
        Self { from: at(start), to: at(end), line: Line::new(flat(start), flat(end)), seen, ..*self }
    }
}

/// An edge in the picture, with its nearness at both ends; places on it are told as shares of its length.
struct Wire {
    line: Line,
    near: (f64, f64),
    /// To its left.
    aside: Vec2,
    /// What share of it is next to nothing.
    speck: f64,
}

impl Wire {
    fn new(whole: &Stretch, camera: &Camera) -> Self {
        let along = whole.line.p1 - whole.line.p0;
        let length = along.hypot2().sqrt();
        Self {
            line: whole.line,
            near: (camera.nearness(whole.from), camera.nearness(whole.to)),
            aside: Vec2::new(-along.y, along.x) * (BESIDE / length),
            speck: min(SPECK / length, 0.5),
        }
    }

    /// The stretch on which the edge runs behind the plane of a face.
    fn behind(&self, face: &Shown) -> Option<(f64, f64)> {
        let depth = |p: Point, near: f64| (face.nearness(p) - near) * face.facing - TOUCH;
        let (start, end) = (depth(self.line.p0, self.near.0), depth(self.line.p1, self.near.1));
        match (start > 0.0, end > 0.0) {
            (false, false) => None,
            (true, true) => Some((0.0, 1.0)),
            (true, false) => Some((0.0, start / (start - end))),
            (false, true) => Some((start / (start - end), 1.0)),
        }
    }

    /// Adds the stretches of `within` on which the face covers the line moved by `aside`.
    fn covered(&self, face: &Shown, within: (f64, f64), aside: Vec2, found: &mut Vec<(f64, f64)>) {
        let (from, to) = (self.line.p0 + aside, self.line.p1 + aside);
        let mut marks = vec![within.0, within.1];
        for (a, b) in face.segments() {
            let (start, end) = (side(from, to, a), side(from, to, b));
            if (start > 0.0) != (end > 0.0) {
                let share = (a.lerp(b, start / (start - end)) - from).dot(to - from) / (to - from).hypot2();
                if share > within.0 && share < within.1 {
                    marks.push(share);
                }
            }
        }
        marks.sort_unstable_by(f64::total_cmp);
        let middle = |w: &[f64]| from.lerp(to, (w[0] + w[1]) / 2.0);
        let stretches = marks.windows(2).filter(|w| w[1] > w[0] && face.covers(middle(w)));
        found.extend(stretches.map(|w| (w[0], w[1])));
    }
}

/// Stretches in order, those that touch made one.
fn joined(mut all: Vec<(f64, f64)>, gap: f64) -> Vec<(f64, f64)> {
    all.order_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let mut joined: Vec<(f64, f64)> = Vec::new();
    for (start, end) in all {
        match joined.last_mut() {
            Some(last) if start <= last.1 + gap => last.1 = max(last.1, end),
            _ => joined.push((start, end)),
        }
    }
    joined
}

/// The common part of two lists of stretches in order.
fn common(a: &[(f64, f64)], b: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let (mut i, mut j, mut found) = (0, 0, Vec::new());
    while let (Some(x), Some(y)) = (a.get(i), b.get(j)) {
        let both = (max(x.0, y.0), min(x.1, y.1));
        if both.0 < both.1 {
            found.push(both);
        }
        if x.1 < y.1 { i += 1 } else { j += 1 }
    }
    found
}
