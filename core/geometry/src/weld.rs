//! Welding: loose faces become a closed solid with shared corners.

use crate::carve::CarveError;
use crate::corners::{SAME_CORNER, merge};
use crate::mesh::{Edges, Mesh, MeshRing, Opposite};
use crate::soup::Soup;
use crate::{Face, Ring, Solid, Vec3};
use crestrail_sorting::Order as _;

/// A corner this near to an edge lies on it, mm: both ends of the edge may have been welded.
const ON_EDGE: f64 = 2.0 * SAME_CORNER;
/// Cosine of the angle between two faces above which their edge is not drawn, 20°. The facets of a
/// round of 24 sides turn by 15°, those of a flattened curve by less; arrises of a chair by 30° and more.
const SMOOTH: f64 = 0.939_692_620_785_908_4;
/// An edge or corner without a number yet.
const NONE: u32 = u32::MAX;

/// Makes the soup a solid, or tells why it is none.
pub(crate) fn weld(soup: &Soup) -> Result<Solid, CarveError> {
    let (vertices, corners) = merge(soup);
    let mut rings = Vec::with_capacity(soup.loops.len());
    for (face, f) in soup.faces.iter().enumerate() {
        for (k, l) in f.loops.clone().enumerate() {
            rings.push(MeshRing { face, outer: k == 0, corners: soup.loops[l].points.clone() });
        }
    }
    let mut mesh = Mesh { vertices, corners, rings };
    mesh.tidy();
    let mut edges = Edges::of(&mesh);
    let mut opposites = edges.opposites(&mesh);
    let cracked = opposites.contains(&Opposite::None);
    if cracked {
        split_edges(&mut mesh, &edges, &opposites);
        mesh.tidy();
    }
    if mesh.separate(|face| soup.faces[face].normal) || cracked {
        edges = Edges::of(&mesh);
        opposites = edges.opposites(&mesh);
    }
    if drop_idle_corners(&mut mesh, &edges, &opposites) {
        edges = Edges::of(&mesh);
        opposites = edges.opposites(&mesh);
    }
    let mut face_of = vec![0; mesh.corners.len()];
    for ring in &mesh.rings {
        face_of[ring.corners.clone()].fill(ring.face);
    }
    let normal = |e: u32| soup.faces[face_of[e as usize]].normal;
    let twins = twins(&mesh, &edges, &opposites, normal)?;
    solid(&mesh, &twins, soup, normal)
}

/// Where an edge runs past corners of its neighbours, gives it these corners too.
fn split_edges(mesh: &mut Mesh, edges: &Edges, opposites: &[Opposite]) {
    let loose = |e: &usize| opposites[*e] == Opposite::None;
    let mut ends: Vec<u32> =
        (0..opposites.len()).filter(loose).flat_map(|e| [mesh.corners[e], edges.to[e]]).collect();
    ends.sort_unstable();
    ends.dedup();
    let vertices = core::mem::take(&mut mesh.vertices);
    let mut e = 0;
    mesh.rewrite(|ring, out| {
        for (i, &a) in ring.iter().enumerate() {
            out.push(a);
            if loose(&e) {
                out.extend(within(&vertices, a, ring[(i + 1) % ring.len()], &ends));
            }
            e += 1;
        }
    });
    mesh.vertices = vertices;
}

/// The corners among `candidates` that lie within the edge, in order along it.
fn within(vertices: &[Vec3], a: u32, b: u32, candidates: &[u32]) -> Vec<u32> {
    let (start, end) = (vertices[a as usize], vertices[b as usize]);
    let length = (end - start).length();
    let along = (end - start) / length;
    let mut on: Vec<(f64, u32)> = Vec::new();
    for &v in candidates {
        let way = vertices[v as usize] - start;
        let t = way.dot(along);
        if t > SAME_CORNER && t < length - SAME_CORNER && (way - along * t).length() <= ON_EDGE {
            on.push((t, v));
        }
    }
    on.order_by(|x, y| x.0.total_cmp(&y.0));
    on.into_iter().map(|(_, v)| v).collect()
}

