//! Faces whose rim touches itself, taken apart.
//!
//! Rounding may close a gap between two walls, or join two parts of a face by a tail without width.
//! After welding such a rim passes a corner twice; there it is cut into loops of its own.

use crate::Vec3;
use crate::mesh::{Mesh, MeshRing};
use crate::outline::signed_area;
use crate::plane_frame::PlaneFrame;
use crate::polygon::{Corners, Polygon};
use crate::region::inner_point;

impl Mesh {
    /// Cuts every ring that passes a corner twice, if there are any; `normal` tells a face's normal.
    pub(crate) fn separate(&mut self, normal: impl Fn(usize) -> Vec3) -> bool {
        if !self.rings.iter().any(|r| repeats(&self.corners[r.corners.clone()])) {
            return false;
        }
        let mut corners = Vec::with_capacity(self.corners.len());
        let mut rings = Vec::with_capacity(self.rings.len());
        for face in self.rings.chunk_by(|a, b| a.face == b.face) {
            let mut push = |outer: bool, ring: &[u32]| {
                let start = corners.len();
                corners.extend_from_slice(ring);
                rings.push(MeshRing { face: face[0].face, outer, corners: start..corners.len() });
            };
            let whole = |r: &MeshRing| &self.corners[r.corners.clone()];
            if face.iter().any(|r| repeats(whole(r))) {
                let loops = face.iter().flat_map(|r| loops(whole(r))).collect();
                for part in parts(loops, &self.vertices, normal(face[0].face)) {
                    push(true, &part.outer.corners);
                    part.holes.iter().for_each(|hole| push(false, &hole.corners));
                }
            } else {
                face.iter().for_each(|r| push(r.outer, whole(r)));
            }
        }
        (self.corners, self.rings) = (corners, rings);
        true
    }
}

/// Whether a corner occurs twice in a ring.
pub(crate) fn repeats(corners: &[u32]) -> bool {
    // Up to here comparing all pairs is faster than a sort.
    const FEW: usize = 24;
    if corners.len() <= FEW {
        return (1..corners.len()).any(|i| corners[..i].contains(&corners[i]));
    }
    let mut sorted = corners.to_vec();
    sorted.sort_unstable();
    sorted.windows(2).any(|w| w[0] == w[1])
}

/// The loops of a ring, none of which passes a corner twice; tails without width vanish.
fn loops(ring: &[u32]) -> Vec<Vec<u32>> {
    let mut found = Vec::new();
    let mut path: Vec<u32> = Vec::new();
    for &c in ring {
        if let Some(i) = path.iter().position(|&p| p == c) {
            found.push(path.split_off(i));
        }
        path.push(c);
    }
    found.push(path);
    found.retain(|l| l.len() > 2);
    found
}

struct Rim {
    corners: Vec<u32>,
    polygon: Polygon,
}

struct Part {
    outer: Rim,
    holes: Vec<Rim>,
}

/// Loops that run counter-clockwise about the normal, each with the holes inside it.
fn parts(loops: Vec<Vec<u32>>, vertices: &[Vec3], normal: Vec3) -> Vec<Part> {
    let frame = PlaneFrame::square(&crate::Plane { normal, offset: 0.0 });
    let mut parts: Vec<Part> = Vec::new();
    let mut holes: Vec<Rim> = Vec::new();
    for corners in loops {
        let points: Corners = corners.iter().map(|&c| frame.flat(vertices[c as usize])).collect();
        let is_hole = signed_area(&points) < 0.0;
        let rim = Rim { corners, polygon: Polygon::new(points, false) };
        if is_hole {
            holes.push(rim);
        } else {
            parts.push(Part { outer: rim, holes: Vec::new() });
        }
    }
    for hole in holes {
        let probe = inner_point(&hole.polygon);
        let size = |p: &Part| signed_area(&p.outer.polygon.points);
        let around = parts.iter_mut().filter(|p| p.outer.polygon.holds(probe));
        if let Some(home) = around.min_by(|a, b| size(a).total_cmp(&size(b))) {
            home.holes.push(hole);
        }
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tails_vanish_and_loops_part() {
        // Two squares joined by a tail from 1 to 4.
        assert_eq!(loops(&[0, 1, 4, 5, 6, 7, 4, 1, 2, 3]), [vec![4, 5, 6, 7], vec![0, 1, 2, 3]]);
        assert_eq!(loops(&[0, 1, 2]), [vec![0, 1, 2]]);
        assert!(loops(&[0, 1, 2, 1]).is_empty());
    }

    #[test]
    fn a_loop_inside_becomes_a_hole() {
        let at = |x: f64, y: f64| Vec3::new(x, y, 0.0);
        let vertices =
            vec![at(0.0, 0.0), at(9.0, 0.0), at(9.0, 9.0), at(0.0, 9.0), at(2.0, 6.0), at(6.0, 2.0)];
        // From the corner 0 once round clockwise within, then counter-clockwise along the rim.
        let corners = vec![0, 4, 5, 0, 1, 2, 3];
        let ring = MeshRing { face: 0, outer: true, corners: 0..7 };
        let mut mesh = Mesh { vertices, corners, rings: vec![ring] };
        mesh.separate(|_| Vec3::Z);
        let kinds: Vec<bool> = mesh.rings.iter().map(|r| r.outer).collect();
        assert_eq!((kinds, mesh.corners.len()), (vec![true, false], 7));
    }
}
