//! All pieces on one board that they all but fill: blocks joined from the bottom up, those that waste least first.
//!
//! Two blocks side by side or one above the other make a block of both (Wang, Operations Research 31, 1983, as his
//! bound on waste is meant: no more than the board leaves over). A block is at its end as soon as another one
//! holds just the pieces that it lacks and both go on the board.

use super::layout::Placed;
use super::problem::Size;
use super::strips::Way;
use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap, HashMap};

/// Pieces at most: with more of them there are too many blocks for any use.
const PIECES: u64 = 20;
/// Blocks at most, for the memory they take.
const BLOCKS: usize = 300_000;
/// Work of a new block.
const STEP: u64 = 60;

#[derive(Clone, Copy, Debug)]
struct Block {
    /// A bit for each piece.
    pieces: u32,
    size: Size,
    waste: i64,
    made: Made,
}

#[derive(Clone, Copy, Debug)]
enum Made {
    Piece(usize),
    Joined(usize, [usize; 2]),
}

/// A block as one that looks for a partner sees it.
#[derive(Clone, Copy, Debug)]
struct Partner {
    pieces: u32,
    waste: i64,
    number: usize,
}

struct Joiner {
    room: Size,
    /// What the board leaves over.
    spare: i64,
    blocks: Vec<Block>,
    of: HashMap<u32, Vec<usize>>,
    /// Blocks that were taken up, by their size along each axis, those that waste least first.
    sides: [BTreeMap<i64, Vec<Partner>>; 2],
    open: BinaryHeap<(Reverse<i64>, Reverse<usize>)>,
    whole: u32,
    /// The axis along which two blocks make the whole.
    found: Option<(usize, [usize; 2])>,
    work: u64,
}

/// A layout of all pieces on one board, if one was found within `most` work, and the work it took.
pub(super) fn all(ways: &[Way], limits: &[u32], room: Size, most: u64) -> (Option<Vec<Placed>>, u64) {
    let single: Vec<usize> =
        limits.iter().enumerate().flat_map(|(row, &n)| std::iter::repeat_n(row, n as usize)).collect();
    let area = |row: usize| ways.iter().find(|w| w.row == row).map_or(0, |w| w.size[0] * w.size[1]);
    let spare = room[0] * room[1] - single.iter().map(|&row| area(row)).sum::<i64>();
    if single.len() < 2 || single.len() as u64 > PIECES || spare < 0 {
        return (None, 0);
    }
    let mut joiner = Joiner {
        room,
        spare,
        blocks: Vec::new(),
        of: HashMap::new(),
        sides: [BTreeMap::new(), BTreeMap::new()],
        open: BinaryHeap::new(),
        whole: (1 << single.len()) - 1,
        found: None,
        work: 0,
    };
    for (piece, &row) in single.iter().enumerate() {
        for (way, own) in ways.iter().enumerate().filter(|(_, w)| w.row == row) {
            joiner.add(Block { pieces: 1 << piece, size: own.size, waste: 0, made: Made::Piece(way) });
        }
    }
    joiner.run(most);
    let placed = joiner.found.map(|(axis, both)| {
        let mut placed = Vec::new();
        joiner.read(ways, Made::Joined(axis, both), [0, 0], &mut placed);
        placed
    });
    (placed, joiner.work)
}

impl Joiner {
    fn run(&mut self, most: u64) {
        while self.found.is_none() && self.work < most && self.blocks.len() < BLOCKS {
            let Some((_, Reverse(number))) = self.open.pop() else { return };
            let block = self.blocks[number];
            for axis in [0, 1] {
                let partner = Partner { pieces: block.pieces, waste: block.waste, number };
                self.sides[axis].entry(block.size[axis]).or_default().push(partner);
            }
            for axis in [0, 1] {
                let joined = self.joined(&block, number, axis);
                joined.into_iter().for_each(|b| self.add(b));
            }
        }
    }

    /// The block beside each one along an axis that lets the waste stay within what is spare.
    fn joined(&mut self, block: &Block, number: usize, axis: usize) -> Vec<Block> {
        let across = 1 - axis;
        let room = self.spare - block.waste;
        let own = block.size[across];
        let highest = own + room / block.size[axis];
        let mut made = Vec::new();
        for (&side, partners) in self.sides[across].range(..=highest) {
            let left = room - (side - own).max(0) * block.size[axis];
            for partner in partners {
                self.work += 2;
                if partner.waste > left {
                    break;
                }
                if partner.pieces & block.pieces != 0 {
                    continue;
                }
                let other = &self.blocks[partner.number];
                let lost = (side - own).max(0) * block.size[axis] + (own - side).max(0) * other.size[axis];
                let waste = block.waste + other.waste + lost;
                let length = block.size[axis] + other.size[axis];
                if waste > self.spare || length > self.room[axis] {
                    continue;
                }
                let mut size = [length; 2];
                size[across] = own.max(side);
                let pieces = block.pieces | other.pieces;
                made.push(Block { pieces, size, waste, made: Made::Joined(axis, [number, partner.number]) });
            }
        }
        made
    }

    /// Takes up a block unless one of the same pieces is no larger; looks whether another makes it whole.
    fn add(&mut self, block: Block) {
        self.work += STEP;
        let fits = block.size[0] <= self.room[0] && block.size[1] <= self.room[1];
        let smaller = |&n: &usize| (0..2).all(|axis| self.blocks[n].size[axis] <= block.size[axis]);
        let known = self.of.get(&block.pieces).is_some_and(|list| list.iter().any(smaller));
        if !fits || known {
            return;
        }
        let number = self.blocks.len();
        let rest = self.of.get(&(self.whole ^ block.pieces)).map_or(&[][..], Vec::as_slice);
        for &other in rest {
            let size = self.blocks[other].size;
            let along = |axis: usize| {
                block.size[axis] + size[axis] <= self.room[axis] && size[1 - axis] <= self.room[1 - axis]
            };
            if let Some(axis) = [0, 1].into_iter().find(|&a| along(a)) {
                self.found = Some((axis, [number, other]));
            }
        }
        self.of.entry(block.pieces).or_default().push(number);
        self.open.push((Reverse(block.waste), Reverse(number)));
        self.blocks.push(block);
    }

    fn read(&self, ways: &[Way], made: Made, at: Size, placed: &mut Vec<Placed>) {
        match made {
            Made::Piece(way) => placed.push(Placed { row: ways[way].row, at, size: ways[way].size }),
            Made::Joined(axis, [first, second]) => {
                let mut next = at;
                next[axis] += self.blocks[first].size[axis];
                self.read(ways, self.blocks[first].made, at, placed);
                self.read(ways, self.blocks[second].made, next, placed);
            }
        }
    }
}
