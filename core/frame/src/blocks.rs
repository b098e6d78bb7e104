//! A symmetric matrix in blocks, one for each two nodes that are coupled when one of them is eliminated, and its
//! factors L D Lᵀ.
//!
//! Each node keeps a panel: its own rows, below them those of the later nodes it meets, and its own columns. Eliminating it changes
//! only the panels of the nodes it meets (T. A. Davis, *Direct Methods for Sparse Linear Systems*, 2006, §4.8).

use crate::order::Turn;

/// A pivot below this share of its column's original diagonal may be no more than rounding, and is looked at. Sound chairs
/// stay above it, and where nothing holds a node the random frames of the tests leave up to 1e-9.
const DOUBT: f64 = 1e-6;

/// Most rows of one node.
const MOST: usize = 6;

/// The shape of the matrix.
#[derive(Clone, Debug)]
pub(crate) struct Blocks {
    panels: Vec<Panel>,
    /// The panel that holds each row on its diagonal.
    owner: Vec<usize>,
    stored: usize,
}

/// One node's part of the matrix, row after row.
#[derive(Clone, Debug)]
struct Panel {
    /// Where it is stored.
    start: usize,
    /// Its first row in the matrix, which is its first column too.
    first: usize,
    /// Number of its columns.
    width: usize,
    /// The blocks below its own, in the order of the matrix.
    below: Vec<Block>,
    /// For each two blocks below, where the block they change is stored: of the lower one j the blocks (i, j), i from j on.
    changes: Vec<usize>,
}

#[derive(Clone, Copy, Debug)]
struct Block {
    /// The node's place in the order of elimination.
    panel: usize,
    /// Its first row in the matrix.
    first: usize,
    /// Number of its rows.
    rows: usize,
    /// Where in its panel it begins, rows.
    at: usize,
}

impl Panel {
    fn rows(&self) -> usize {
        self.below.last().map_or(self.width, |block| block.at + block.rows)
    }

    /// Where the first row of another panel's block is stored in this one.
    fn place_of(&self, panel: usize) -> Option<usize> {
        let block = self.below.iter().find(|block| block.panel == panel)?;
        Some(self.start + block.at * self.width)
    }
}

impl Blocks {
    /// Of the nodes' turns and how many rows each node has.
    pub(crate) fn new(turns: &[Turn], widths: impl Fn(usize) -> usize) -> Self {
        let mut place = vec![0; turns.len()];
        turns.iter().enumerate().for_each(|(at, turn)| place[turn.node] = at);
        let mut owner = Vec::new();
        let mut panels: Vec<Panel> = Vec::with_capacity(turns.len());
        for (at, turn) in turns.iter().enumerate() {
            let (first, width) = (owner.len(), widths(turn.node));
            owner.extend(core::iter::repeat_n(at, width));
            panels.push(Panel { start: 0, first, width, below: Vec::new(), changes: Vec::new() });
        }
        let mut stored = 0;
        for (at, turn) in turns.iter().enumerate() {
            let mut later: Vec<usize> = turn.meets.iter().map(|&node| place[node]).collect();
            later.sort_unstable();
            let mut row = panels[at].width;
            for panel in later {
                let Panel { first, width: rows, .. } = panels[panel];
                panels[at].below.push(Block { panel, first, rows, at: row });
                row += rows;
            }
            panels[at].start = stored;
            stored += row * panels[at].width;
        }
        for at in 0..panels.len() {
            panels[at].changes = changes(&panels, at);
        }
        Self { panels, owner, stored }
    }

    pub(crate) fn order(&self) -> usize {
        self.owner.len()
    }

    pub(crate) fn stored(&self) -> usize {
        self.stored
    }

    /// Where the block of two nodes begins, by a row of the later and a column of the earlier (the same for a node's own block, of
    /// which only the lower half counts), and how long its lines are; none where the nodes never meet.
    pub(crate) fn block(&self, row: usize, column: usize) -> Option<(usize, usize)> {
        let panel = &self.panels[self.owner[column]];
        let later = self.owner[row];
        let start = if later == self.owner[column] { panel.start } else { panel.place_of(later)? };
        Some((start, panel.width))
    }

