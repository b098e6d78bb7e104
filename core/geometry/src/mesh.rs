//! Rings of shared corners, and their edges.

use crate::Vec3;
use core::ops::Range;

/// Rings of corners.
pub(crate) struct Mesh {
    pub(crate) vertices: Vec<Vec3>,
    /// The corners of all rings, one ring after another.
    pub(crate) corners: Vec<u32>,
    pub(crate) rings: Vec<MeshRing>,
}

/// One ring of a mesh; it may be empty.
#[derive(Clone)]
pub(crate) struct MeshRing {
    pub(crate) face: usize,
    pub(crate) outer: bool,
    pub(crate) corners: Range<usize>,
}

impl MeshRing {
    /// The corner (as an index into those of the mesh) after `c`.
    pub(crate) fn next(&self, c: usize) -> usize {
        if c + 1 == self.corners.end { self.corners.start } else { c + 1 }
    }
}

impl Mesh {
    /// Rebuilds every ring: `rewrite` gets its corners and appends the new ones.
    pub(crate) fn rewrite(&mut self, mut rewrite: impl FnMut(&[u32], &mut Vec<u32>)) {
        let mut corners = Vec::with_capacity(self.corners.len());
        for ring in &mut self.rings {
            let start = corners.len();
            rewrite(&self.corners[ring.corners.clone()], &mut corners);
            if corners.len() - start < 3 {
                corners.truncate(start);
            }
            ring.corners = start..corners.len();
        }
        self.corners = corners;
    }

    /// Drops steps of no length and spikes that go out and back the same way.
    pub(crate) fn tidy(&mut self) {
        self.rewrite(|ring, out| {
            let start = out.len();
            for &c in ring {
                out.push(c);
                settle(out, start);
            }
            // The seam between last and first.
            while out.len() - start > 2 {
                let n = out.len();
                if out[n - 1] == out[start] || out[n - 2] == out[start] {
                    out.pop();
                } else if out[n - 1] == out[start + 1] {
                    out.remove(start);
                } else {
                    break;
                }
            }
        });
    }
}

/// Takes back the last corner of a ring while it repeats the one before, or the last two while they
/// make a spike.
fn settle(out: &mut Vec<u32>, start: usize) {
    loop {
        let ring = &out[start..];
        match *ring {
            [.., a, b] if a == b => out.truncate(out.len() - 1),
            [.., a, _, b] if a == b => out.truncate(out.len() - 2),
            _ => return,
        }
    }
}

/// The directed edges of a mesh; each is named by the corner it starts at.
pub(crate) struct Edges {
    /// Where each edge ends.
    pub(crate) to: Vec<u32>,
    /// For each vertex, where its edges begin in `sorted`; one more at the end.
    first: Vec<u32>,
    /// All edges, by the vertex they start at.
    sorted: Vec<u32>,
}

impl Edges {
    pub(crate) fn of(mesh: &Mesh) -> Self {
        let mut first = vec![0_u32; mesh.vertices.len() + 1];
        mesh.corners.iter().for_each(|&a| first[a as usize + 1] += 1);
        for v in 1..first.len() {
            first[v] += first[v - 1];
        }
        let mut next = first.clone();
        let mut sorted = vec![0; mesh.corners.len()];
        for (c, &a) in mesh.corners.iter().enumerate() {
            sorted[next[a as usize] as usize] = c as u32;
            next[a as usize] += 1;
        }
        let mut to = vec![0; mesh.corners.len()];
        for ring in &mesh.rings {
            ring.corners.clone().for_each(|c| to[c] = mesh.corners[ring.next(c)]);
        }
        Self { to, first, sorted }
    }

    /// The edges that start at a vertex.
    pub(crate) fn from(&self, a: u32) -> &[u32] {
        &self.sorted[self.first[a as usize] as usize..self.first[a as usize + 1] as usize]
    }

    /// The edges from `a` to `b`.
    pub(crate) fn between(&self, a: u32, b: u32) -> impl Iterator<Item = u32> + '_ {
        self.from(a).iter().copied().filter(move |&e| self.to[e as usize] == b)
    }

    /// What runs opposite to each edge.
    pub(crate) fn opposites(&self, mesh: &Mesh) -> Vec<Opposite> {
        let opposite = |(&a, &b): (&u32, &u32)| {
            let (mut along, mut back) = (self.between(a, b), self.between(b, a));
            match (along.nth(1).is_some(), back.next(), back.next()) {
                (false, Some(only), None) => Opposite::One(only),
                _ if self.between(a, b).count() == self.between(b, a).count() => Opposite::Several,
                _ => Opposite::None,
            }
        };
        mesh.corners.iter().zip(&self.to).map(opposite).collect()
    }
}

/// The edges opposite to an edge.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Opposite {
    /// Just one, as there should be.
    One(u32),
    /// As many as there are of the edge itself: arrises touch there.
    Several,
    /// Too few or too many.
    None,
}
