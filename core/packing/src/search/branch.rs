//! Branch and bound over how many of each kind are bought, best first.

use super::settle::MOST_TRIES;
use super::{Search, WHOLE};
use crate::budget::Meter;
use crate::cover::{Cover, Cutter, Relaxed};
use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// Tries to settle a node before it is taken apart by its counts.
const PATIENCE: u32 = 2;

/// Part of the problem: how many of each kind are used.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Node {
    bound: Reverse<i64>,
    number: Reverse<usize>,
    /// How often it was tried to settle it.
    tries: u32,
    low: Vec<u32>,
    high: Vec<u32>,
}

impl<C: Cutter> Search<'_, C> {
    /// Best first over how many of each kind are used.
    pub(super) fn branch(&mut self, root: Relaxed, meter: &mut Meter<'_>) {
        let mut open = BinaryHeap::new();
        let mut stuck: Option<i64> = None;
        let (low, high) = (self.cover.low.clone(), self.cover.high.clone());
        open.push(Node { bound: Reverse(root.bound), number: Reverse(0), tries: 0, low, high });
        let mut number = 0;
        while let Some(node) = open.pop() {
            let bound = stuck.map_or(node.bound.0, |s| s.min(node.bound.0));
            self.raise(bound.min(self.best.cost), meter);
            if self.proven() || node.bound.0 >= self.best.cost || meter.over() {
                break;
            }
            let cover = Cover { low: node.low.clone(), high: node.high.clone(), ..self.cover.clone() };
            let Some(relaxed) = self.relaxed(&cover, meter) else { return };
            if relaxed.bound >= self.best.cost {
                continue;
            }
            match split(&relaxed) {
                Some((kind, at)) => {
                    for (from, to) in [(node.low[kind], at), (at + 1, node.high[kind])] {
                        number += 1;
                        let mut child = node.clone();
                        (child.low[kind], child.high[kind]) = (from, to);
                        (child.bound, child.number) = (Reverse(relaxed.bound), Reverse(number));
                        if from <= to {
                            open.push(child);
                        }
                    }
                }
                None if !self.settle(&cover, &relaxed, node.tries, meter) => {
                    let mut parts = parts(&node, &relaxed);
                    if parts.is_empty() && node.tries + 1 < MOST_TRIES {
                        parts.push(Node { tries: node.tries + 1, ..node.clone() });
                    }
                    if parts.is_empty() {
                        stuck = Some(stuck.map_or(relaxed.bound, |s| s.min(relaxed.bound)));
                    }
                    for part in parts {
                        number += 1;
                        open.push(Node { bound: Reverse(relaxed.bound), number: Reverse(number), ..part });
                    }
                }
                None => (),
            }
        }
        if !meter.over() {
            let left = stuck.unwrap_or(self.best.cost).min(self.best.cost);
            self.raise(left, meter);
        }
    }
}

/// The kind whose count is farthest from whole, and its count rounded down.
fn split(relaxed: &Relaxed) -> Option<(usize, u32)> {
    let mut best: Option<(f64, usize)> = None;
    for (kind, count) in relaxed.counts.iter().enumerate() {
        let off = (count - (count + 0.5).floor()).abs();
        if off > best.map_or(WHOLE, |b| b.0) {
            best = Some((off, kind));
        }
    }
    best.map(|(_, kind)| (kind, relaxed.counts[kind].floor() as u32))
}

/// A node whose counts are whole but not settled, by parts: one count lower, the same, or higher. Nothing if
/// it was not tried long enough yet or all its counts are fixed.
fn parts(node: &Node, relaxed: &Relaxed) -> Vec<Node> {
    let free = (0..node.low.len()).find(|&k| node.low[k] < node.high[k]);
    let Some(kind) = free.filter(|_| node.tries + 1 >= PATIENCE) else { return Vec::new() };
    let count = (relaxed.counts[kind] + 0.5).floor() as u32;
    let range = |low: u32, high: u32| {
        let mut part = Node { tries: PATIENCE - 1, ..node.clone() };
        (part.low[kind], part.high[kind]) = (low, high);
        part
    };
    let mut parts = vec![range(count, count)];
    if count > node.low[kind] {
        parts.push(range(node.low[kind], count - 1));
    }
    if count < node.high[kind] {
        parts.push(range(count + 1, node.high[kind]));
    }
    parts
}
