//! A symmetric matrix stored column by column from its first entry to the diagonal, and its factors L D Lᵀ.
//!
//! The active-column method, K.-J. Bathe, *Finite Element Procedures*, 1996, §8.2.3: entries above a column's first
//! stay zero while it is factorised, so only what lies below the "skyline" is stored.

/// A pivot below this share of its column's original diagonal may be no more than rounding, and is looked at. Sound chairs
/// stay above it, and where nothing holds a node the random frames of the tests leave up to 1e-9.
const DOUBT: f64 = 1e-6;

/// The shape of the matrix: where each column begins.
#[derive(Clone, Debug)]
pub(crate) struct Skyline {
    /// Row of a column's first entry.
    first: Vec<usize>,
    /// Where a column's first entry is stored; one more for the end.
    start: Vec<usize>,
}

impl Skyline {
    /// Of the first row of each column; none is below its diagonal.
    pub(crate) fn new(first: Vec<usize>) -> Self {
        let mut start = Vec::with_capacity(first.len() + 1);
        let mut at = 0;
        start.push(at);
        for (column, row) in first.iter().enumerate() {
            at += column + 1 - row;
            start.push(at);
        }
        Self { first, start }
    }

    pub(crate) fn order(&self) -> usize {
        self.first.len()
    }

    pub(crate) fn stored(&self) -> usize {
        self.start[self.order()]
    }

    /// Where the entry in `row` of `column` is stored; the row is not above the column's first nor below its diagonal.
    pub(crate) fn at(&self, row: usize, column: usize) -> usize {
        self.start[column] + row - self.first[column]
    }

    fn column<'a>(&self, values: &'a [f64], column: usize) -> &'a [f64] {
        &values[self.start[column]..self.start[column + 1]]
    }

    /// Factorises in place. The error is the row whose pivot is not above zero.
    #[inline(never)]
    pub(crate) fn factorise(&self, mut values: Vec<f64>) -> Result<Factors<'_>, usize> {
        let mut inverse = Vec::with_capacity(self.order());
        let mut doubtful = Vec::new();
        for column in 0..self.order() {
            let (done, rest) = values.split_at_mut(self.start[column]);
            let active = &mut rest[..self.start[column + 1] - self.start[column]];
            self.reduce(done, active, column);
            let (pivot, whole) = divide(active, &inverse[self.first[column]..]).ok_or(column)?;
            inverse.push(1.0 / pivot);
            if pivot < DOUBT * whole {
                doubtful.push(column);
            }
        }
        Ok(Factors { skyline: self, values, inverse, doubtful })
    }

    /// Takes from each entry of the active column what the columns before it make of the entries above.
    fn reduce(&self, done: &[f64], active: &mut [f64], column: usize) {
        let first = self.first[column];
        for row in first + 1..column {
            let top = first.max(self.first[row]);
            let other = &done[self.at(top, row)..self.at(row, row)];
            let taken = dot(other, &active[top - first..row - first]);
            active[row - first] -= taken;
        }
    }
}

/// Divides the reduced column by the pivots above and gives its own pivot and what it was before; none where it is
/// not above zero.
fn divide(active: &mut [f64], inverse: &[f64]) -> Option<(f64, f64)> {
    let (diagonal, above) = active.split_last_mut()?;
    let whole = *diagonal;
    let mut pivot = whole;
    for (entry, inverse) in above.iter_mut().zip(inverse) {
        let reduced = *entry;
        *entry *= inverse;
        pivot -= reduced * *entry;
    }
    *diagonal = pivot;
    (pivot > 0.0).then_some((pivot, whole))
}

/// Scalar product in four sums side by side: the same on every machine, and fast on those that add four at once.
fn dot(a: &[f64], b: &[f64]) -> f64 {
    let (fours_a, rest_a) = a.as_chunks::<4>();
    let (fours_b, rest_b) = b.as_chunks::<4>();
    let mut sums = [0.0; 4];
    for (x, y) in fours_a.iter().zip(fours_b) {
        for (sum, (x, y)) in sums.iter_mut().zip(x.iter().zip(y)) {
            *sum += x * y;
        }
    }
    let rest: f64 = rest_a.iter().zip(rest_b).map(|(x, y)| x * y).sum();
    (sums[0] + sums[2]) + (sums[1] + sums[3]) + rest
}