    fn diagonal(&self, values: &[f64]) -> Vec<f64> {
        let of = |panel: &Panel| {
            let (start, width) = (panel.start, panel.width);
            (0..width).map(move |row| values[start + row * width + row])
        };
        self.panels.iter().flat_map(of).collect()
    }

    /// Factorises in place. The error is the row whose pivot is not above zero.
    #[inline(never)]
    pub(crate) fn factorise(&self, mut values: Vec<f64>) -> Result<Factors<'_>, usize> {
        let mut inverse = Vec::with_capacity(self.order());
        let mut doubtful = Vec::new();
        let whole = self.diagonal(&values);
        let mut plain = Vec::new();
        for panel in &self.panels {
            let (done, later) = values.split_at_mut(panel.start + panel.rows() * panel.width);
            let own = &mut done[panel.start..];
            plain.clear();
            let pivots = eliminate(panel, own, &mut plain).map_err(|column| panel.first + column)?;
            for (column, pivot) in pivots.into_iter().take(panel.width).enumerate() {
                inverse.push(1.0 / pivot);
                if pivot < DOUBT * whole[panel.first + column] {
                    doubtful.push(panel.first + column);
                }
            }
            self.change(panel, own, &plain, later);
        }
        Ok(Factors { blocks: self, values, inverse, doubtful })
    }

    /// Takes from the later panels what this one makes of them.
    fn change(&self, panel: &Panel, own: &[f64], plain: &[f64], later: &mut [f64]) {
        let before = panel.start + own.len();
        let mut change = panel.changes.iter();
        for (j, column) in panel.below.iter().enumerate() {
            let by = &own[column.at * panel.width..];
            let six = six_by_six(by).filter(|_| [column.rows, panel.width] == [MOST; 2]);
            for row in &panel.below[j..] {
                let Some(&start) = change.next() else { return };
                let target = &mut later[start - before..][..row.rows * column.rows];
                let from = &plain[(row.at - panel.width) * panel.width..];
                match &six {
                    Some(by) => take_six(target, from, by),
                    None => take(target, from, by, [column.rows, panel.width]),
                }
            }
        }
    }
}

/// Where the blocks are stored that a panel changes.
fn changes(panels: &[Panel], at: usize) -> Vec<usize> {
    let below = &panels[at].below;
    let mut changes = Vec::with_capacity(below.len() * (below.len() + 1) / 2);
    for (j, column) in below.iter().enumerate() {
        let panel = &panels[column.panel];
        changes.push(panel.start);
        changes.extend(below[j + 1..].iter().filter_map(|row| panel.place_of(row.panel)));
    }
    changes
}

/// Turns a panel into its columns of L and gives the pivots, or the column whose pivot is not above zero. `plain` takes the rows
/// below before they are divided by the pivots.
fn eliminate(panel: &Panel, own: &mut [f64], plain: &mut Vec<f64>) -> Result<[f64; MOST], usize> {
    let width = panel.width;
    let (own, below) = own.split_at_mut(width * width);
    let (mut pivots, mut inverse) = ([1.0; MOST], [1.0; MOST]);
    for row in 0..width {
        let (above, rest) = own.split_at_mut(row * width);
        let line = &mut rest[..width];
        reduce(&mut line[..row], above, width);
        for column in 0..row {
            let reduced = line[column];
            line[column] *= inverse[column];
            line[row] -= reduced * line[column];
        }
        if line[row].is_nan() || line[row] <= 0.0 {
            return Err(row);
        }
        (pivots[row], inverse[row]) = (line[row], 1.0 / line[row]);
    }
    if width == MOST {
        let own: &[[f64; MOST]] = own.as_chunks().0;
        below.as_chunks_mut().0.iter_mut().for_each(|line| reduce_six(line, own));
    } else {
        below.chunks_exact_mut(width.max(1)).for_each(|line| reduce(line, own, width));
    }
    plain.extend_from_slice(below);
    for line in below.chunks_exact_mut(width.max(1)) {
        line.iter_mut().zip(inverse).for_each(|(entry, inverse)| *entry *= inverse);
    }
    Ok(pivots)
}

