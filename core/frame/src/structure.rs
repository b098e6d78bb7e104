//! A checked frame, ready to be factorised as often as its springs change.

use crate::bar::Bar;
use crate::blocks::Blocks;
use crate::check;
use crate::model::{End, Frame, Springs, Support};
use crate::order::{Turn, turns};
use crate::solve::Stiff;
use crate::stiffness::{Matrices, Stiffness};
use crate::trouble::{Trouble, movement};

/// The rows of a node's six movements in the matrix; none where a support holds it.
pub(crate) type Rows = [Option<usize>; 6];

/// A frame without fault, with all that its springs do not change.
#[derive(Clone, Debug)]
pub struct Structure {
    pub(crate) bars: Vec<Bar>,
    pub(crate) supports: Vec<Support>,
    pub(crate) rows: Vec<Rows>,
    blocks: Blocks,
    /// Length of the longest member, mm.
    pub(crate) longest: f64,
}

impl Structure {
    /// Checks the frame; the trouble names what is wrong in it.
    #[inline(never)]
    pub fn new(frame: &Frame) -> Result<Self, Trouble> {
        check::frame(frame)?;
        let bars =
            (0..frame.members.len()).map(|index| Bar::new(frame, index)).collect::<Result<Vec<_>, _>>()?;
        let held = held(frame);
        let pairs: Vec<[usize; 2]> = bars
            .iter()
            .map(|bar| bar.ends)
            .filter(|ends| ends.iter().all(|&end| held[end] != [true; 6]))
            .collect();
        let turns = turns(frame.nodes.len(), &pairs);
        let rows = numbered(&turns, &held);
        Ok(Self {
            blocks: Blocks::new(&turns, |node| rows[node].iter().flatten().count()),
            longest: bars.iter().map(|bar| bar.length).fold(0.0, f64::max),
            supports: frame.supports.clone(),
            bars,
            rows,
        })
    }

    /// Replaces the springs at a member's end.
    pub fn set_springs(&mut self, member: usize, end: End, springs: Springs) -> Result<(), Trouble> {
        check::known(|| "member".to_owned(), "member", member, self.bars.len())?;
        let name = match end {
            End::I => "springs_i",
            End::J => "springs_j",
        };
        check::springs(|axis| format!("members[{member}].{name}.{axis}"), &springs)?;
        *self.bars[member].springs_mut(end) = springs;
        Ok(())
    }

