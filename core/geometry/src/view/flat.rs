//! Faces turned to the camera, laid flat in its picture.

use super::relate::touch_at_most;
use super::{Camera, Subject};
use crate::math::{max, min};
use crate::{Face, Ring, Vec3};
use kurbo::Point;

/// Faces whose normal rises less than this towards the eye are seen edge on and left out: one of
/// a metre across would be a sliver of 0.2 mm.
pub(super) const EDGE_ON: f64 = 2e-4;

/// A face as the camera sees it.
#[derive(Clone, Debug)]
pub struct Shown {
    /// The subject's owner.
    pub owner: usize,
    /// Index of the face in its solid.
    pub face: usize,
    /// Outward normal in space.
    pub normal: Vec3,
    /// The outer ring, then holes.
    pub rings: Vec<Outline>,
    /// Nearness to the eye over the picture.
    pub(super) slope: Slope,
    /// How squarely the face is turned to the eye, 0–1.
    pub(super) facing: f64,
    /// What it spans in the picture.
    pub(super) bounds: Bounds,
    /// Nearness of its middle, mm.
    pub(super) middle: f64,
}

/// A ring in the picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    /// Corners: right and up, mm.
    pub points: Vec<Point>,
    /// For the edge from corner i to corner i + 1.
    pub edges: Vec<Edge>,
}

/// What the edge of a face is to the draughtsman.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Edge {
    /// Inside a curved surface, or where a face was cut to be painted: not drawn.
    Smooth,
    /// A sharp edge with a visible face on both sides.
    Sharp,
    /// The body ends here, seen from the camera.
    Silhouette,
}

/// Nearness to the eye at the point (x, y) of the picture: `x·a + y·b + c`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Slope {
    pub(super) a: f64,
    pub(super) b: f64,
    pub(super) c: f64,
}

impl Slope {
    pub(super) fn at(&self, p: Point) -> f64 {
        self.a * p.x + self.b * p.y + self.c
    }

    pub(super) fn above(&self, other: &Self) -> Self {
        Self { a: self.a - other.a, b: self.b - other.b, c: self.c - other.c }
    }

    pub(super) fn scaled(&self, k: f64) -> Self {
        Self { a: self.a * k, b: self.b * k, c: self.c * k }
    }

    /// Lowest and highest value at the points.
    pub(super) fn range(&self, points: &[Point]) -> (f64, f64) {
        points.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), &p| {
            let value = self.at(p);
            (min(low, value), max(high, value))
        })
    }
}

/// Lowest and highest x, y, x + y and x − y of a flat face.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bounds {
    pub(super) low: [f64; 4],
    pub(super) high: [f64; 4],
}

impl Bounds {
    pub(super) fn of(points: &[Point]) -> Self {
        let mut bounds = Self { low: [f64::INFINITY; 4], high: [f64::NEG_INFINITY; 4] };
        for p in points {
            for (k, value) in [p.x, p.y, p.x + p.y, p.x - p.y].into_iter().enumerate() {
                bounds.low[k] = min(bounds.low[k], value);
                bounds.high[k] = max(bounds.high[k], value);
            }
        }
        bounds
    }

    pub(super) fn overlap(&self, other: &Self) -> bool {
        (0..4).all(|k| self.low[k] < other.high[k] && other.low[k] < self.high[k])
    }

    /// The upright rectangle common to both, as lower left and upper right corner.
    pub(super) fn common(&self, other: &Self) -> (Point, Point) {
        let low = |k: usize| max(self.low[k], other.low[k]);
        let high = |k: usize| min(self.high[k], other.high[k]);
        (Point::new(low(0), low(1)), Point::new(high(0), high(1)))
    }

    /// The same with some room all round.
    pub(super) fn widened(mut self, room: f64) -> Self {
        self.low = self.low.map(|low| low - 2.0 * room);
        self.high = self.high.map(|high| high + 2.0 * room);
        self
    }

    /// Of the upright rectangle.
    pub(super) fn middle(&self) -> Point {
        Point::new((self.low[0] + self.high[0]) / 2.0, (self.low[1] + self.high[1]) / 2.0)
    }

    /// Of the upright rectangle.
    pub(super) fn area(&self) -> f64 {
        (self.high[0] - self.low[0]) * (self.high[1] - self.low[1])
    }

    pub(super) fn holds(&self, p: Point) -> bool {
        p.x >= self.low[0] && p.x <= self.high[0] && p.y >= self.low[1] && p.y <= self.high[1]
    }
}

impl Shown {
    /// The same face with other rings, as after a cut.
    pub(super) fn with_rings(&self, rings: Vec<Outline>) -> Self {
        let bounds = Bounds::of(&rings[0].points);
        let middle = self.slope.at(middle(&rings[0].points));
        Self { rings, bounds, middle, ..*self }
    }

    /// Corners of the outer ring.
    pub(super) fn outer(&self) -> &[Point] {
        &self.rings[0].points
    }

    /// All edges of all rings.
    pub(super) fn segments(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        self.rings.iter().flat_map(|r| segments(&r.points))
    }

    /// Whether the point of the picture lies on the face.
    pub fn covers(&self, p: Point) -> bool {
        self.bounds.holds(p) && enclose(self.rings.iter().map(|ring| ring.points.as_slice()), p)
    }