/// Takes out corners at which nothing turns: two edges in line, and no third. Whether there were any.
fn drop_idle_corners(mesh: &mut Mesh, edges: &Edges, opposites: &[Opposite]) -> bool {
    let at = |v: u32| mesh.vertices[v as usize];
    let is_single = |e: u32| matches!(opposites[e as usize], Opposite::One(_));
    let is_idle = |v: u32| match *edges.from(v) {
        [one, other] if is_single(one) && is_single(other) => {
            let (a, b) = (at(edges.to[one as usize]), at(edges.to[other as usize]));
            (b - a).cross(at(v) - a).length() <= ON_EDGE * (b - a).length()
        }
        _ => false,
    };
    let idle: Vec<bool> = (0..mesh.vertices.len() as u32).map(is_idle).collect();
    let any = idle.contains(&true);
    if any {
        mesh.rewrite(|ring, out| out.extend(ring.iter().filter(|&&v| !idle[v as usize])));
    }
    any
}

/// For each edge its opposite.
fn twins(
    mesh: &Mesh,
    edges: &Edges,
    opposites: &[Opposite],
    normal: impl Fn(u32) -> Vec3,
) -> Result<Vec<u32>, CarveError> {
    let open = opposites.iter().filter(|&&o| o == Opposite::None).count();
    if open > 0 {
        return Err(CarveError::Open(open));
    }
    let twin = |(e, opposite): (usize, &Opposite)| match *opposite {
        Opposite::One(only) => only,
        Opposite::Several | Opposite::None => {
            let (a, b) = (mesh.corners[e], edges.to[e]);
            let along = mesh.vertices[b as usize] - mesh.vertices[a as usize];
            nearest_across(e as u32, edges.between(b, a), along, &normal)
        }
    };
    Ok(opposites.iter().enumerate().map(twin).collect())
}

/// Where several edges run back along one, the one whose face bounds the same wedge of timber: the
/// first met when the face of `edge` is turned through the timber.
fn nearest_across(
    edge: u32,
    back: impl Iterator<Item = u32>,
    along: Vec3,
    normal: impl Fn(u32) -> Vec3,
) -> u32 {
    let out = normal(edge);
    let inward = out.cross(along).unit();
    let turn = |other: u32| {
        let face = (-normal(other).cross(along)).unit();
        let angle = crate::math::atan2(-face.dot(out), face.dot(inward));
        if angle <= 0.0 { angle + crate::math::TAU } else { angle }
    };
    back.min_by(|&x, &y| turn(x).total_cmp(&turn(y)).then(x.cmp(&y))).unwrap_or(edge)
}

/// The finished solid. Faces that touch at a corner or along an edge without being neighbours there
/// get corners of their own.
fn solid(mesh: &Mesh, twins: &[u32], soup: &Soup, normal: impl Fn(u32) -> Vec3) -> Result<Solid, CarveError> {
    let (vertices, number) = numbered(mesh, twins);
    let is_sharp = |e: usize| normal(e as u32).dot(normal(twins[e])) < SMOOTH;
    let mut faces: Vec<Face> = Vec::with_capacity(soup.faces.len());
    let mut last = None;
    for ring in mesh.rings.iter().filter(|r| !r.corners.is_empty()) {
        let corners = number[ring.corners.clone()].to_vec();
        let sharp = ring.corners.clone().map(is_sharp).collect();
        let done = Ring { corners, sharp };
        match faces.last_mut() {
            Some(face) if !ring.outer && last == Some(ring.face) => face.rings.push(done),
            // A hole without its outer ring.
            _ if !ring.outer => return Err(CarveError::Open(done.corners.len())),
            _ => faces.push(Face { normal: soup.faces[ring.face].normal, rings: vec![done] }),
        }
        last = Some(ring.face);
    }
    if faces.is_empty() { Err(CarveError::Nothing) } else { Ok(Solid { vertices, faces }) }
}

/// Gives all edges that leave one corner the same number. Going from an edge to its twin and on to
/// the next edge of that ring walks once round the corner.
fn numbered(mesh: &Mesh, twins: &[u32]) -> (Vec<Vec3>, Vec<u32>) {
    let mut next = vec![0; mesh.corners.len()];
    for ring in &mesh.rings {
        ring.corners.clone().for_each(|c| next[c] = ring.next(c));
    }
    let mut vertices = Vec::with_capacity(mesh.vertices.len());
    let mut number = vec![NONE; mesh.corners.len()];
    for c in 0..mesh.corners.len() {
        let mut e = c;
        if number[e] != NONE {
            continue;
        }
        while number[e] == NONE {
            number[e] = vertices.len() as u32;
            e = next[twins[e] as usize];
        }
        vertices.push(mesh.vertices[mesh.corners[c] as usize]);
    }
    (vertices, number)
}
