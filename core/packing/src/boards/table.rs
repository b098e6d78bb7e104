//! No guillotine layout of a board is worth more than this: dynamic programming over all ways to cut, each
//! piece as often as wanted (Gilmore and Gomory, Operations Research 14, 1966).
//!
//! Only sums of piece sizes matter as places of cuts. Where they are too many, sizes are rounded down to a
//! coarser unit: pieces then are smaller than they are, and the bound stays true.

use super::layout::{Area, Placed};
use super::problem::Size;
use super::strips::Way;

/// Points along and across at most.
const POINTS: [usize; 2] = [3400, 260];

/// Work that a cell takes at least: 4 for itself and 2 for each way of cutting it, each step counted three times.
const LEAST: usize = 3 * (4 + 2 + 2);

/// Units of a board's length at most.
const FINEST: i64 = 40_000;

/// The table for boards up to a size.
#[derive(Clone, Debug)]
pub(super) struct Table {
    unit: Size,
    points: [Vec<i64>; 2],
    /// For each length in units the last point not above it.
    floor: [Vec<u16>; 2],
    best: Vec<i64>,
    choice: Vec<Choice>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Choice {
    Nothing,
    /// By the place among the ways.
    Piece(usize),
    /// A cut at a point of an axis.
    Cut(usize, u16),
}

impl Table {
    /// Points for pieces of these sizes on boards up to `room`.
    pub(super) fn new(ways: &[Way], room: Size) -> Self {
        let (mut unit, mut points) = ([1, 1], [vec![0], vec![0]]);
        for axis in 0..2 {
            let sizes: Vec<i64> = ways.iter().map(|w| w.size[axis]).collect();
            let finest = room[axis] / FINEST + 1;
            unit[axis] = sizes.iter().fold(0, |g, &s| crate::units::gcd(g, s)).max(finest);
            loop {
                points[axis] = sums(&sizes, unit[axis], room[axis]);
                if points[axis].len() <= POINTS[axis] {
                    break;
                }
                unit[axis] = unit[axis] * 5 / 4 + 1;
            }
        }
        let floor = [0, 1].map(|a: usize| floors(&points[a], (room[a].max(0) / unit[a]) as usize));
        Self { unit, points, floor, best: Vec::new(), choice: Vec::new() }
    }

    /// Whether sizes were not rounded, so that a layout can be read from the table.
    fn is_exact(&self, ways: &[Way]) -> bool {
        ways.iter().all(|w| (0..2).all(|a| w.size[a] % self.unit[a] == 0))
    }

    /// Fills the table; returns the work. Where that comes to `most` or more the table is not whole: it is not begun if
    /// what every cell takes at least is too much, and left as it is once more is used.
    pub(super) fn run(&mut self, ways: &[Way], values: &[i64], limits: &[u32], most: u64) -> u64 {
        let (columns, rows) = (self.points[0].len(), self.points[1].len());
        let cells = columns * rows;
        let least = (cells * LEAST) as u64;
        if least >= most {
            return most;
        }
        self.best.clear();
        self.best.resize(cells, 0);
        self.choice.clear();
        self.choice.resize(cells, Choice::Nothing);
        self.seed(ways, values, limits);
        // Where the value rises along each row, and along each column: only there a cut can gain.
        let mut rises: Vec<Vec<u16>> = vec![Vec::new(); rows];
        let mut work = (columns * rows * 4) as u64;
        for i in 0..columns {
            if work * 3 >= most {
                break;
            }
            let mut column: Vec<u16> = Vec::new();
            for (j, row) in rises.iter_mut().enumerate() {
                work += self.cuts(0, i, j, row) + self.cuts(1, i, j, &column);
                let own = self.best[i * rows + j];
                if i > 0 && own > self.best[(i - 1) * rows + j] {
                    row.push(i as u16);
                }
                if j > 0 && own > self.best[i * rows + j - 1] {
                    column.push(j as u16);
                }
            }
        }
        work * 3
    }

