//! Putting faces in order, from back to front.
//!
//! Faces are released one by one once everything under them is painted. Where that stops, faces
//! that lie partly over and partly under another are cut in two along its plane; then the quick
//! answers among those left are replaced by exact ones; where even these run in a circle, one of
//! its faces is cut.

use super::cut::cut;
use super::flat::{Shown, Slope};
use super::graph::Graph;
use super::meet::{TOUCH, lead, lies_over, meet};
use crestrail_sorting::Order as _;
use kurbo::Point;
use std::cmp::{Ordering, Reverse};
use std::collections::BinaryHeap;

/// The faces in an order in which they can be painted, and how many of them could not be settled.
pub(super) fn back_to_front(faces: Vec<Shown>) -> (Vec<Shown>, usize) {
    let most = 500 + 8 * faces.len();
    let mut graph = Graph::new(faces);
    let (mut order, mut unsettled) = (Vec::new(), 0);
    loop {
        release(&mut graph, &mut order);
        let stuck = graph.tangle();
        let Some(&first) = stuck.first() else { break };
        let may_cut = graph.faces.len() < most;
        let loosened = (may_cut && cut_mutual(&mut graph, &stuck))
            || prove(&mut graph, &stuck)
            || (may_cut && cut_cycle(&mut graph, first));
        if !loosened {
            unsettled += 1;
            paint_anyway(&mut graph, &stuck, &mut order);
        }
    }
    let mut faces: Vec<Option<Shown>> = graph.faces.into_iter().map(Some).collect();
    (order.into_iter().filter_map(|i| faces[i].take()).collect(), unsettled)
}

/// Appends every face that nothing lies under, again and again; stays with one owner as long as
/// it can, and goes from far to near otherwise.
fn release(graph: &mut Graph, order: &mut Vec<usize>) {
    let mut queue = Queue::default();
    (0..graph.faces.len()).filter(|&f| graph.is_ready(f)).for_each(|f| queue.push(f, &graph.faces[f]));
    while let Some(face) = queue.pop() {
        order.push(face);
        graph.finish_under(face, |graph, next| {
            if graph.is_ready(next) {
                queue.push(next, &graph.faces[next]);
            }
        });
    }
}

/// Looks closer at quick answers; true if some of them asked for an order that is not needed.
fn prove(graph: &mut Graph, stuck: &[usize]) -> bool {
    let mut inside = vec![false; graph.faces.len()];
    stuck.iter().for_each(|&f| inside[f] = true);
    let doubtful: Vec<(u32, usize, usize)> = (stuck.iter().flat_map(|&f| graph.over(f)))
        .filter(|(_, link)| !link.proven && inside[link.over])
        .map(|(id, link)| (id, link.over, link.under))
        .collect();
    let mut removed = false;
    for (id, over, under) in doubtful {
        if lies_over(&graph.faces[over], &graph.faces[under]) {
            graph.mark_proven(id);
        } else {
            graph.remove(id);
            removed = true;
        }
    }
    removed
}

/// Cuts faces that lie partly over and partly under another one.
fn cut_mutual(graph: &mut Graph, stuck: &[usize]) -> bool {
    let pairs: Vec<(usize, usize)> = (stuck.iter().flat_map(|&f| graph.over(f)))
        .filter(|(_, link)| link.mutual && link.under < link.over)
        .map(|(_, link)| (link.under, link.over))
        .collect();
    let mut any = false;
    for (a, b) in pairs {
        any |= !graph.is_done(a) && !graph.is_done(b) && cut_either(graph, a, b);
    }
    any
}

/// Cuts the one with fewer corners by the plane of the other, or the other way round.
fn cut_either(graph: &mut Graph, a: usize, b: usize) -> bool {
    let corners = |f: usize| graph.faces[f].rings.iter().map(|r| r.points.len()).sum::<usize>();
    let (a, b) = if corners(a) <= corners(b) { (a, b) } else { (b, a) };
    cut_by(graph, a, b) || cut_by(graph, b, a)
}

fn cut_by(graph: &mut Graph, face: usize, by: usize) -> bool {
    let line = lead(&graph.faces[face], &graph.faces[by]);
    let (low, high) = line.range(graph.faces[face].outer());
    low < -TOUCH && high > TOUCH && cut_along(graph, face, &line)
}

