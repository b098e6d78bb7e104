//! Cutting a flat face in two along a line.

use super::flat::{Edge, Outline, Shown, Slope};
use crestrail_sorting::Order as _;
use kurbo::Point;

/// A walk along one ring within one side of the line, from the line back to the line.
struct Chain {
    start: usize,
    end: usize,
    points: Vec<Point>,
    edges: Vec<Edge>,
}

/// Where a ring crosses the line.
struct Crossing {
    along: f64,
    partner: usize,
}

/// The pieces of a face on both sides of the line on which `line` is zero; `None` if it does not
/// cut the face, or only grazes it.
pub(super) fn cut(face: &Shown, line: &Slope) -> Option<Vec<Shown>> {
    let mut pieces = half(face, line)?;
    pieces.extend(half(face, &line.scaled(-1.0))?);
    Some(pieces)
}

/// The pieces on the side on which `line` is positive.
fn half(face: &Shown, line: &Slope) -> Option<Vec<Shown>> {
    let (mut crossings, mut chains, mut whole) = (Vec::new(), Vec::new(), Vec::new());
    for ring in &face.rings {
        if !walk(ring, line, &mut crossings, &mut chains) && line.at(ring.points[0]) > 0.0 {
            whole.push(ring.clone());
        }
    }
    pair_up(&mut crossings);
    let mut pieces: Vec<Vec<Outline>> =
        join(&crossings, chains)?.into_iter().map(|outer| vec![outer]).collect();
    for hole in whole {
        let probe = hole.points[0];
        let home = pieces.iter_mut().find(|p| face.with_rings(vec![p[0].clone()]).covers(probe))?;
        home.push(hole);
    }
    (!pieces.is_empty()).then(|| pieces.into_iter().map(|rings| face.with_rings(rings)).collect())
}

/// Collects the chains of a ring; false if it does not cross the line.
fn walk(ring: &Outline, line: &Slope, crossings: &mut Vec<Crossing>, chains: &mut Vec<Chain>) -> bool {
    let n = ring.points.len();
    let inside = |i: usize| line.at(ring.points[i % n]) > 0.0;
    let Some(entry) = (0..n).find(|&i| !inside(i) && inside(i + 1)) else { return false };
    for i in entry..entry + n {
        match (inside(i), inside(i + 1)) {
            (false, true) => chains.push(Chain {
                start: crossing(ring, i % n, line, crossings),
                end: usize::MAX,
                points: vec![at_line(ring, i % n, line), ring.points[(i + 1) % n]],
                edges: vec![ring.edges[i % n]],
            }),
            (true, stays) => {
                let Some(chain) = chains.last_mut() else { continue };
                chain.edges.push(ring.edges[i % n]);
                if stays {
                    chain.points.push(ring.points[(i + 1) % n]);
                } else {
                    chain.points.push(at_line(ring, i % n, line));
                    chain.end = crossing(ring, i % n, line, crossings);
                }
            }
            (false, false) => {}
        }
    }
    true
}

fn at_line(ring: &Outline, i: usize, line: &Slope) -> Point {
    let (a, b) = (ring.points[i], ring.points[(i + 1) % ring.points.len()]);
    let (from, to) = (line.at(a), line.at(b));
    a.lerp(b, from / (from - to))
}

fn crossing(ring: &Outline, i: usize, line: &Slope, crossings: &mut Vec<Crossing>) -> usize {
    let p = at_line(ring, i, line);
    crossings.push(Crossing { along: p.x * line.b - p.y * line.a, partner: usize::MAX });
    crossings.len() - 1
}

/// Between the first and second, third and fourth … crossing the line runs inside the face.
fn pair_up(crossings: &mut [Crossing]) {
    let mut order: Vec<usize> = (0..crossings.len()).collect();
    order.order_by(|&a, &b| crossings[a].along.total_cmp(&crossings[b].along).then(a.cmp(&b)));
    for pair in order.chunks_exact(2) {
        crossings[pair[0]].partner = pair[1];
        crossings[pair[1]].partner = pair[0];
    }
}

/// Closes chains along the line into rings; `None` if rounding has left them in disorder.
fn join(crossings: &[Crossing], chains: Vec<Chain>) -> Option<Vec<Outline>> {
    let mut starts: Vec<Option<usize>> = vec![None; crossings.len()];
    for (i, chain) in chains.iter().enumerate() {
        starts[chain.start] = Some(i);
    }
    let mut used = vec![false; chains.len()];
    let mut rings = Vec::new();
    for first in 0..chains.len() {
        let mut ring = Outline { points: Vec::new(), edges: Vec::new() };
        let mut at = first;
        while !used[at] {
            used[at] = true;
            ring.points.extend(&chains[at].points);
            ring.edges.extend(&chains[at].edges);
            ring.edges.push(Edge::Smooth);
            at = starts[crossings.get(chains[at].end)?.partner]?;
        }
        if at != first {
            return None;
        }
        if !ring.points.is_empty() {
            rings.push(ring);
        }
    }
    Some(rings)
}
