//! Every set of pieces that guillotine cuts can part on some board, for orders of few pieces.
//!
//! From the bottom up: the smallest rectangles that hold a set come from those of two parts of it, side by
//! side or one above the other (Wang, Operations Research 31, 1983, but keeping only rectangles that are
//! not larger both ways than another). With the list, the program over patterns is exact.

use super::layout::Placed;
use super::problem::Size;
use super::strips::Way;
use std::collections::BTreeMap;

/// One rectangle that holds a set.
#[derive(Clone, Copy, Debug)]
struct Hull {
    size: Size,
    made: Made,
}

#[derive(Clone, Copy, Debug)]
enum Made {
    Piece(usize),
    /// Two sets, each with one of its hulls, side by side along an axis.
    Joined(usize, [(usize, usize); 2]),
}

#[derive(Clone, Debug)]
struct Set {
    counts: Vec<u32>,
    code: u64,
    area: i64,
    hulls: Vec<Hull>,
}

/// All sets, and for each board those that fit it and to which nothing can be added.
#[derive(Clone, Debug)]
pub(super) struct Catalogue {
    sets: Vec<Set>,
    /// Set and hull, by board.
    full: Vec<Vec<(usize, usize)>>,
}

/// Work of a step.
const STEP: u64 = 4;

/// Steps after which an order counts as too large, and most sets.
const STEPS: u64 = 30_000_000;
const SETS: usize = 6_000;

struct Maker<'a> {
    limits: &'a [u32],
    rooms: &'a [Size],
    largest: i64,
    sets: Vec<Set>,
    steps: u64,
    /// Steps after which it is given up.
    most: u64,
}

impl Catalogue {
    /// The catalogue, unless the order is too large or takes more than `most` work, and the work it took.
    pub(super) fn new(ways: &[Way], limits: &[u32], rooms: &[Size], most: u64) -> (Option<Self>, u64) {
        let largest = rooms.iter().map(|r| r[0].max(0) * r[1].max(0)).max().unwrap_or(0);
        let most = STEPS.min(most / STEP);
        let mut maker = Maker { limits, rooms, largest, sets: Vec::new(), steps: 0, most };
        let whole = maker.weights().is_some_and(|weights| maker.make(ways, &weights));
        let work = maker.steps * STEP;
        (whole.then(|| maker.finished()), work)
    }

    /// Pieces of the full sets of a board.
    pub(super) fn full(&self, kind: usize) -> impl Iterator<Item = (&[u32], (usize, usize))> {
        self.full[kind].iter().map(|&(set, hull)| (self.sets[set].counts.as_slice(), (set, hull)))
    }

    /// Where the pieces of a set lie within one of its hulls.
    pub(super) fn layout(&self, ways: &[Way], (set, hull): (usize, usize)) -> Vec<Placed> {
        let mut placed = Vec::new();
        self.read(ways, (set, hull), [0, 0], &mut placed);
        placed
    }

    fn read(&self, ways: &[Way], (set, hull): (usize, usize), at: Size, placed: &mut Vec<Placed>) {
        match self.sets[set].hulls[hull].made {
            Made::Piece(way) => placed.push(Placed { row: ways[way].row, at, size: ways[way].size }),
            Made::Joined(axis, [first, second]) => {
                let mut next = at;
                next[axis] += self.sets[first.0].hulls[first.1].size[axis];
                self.read(ways, first, at, placed);
                self.read(ways, second, next, placed);
            }
        }
    }
}

