//! A small linear program in revised simplex form, made for column generation.
//!
//! Minimise c·x with A x = b and 0 ≤ x ≤ u. It starts from columns that are unit vectors, so no first
//! phase is needed; columns can be added at any time and the next run goes on from where the last ended.
//! The inverse of the basis is kept dense: our programs have tens of rows. Only + − × ÷ are used, so all
//! machines give the same bits.

/// One column of the program.
#[derive(Clone, Debug)]
pub(crate) struct Column {
    pub(crate) cost: f64,
    /// Largest value; infinite for none.
    pub(crate) upper: f64,
    /// Row and coefficient of each entry that is not zero.
    pub(crate) entries: Vec<(usize, f64)>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Status {
    Basic,
    AtZero,
    AtUpper,
}

/// Smallest pivot taken: a smaller one would blow up rounding errors.
const PIVOT: f64 = 1e-8;
/// Reduced costs nearer to zero than this, as a share of the largest cost, count as zero.
const OPTIMAL: f64 = 1e-10;
/// Steps without gain after which the rule of Bland is used, which cannot run in a circle.
const PATIENCE: usize = 60;
/// Pivots after which the inverse is worked out anew.
const FRESH: usize = 80;
/// A value this far below zero is taken for rounding.
const SLACK: f64 = 1e-9;

#[derive(Clone, Debug)]
pub(crate) struct Simplex {
    rows: usize,
    rhs: Vec<f64>,
    columns: Vec<Column>,
    status: Vec<Status>,
    basis: Vec<usize>,
    inverse: Vec<f64>,
    values: Vec<f64>,
    pivots: usize,
    largest_cost: f64,
    /// Multiplications done since it was last asked.
    work: u64,
}

impl Simplex {
    /// A program whose first columns, one for each row in order, are unit vectors and form the basis.
    pub(crate) fn new(rhs: Vec<f64>, units: Vec<Column>) -> Self {
        let rows = rhs.len();
        let mut program = Self {
            rows,
            values: rhs.clone(),
            rhs,
            columns: Vec::new(),
            status: Vec::new(),
            basis: (0..rows).collect(),
            inverse: identity(rows),
            pivots: 0,
            largest_cost: 1.0,
            work: 0,
        };
        for unit in units {
            program.add(unit);
        }
        program.status.iter_mut().for_each(|s| *s = Status::Basic);
        program
    }

    /// Adds a column at zero and returns its number.
    pub(crate) fn add(&mut self, column: Column) -> usize {
        self.largest_cost = self.largest_cost.max(column.cost.abs());
        self.columns.push(column);
        self.status.push(Status::AtZero);
        self.columns.len() - 1
    }

    /// Limits a column that stands at zero.
    pub(crate) fn limit(&mut self, column: usize, upper: f64) {
        self.columns[column].upper = upper;
    }

    /// Puts a column that is not basic at its upper limit.
    pub(crate) fn at_upper(&mut self, column: usize) {
        self.status[column] = Status::AtUpper;
        self.refresh_values();
    }

    /// Runs to the optimum; false if it gave up after `most` pivots.
    pub(crate) fn run(&mut self, most: usize) -> bool {
        let mut idle = 0;
        for _ in 0..most {
            let duals = self.duals();
            let Some(entering) = self.entering(&duals, idle > PATIENCE) else {
                return true;
            };
            let step = self.step(entering, idle > PATIENCE);
            idle = if step > 1e-11 { 0 } else { idle + 1 };
        }
        false
    }

    /// The price of one more unit of each row.
    pub(crate) fn duals(&mut self) -> Vec<f64> {
        let mut duals = vec![0.0; self.rows];
        for (i, &column) in self.basis.iter().enumerate() {
            let cost = self.columns[column].cost;
            if cost != 0.0 {
                let row = &self.inverse[i * self.rows..(i + 1) * self.rows];
                duals.iter_mut().zip(row).for_each(|(d, v)| *d += cost * v);
            }
        }
        self.work += (self.rows * self.rows) as u64;
        duals
    }

    /// The value of every column.
    pub(crate) fn solution(&self) -> Vec<f64> {
        let mut x: Vec<f64> = self.columns.iter().zip(&self.status).map(|(c, s)| at_bound(c, *s)).collect();
        for (&column, &value) in self.basis.iter().zip(&self.values) {
            x[column] = value.max(0.0);
        }
        x
    }

    /// The cost of the solution.
    pub(crate) fn cost(&self) -> f64 {
        self.solution().iter().zip(&self.columns).map(|(x, c)| x * c.cost).sum()
    }

    /// Multiplications done since the last call.
    pub(crate) fn take_work(&mut self) -> u64 {
        std::mem::take(&mut self.work)
    }

