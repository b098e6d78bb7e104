//! The closed surfaces of a solid: STEP wants each by itself.

use crestrail_geometry::{Bounds, Solid, Vec3};

/// A piece of a solid, by the faces around it and those around the hollows inside.
pub(super) struct Shell {
    pub(super) faces: Vec<usize>,
    pub(super) voids: Vec<Vec<usize>>,
}

/// The pieces of a solid, in the order of their first faces. A surface whose normals point inwards is a hollow of the
/// smallest piece that holds it.
pub(super) fn shells(solid: &Solid) -> Vec<Shell> {
    let (pieces, hollows): (Vec<_>, Vec<_>) =
        surfaces(solid).into_iter().partition(|faces| volume(solid, faces) > 0.0);
    let mut shells: Vec<Shell> = pieces.into_iter().map(|faces| Shell { faces, voids: Vec::new() }).collect();
    for hollow in hollows {
        let inner = bounds(solid, &hollow);
        let around = shells.iter_mut().filter(|shell| holds(&bounds(solid, &shell.faces), &inner));
        let sized = around.map(|shell| (volume(solid, &shell.faces), shell));
        if let Some((_, home)) = sized.min_by(|a, b| a.0.total_cmp(&b.0)) {
            home.voids.push(hollow);
        }
    }
    shells
}

/// Faces that hang together by their corners.
fn surfaces(solid: &Solid) -> Vec<Vec<usize>> {
    // For each corner, one of its own surface that leads on to the first of it.
    let mut leads: Vec<u32> = (0..solid.vertices.len() as u32).collect();
    let corners = |face: usize| solid.faces[face].rings.iter().flat_map(|r| r.corners.iter().copied());
    for face in 0..solid.faces.len() {
        let start = corners(face).next().unwrap_or_default();
        for c in corners(face) {
            let (a, b) = (first(&mut leads, start), first(&mut leads, c));
            leads[a.max(b) as usize] = a.min(b);
        }
    }
    let mut found: Vec<(u32, Vec<usize>)> = Vec::new();
    for face in 0..solid.faces.len() {
        let surface = first(&mut leads, corners(face).next().unwrap_or_default());
        match found.iter_mut().find(|(own, _)| *own == surface) {
            Some((_, faces)) => faces.push(face),
            None => found.push((surface, vec![face])),
        }
    }
    found.into_iter().map(|(_, faces)| faces).collect()
}

fn first(leads: &mut [u32], mut c: u32) -> u32 {
    while leads[c as usize] != c {
        leads[c as usize] = leads[leads[c as usize] as usize];
        c = leads[c as usize];
    }
    c
}

fn points(solid: &Solid, faces: &[usize]) -> Vec<Vec3> {
    let rings = faces.iter().flat_map(|&f| &solid.faces[f].rings);
    rings.flat_map(|r| &r.corners).map(|&c| solid.vertices[c as usize]).collect()
}

fn bounds(solid: &Solid, faces: &[usize]) -> Bounds {
    Bounds::around(&points(solid, faces))
}

fn holds(outer: &Bounds, inner: &Bounds) -> bool {
    let [a, b, c, d] = [outer.low, inner.low, inner.high, outer.high];
    [(a.x, b.x), (a.y, b.y), (a.z, b.z), (c.x, d.x), (c.y, d.y), (c.z, d.z)].iter().all(|(p, q)| p <= q)
}

/// Signed: negative where the normals point inwards.
fn volume(solid: &Solid, faces: &[usize]) -> f64 {
    let faces = faces.iter().map(|&f| solid.faces[f].clone()).collect();
    Solid { vertices: solid.vertices.clone(), faces }.volume()
}
