//! Solids: closed bodies with flat faces, ready to draw, weigh and hand out.

use crate::{Bounds, Place, Vec3};

/// A closed body. Each directed edge of a face (outer ring or hole) is matched by exactly one
/// opposite edge of another face; the normals point outwards.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Solid {
    /// Corner points, mm.
    pub vertices: Vec<Vec3>,
    /// Flat faces.
    pub faces: Vec<Face>,
}

/// A flat face: one outer ring, counter-clockwise seen from outside, and holes, clockwise.
#[derive(Clone, Debug, PartialEq)]
pub struct Face {
    /// Unit normal, pointing out of the solid.
    pub normal: Vec3,
    /// The outer ring, then the holes; each a list of indices into the vertices.
    pub rings: Vec<Ring>,
}

/// A closed ring of edges.
#[derive(Clone, Debug, PartialEq)]
pub struct Ring {
    /// Indices of the corners in order.
    pub corners: Vec<u32>,
    /// For the edge from corner i to corner i + 1: whether it is sharp enough to be drawn.
    pub sharp: Vec<bool>,
}

impl Solid {
    /// The solid moved from its own frame to where `place` stands. A mirrored place turns the
    /// rings round, so that they stay counter-clockwise seen from outside.
    pub fn posed(&self, place: &Place) -> Self {
        let vertices = self.vertices.iter().map(|&v| place.point(v)).collect();
        let mirrored = place.is_mirrored();
        let faces = self.faces.iter().map(|f| f.posed(place, mirrored)).collect();
        Self { vertices, faces }
    }
}

impl Solid {
    /// The box around the solid.
    pub fn bounds(&self) -> Bounds {
        Bounds::around(&self.vertices)
    }

    /// Whether each directed edge has an opposite for each time it occurs.
    pub fn is_closed(&self) -> bool {
        let mut edges: Vec<(u32, u32, bool)> = Vec::new();
        for ring in self.faces.iter().flat_map(|f| &f.rings) {
            for (i, &a) in ring.corners.iter().enumerate() {
                let b = ring.corners[(i + 1) % ring.corners.len()];
                edges.push((a.min(b), a.max(b), a < b));
            }
        }
        edges.sort_unstable();
        let balance = |run: &[(u32, u32, bool)]| run.iter().filter(|e| e.2).count() * 2 == run.len();
        !edges.is_empty() && edges.chunk_by(|x, y| (x.0, x.1) == (y.0, y.1)).all(balance)
    }
}

impl Face {
    fn posed(&self, place: &Place, mirrored: bool) -> Self {
        let rings =
            if mirrored { self.rings.iter().map(Ring::reversed).collect() } else { self.rings.clone() };
        Self { normal: place.direction(self.normal), rings }
    }
}

impl Ring {
    fn reversed(&self) -> Self {
        let n = self.corners.len();
        let corners = self.corners.iter().rev().copied().collect();
        // The edge i → i + 1 of the turned ring is the edge n − 2 − i → n − 1 − i of this one.
        let sharp = (0..n).map(|i| self.sharp[(2 * n - 2 - i) % n]).collect();
        Self { corners, sharp }
    }
}