/// Takes from each entry of a line what the columns before it make of it, L's first lines being known.
fn reduce(line: &mut [f64], known: &[f64], width: usize) {
    for column in 0..line.len() {
        let other = &known[column * width..][..column];
        let taken: f64 = line[..column].iter().zip(other).map(|(a, b)| a * b).sum();
        line[column] -= taken;
    }
}

/// The same for six columns, written so that a compiler lays it out without a loop.
#[inline(always)]
fn reduce_six(line: &mut [f64; MOST], known: &[[f64; MOST]]) {
    let Some(known) = known.first_chunk::<MOST>() else { return };
    for column in 1..MOST {
        let mut taken = 0.0;
        for k in 0..column {
            taken += line[k] * known[column][k];
        }
        line[column] -= taken;
    }
}

/// Takes from each entry of a block the scalar product of a row of `from` and one of `by`; sizes are the columns of the block
/// and the length of the products.
fn take(target: &mut [f64], from: &[f64], by: &[f64], [columns, length]: [usize; 2]) {
    for (line, from) in target.chunks_exact_mut(columns.max(1)).zip(from.chunks_exact(length.max(1))) {
        for (entry, by) in line.iter_mut().zip(by.chunks_exact(length.max(1))) {
            *entry -= from.iter().zip(by).map(|(a, b)| a * b).sum::<f64>();
        }
    }
}

/// The same for lines of six and six products, with `by` turned over, so that the entries of a line are worked out side by side.
#[inline(always)]
fn take_six(target: &mut [f64], from: &[f64], by: &[[f64; MOST]; MOST]) {
    for (line, from) in target.as_chunks_mut::<MOST>().0.iter_mut().zip(from.as_chunks::<MOST>().0) {
        let mut left = *line;
        for (by, from) in by.iter().zip(from) {
            left.iter_mut().zip(by).for_each(|(left, by)| *left -= from * by);
        }
        *line = left;
    }
}

/// The first six lines of six, turned over.
#[inline(always)]
fn six_by_six(lines: &[f64]) -> Option<[[f64; MOST]; MOST]> {
    let lines = lines.as_chunks::<MOST>().0.first_chunk::<MOST>()?;
    Some(core::array::from_fn(|k| lines.map(|line| line[k])))
}

/// L and D: the panels without the ones on L's diagonal, and one over each pivot.
#[derive(Clone, Debug)]
pub(crate) struct Factors<'a> {
    blocks: &'a Blocks,
    values: Vec<f64>,
    inverse: Vec<f64>,
    /// Rows whose pivots may be no more than rounding.
    doubtful: Vec<usize>,
}