    /// Sets up and factorises the stiffness. The trouble names a node and the movement from which nothing holds it.
    // Not inlined: a caller built for size would take its loops along and slow them.
    #[inline(never)]
    pub fn factorise(&self) -> Result<Stiff<'_>, Trouble> {
        let stiffnesses: Vec<Stiffness> = self.bars.iter().map(Stiffness::new).collect();
        let mut values = vec![0.0; self.blocks.stored()];
        for (bar, stiffness) in self.bars.iter().zip(&stiffnesses) {
            self.add(&mut values, bar, &stiffness.matrix(bar));
        }
        let factors = self.blocks.factorise(values).map_err(|row| self.loose(row))?;
        let noise = factors.doubtful().find(|&(row, pivot)| {
            let energy = self.energy(&stiffnesses, &factors.mode(row));
            (energy - pivot).abs() > 0.5 * pivot
        });
        match noise {
            None => Ok(Stiff { structure: self, stiffnesses, factors }),
            Some((row, _)) => Err(self.loose(row)),
        }
    }

    /// Twice the energy of a movement, N·mm, from what each member is strained by it. It has no large terms that cancel, so it
    /// tells a soft pivot from a left-over of rounding.
    fn energy(&self, stiffnesses: &[Stiffness], mode: &[f64]) -> f64 {
        let moved = self.spread(mode);
        let each = self.bars.iter().zip(stiffnesses);
        each.map(|(bar, stiffness)| stiffness.energy(bar, bar.ends.map(|node| &moved[node]))).sum()
    }

    /// The rows' values as displacements of all nodes.
    pub(crate) fn spread(&self, values: &[f64]) -> Vec<[f64; 6]> {
        let value = |row: Option<usize>| row.map_or(0.0, |row| values[row]);
        self.rows.iter().map(|rows| rows.map(value)).collect()
    }

    fn add(&self, values: &mut [f64], bar: &Bar, matrices: &Matrices) {
        let [i, j] = bar.ends;
        let [at_i, at_j] = [&self.rows[i], &self.rows[j]];
        self.add_block(values, [at_i, at_i], |r, c| matrices.ii[r][c]);
        self.add_block(values, [at_j, at_j], |r, c| matrices.jj[r][c]);
        // The node that is eliminated first gives the columns.
        let first = |rows: &Rows| rows.iter().flatten().next().copied();
        if first(at_i) < first(at_j) {
            self.add_block(values, [at_j, at_i], |r, c| matrices.ij[c][r]);
        } else {
            self.add_block(values, [at_i, at_j], |r, c| matrices.ij[r][c]);
        }
    }

    /// Adds what two nodes have between them; the block knows of a node's own only the lower half.
    #[inline(always)]
    fn add_block(
        &self,
        values: &mut [f64],
        [rows, columns]: [&Rows; 2],
        entry: impl Fn(usize, usize) -> f64,
    ) {
        let first = |rows: &Rows| rows.iter().flatten().next().copied();
        let (Some(row), Some(column)) = (first(rows), first(columns)) else { return };
        let Some((start, width)) = self.blocks.block(row, column) else { return };
        if width == 6 && rows.iter().all(Option::is_some) {
            let (lines, _) = values[start..][..36].as_chunks_mut::<6>();
            for (r, line) in lines.iter_mut().enumerate() {
                for (c, value) in line.iter_mut().enumerate() {
                    *value += entry(r, c);
                }
            }
            return;
        }
        for (r, at) in rows.iter().enumerate() {
            let Some(at) = at else { continue };
            let line = &mut values[start + (at - row) * width..][..width];
            for (c, at) in columns.iter().enumerate() {
                if let Some(at) = at {
                    line[at - column] += entry(r, c);
                }
            }
        }
    }

    /// The trouble of a row whose pivot is slack.
    fn loose(&self, row: usize) -> Trouble {
        let find = |rows: &Rows| rows.iter().position(|&r| r == Some(row));
        let found = self.rows.iter().enumerate().find_map(|(node, rows)| Some((node, find(rows)?)));
        let (node, direction) = found.unwrap_or_default();
        let what = movement(direction);
        let why = if self.bars.iter().any(|bar| bar.ends.contains(&node)) {
            format!(
                "Node {node} is free to {what}: no support and no member with firm ends keeps it from it."
            )
        } else {
            format!("Node {node} is free to {what}: no member meets it and no support holds it.")
        };
        Trouble::new(format!("nodes[{node}]"), why)
    }

    /// Numbers stored for the matrix: what a factorisation's time follows.
    pub fn stored(&self) -> usize {
        self.blocks.stored()
    }

    /// Free movements of all nodes.
    pub fn unknowns(&self) -> usize {
        self.blocks.order()
    }
}

/// What supports hold of each node.
fn held(frame: &Frame) -> Vec<[bool; 6]> {
    let mut held = vec![[false; 6]; frame.nodes.len()];
    frame.supports.iter().for_each(|support| held[support.node] = support.fixed);
    held
}

/// The rows of each node, node after node as their turns come.
fn numbered(turns: &[Turn], held: &[[bool; 6]]) -> Vec<Rows> {
    let mut rows = vec![[None; 6]; held.len()];
    let mut next = 0;
    for &Turn { node, .. } in turns {
        for (row, held) in rows[node].iter_mut().zip(held[node]) {
            if !held {
                *row = Some(next);
                next += 1;
            }
        }
    }
    rows
}