impl Maker<'_> {
    /// Place values of a code for the counts; nothing if it would not fit.
    fn weights(&self) -> Option<Vec<u64>> {
        let mut next = 1_u64;
        let mut weights = Vec::new();
        for &limit in self.limits {
            weights.push(next);
            next = next.checked_mul(u64::from(limit) + 1)?;
        }
        Some(weights)
    }

    fn make(&mut self, ways: &[Way], weights: &[u64]) -> bool {
        self.singles(ways, weights);
        let mut by_count = vec![Vec::new(), (0..self.sets.len()).collect::<Vec<usize>>()];
        for count in 2.. {
            let Some(made) = self.joined(count, &by_count) else { return false };
            if made.is_empty() {
                return true;
            }
            let first = self.sets.len();
            self.sets.extend(made);
            by_count.push((first..self.sets.len()).collect());
        }
        true
    }

    fn singles(&mut self, ways: &[Way], weights: &[u64]) {
        for (row, &code) in weights.iter().enumerate() {
            let own = ways.iter().enumerate().filter(|(_, w)| w.row == row && self.fits(w.size));
            let hulls: Vec<Hull> = own.map(|(i, w)| Hull { size: w.size, made: Made::Piece(i) }).collect();
            let mut counts = vec![0; self.limits.len()];
            counts[row] = 1;
            if let Some(hull) = hulls.first() {
                self.sets.push(Set { counts, code, area: hull.size[0] * hull.size[1], hulls });
            }
        }
    }

    /// All sets of so many pieces; nothing if they become too many.
    fn joined(&mut self, count: usize, by_count: &[Vec<usize>]) -> Option<Vec<Set>> {
        let mut made: BTreeMap<u64, Set> = BTreeMap::new();
        for part in 1..=count / 2 {
            for &a in &by_count[part] {
                for &b in &by_count[count - part] {
                    self.steps += 1;
                    if self.steps > self.most || self.sets.len() + made.len() > SETS {
                        return None;
                    }
                    if self.allowed(a, b) {
                        self.join(a, b, &mut made);
                    }
                }
            }
        }
        Some(made.into_values().filter(|set| !set.hulls.is_empty()).collect())
    }

    fn allowed(&self, a: usize, b: usize) -> bool {
        let (a, b) = (&self.sets[a], &self.sets[b]);
        a.area + b.area <= self.largest
            && (0..self.limits.len()).all(|r| a.counts[r] + b.counts[r] <= self.limits[r])
    }

    fn join(&mut self, a: usize, b: usize, made: &mut BTreeMap<u64, Set>) {
        let code = self.sets[a].code + self.sets[b].code;
        let known = made.get_mut(&code).map(|set| std::mem::take(&mut set.hulls));
        let mut hulls = known.unwrap_or_default();
        for (i, p) in self.sets[a].hulls.iter().map(|h| h.size).enumerate() {
            for (j, q) in self.sets[b].hulls.iter().map(|h| h.size).enumerate() {
                for axis in 0..2 {
                    let mut size = [p[0].max(q[0]), p[1].max(q[1])];
                    size[axis] = p[axis] + q[axis];
                    if self.fits(size) {
                        keep(&mut hulls, Hull { size, made: Made::Joined(axis, [(a, i), (b, j)]) });
                    }
                }
            }
        }
        self.steps += 8 * (self.sets[a].hulls.len() * self.sets[b].hulls.len()) as u64;
        if !hulls.is_empty() {
            made.entry(code).or_insert_with(|| self.sum(a, b)).hulls = hulls;
        }
    }

    fn sum(&self, a: usize, b: usize) -> Set {
        let (a, b) = (&self.sets[a], &self.sets[b]);
        let counts = a.counts.iter().zip(&b.counts).map(|(x, y)| x + y).collect();
        Set { counts, code: a.code + b.code, area: a.area + b.area, hulls: Vec::new() }
    }

    fn fits(&self, size: Size) -> bool {
        self.rooms.iter().any(|r| size[0] <= r[0] && size[1] <= r[1])
    }

    fn finished(self) -> Catalogue {
        let hull_on = |set: &Set, room: Size| {
            set.hulls.iter().position(|h| h.size[0] <= room[0] && h.size[1] <= room[1])
        };
        let full = self.rooms.iter().map(|&room| {
            let fitting: BTreeMap<u64, (usize, usize)> = (self.sets.iter().enumerate())
                .filter_map(|(s, set)| hull_on(set, room).map(|hull| (set.code, (s, hull))))
                .collect();
            let weights = self.weights().unwrap_or_default();
            let more = |s: usize, row: usize| {
                let set = &self.sets[s];
                set.counts[row] < self.limits[row] && fitting.contains_key(&(set.code + weights[row]))
            };
            fitting
                .values()
                .filter(|(s, _)| !(0..self.limits.len()).any(|row| more(*s, row)))
                .copied()
                .collect()
        });
        let full = full.collect();
        Catalogue { full, sets: self.sets }
    }
}

/// Keeps a hull unless another is no larger either way; drops those that it makes needless.
fn keep(hulls: &mut Vec<Hull>, hull: Hull) {
    let within = |a: Size, b: Size| a[0] <= b[0] && a[1] <= b[1];
    if hulls.iter().any(|h| within(h.size, hull.size)) {
        return;
    }
    hulls.retain(|h| !within(hull.size, h.size));
    hulls.push(hull);
}
