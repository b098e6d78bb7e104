//! Full boards by a beam: many layouts grow side by side, block by block, and only the best go on.
//!
//! Each layout is a stack of free rectangles. The one on top is filled next: a block goes into its corner, one
//! cut right through parts the rest in two, and the smaller part comes on top. So narrow rests are settled at
//! once, and what they waste is known before large ones are begun. Layouts of equally many pieces are
//! compared by the share they waste and by how large the pieces are that they have placed: large pieces are
//! hard to place late (the guide of Fontan and Libralesso, arXiv 2004.02603, from memory).

use super::blocks::Block;
use super::layout::{Area, Placed};
use super::strips::Laid;
use std::rc::Rc;

/// What is to be laid, and what it is worth.
#[derive(Clone, Copy, Debug)]
pub(super) struct Beam<'a> {
    /// Single pieces first.
    pub(super) blocks: &'a [Block],
    /// Value of one piece of each row.
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

#[derive(Clone, Debug)]
struct Node {
    left: Vec<u32>,
    /// Free rectangles, the next one last; it holds a piece at least.
    free: Vec<Area>,
    pieces: usize,
    value: i64,
    /// Area that is placed or wasted.
    used: f64,
    /// The last step, by its number; each step knows the one before.
    last: Option<usize>,
}

/// One block placed.
struct Step {
    before: Option<usize>,
    block: usize,
    at: [i64; 2],
}

/// A layout with one more block.
#[derive(Clone)]
struct Child {
    guide: f64,
    parent: Rc<Node>,
    block: usize,
    /// The axis along which the first cut parts the rest.
    axis: usize,
}

/// Blocks tried in one rectangle beside those that are as long or as high as it: large ones first.
const TRIED: usize = 12;

