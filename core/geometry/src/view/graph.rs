//! What is known of the order of faces.

use super::flat::Shown;
use super::relate::{Relation, near_pairs, relate};

/// One face must be painted before another.
#[derive(Clone, Copy)]
pub(super) struct Link {
    pub(super) under: usize,
    pub(super) over: usize,
    /// Found at an actual common point.
    pub(super) proven: bool,
    /// The opposite holds too, elsewhere on the same two faces.
    pub(super) mutual: bool,
    gone: bool,
    /// The next link to what lies over the same face, and that to what lies under the same one.
    next: [u32; 2],
}

/// The links of a face on one side, strung together in the order in which they were found.
#[derive(Clone, Copy)]
struct Chain {
    first: u32,
    last: u32,
}

/// Stands for no link.
const END: u32 = u32::MAX;
/// Sides of a face.
const OVER: usize = 0;
const UNDER: usize = 1;

const NO_LINKS: [Chain; 2] = [Chain { first: END, last: END }; 2];

/// Faces, and the links between those that are not painted yet.
pub(super) struct Graph {
    pub(super) faces: Vec<Shown>,
    links: Vec<Link>,
    /// For each face, the links to what lies over it, and those to what lies under it.
    chains: Vec<[Chain; 2]>,
    /// For each face, how many live links lie under it.
    waits: Vec<usize>,
    /// Painted, hidden, or replaced by pieces.
    done: Vec<bool>,
}

impl Graph {
    pub(super) fn new(faces: Vec<Shown>) -> Self {
        let n = faces.len();
        let mut graph = Self {
            faces,
            links: Vec::with_capacity(16 * n),
            chains: vec![NO_LINKS; n],
            waits: vec![0; n],
            done: vec![false; n],
        };
        let mut found = Vec::with_capacity(16 * n);
        near_pairs(&graph.faces, |a, b| {
            let relation = relate(&graph.faces[a], &graph.faces[b]);
            if relation.over || relation.under {
                found.push((a, b, relation));
            }
        });
        found.into_iter().for_each(|(a, b, relation)| graph.link(a, b, relation));
        graph
    }

    fn link(&mut self, first: usize, second: usize, relation: Relation) {
        if relation.over {
            self.add(second, first, relation);
        }
        if relation.under {
            self.add(first, second, relation);
        }
    }

    fn add(&mut self, under: usize, over: usize, relation: Relation) {
        let id = self.links.len() as u32;
        self.waits[over] += 1;
        let mutual = relation.over && relation.under;
        self.links.push(Link { under, over, proven: relation.proven, mutual, gone: false, next: [END; 2] });
        for (face, side) in [(under, OVER), (over, UNDER)] {
            let chain = &mut self.chains[face][side];
            match chain.first {
                END => chain.first = id,
                _ => self.links[chain.last as usize].next[side] = id,
            }
            chain.last = id;
        }
    }

    /// Live links to what lies over a face.
    pub(super) fn over(&self, face: usize) -> impl Iterator<Item = (u32, &Link)> + '_ {
        self.chain(face, OVER)
    }

    /// Live links to what lies under a face.
    pub(super) fn under(&self, face: usize) -> impl Iterator<Item = (u32, &Link)> + '_ {
        self.chain(face, UNDER)
    }

    fn chain(&self, face: usize, side: usize) -> impl Iterator<Item = (u32, &Link)> + '_ {
        let link = |id: u32| self.links.get(id as usize).map(|link| (id, link));
        let next = move |&(_, last): &(u32, &Link)| link(last.next[side]);
        let all = core::iter::successors(link(self.chains[face][side].first), next);
        all.filter(|(_, link)| !link.gone)
    }

    pub(super) fn is_ready(&self, face: usize) -> bool {
        !self.done[face] && self.waits[face] == 0
    }

    pub(super) fn is_done(&self, face: usize) -> bool {
        self.done[face]
    }

    pub(super) fn mark_proven(&mut self, id: u32) {
        self.links[id as usize].proven = true;
    }

    pub(super) fn remove(&mut self, id: u32) {
        let link = &mut self.links[id as usize];
        if !link.gone {
            link.gone = true;
            self.waits[link.over] -= 1;
        }
    }

    /// Takes a face out: nothing waits for it any more.
    pub(super) fn finish(&mut self, face: usize) {
        self.finish_under(face, |_, _| ());
    }

    /// The same; shows all that waited for it.
    pub(super) fn finish_under(&mut self, face: usize, mut show: impl FnMut(&Self, usize)) {
        self.done[face] = true;
        for side in [UNDER, OVER] {
            let mut at = self.chains[face][side].first;
            while at != END {
                let Link { over, next, gone, .. } = self.links[at as usize];
                self.remove(at);
                if side == OVER && !gone {
                    show(self, over);
                }
                at = next[side];
            }
        }
    }

    /// Puts pieces in the place of a face.
    pub(super) fn replace(&mut self, face: usize, pieces: Vec<Shown>) {
        let mut others: Vec<usize> =
            self.over(face).map(|(_, l)| l.over).chain(self.under(face).map(|(_, l)| l.under)).collect();
        others.sort_unstable();
        others.dedup();
        self.finish(face);
        for piece in pieces {
            self.insert(piece, &others);
        }
    }

    fn insert(&mut self, piece: Shown, others: &[usize]) {
        let index = self.faces.len();
        self.faces.push(piece);
        self.chains.push(NO_LINKS);
        self.waits.push(0);
        self.done.push(false);
        for &other in others {
            if self.faces[index].bounds.overlap(&self.faces[other].bounds) {
                let relation = relate(&self.faces[index], &self.faces[other]);
                self.link(index, other, relation);
            }
        }
    }

    /// The faces in cycles, or between cycles, of what is left.
    pub(super) fn tangle(&self) -> Vec<usize> {
        let mut ways: Vec<usize> = (0..self.faces.len()).map(|f| self.over(f).count()).collect();
        let mut left: Vec<bool> = self.done.iter().map(|done| !done).collect();
        let mut ends: Vec<usize> = (0..ways.len()).filter(|&f| left[f] && ways[f] == 0).collect();
        while let Some(end) = ends.pop() {
            left[end] = false;
            for (_, link) in self.under(end) {
                ways[link.under] -= 1;
                if ways[link.under] == 0 {
                    ends.push(link.under);
                }
            }
        }
        (0..left.len()).filter(|&f| left[f]).collect()
    }
}