fn cut_along(graph: &mut Graph, face: usize, line: &Slope) -> bool {
    match cut(&graph.faces[face], line) {
        Some(pieces) => {
            graph.replace(face, pieces);
            true
        }
        None => false,
    }
}

/// Cuts a face of a ring of faces of which each lies under the next.
fn cut_cycle(graph: &mut Graph, from: usize) -> bool {
    let ring = cycle(graph, from);
    let mut pairs: Vec<(usize, usize)> =
        (0..ring.len()).map(|i| (ring[i], ring[(i + 1) % ring.len()])).collect();
    pairs.order_by_key(|&(a, b)| graph.faces[a].outer().len().min(graph.faces[b].outer().len()));
    pairs.iter().any(|&(a, b)| cut_either(graph, a, b)) || cut_between(graph, &ring)
}

/// A cycle found by walking downwards from a face that is part of the tangle.
fn cycle(graph: &Graph, from: usize) -> Vec<usize> {
    let mut path = vec![from];
    loop {
        let last = path[path.len() - 1];
        // Every face of a tangle has a live link to one under it, or it would have been released.
        let Some((_, link)) = graph.under(last).next() else { return path };
        if let Some(start) = path.iter().position(|&f| f == link.under) {
            return path.split_off(start);
        }
        path.push(link.under);
    }
}

/// Where no plane cuts any face of the ring: cuts one half way between the places where it meets
/// its neighbours.
fn cut_between(graph: &mut Graph, ring: &[usize]) -> bool {
    let n = ring.len();
    let place = |i: usize| meet(&graph.faces[ring[i % n]], &graph.faces[ring[(i + 1) % n]]).over;
    let places: Vec<Option<Point>> = (0..n).map(place).collect();
    let mut lines: Vec<(f64, usize, Slope)> = (0..n)
        .filter_map(|i| {
            let (p, q) = (places[(i + n - 1) % n]?, places[i]?);
            let (way, middle) = (q - p, p.midpoint(q));
            Some((way.hypot2(), ring[i], Slope { a: way.x, b: way.y, c: -way.dot(middle.to_vec2()) }))
        })
        .collect();
    lines.order_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
    lines.iter().any(|(_, face, line)| cut_along(graph, *face, line))
}

/// Paints the farthest face of a tangle although something should come before it.
fn paint_anyway(graph: &mut Graph, stuck: &[usize], order: &mut Vec<usize>) {
    let farthest =
        stuck.iter().copied().min_by(|&a, &b| graph.faces[a].middle.total_cmp(&graph.faces[b].middle));
    if let Some(face) = farthest {
        order.push(face);
        graph.finish(face);
    }
}

/// Faces ready to be painted.
#[derive(Default)]
struct Queue {
    all: BinaryHeap<Reverse<Ready>>,
    own: Vec<BinaryHeap<Reverse<Ready>>>,
    owner: usize,
    taken: Vec<bool>,
}

impl Queue {
    fn push(&mut self, face: usize, shown: &Shown) {
        let ready = Reverse(Ready { nearness: shown.middle, face, owner: shown.owner });
        if self.own.len() <= shown.owner {
            self.own.resize_with(shown.owner + 1, BinaryHeap::new);
        }
        if self.taken.len() <= face {
            self.taken.resize(face + 1, false);
        }
        self.own[shown.owner].push(ready);
        self.all.push(ready);
    }

    fn pop(&mut self) -> Option<usize> {
        if let Some(Reverse(next)) = self.own.get_mut(self.owner).and_then(BinaryHeap::pop) {
            self.taken[next.face] = true;
            return Some(next.face);
        }
        loop {
            let Reverse(next) = self.all.pop()?;
            if !self.taken[next.face] {
                self.owner = next.owner;
                // The farthest of all is also the farthest of its owner.
                self.own[next.owner].pop();
                self.taken[next.face] = true;
                return Some(next.face);
            }
        }
    }
}

#[derive(Clone, Copy, PartialEq)]
struct Ready {
    nearness: f64,
    face: usize,
    owner: usize,
}

impl Eq for Ready {}

impl PartialOrd for Ready {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Ready {
    fn cmp(&self, other: &Self) -> Ordering {
        self.nearness.total_cmp(&other.nearness).then(self.face.cmp(&other.face))
    }
}
