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
}

/// Faces, and the links between those that are not painted yet.
pub(super) struct Graph {
    pub(super) faces: Vec<Shown>,
    links: Vec<Link>,
    /// For each face, the links to what lies over it.
    over: Vec<Vec<u32>>,
    /// For each face, the links to what lies under it.
    under: Vec<Vec<u32>>,
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
            over: vec![Vec::new(); n],
            under: vec![Vec::new(); n],
            waits: vec![0; n],
            done: vec![false; n],
        };
        let mut found = Vec::with_capacity(16 * n);
        near_pairs(&graph.faces, |a, b| found.push((a, b, relate(&graph.faces[a], &graph.faces[b]))));
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
        self.over[under].push(id);
        self.under[over].push(id);
        self.waits[over] += 1;
        let mutual = relation.over && relation.under;
        self.links.push(Link { under, over, proven: relation.proven, mutual, gone: false });
    }

    /// Live links to what lies over a face.
    pub(super) fn over(&self, face: usize) -> impl Iterator<Item = (u32, &Link)> + '_ {
        self.over[face].iter().map(|&id| (id, &self.links[id as usize])).filter(|(_, link)| !link.gone)
    }

    /// Live links to what lies under a face.
    pub(super) fn under(&self, face: usize) -> impl Iterator<Item = (u32, &Link)> + '_ {
        self.under[face].iter().map(|&id| (id, &self.links[id as usize])).filter(|(_, link)| !link.gone)
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
        self.done[face] = true;
        for at in 0..self.over[face].len() {
            self.remove(self.over[face][at]);
        }
        for at in 0..self.under[face].len() {
            self.remove(self.under[face][at]);
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
        self.over.push(Vec::new());
        self.under.push(Vec::new());
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