impl Factors<'_> {
    /// The doubtful rows, each with its pivot.
    pub(crate) fn doubtful(&self) -> impl Iterator<Item = (usize, f64)> {
        self.doubtful.iter().map(|&row| (row, 1.0 / self.inverse[row]))
    }

    /// The movement x in which `row` moves by one and those before it follow without force, those after it not at all.
    /// But for rounding x · K x is the row's pivot.
    pub(crate) fn mode(&self, row: usize) -> Vec<f64> {
        let mut side = vec![[0.0]; self.blocks.order()];
        side[row] = [1.0];
        self.substitute_back(&mut side);
        side.into_flattened()
    }

    /// Turns right-hand sides, side by side in each row, into their solutions.
    #[inline(never)]
    pub(crate) fn solve<const N: usize>(&self, sides: &mut [[f64; N]]) {
        for panel in &self.blocks.panels {
            self.substitute(panel, sides);
        }
        for (values, inverse) in sides.iter_mut().zip(&self.inverse) {
            values.iter_mut().for_each(|value| *value *= inverse);
        }
        self.substitute_back(sides);
    }

    fn lines(&self, panel: &Panel) -> core::slice::ChunksExact<'_, f64> {
        self.values[panel.start..][..panel.rows() * panel.width].chunks_exact(panel.width.max(1))
    }

    fn substitute<const N: usize>(&self, panel: &Panel, sides: &mut [[f64; N]]) {
        let mut lines = self.lines(panel);
        let mut known = [[0.0; N]; MOST];
        for (row, line) in lines.by_ref().take(panel.width).enumerate() {
            let values = &mut sides[panel.first + row];
            take_times(values, &line[..row], &known);
            known[row] = *values;
        }
        // A load is felt by the nodes alone that come after its own and are coupled to it.
        if known.as_flattened().iter().all(|&value| value == 0.0) {
            return;
        }
        for block in &panel.below {
            for (values, line) in sides[block.first..][..block.rows].iter_mut().zip(lines.by_ref()) {
                match line.first_chunk::<MOST>() {
                    Some(line) => take_times(values, line, &known),
                    None => take_times(values, line, &known),
                }
            }
        }
    }

    fn substitute_back<const N: usize>(&self, sides: &mut [[f64; N]]) {
        for panel in self.blocks.panels.iter().rev() {
            let mut left = [[0.0; N]; MOST];
            let own = panel.first..panel.first + panel.width;
            left.iter_mut().zip(&sides[own.clone()]).for_each(|(left, values)| *left = *values);
            for block in &panel.below {
                let values = &sides[block.first..][..block.rows];
                let lines = &self.values[panel.start + block.at * panel.width..][..block.rows * panel.width];
                match (lines.as_chunks::<MOST>().0.first_chunk(), values.first_chunk()) {
                    (Some(lines), Some(values)) if panel.width == MOST => give_six(&mut left, lines, values),
                    _ => {
                        let lines = lines.chunks_exact(panel.width.max(1));
                        lines.zip(values).for_each(|(line, values)| give_times(&mut left, line, values));
                    }
                }
            }
            for (row, line) in self.lines(panel).take(panel.width).enumerate().rev() {
                let known = left[row];
                give_times(&mut left, &line[..row], &known);
            }
            sides[own].copy_from_slice(&left[..panel.width]);
        }
    }
}

/// Takes from the values of one row those of others, each times its entry in a line.
#[inline(always)]
#[allow(clippy::needless_range_loop, reason = "the plain count is laid out without a loop")]
fn take_times<const N: usize>(values: &mut [f64; N], line: &[f64], known: &[[f64; N]; MOST]) {
    // A copy, so that the sums stay in registers.
    let mut sums = *values;
    for (l, known) in line.iter().zip(known) {
        for k in 0..N {
            sums[k] -= l * known[k];
        }
    }
    *values = sums;
}

/// Takes from several rows the values of one, each time by the row's entry in a line.
#[inline(always)]
#[allow(clippy::needless_range_loop, reason = "the plain count is laid out without a loop")]
fn give_times<const N: usize>(left: &mut [[f64; N]; MOST], line: &[f64], values: &[f64; N]) {
    let values = *values;
    for (left, l) in left.iter_mut().zip(line) {
        for k in 0..N {
            left[k] -= l * values[k];
        }
    }
}

