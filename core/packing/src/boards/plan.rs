//! The plan: which boards to take, what lies where on each, and the cuts in the order of the saw.

use super::cutter::Rows;
use super::layout::{Area, Placed, Through, parting, pushed};
use super::problem::Problem;
use crate::units::millimetres;
use crestrail_sorting::Order as _;
use std::collections::BTreeMap;

/// Which way a cut goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Axis {
    /// A crosscut, square to the board's length.
    Across,
    /// A rip, along the board.
    Along,
}

/// One cut, mm from the corner of the board.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cut {
    /// Cuts of one stage on one part of the board follow each other; then its parts are cut.
    pub stage: u32,
    /// Which way it goes.
    pub axis: Axis,
    /// Where the kept edge is: x of a crosscut, y of a rip. The kerf lies beyond it.
    pub at: f64,
    /// Where the cut begins, y of a crosscut, x of a rip.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
}

/// A piece on a board, mm from the corner of the board.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Position {
    /// Which piece, by its place in the problem.
    pub piece: usize,
    /// Along the board.
    pub x: f64,
    /// Across it.
    pub y: f64,
    /// Size along the board as it lies.
    pub length: f64,
    /// Size across it as it lies.
    pub width: f64,
}

/// Boards of one kind that are sawn alike.
#[derive(Clone, Debug, PartialEq)]
pub struct Sawn {
    /// Which board, by its place in the problem.
    pub board: usize,
    /// How many boards are sawn so.
    pub times: u32,
    /// The pieces, from the left.
    pub pieces: Vec<Position>,
    /// The cuts in the order of the saw, after the trims.
    pub cuts: Vec<Cut>,
}

/// What to saw, and how near it is to the best possible.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Cost of the boards, minor units.
    pub cost: i64,
    /// No plan that makes as much costs less.
    pub bound: i64,
    /// The boards.
    pub boards: Vec<Sawn>,
    /// How many of each piece the stock did not give.
    pub missing: Vec<u32>,
    /// Work done.
    pub work: u64,
}

/// Writes layouts over merged rows out as boards of the problem's own pieces; boards alike become one.
pub(super) fn boards(problem: &Problem, rows: &Rows, layouts: &[(usize, Vec<Placed>)]) -> Vec<Sawn> {
    let mut left: Vec<u32> = problem.pieces.iter().map(|p| p.count).collect();
    let mut found: BTreeMap<(usize, Vec<(Placed, usize)>), u32> = BTreeMap::new();
    for (kind, placed) in layouts {
        let mut named: Vec<(Placed, usize)> = Vec::new();
        let pushed = pushed([0, 0], placed);
        for piece in pushed.as_ref().unwrap_or(placed) {
            if let Some(&own) = rows.pieces[piece.row].iter().find(|&&p| left[p] > 0) {
                left[own] -= 1;
                named.push((*piece, own));
            }
        }
        named.order_by_key(|n| (n.0.at, n.0.size));
        *found.entry((*kind, named)).or_default() += 1;
    }
    found.into_iter().map(|((board, named), times)| sawn(problem, board, &named, times)).collect()
}

fn sawn(problem: &Problem, board: usize, named: &[(Placed, usize)], times: u32) -> Sawn {
    let trims = [problem.trim.end, problem.trim.edge];
    let pieces = named.iter().map(|(p, own)| Position {
        piece: *own,
        x: millimetres(p.at[0]) + trims[0],
        y: millimetres(p.at[1]) + trims[1],
        length: given(problem, p, *own, 0),
        width: given(problem, p, *own, 1),
    });
    let placed: Vec<Placed> = named.iter().map(|n| n.0).collect();
    let area = Area { at: [0, 0], size: problem.rooms[board] };
    let through = parting(area, &placed, problem.worth).unwrap_or_default().cuts;
    let cuts = through.iter().map(|c| cut(problem, board, c, trims)).collect();
    Sawn { board, times, pieces: pieces.collect(), cuts }
}

/// A size of a piece as it lies: as it was given, not as it was rounded.
fn given(problem: &Problem, placed: &Placed, own: usize, axis: usize) -> f64 {
    let sizes = [problem.pieces[own].length, problem.pieces[own].width];
    sizes[if placed.size == problem.sizes[own] { axis } else { 1 - axis }]
}

fn cut(problem: &Problem, board: usize, cut: &Through, trims: [f64; 2]) -> Cut {
    let other = 1 - cut.axis;
    // A part ends where its last kerf begins, at the rim of the board where there is none.
    let end = cut.to - problem.kerf;
    debug_assert!(end <= problem.rooms[board][other]);
    Cut {
        stage: cut.stage,
        axis: if cut.axis == 0 { Axis::Across } else { Axis::Along },
        at: millimetres(cut.at - problem.kerf) + trims[cut.axis],
        from: millimetres(cut.from) + trims[other],
        to: millimetres(end) + trims[other],
    }
}

/// How many of each piece are not on the boards.
pub(super) fn missing(problem: &Problem, boards: &[Sawn]) -> Vec<u32> {
    let mut missing: Vec<u32> = problem.pieces.iter().map(|p| p.count).collect();
    for sawn in boards {
        sawn.pieces.iter().for_each(|p| missing[p.piece] -= sawn.times);
    }
    missing
}