    /// The column that gains most (the first that gains at all, with `bland`).
    fn entering(&mut self, duals: &[f64], bland: bool) -> Option<usize> {
        let least = OPTIMAL * self.largest_cost;
        let mut best: Option<(f64, usize)> = None;
        for (j, column) in self.columns.iter().enumerate() {
            let gain = match self.status[j] {
                Status::Basic => continue,
                Status::AtZero => -reduced(column, duals),
                Status::AtUpper => reduced(column, duals),
            };
            if gain > best.map_or(least, |b| b.0) && column.upper > 0.0 {
                best = Some((gain, j));
                if bland {
                    break;
                }
            }
        }
        self.work += self.columns.len() as u64 * 4;
        best.map(|b| b.1)
    }

    /// Moves the entering column as far as it can go; returns how far.
    fn step(&mut self, entering: usize, bland: bool) -> f64 {
        let direction = self.direction(entering);
        let sign = if self.status[entering] == Status::AtUpper { -1.0 } else { 1.0 };
        let own = self.columns[entering].upper;
        let (leaving, length) = self.ratio(&direction, sign, own, bland);
        match leaving {
            None => {
                let was_up = self.status[entering] == Status::AtUpper;
                self.status[entering] = if was_up { Status::AtZero } else { Status::AtUpper };
                self.shift(&direction, sign * length);
            }
            Some((row, up)) => self.pivot(entering, row, up, &direction, sign, length),
        }
        length
    }

    /// How the basic values fall when the column grows.
    fn direction(&mut self, column: usize) -> Vec<f64> {
        let n = self.rows;
        let entries = &self.columns[column].entries;
        self.work += (n * entries.len()) as u64;
        (0..n).map(|i| entries.iter().map(|&(r, v)| self.inverse[i * n + r] * v).sum()).collect()
    }

    /// The row that stops the step and whether its column leaves at its upper limit; no row if the
    /// column's own limit stops it.
    fn ratio(&self, direction: &[f64], sign: f64, own: f64, bland: bool) -> (Option<(usize, bool)>, f64) {
        let (mut leaving, mut length, mut size) = (None, own, 0.0);
        for (i, d) in direction.iter().enumerate() {
            let fall = d * sign;
            let (room, up) = if fall > PIVOT {
                (self.values[i].max(0.0), false)
            } else if fall < -PIVOT && self.columns[self.basis[i]].upper.is_finite() {
                ((self.columns[self.basis[i]].upper - self.values[i]).max(0.0), true)
            } else {
                continue;
            };
            let reach = room / fall.abs();
            let tie = (reach - length).abs() <= 1e-12;
            let better = if bland {
                leaving.is_some_and(|(l, _)| self.basis[i] < self.basis[l])
            } else {
                fall.abs() > size
            };
            if (reach < length && !tie) || (tie && (better || leaving.is_none())) {
                (leaving, length, size) = (Some((i, up)), reach.min(length), fall.abs());
            }
        }
        (leaving, length)
    }

    fn shift(&mut self, direction: &[f64], by: f64) {
        if by.is_finite() {
            self.values.iter_mut().zip(direction).for_each(|(v, d)| *v -= d * by);
        }
    }

    fn pivot(&mut self, entering: usize, row: usize, up: bool, direction: &[f64], sign: f64, length: f64) {
        let start = at_bound(&self.columns[entering], self.status[entering]);
        self.shift(direction, sign * length);
        self.status[self.basis[row]] = if up { Status::AtUpper } else { Status::AtZero };
        self.status[entering] = Status::Basic;
        self.basis[row] = entering;
        self.values[row] = start + sign * length;
        self.eliminate(row, direction);
        self.pivots += 1;
        if self.pivots.is_multiple_of(FRESH) {
            self.invert();
        }
    }

    fn eliminate(&mut self, row: usize, direction: &[f64]) {
        let n = self.rows;
        let scale = 1.0 / direction[row];
        let pivot_row: Vec<f64> = self.inverse[row * n..(row + 1) * n].iter().map(|v| v * scale).collect();
        for (i, &d) in direction.iter().enumerate() {
            let line = &mut self.inverse[i * n..(i + 1) * n];
            if i == row {
                line.copy_from_slice(&pivot_row);
            } else if d != 0.0 {
                line.iter_mut().zip(&pivot_row).for_each(|(v, p)| *v -= d * p);
            }
        }
        self.work += (n * n) as u64;
    }