impl Beam<'_> {
    /// The most valuable layout found for an area; adds its work.
    pub(super) fn fill(&self, area: Area, limits: &[u32], work: &mut u64) -> Laid {
        let mut steps: Vec<Step> = Vec::new();
        let mut best = (0, None);
        // What has so many pieces.
        let mut levels: Vec<Vec<Child>> = Vec::new();
        let root =
            Node { left: limits.to_vec(), free: vec![area], pieces: 0, value: 0, used: 0.0, last: None };
        self.grow(self.settled(root, work), &mut levels, work);
        let mut level = 0;
        while level < levels.len() {
            let mut children = std::mem::take(&mut levels[level]);
            self.cut(&mut children);
            children.sort_by(|a, b| a.guide.total_cmp(&b.guide));
            let mut before: Option<Node> = None;
            for child in children {
                let node = self.grown(&child, &mut steps);
                *work += 100 + 2 * node.left.len() as u64;
                if node.value > best.0 {
                    best = (node.value, node.last);
                }
                let node = self.settled(node, work).filter(|n| before.as_ref().is_none_or(|b| !same(b, n)));
                before = node.clone().or(before);
                self.grow(node, &mut levels, work);
            }
            level += 1;
        }
        Laid { value: best.0, placed: self.placed(best.1, &steps) }
    }

    fn placed(&self, mut at: Option<usize>, steps: &[Step]) -> Vec<Placed> {
        let mut list = Vec::new();
        while let Some(step) = at.map(|number| &steps[number]) {
            let moved = |p: &Placed| Placed { at: [p.at[0] + step.at[0], p.at[1] + step.at[1]], ..*p };
            list.extend(self.blocks[step.block].placed.iter().map(moved));
            at = step.before;
        }
        list
    }

    /// Keeps the best of a level.
    fn cut(&self, children: &mut Vec<Child>) {
        let width = self.look.width;
        if children.len() > width {
            children.select_nth_unstable_by(width - 1, |a, b| a.guide.total_cmp(&b.guide));
            children.truncate(width);
        }
    }

    fn fits(&self, left: &[u32], block: &Block, size: [i64; 2]) -> bool {
        let wanted = |&(row, n): &(usize, u32)| left[row] >= n && self.values[row] > 0;
        block.size[0] <= size[0] && block.size[1] <= size[1] && block.takes.iter().all(wanted)
    }

    fn singles(&self) -> impl Iterator<Item = &Block> {
        self.blocks.iter().take_while(|b| b.pieces == 1)
    }

    /// The layout without free rectangles that hold nothing; nothing if none is left.
    fn settled(&self, mut node: Node, work: &mut u64) -> Option<Node> {
        while let Some(top) = node.free.last() {
            *work += 20;
            if self.singles().any(|b| self.fits(&node.left, b, top.size)) {
                return Some(node);
            }
            node.used += square(top.size);
            node.free.pop();
        }
        None
    }

    /// Adds the layouts that have one block more.
    fn grow(&self, node: Option<Node>, levels: &mut Vec<Vec<Child>>, work: &mut u64) {
        let Some(node) = node.map(Rc::new) else { return };
        let Some(&top) = node.free.last() else { return };
        let open =
            self.singles().filter(|b| b.takes.iter().all(|t| node.left[t.0] > 0 && self.values[t.0] > 0));
        let least = open.fold([i64::MAX; 2], |m, b| [m[0].min(b.size[0]), m[1].min(b.size[1])]);
        *work += 3 * self.blocks.len() as u64;
        let mut tried = [0; 2];
        let fitting = self.blocks.iter().enumerate().filter(|(_, b)| self.fits(&node.left, b, top.size));
        for (block, own) in fitting {
            let flush = own.size[0] == top.size[0] || own.size[1] == top.size[1];
            let tried = &mut tried[usize::from(own.pieces > 1)];
            *tried += 1;
            if *tried > TRIED && !flush {
                continue;
            }
            let level = node.pieces + own.pieces;
            if levels.len() <= level {
                levels.resize_with(level + 1, Vec::new);
            }
            // With one part only both cuts are one.
            for axis in if flush { 0..1 } else { 0..2 } {
                *work += 30;
                let guide = self.guide(&node, own, parted(top, own.size, axis), least);
                levels[level].push(Child { guide, parent: Rc::clone(&node), block, axis });
            }
            if levels[level].len() > 8 * self.look.width + 1000 {
                self.cut(&mut levels[level]);
            }
        }
    }

    /// How good a layout is with one block more: waste beside the size of its pieces, best lowest.
    fn guide(&self, node: &Node, own: &Block, parts: [Area; 2], least: [i64; 2]) -> f64 {
        let more: i64 = own.takes.iter().map(|&(row, n)| self.values[row] * i64::from(n)).sum();
        let value = (node.value + more) as f64;
        let dead = |p: &&Area| p.size[0] < least[0] || p.size[1] < least[1];
        let lost: f64 = parts.iter().filter(dead).map(|p| square(p.size)).sum();
        let full = (node.used + square(own.size) + lost) * self.rate;
        (self.look.slack + (full - value).max(0.0) / full) / value
    }

    fn grown(&self, child: &Child, steps: &mut Vec<Step>) -> Node {
        let mut node = Node::clone(&child.parent);
        let own = &self.blocks[child.block];
        let top = node.free.pop().unwrap_or(Area { at: [0, 0], size: own.size });
        steps.push(Step { before: node.last, block: child.block, at: top.at });
        node.last = Some(steps.len() - 1);
        node.pieces += own.pieces;
        for &(row, n) in &own.takes {
            node.left[row] -= n;
            node.value += self.values[row] * i64::from(n);
        }
        node.used += square(own.size);
        let mut parts = parted(top, own.size, child.axis);
        parts.sort_by(|a, b| square(b.size).total_cmp(&square(a.size)));
        node.free.extend(parts.into_iter().filter(|p| p.size[0] > 0 && p.size[1] > 0));
        node
    }
}

fn square(size: [i64; 2]) -> f64 {
    size[0] as f64 * size[1] as f64
}

/// What is left beside and above a block in the corner: the cut across axis 0 runs right through, so that the
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
    let sizes = |n: &Node| n.free.iter().map(|f| f.size).collect::<Vec<_>>();
    a.value == b.value && a.left == b.left && sizes(a) == sizes(b)
}
