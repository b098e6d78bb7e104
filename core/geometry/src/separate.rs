//! Faces whose rim touches itself, taken apart.
//!
//! Rounding may close a gap between two walls, or join two parts of a face by a tail without width.
//! After welding such a rim passes a corner twice; there it is cut into loops of its own. A hole that meets the rim
//! in two corners cuts the face in two, and one that meets it in one is part of the rim: at a common corner the loops
//! change over from the one to the other, so that each goes round one connected piece of the inside.

use crate::Vec3;
use crate::math::{TAU, atan2};
use crate::mesh::{Mesh, MeshRing};
use crate::outline::signed_area;
use crate::plane_frame::PlaneFrame;
use crate::polygon::{Corners, Polygon};
use crate::region::inner_point;
use kurbo::Point;

impl Mesh {
    /// Cuts the rings of every face that pass a corner twice, if there are any; `normal` tells a face's normal.
    pub(crate) fn separate(&mut self, normal: impl Fn(usize) -> Vec3) -> bool {
        if !self.rings.chunk_by(|a, b| a.face == b.face).any(|face| self.touches_itself(face)) {
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
            if self.touches_itself(face) {
                let frame = PlaneFrame::square(&crate::Plane { normal: normal(face[0].face), offset: 0.0 });
                let at = |c: u32| frame.flat(self.vertices[c as usize]);
                let cut = face.iter().flat_map(|r| loops(whole(r))).collect();
                for part in parts(changed_over(cut, at), at) {
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

    /// Whether a corner occurs twice in the rings of a face; its rings follow each other.
    fn touches_itself(&self, face: &[MeshRing]) -> bool {
        let whole = |r: &MeshRing| &self.corners[r.corners.clone()];
        match face {
            [] => false,
            [only] => repeats(whole(only)),
            [first, .., last] => repeats(&self.corners[first.corners.start..last.corners.end]),
        }
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

/// The loops, which may share corners, as those that each go round one piece of the inside: at a shared corner the
/// inside lies between the edge that comes in and the next one round that goes out.
fn changed_over(loops: Vec<Vec<u32>>, at: impl Fn(u32) -> Point) -> Vec<Vec<u32>> {
    let edges: Vec<(u32, u32)> =
        loops.iter().flat_map(|l| l.iter().zip(l.iter().cycle().skip(1)).map(|(a, b)| (*a, *b))).collect();
    let next = |(from, corner): (u32, u32)| {
        let back = at(from) - at(corner);
        // Clockwise from the way back; the way back itself comes last.
        let turn = |to: u32| {
            let out = at(to) - at(corner);
            let angle = atan2(-back.cross(out), back.dot(out));
            if to == from || angle <= 0.0 { angle + TAU } else { angle }
        };
        let going = (0..edges.len()).filter(|e| edges[*e].0 == corner);
        going.min_by(|x, y| turn(edges[*x].1).total_cmp(&turn(edges[*y].1)).then(x.cmp(y)))
    };
    let mut walked = vec![false; edges.len()];
    let mut found = Vec::new();
    for start in 0..edges.len() {
        let (mut path, mut e) = (Vec::new(), start);
        while !walked[e] {
            walked[e] = true;
            path.push(edges[e].0);
            match next(edges[e]) {
                Some(following) => e = following,
                None => break,
            }
        }
        found.push(path);
    }
    found.retain(|path| path.len() > 2);
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

/// Loops that run counter-clockwise in the plane, each with the holes inside it; `at` tells where a corner lies in it.
fn parts(loops: Vec<Vec<u32>>, at: impl Fn(u32) -> Point) -> Vec<Part> {
    let mut parts: Vec<Part> = Vec::new();
    let mut holes: Vec<Rim> = Vec::new();
    for corners in loops {
        let points: Corners = corners.iter().map(|&c| at(c)).collect();
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
    fn a_loop_inside_stays_with_the_rim_it_touches() {
        let at = |x: f64, y: f64| Vec3::new(x, y, 0.0);
        let vertices =
            vec![at(0.0, 0.0), at(9.0, 0.0), at(9.0, 9.0), at(0.0, 9.0), at(2.0, 6.0), at(6.0, 2.0)];
        // From the corner 0 once round clockwise within, then counter-clockwise along the rim.
        let corners = vec![0, 4, 5, 0, 1, 2, 3];
        let ring = MeshRing { face: 0, outer: true, corners: 0..7 };
        let mut mesh = Mesh { vertices, corners, rings: vec![ring] };
        mesh.separate(|_| Vec3::Z);
        let kinds: Vec<bool> = mesh.rings.iter().map(|r| r.outer).collect();
        assert_eq!((kinds, mesh.corners.len()), (vec![true], 7));
    }

    /// A hole that meets the rim in two corners leaves two faces, as there is no way from the one to the other.
    #[test]
    fn a_hole_from_rim_to_rim_parts_the_face() {
        let at = |x: f64, y: f64| Vec3::new(x, y, 0.0);
        let vertices = vec![
            at(0.0, 0.0),
            at(9.0, 0.0),
            at(9.0, 9.0),
            at(5.0, 10.0),
            at(0.0, 9.0),
            at(2.0, 5.0),
            at(7.0, 5.0),
        ];
        // The hole from 4 down and up to 2, the rim going on above it by its corner 3.
        let corners = vec![0, 1, 2, 3, 4, 4, 2, 6, 5];
        let rings = [(true, 0..5), (false, 5..9)];
        let rings = rings.map(|(outer, corners)| MeshRing { face: 0, outer, corners }).to_vec();
        let mut mesh = Mesh { vertices, corners, rings };
        assert!(mesh.separate(|_| Vec3::Z));
        let found: Vec<(bool, &[u32])> =
            mesh.rings.iter().map(|r| (r.outer, &mesh.corners[r.corners.clone()])).collect();
        assert_eq!(found, [(true, &[0, 1, 2, 6, 5, 4][..]), (true, &[2, 3, 4][..])]);
    }
}
