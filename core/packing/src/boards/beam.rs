//! Full boards by a beam: many layouts grow side by side, piece by piece, and only the best go on.
//!
//! Each layout is a stack of free rectangles. The one on top is filled next: a piece goes into its corner, one
//! cut right through parts the rest in two, and the smaller part comes on top. So narrow rests are settled at
//! once, and what they waste is known before large ones are begun. Layouts of equally many pieces are
//! compared by the share they waste and by how large the pieces are that they have placed: large pieces are
//! hard to place late (the guide of Fontan and Libralesso, arXiv 2004.02603, from memory).

use super::layout::{Area, Placed};
use super::strips::{Laid, Way};
use crestrail_sorting::Order as _;

/// What is to be laid, and what it is worth.
#[derive(Clone, Copy, Debug)]
pub(super) struct Beam<'a> {
    pub(super) ways: &'a [Way],
    pub(super) values: &'a [i64],
    /// Value that a full board has for its area; waste is counted by it.
    pub(super) rate: f64,
    pub(super) look: Look,
}

/// How to search.
#[derive(Clone, Copy, Debug)]
pub(super) struct Look {
    /// Layouts side by side.
    pub(super) width: usize,
    /// A share of waste that is not worth minding beside large pieces placed.
    pub(super) slack: f64,
}

/// Pieces tried in one rectangle beside those that are as long or as high as it: large ones first.
const TRIED: usize = 12;

#[derive(Clone, Debug)]
struct Node {
    left: Vec<u32>,
    /// Free rectangles, the next one last; it holds a piece at least.
    free: Vec<Area>,
    value: i64,
    /// Area that is placed or wasted.
    used: f64,
    /// The last step, by its number; each step knows the one before.
    last: Option<usize>,
}

/// One piece placed.
struct Step {
    before: Option<usize>,
    placed: Placed,
}

/// A layout with one more piece.
#[derive(Clone, Copy)]
struct Child {
    guide: f64,
    parent: usize,
    way: usize,
    /// The axis along which the first cut parts the rest.
    axis: usize,
}