/// The same for six rows of values, row by row of those they are taken from, so that its sums stay in registers.
#[inline(always)]
#[allow(clippy::needless_range_loop, reason = "the plain count is laid out without a loop")]
fn give_six<const N: usize>(
    left: &mut [[f64; N]; MOST],
    lines: &[[f64; MOST]; MOST],
    values: &[[f64; N]; MOST],
) {
    for (row, left) in left.iter_mut().enumerate() {
        let mut sums = *left;
        for (line, values) in lines.iter().zip(values) {
            for k in 0..N {
                sums[k] -= line[row] * values[k];
            }
        }
        *left = sums;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::order::turns;

    /// A ring of five nodes with one across, of one to six rows each; entries of the matrix by rows.
    fn ring() -> (Blocks, Vec<Vec<f64>>) {
        let widths = [6, 1, 6, 3, 6];
        let turns = turns(5, &[[0, 1], [1, 2], [2, 3], [3, 4], [4, 0], [0, 2]]);
        let blocks = Blocks::new(&turns, |node| widths[node]);
        let order = blocks.order();
        let entry = |row: usize, column: usize| {
            let (r, c) = (row.min(column), row.max(column));
            if r == c { 30.0 + r as f64 } else { ((3 * r + 5 * c) % 7) as f64 / 3.0 - 1.0 }
        };
        // Only nodes with a member between them, or a node to themselves, have entries.
        let nodes: Vec<usize> =
            turns.iter().flat_map(|t| core::iter::repeat_n(t.node, widths[t.node])).collect();
        let apart = |a: usize, b: usize| matches!((a.min(b), a.max(b)), (0, 3) | (1, 3) | (1, 4) | (2, 4));
        let rows = (0..order)
            .map(|r| (0..order).map(|c| if apart(nodes[r], nodes[c]) { 0.0 } else { entry(r, c) }).collect());
        (blocks, rows.collect())
    }

    fn stored(blocks: &Blocks, rows: &[Vec<f64>]) -> Vec<f64> {
        let mut values = vec![0.0; blocks.stored()];
        let inner = |row: usize| row - blocks.panels[blocks.owner[row]].first;
        for (r, line) in rows.iter().enumerate() {
            for (c, &value) in line.iter().enumerate().take(r + 1) {
                match blocks.block(r, c) {
                    Some((start, width)) => values[start + inner(r) * width + inner(c)] = value,
                    None => assert_eq!(value, 0.0, "no room for row {r}, column {c}"),
                }
            }
        }
        values
    }

    #[test]
    fn solution_satisfies_the_equations() {
        let (blocks, rows) = ring();
        let factors = blocks.factorise(stored(&blocks, &rows)).expect("positive");
        let side: Vec<f64> = (0..blocks.order()).map(|k| k as f64 - 3.5).collect();
        let mut x: Vec<[f64; 2]> = side.iter().map(|&value| [value, -2.0 * value]).collect();
        factors.solve(&mut x);
        for (line, wanted) in rows.iter().zip(side) {
            for (k, wanted) in [wanted, -2.0 * wanted].into_iter().enumerate() {
                let sum: f64 = line.iter().zip(&x).map(|(a, x)| a * x[k]).sum();
                assert!((sum - wanted).abs() < 1e-12, "{sum} is not {wanted}");
            }
        }
    }

    /// In the mode of a row it moves by one, later rows rest, and earlier ones feel no force.
    #[test]
    fn modes_follow_without_force() {
        let (blocks, rows) = ring();
        let factors = blocks.factorise(stored(&blocks, &rows)).expect("positive");
        for row in 0..blocks.order() {
            let mode = factors.mode(row);
            assert_eq!(mode[row], 1.0);
            assert!(mode[row + 1..].iter().all(|&value| value == 0.0));
            let force = |line: &Vec<f64>| -> f64 { line.iter().zip(&mode).map(|(a, x)| a * x).sum() };
            assert!(rows[..row].iter().all(|line| force(line).abs() < 1e-12), "row {row}");
            assert!((force(&rows[row]) * factors.inverse[row] - 1.0).abs() < 1e-12, "pivot of row {row}");
        }
    }

    /// Three masses in a row joined by springs, held nowhere: the last pivot is zero.
    #[test]
    fn the_row_that_nothing_holds_is_named() {
        let blocks = Blocks::new(&turns(3, &[[0, 1], [1, 2]]), |_| 1);
        let chain =
            |hold: f64| vec![vec![2e6 + hold, -2e6, 0.0], vec![-2e6, 2e6 + 3.0, -3.0], vec![0.0, -3.0, 3.0]];
        assert_eq!(blocks.factorise(stored(&blocks, &chain(0.0))).err(), Some(2));
        assert!(blocks.factorise(stored(&blocks, &chain(1.0))).is_ok());
        // Held by next to nothing it moves as a whole, and its pivot is doubtful.
        let factors = blocks.factorise(stored(&blocks, &chain(1e-9))).expect("positive");
        let doubtful: Vec<usize> = factors.doubtful().map(|(row, _)| row).collect();
        assert_eq!(doubtful, [2]);
        assert!(factors.mode(2).iter().all(|value| (value - 1.0).abs() < 1e-8));
        assert_eq!(blocks.factorise(vec![0.0; blocks.stored()]).err(), Some(0));
    }
}