    /// Works out the inverse of the basis from its columns, by Gauss and Jordan with the largest pivots.
    fn invert(&mut self) {
        let n = self.rows;
        let mut matrix = vec![0.0; n * n];
        for (j, &column) in self.basis.iter().enumerate() {
            for &(r, v) in &self.columns[column].entries {
                matrix[r * n + j] = v;
            }
        }
        let mut inverse = identity(n);
        for j in 0..n {
            let pivot =
                (j..n).fold(j, |b, i| if matrix[i * n + j].abs() > matrix[b * n + j].abs() { i } else { b });
            if matrix[pivot * n + j].abs() < 1e-12 {
                return;
            }
            swap_rows(&mut matrix, n, j, pivot);
            swap_rows(&mut inverse, n, j, pivot);
            clear_column(&mut matrix, &mut inverse, n, j);
        }
        self.inverse = inverse;
        self.work += (n * n * n) as u64;
        self.refresh_values();
    }

    fn refresh_values(&mut self) {
        let n = self.rows;
        let mut rest = self.rhs.clone();
        for (column, status) in self.columns.iter().zip(&self.status) {
            if *status == Status::AtUpper {
                column.entries.iter().for_each(|&(r, v)| rest[r] -= v * column.upper);
            }
        }
        for i in 0..n {
            let value: f64 = self.inverse[i * n..(i + 1) * n].iter().zip(&rest).map(|(a, b)| a * b).sum();
            self.values[i] = if value < 0.0 && value > -SLACK { 0.0 } else { value };
        }
    }
}

fn reduced(column: &Column, duals: &[f64]) -> f64 {
    column.entries.iter().fold(column.cost, |sum, &(r, v)| sum - duals[r] * v)
}

fn at_bound(column: &Column, status: Status) -> f64 {
    if status == Status::AtUpper { column.upper } else { 0.0 }
}

fn identity(n: usize) -> Vec<f64> {
    let mut matrix = vec![0.0; n * n];
    (0..n).for_each(|i| matrix[i * n + i] = 1.0);
    matrix
}

fn swap_rows(matrix: &mut [f64], n: usize, a: usize, b: usize) {
    if a != b {
        (0..n).for_each(|j| matrix.swap(a * n + j, b * n + j));
    }
}

fn clear_column(matrix: &mut [f64], inverse: &mut [f64], n: usize, j: usize) {
    let scale = 1.0 / matrix[j * n + j];
    for half in [&mut *matrix, &mut *inverse] {
        half[j * n..(j + 1) * n].iter_mut().for_each(|v| *v *= scale);
    }
    for i in (0..n).filter(|i| *i != j) {
        let factor = matrix[i * n + j];
        if factor != 0.0 {
            for half in [&mut *matrix, &mut *inverse] {
                for k in 0..n {
                    half[i * n + k] -= factor * half[j * n + k];
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn column(cost: f64, upper: f64, entries: &[(usize, f64)]) -> Column {
        Column { cost, upper, entries: entries.to_vec() }
    }

    fn slacks(n: usize) -> Vec<Column> {
        (0..n).map(|i| column(0.0, f64::INFINITY, &[(i, 1.0)])).collect()
    }

    /// max 3x + 5y with x ≤ 4, 2y ≤ 12, 3x + 2y ≤ 18 is 36 at (2, 6): the textbook of Hillier and Lieberman.
    #[test]
    fn a_textbook_example() {
        let mut lp = Simplex::new(vec![4.0, 12.0, 18.0], slacks(3));
        let x = lp.add(column(-3.0, f64::INFINITY, &[(0, 1.0), (2, 3.0)]));
        let y = lp.add(column(-5.0, f64::INFINITY, &[(1, 2.0), (2, 2.0)]));
        assert!(lp.run(100));
        assert!((lp.cost() + 36.0).abs() < 1e-9, "{}", lp.cost());
        assert!((lp.solution()[x] - 2.0).abs() < 1e-9 && (lp.solution()[y] - 6.0).abs() < 1e-9);
        let duals = lp.duals();
        assert!((duals[0] * 4.0 + duals[1] * 12.0 + duals[2] * 18.0 + 36.0).abs() < 1e-9);
    }

    /// The same with limits on the columns instead of the first two rows.
    #[test]
    fn limits_of_columns() {
        let mut lp = Simplex::new(vec![18.0], slacks(1));
        lp.add(column(-3.0, 4.0, &[(0, 3.0)]));
        lp.add(column(-5.0, 6.0, &[(0, 2.0)]));
        assert!(lp.run(100));
        assert!((lp.cost() + 36.0).abs() < 1e-9, "{}", lp.cost());
    }

    /// Columns that come later are taken up.
    #[test]
    fn goes_on_after_a_new_column() {
        let mut lp = Simplex::new(vec![5.0], vec![column(10.0, f64::INFINITY, &[(0, 1.0)])]);
        assert!(lp.run(10) && (lp.cost() - 50.0).abs() < 1e-9);
        lp.add(column(4.0, 1.0, &[(0, 2.0)]));
        lp.add(column(6.0, f64::INFINITY, &[(0, 1.0)]));
        assert!(lp.run(10) && (lp.cost() - 22.0).abs() < 1e-9, "{}", lp.cost());
    }
}
