//! Pieces, and groups of a few that lie together with hardly any waste, as one block each. With blocks in its
//! corner a rectangle may be parted at sums of sizes, not only at the sizes of single pieces.

use super::layout::Placed;
use super::problem::Size;
use super::strips::Way;
use std::collections::BTreeSet;

/// A rectangle of one or more pieces.
#[derive(Clone, Debug)]
pub(super) struct Block {
    pub(super) size: Size,
    /// How many of each row, rows rising.
    pub(super) takes: Vec<(usize, u32)>,
    pub(super) pieces: usize,
    /// Where they lie within it.
    pub(super) placed: Vec<Placed>,
    area: i64,
}

/// Most blocks, and most ways of pieces of which larger blocks are made: where there are more, pieces are small
/// beside the board and fill it anyhow.
const MOST: usize = 300;
const WAYS: usize = 70;
/// A block may waste one part in so many.
const WASTE: i64 = 100;

/// One block for each way a piece may lie, in their order.
pub(super) fn singles(ways: &[Way]) -> Vec<Block> {
    let single = |way: &Way| Block {
        size: way.size,
        takes: vec![(way.row, 1)],
        pieces: 1,
        placed: vec![Placed { row: way.row, at: [0, 0], size: way.size }],
        area: way.size[0] * way.size[1],
    };
    ways.iter().map(single).collect()
}

/// The single pieces first, then blocks of more that fit one of the rooms.
pub(super) fn blocks(ways: &[Way], limits: &[u32], rooms: &[Size]) -> Vec<Block> {
    let mut list = singles(ways);
    if ways.len() > WAYS {
        return list;
    }
    let mut known: BTreeSet<(Size, Vec<(usize, u32)>)> = BTreeSet::new();
    let mut next = 0;
    // Each block is joined to all before it, and to itself; new ones come to the end of the list.
    while next < list.len() {
        for other in 0..=next {
            for axis in 0..2 {
                if list.len() >= MOST {
                    return list;
                }
                let (a, b) = (&list[other], &list[next]);
                let joined = joined(a, b, axis).filter(|j| fits(j, limits, rooms));
                let new = joined.filter(|j| known.insert((j.size, j.takes.clone())));
                list.extend(new);
            }
        }
        next += 1;
    }
    list
}

fn fits(block: &Block, limits: &[u32], rooms: &[Size]) -> bool {
    block.takes.iter().all(|&(row, n)| n <= limits[row])
        && rooms.iter().any(|r| block.size[0] <= r[0] && block.size[1] <= r[1])
}

/// Two blocks along an axis; nothing if they waste too much.
fn joined(a: &Block, b: &Block, axis: usize) -> Option<Block> {
    let mut size = [a.size[0].max(b.size[0]), a.size[1].max(b.size[1])];
    size[axis] = a.size[axis] + b.size[axis];
    let area = a.area + b.area;
    let whole = size[0] * size[1];
    if (whole - area) * WASTE > whole {
        return None;
    }
    let mut takes = a.takes.clone();
    for &(row, n) in &b.takes {
        match takes.iter_mut().find(|t| t.0 == row) {
            Some(own) => own.1 += n,
            None => takes.push((row, n)),
        }
    }
    takes.sort_unstable();
    let mut placed = a.placed.clone();
    placed.extend(b.placed.iter().map(|p| {
        let mut at = p.at;
        at[axis] += a.size[axis];
        Placed { at, ..*p }
    }));
    Some(Block { size, takes, pieces: a.pieces + b.pieces, placed, area })
}
