//! Faces with holes split into triangles, without new corners.

use crate::plane_frame::PlaneFrame;
use crate::separate::repeats;
use crate::{Face, Plane, Solid};
use crestrail_sorting::Order as _;
use kurbo::Point;

/// A corner this near to a line counts as on it, mm: a hundredth of the welding tolerance.
const ON_LINE: f64 = 1e-7;
/// How far the rim of a face may run over itself, mm: three times the welding tolerance, since both
/// a corner and the ends of an edge past it may have been moved.
const OVERLAP: f64 = 3e-5;

impl Solid {
    /// The faces as simple polygons without holes, counter-clockwise seen from outside: a face without
    /// holes as it is, any other cut into triangles. No corner is added or left out, so the mesh stays
    /// closed; no triangle is without area.
    pub fn simple_faces(&self) -> Vec<Vec<u32>> {
        let mut out = Vec::with_capacity(self.faces.len());
        for face in &self.faces {
            match face.rings.as_slice() {
                [only] if !repeats(&only.corners) => out.push(only.corners.clone()),
                _ => out.extend(self.face_triangles(face).into_iter().map(|t| t.to_vec())),
            }
        }
        out
    }

    /// The whole surface as triangles, counter-clockwise seen from outside; closed like the solid.
    pub fn triangles(&self) -> Vec<[u32; 3]> {
        self.triangles_by_face().flatten().collect()
    }

    /// The same, face by face.
    pub fn triangles_by_face(&self) -> impl Iterator<Item = Vec<[u32; 3]>> + '_ {
        self.faces.iter().map(|f| self.face_triangles(f))
    }

    fn face_triangles(&self, face: &Face) -> Vec<[u32; 3]> {
        match face.rings.as_slice() {
            [only] if only.corners.len() == 3 => vec![[only.corners[0], only.corners[1], only.corners[2]]],
            _ => Front::of(self, face).close(),
        }
    }
}

/// The boundary of what is not yet covered by triangles. Each step covers one triangle on the inner
/// side of an edge; its third corner is the visible one that sees the edge under the widest angle.
/// Every polygon, with holes or touching itself, has a triangulation with that edge in it, so there is
/// always such a corner.
struct Front {
    /// The corners of the face, each once, and where they lie in its plane.
    corners: Vec<u32>,
    at: Vec<Point>,
    /// Directed edges with the inside to the left, as indices into `corners`.
    edges: Vec<(usize, usize)>,
    triangles: Vec<[u32; 3]>,
}

impl Front {
    fn of(solid: &Solid, face: &Face) -> Self {
        let mut corners: Vec<u32> = face.rings.iter().flat_map(|r| r.corners.iter().copied()).collect();
        corners.sort_unstable();
        corners.dedup();
        let plane = Plane { normal: face.normal, offset: 0.0 };
        let frame = PlaneFrame::square(&plane);
        let at = corners.iter().map(|&c| frame.flat(solid.vertices[c as usize])).collect();
        // Each corner is in the list it is sought in.
        let index = |c: u32| corners.partition_point(|&k| k < c);
        let mut edges = Vec::new();
        for ring in &face.rings {
            let n = ring.corners.len();
            edges.extend((0..n).map(|i| (index(ring.corners[i]), index(ring.corners[(i + 1) % n]))));
        }
        Self { corners, at, edges, triangles: Vec::new() }
    }

    fn close(mut self) -> Vec<[u32; 3]> {
        // Euler: a face with E edges in R rings has E + 2R − 4 triangles; here only a stop.
        let limit = 3 * self.edges.len();
        while let Some((a, b)) = self.edges.pop() {
            let Some(c) = self.third(a, b).filter(|_| self.triangles.len() < limit) else {
                break;
            };
            self.triangles.push([a, b, c].map(|i| self.corners[i]));
            self.advance(b, c);
            self.advance(c, a);
        }
        self.triangles
    }

    /// Takes the edge of a new triangle off the front, or puts its other side on.
    fn advance(&mut self, from: usize, to: usize) {
        match self.edges.iter().position(|&e| e == (from, to)) {
            Some(i) => drop(self.edges.remove(i)),
            None => self.edges.push((to, from)),
        }
    }

    /// The third corner of the triangle on the edge. Where welding made the rim run over itself by a
    /// hair, no corner is clear; then one is taken that is clear but for a hair, or the next along the
    /// rim, so that the mesh stays closed in any case.
    fn third(&self, a: usize, b: usize) -> Option<usize> {
        let mut seen: Vec<(f64, usize)> = Vec::new();
        for c in 0..self.at.len() {
            if self.height(a, b, c) > ON_LINE {
                let (to_a, to_b) = (self.at[a] - self.at[c], self.at[b] - self.at[c]);
                seen.push((to_a.dot(to_b) / self.turn(a, b, c), c));
            }
        }
        seen.order_by(|x, y| x.0.total_cmp(&y.0).then(x.1.cmp(&y.1)));
        let clear = |depth: f64| seen.iter().map(|s| s.1).find(|&c| self.is_clear([a, b, c], depth));
        let next = || self.edges.iter().find(|e| e.0 == b && e.1 != a).map(|e| e.1);
        clear(-ON_LINE).or_else(|| clear(OVERLAP)).or_else(next)
    }

    /// Whether no edge of the front runs into the triangle, and no corner lies in it by `depth` or more.
    fn is_clear(&self, [a, b, c]: [usize; 3], depth: f64) -> bool {
        let own = |v: usize| v == a || v == b || v == c;
        let inside = |v: usize| [(a, b), (b, c), (c, a)].iter().all(|&(p, q)| self.height(p, q, v) >= depth);
        let slack = depth.abs();
        self.edges.iter().all(|&(p, q)| {
            (own(p) || !inside(p))
                && !self.crosses((p, q), (b, c), slack)
                && !self.crosses((p, q), (c, a), slack)
        })
    }

    /// Whether two stretches without a common end cross by more than `slack`. Mere touching is the
    /// matter of corners.
    fn crosses(&self, (p, q): (usize, usize), (a, b): (usize, usize), slack: f64) -> bool {
        let common = p == a || p == b || q == a || q == b;
        let apart = |(p, q): (usize, usize), (a, b): (usize, usize)| {
            let (x, y) = (self.height(p, q, a), self.height(p, q, b));
            (x > slack && y < -slack) || (x < -slack && y > slack)
        };
        !common && apart((p, q), (a, b)) && apart((a, b), (p, q))
    }

    /// Height of `c` over the line from `a` to `b`, positive to the left.
    fn height(&self, a: usize, b: usize, c: usize) -> f64 {
        self.turn(a, b, c) / (self.at[b] - self.at[a]).hypot2().sqrt()
    }

    /// Twice the signed area of a triangle.
    fn turn(&self, a: usize, b: usize, c: usize) -> f64 {
        (self.at[b] - self.at[a]).cross(self.at[c] - self.at[a])
    }
}