impl Beam<'_> {
    /// The most valuable layout found for an area; adds its work.
    pub(super) fn fill(&self, area: Area, limits: &[u32], work: &mut u64) -> Laid {
        let mut steps: Vec<Step> = Vec::new();
        let root = Node { left: limits.to_vec(), free: vec![area], value: 0, used: 0.0, last: None };
        let mut best = (0, None);
        let mut level: Vec<Node> = self.settled(root, work).into_iter().collect();
        let mut children: Vec<Child> = Vec::new();
        while !level.is_empty() {
            children.clear();
            for (parent, node) in level.iter().enumerate() {
                self.children(parent, node, &mut children, work);
            }
            let width = self.look.width;
            if children.len() > width {
                children.select_nth_unstable_by(width - 1, |a, b| a.guide.total_cmp(&b.guide));
                children.truncate(width);
            }
            children.order_by(|a, b| a.guide.total_cmp(&b.guide).then(a.parent.cmp(&b.parent)));
            let mut next: Vec<Node> = Vec::with_capacity(children.len());
            for &child in &children {
                let node = self.grown(&level[child.parent], child, &mut steps);
                *work += 100 + 2 * node.left.len() as u64;
                if node.value > best.0 {
                    best = (node.value, node.last);
                }
                let node = self.settled(node, work).filter(|n| next.last().is_none_or(|l| !same(l, n)));
                next.extend(node);
            }
            level = next;
        }
        let mut placed = Vec::new();
        let mut at = best.1;
        while let Some(number) = at {
            placed.push(steps[number].placed);
            at = steps[number].before;
        }
        placed.reverse();
        Laid { value: best.0, placed }
    }

    fn fits(&self, left: &[u32], way: &Way, size: [i64; 2]) -> bool {
        left[way.row] > 0 && way.size[0] <= size[0] && way.size[1] <= size[1] && self.values[way.row] > 0
    }

    /// The layout without free rectangles that hold nothing; nothing if none is left.
    fn settled(&self, mut node: Node, work: &mut u64) -> Option<Node> {
        while let Some(top) = node.free.last() {
            *work += 20;
            if self.ways.iter().any(|w| self.fits(&node.left, w, top.size)) {
                return Some(node);
            }
            node.used += square(top.size);
            node.free.pop();
        }
        None
    }

    fn children(&self, parent: usize, node: &Node, children: &mut Vec<Child>, work: &mut u64) {
        let Some(top) = node.free.last() else { return };
        let open = self.ways.iter().filter(|w| node.left[w.row] > 0 && self.values[w.row] > 0);
        let least = open.fold([i64::MAX; 2], |m, w| [m[0].min(w.size[0]), m[1].min(w.size[1])]);
        *work += 3 * self.ways.len() as u64;
        let fitting = self.ways.iter().enumerate().filter(|(_, w)| self.fits(&node.left, w, top.size));
        for (place, (way, own)) in fitting.enumerate() {
            let flush = own.size[0] == top.size[0] || own.size[1] == top.size[1];
            if place >= TRIED && !flush {
                continue;
            }
            let value = (node.value + self.values[own.row]) as f64;
            // With one part only both cuts are one.
            for axis in if flush { 0..1 } else { 0..2 } {
                let parts = parted(*top, own.size, axis);
                *work += 30;
                let dead = |p: &Area| p.size[0] < least[0] || p.size[1] < least[1];
                let lost: f64 = parts.iter().filter(|p| dead(p)).map(|p| square(p.size)).sum();
                let used = node.used + square(own.size) + lost;
                let wasted = (used * self.rate - value).max(0.0) / (used * self.rate);
                children.push(Child { guide: (self.look.slack + wasted) / value, parent, way, axis });
            }
        }
    }

    fn grown(&self, parent: &Node, child: Child, steps: &mut Vec<Step>) -> Node {
        let own = self.ways[child.way];
        let mut free = Vec::with_capacity(parent.free.len() + 1);
        free.extend_from_slice(&parent.free);
        let top = free.pop().unwrap_or(Area { at: [0, 0], size: own.size });
        let mut node = Node { left: parent.left.clone(), free, ..*parent };
        steps.push(Step { before: node.last, placed: Placed { row: own.row, at: top.at, size: own.size } });
        node.last = Some(steps.len() - 1);
        node.left[own.row] -= 1;
        node.value += self.values[own.row];
        node.used += square(own.size);
        let mut parts = parted(top, own.size, child.axis);
        if square(parts[1].size) > square(parts[0].size) {
            parts.swap(0, 1);
        }
        node.free.extend(parts.into_iter().filter(|p| p.size[0] > 0 && p.size[1] > 0));
        node
    }
}

fn square(size: [i64; 2]) -> f64 {
    size[0] as f64 * size[1] as f64
}

/// What is left beside and above a piece in the corner: the cut across axis 0 runs right through, so that the
/// part beside is as high as the area, or the one along it, so that the part above is as long.
fn parted(area: Area, size: [i64; 2], axis: usize) -> [Area; 2] {
    let over = [area.size[0] - size[0], area.size[1] - size[1]];
    let beside = if axis == 0 { area.size[1] } else { size[1] };
    let above = if axis == 0 { size[0] } else { area.size[0] };
    [
        Area { at: [area.at[0] + size[0], area.at[1]], size: [over[0], beside] },
        Area { at: [area.at[0], area.at[1] + size[1]], size: [above, over[1]] },
    ]
}

/// Whether two layouts leave the same pieces and the same room.
fn same(a: &Node, b: &Node) -> bool {
    let sizes = |(p, q): (&Area, &Area)| p.size == q.size;
    let alike = a.value == b.value && a.left == b.left && a.free.len() == b.free.len();
    alike && a.free.iter().zip(&b.free).all(sizes)
}