    /// Each piece at the smallest point that holds it, then spread to larger ones.
    fn seed(&mut self, ways: &[Way], values: &[i64], limits: &[u32]) {
        let rows = self.points[1].len();
        for (number, way) in ways.iter().enumerate().filter(|(_, w)| limits[w.row] > 0) {
            let at = |a: usize| self.points[a].partition_point(|&p| p < way.size[a] / self.unit[a]);
            let (i, j) = (at(0), at(1));
            if i < self.points[0].len() && j < rows && values[way.row] > self.best[i * rows + j] {
                self.best[i * rows + j] = values[way.row];
                self.choice[i * rows + j] = Choice::Piece(number);
            }
        }
    }

    fn offer(&mut self, cell: usize, value: i64, choice: Choice) {
        if value > self.best[cell] {
            (self.best[cell], self.choice[cell]) = (value, choice);
        }
    }

    /// Cuts across an axis at the places where the value rises, and what the next smaller size gives.
    fn cuts(&mut self, axis: usize, i: usize, j: usize, rises: &[u16]) -> u64 {
        let rows = self.points[1].len();
        let (own, cell) = (if axis == 0 { i } else { j }, i * rows + j);
        let with = |p: usize| if axis == 0 { p * rows + j } else { i * rows + p };
        if own > 0 {
            self.offer(cell, self.best[with(own - 1)], self.choice[with(own - 1)]);
        }
        let whole = self.points[axis][own];
        let mut steps = 2;
        for &at in rises {
            let low = self.points[axis][usize::from(at)];
            if 2 * low > whole {
                break;
            }
            let rest = usize::from(self.floor[axis][(whole - low) as usize]);
            self.offer(cell, self.best[with(usize::from(at))] + self.best[with(rest)], Choice::Cut(axis, at));
            steps += 1;
        }
        steps
    }

    fn cell(&self, room: Size) -> Option<(usize, usize)> {
        let at = |a: usize| {
            let units = usize::try_from(room[a] / self.unit[a]).ok()?;
            self.floor[a].get(units.min(self.floor[a].len() - 1)).map(|&p| usize::from(p))
        };
        Some((at(0)?, at(1)?))
    }

    /// No layout of a board of this size is worth more.
    pub(super) fn most(&self, room: Size) -> i64 {
        self.cell(room).map_or(0, |(i, j)| self.best[i * self.points[1].len() + j])
    }

    /// The layout behind [`Table::most`]; nothing if sizes were rounded.
    pub(super) fn layout(&self, ways: &[Way], room: Size) -> Option<Vec<Placed>> {
        let (i, j) = self.cell(room).filter(|_| self.is_exact(ways))?;
        let mut placed = Vec::new();
        self.read(ways, (i, j), [0, 0], &mut placed);
        Some(placed)
    }

    fn read(&self, ways: &[Way], (i, j): (usize, usize), at: Size, placed: &mut Vec<Placed>) {
        let rows = self.points[1].len();
        match self.choice[i * rows + j] {
            Choice::Nothing => (),
            Choice::Piece(number) => {
                placed.push(Placed { row: ways[number].row, at, size: ways[number].size });
            }
            Choice::Cut(axis, cut) => {
                let own = if axis == 0 { i } else { j };
                let (low, whole) = (self.points[axis][usize::from(cut)], self.points[axis][own]);
                let rest = usize::from(self.floor[axis][(whole - low) as usize]);
                let mut next = at;
                next[axis] += low * self.unit[axis];
                let with = |p: usize| if axis == 0 { (p, j) } else { (i, p) };
                self.read(ways, with(usize::from(cut)), at, placed);
                self.read(ways, with(rest), next, placed);
            }
        }
    }
}

/// Sums of sizes up to a length, in units, zero first.
fn sums(sizes: &[i64], unit: i64, room: i64) -> Vec<i64> {
    let most = (room.max(0) / unit) as usize;
    let mut reached = vec![false; most + 1];
    reached[0] = true;
    for size in sizes.iter().map(|s| (s / unit).max(1) as usize) {
        for at in size..=most {
            reached[at] |= reached[at - size];
        }
    }
    (0..=most).filter(|&i| reached[i]).map(|i| i as i64).collect()
}

fn floors(points: &[i64], most: usize) -> Vec<u16> {
    let mut at = 0;
    (0..=most as i64)
        .map(|length| {
            while at + 1 < points.len() && points[at + 1] <= length {
                at += 1;
            }
            at as u16
        })
        .collect()
}

/// The whole of a board.
pub(super) fn whole(room: Size) -> Area {
    Area { at: [0, 0], size: room }
}