/// L and D: the columns of Lᵀ without their ones, and one over each pivot.
#[derive(Clone, Debug)]
pub(crate) struct Factors<'a> {
    skyline: &'a Skyline,
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
        let mut side = vec![0.0; self.skyline.order()];
        side[row] = 1.0;
        self.substitute_back(&mut side[..=row]);
        side
    }

    /// Turns the right-hand side into the solution.
    #[inline(never)]
    pub(crate) fn solve(&self, side: &mut [f64]) {
        let Self { skyline, values, inverse, .. } = self;
        for column in 0..side.len() {
            let (first, entries) = (skyline.first[column], skyline.column(values, column));
            let taken = dot(&entries[..column - first], &side[first..column]);
            side[column] -= taken;
        }
        side.iter_mut().zip(inverse).for_each(|(value, inverse)| *value *= inverse);
        self.substitute_back(side);
    }

    fn substitute_back(&self, side: &mut [f64]) {
        for column in (0..side.len()).rev() {
            let first = self.skyline.first[column];
            let entries = self.skyline.column(&self.values, column);
            let known = side[column];
            let above = &mut side[first..column];
            above.iter_mut().zip(entries).for_each(|(value, entry)| *value -= entry * known);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A matrix as rows of its upper half, stored.
    fn stored(skyline: &Skyline, entry: impl Fn(usize, usize) -> f64) -> Vec<f64> {
        let mut values = vec![0.0; skyline.stored()];
        for column in 0..skyline.order() {
            for row in skyline.first[column]..=column {
                values[skyline.at(row, column)] = entry(row, column);
            }
        }
        values
    }

    /// A matrix of order 9 with an uneven skyline, positive because its diagonal outweighs the rest.
    #[test]
    fn solution_satisfies_the_equations() {
        let skyline = Skyline::new(vec![0, 0, 1, 0, 3, 2, 6, 1, 0]);
        let inside = |row: usize, column: usize| row >= skyline.first[column];
        let entry = |row: usize, column: usize| match (row, column) {
            (r, c) if r == c => 10.0 + r as f64,
            (r, c) if inside(r, c) => ((3 * r + 5 * c) % 7) as f64 / 3.0 - 1.0,
            _ => 0.0,
        };
        let factors = skyline.factorise(stored(&skyline, entry)).expect("positive");
        let side: Vec<f64> = (0..9).map(|k| f64::from(k) - 3.5).collect();
        let mut x = side.clone();
        factors.solve(&mut x);
        for (row, wanted) in side.iter().enumerate() {
            let sum: f64 = x.iter().enumerate().map(|(k, x)| entry(row.min(k), row.max(k)) * x).sum();
            assert!((sum - wanted).abs() < 1e-13, "row {row}: {sum} is not {wanted}");
        }
    }

    /// Three masses in a row joined by springs, held nowhere: the last pivot is zero.
    #[test]
    fn the_row_that_nothing_holds_is_named() {
        let skyline = Skyline::new(vec![0, 0, 1]);
        let chain = |row: usize, column: usize| match (row, column) {
            (1, 1) => 2e6 + 3.0,
            (0, 0) => 2e6,
            (2, 2) => 3.0,
            (0, 1) => -2e6,
            _ => -3.0,
        };
        assert_eq!(skyline.factorise(stored(&skyline, chain)).err(), Some(2));
        let held = |row, column| chain(row, column) + if (row, column) == (0, 0) { 1.0 } else { 0.0 };
        assert!(skyline.factorise(stored(&skyline, held)).is_ok());
        // Held by next to nothing it moves as a whole, and its pivot is doubtful.
        let loose = |row, column| chain(row, column) + if (row, column) == (0, 0) { 1e-9 } else { 0.0 };
        let factors = skyline.factorise(stored(&skyline, loose)).expect("positive");
        let doubtful: Vec<usize> = factors.doubtful().map(|(row, _)| row).collect();
        assert_eq!(doubtful, [2]);
        assert!(factors.mode(2).iter().all(|value| (value - 1.0).abs() < 1e-8));
        assert_eq!(skyline.factorise(vec![0.0; 5]).err(), Some(0));
    }

    #[test]
    fn scalar_products_of_any_length() {
        for length in 0..11 {
            let a: Vec<f64> = (0..length).map(f64::from).collect();
            assert_eq!(dot(&a, &a), a.iter().map(|x| x * x).sum::<f64>());
        }
    }
}