    /// Whether this face and another of the same body surely have no ground in common in the picture, but for where they touch: so
    /// do faces of which each lies behind the plane of the other. False also where that is hard to say.
    pub fn is_clear_of(&self, other: &Self) -> bool {
        !self.bounds.overlap(&other.bounds) || touch_at_most(self, other)
    }

    /// Nearness to the eye of the face's plane at a point of the picture, mm.
    pub fn nearness(&self, p: Point) -> f64 {
        self.slope.at(p)
    }
}

/// Edges of a closed ring.
pub(super) fn segments(points: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    let closing = points.last().copied().zip(points.first().copied());
    points.windows(2).map(|ends| (ends[0], ends[1])).chain(closing)
}

/// Whether a point lies within rings of which those inside others are holes.
pub(super) fn enclose<'a>(rings: impl Iterator<Item = &'a [Point]>, p: Point) -> bool {
    let crossings = |ring: &[Point]| segments(ring).filter(|&(a, b)| is_left_crossing(a, b, p)).count();
    rings.map(crossings).sum::<usize>() % 2 == 1
}

/// Whether a ray from `p` to the right meets the edge.
fn is_left_crossing(a: Point, b: Point, p: Point) -> bool {
    (a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * ((p.y - a.y) / (b.y - a.y))
}

fn middle(points: &[Point]) -> Point {
    let sum = points.iter().fold(kurbo::Vec2::ZERO, |s, p| s + p.to_vec2());
    (sum / points.len() as f64).to_point()
}

/// Adds the faces of a subject that are turned to the camera.
pub(super) fn add_seen(faces: &mut Vec<Shown>, subject: &Subject<'_>, camera: &Camera) {
    let solid = subject.solid;
    let spots: Vec<Vec3> = solid.vertices.iter().map(|&v| subject.place.point(v)).collect();
    let flat: Vec<Point> = spots.iter().map(|&p| camera.flat(p)).collect();
    let turned: Vec<(usize, &Face, Vec3)> = (solid.faces.iter().enumerate())
        .map(|(i, face)| (i, face, subject.place.direction(face.normal)))
        .filter(|(_, _, normal)| camera.toward.dot(*normal) > EDGE_ON)
        .collect();
    let inner = Sides::of(turned.iter().map(|(_, face, _)| *face), flat.len());
    let lay = |&(index, face, normal): &(usize, &Face, Vec3)| {
        let rings: Vec<Outline> = face.rings.iter().map(|r| outline(r, &flat, &inner)).collect();
        let slope = slope(normal, spots[face.rings[0].corners[0] as usize], camera);
        let (bounds, middle) = (Bounds::of(&rings[0].points), slope.at(middle(&rings[0].points)));
        let facing = camera.toward.dot(normal);
        Shown { owner: subject.owner, face: index, normal, rings, slope, facing, bounds, middle }
    };
    faces.extend(turned.iter().map(lay));
}

/// Nearness of the plane through `point`: n · (x·right + y·up + w·toward) is the same all over it.
fn slope(normal: Vec3, point: Vec3, camera: &Camera) -> Slope {
    let facing = camera.toward.dot(normal);
    Slope {
        a: -camera.right.dot(normal) / facing,
        b: -camera.up.dot(normal) / facing,
        c: normal.dot(point) / facing,
    }
}

fn outline(ring: &Ring, flat: &[Point], inner: &Sides) -> Outline {
    let corners = &ring.corners;
    let next = |i: usize| corners[if i + 1 == corners.len() { 0 } else { i + 1 }];
    let edge = |i: usize| match (inner.holds(next(i), corners[i]), ring.sharp[i]) {
        (false, _) => Edge::Silhouette,
        (true, true) => Edge::Sharp,
        (true, false) => Edge::Smooth,
    };
    Outline {
        points: corners.iter().map(|&c| flat[c as usize]).collect(),
        edges: (0..corners.len()).map(edge).collect(),
    }
}

/// The directed edges of the faces turned to the camera, by the corner they begin at, to find where a body ends.
struct Sides {
    /// For each corner where its edges begin among the ends, and after the last one their number.
    starts: Vec<u32>,
    ends: Vec<u32>,
}

impl Sides {
    fn of<'a>(faces: impl Iterator<Item = &'a Face> + Clone, corners: usize) -> Self {
        let rings = || faces.clone().flat_map(|face| &face.rings);
        let mut starts = vec![0; corners + 1];
        rings().flat_map(|ring| &ring.corners).for_each(|&corner| starts[corner as usize] += 1);
        let mut sum = 0;
        for start in &mut starts {
            sum += *start;
            *start = sum;
        }
        // Filled from the back, each start comes to where it belongs.
        let mut ends = vec![0; sum as usize];
        for Ring { corners, .. } in rings() {
            let mut to = corners[0];
            for &from in corners.iter().rev() {
                let start = &mut starts[from as usize];
                *start -= 1;
                ends[*start as usize] = to;
                to = from;
            }
        }
        Self { starts, ends }
    }

    fn holds(&self, from: u32, to: u32) -> bool {
        let (start, end) = (self.starts[from as usize], self.starts[from as usize + 1]);
        self.ends[start as usize..end as usize].contains(&to)
    }
}
