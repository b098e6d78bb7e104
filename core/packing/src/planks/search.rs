//! Plans made plank by plank from an order of the pieces, and the search over orders.

use super::bed::{Bed, Next, Pairs, Placed};
use super::bound::Bound;
use super::memory::{State, Trail};
use super::problem::Problem;
use super::rows;
use crate::budget::Meter;
use crestrail_sorting::Order as _;
use std::collections::BTreeMap;

/// Planks of one kind filled alike.
#[derive(Clone, Debug)]
pub(super) struct Filled {
    pub(super) kind: usize,
    pub(super) times: u32,
    pub(super) placed: Vec<Placed>,
}

/// A plan as the search sees it.
#[derive(Clone, Debug, Default)]
pub(super) struct Found {
    pub(super) beds: Vec<Filled>,
    pub(super) missing: Vec<u32>,
}

/// How good a plan is, best lowest: area missing, cost, length used in all.
type Rank = (f64, i64, f64);

struct Search<'a> {
    problem: &'a Problem,
    pairs: Pairs<'a>,
    areas: Vec<f64>,
    /// Rows of a shape on a kind, worked out when first asked.
    rows: BTreeMap<(usize, usize), Vec<Placed>>,
    /// Which shapes are laid in rows first.
    begin: Begin,
    /// What the order that is changed laid on a plank at first, and what the changed one does: for each kind,
    /// without rows and with rows of each shape.
    trails: [Vec<Trail>; 2],
    /// A plank used beyond this cannot be part of a better plan; then the plan is given up.
    most_used: f64,
    seed: u64,
}

/// The best filling so far: price for its area, area, length used, and what it is.
struct Best {
    rate: f64,
    area: f64,
    used: f64,
    found: Option<(usize, Vec<Placed>)>,
}

/// What a filling must keep to, or it is no better than another.
#[derive(Clone, Copy, Debug)]
struct Limit {
    /// How much of the length it may use. Where there is an end, all pieces must find room as well.
    used: f64,
    /// Area it must reach.
    area: f64,
}

/// What is left to lay.
struct Wanted {
    pieces: u32,
    area: f64,
}

/// What takes all is better than its price for the area by this share.
const ALL: f64 = 1e-9;

impl Wanted {
    fn new(left: &[u32], areas: &[f64]) -> Self {
        let area = left.iter().zip(areas).map(|(&n, a)| f64::from(n) * a).sum();
        Self { pieces: left.iter().sum(), area }
    }

    /// The area of a filling. That of all pieces is always the same, whatever their order.
    fn area_of(&self, placed: &[Placed], problem: &Problem, areas: &[f64]) -> f64 {
        if placed.len() as u32 == self.pieces {
            return self.area;
        }
        placed.iter().map(|p| areas[problem.variants[p.variant].shape]).sum()
    }

    /// Price for an area.
    fn rate(&self, price: i64, area: f64) -> f64 {
        let rate = price as f64 / area.max(1e-9);
        if area < self.area { rate } else { rate * (1.0 - ALL) }
    }
}

impl Best {
    /// The area below which a filling of a plank of this price is worse.
    fn least_area(&self, price: i64) -> f64 {
        let area = if self.rate > 0.0 { price as f64 / self.rate } else { self.area };
        area * (1.0 - 2.0 * ALL)
    }
}

/// Which shapes are laid in rows before the others fill what is left.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Begin {
    /// Each in turn, and none.
    Each,
    /// This one, if it has enough pieces, else none.
    One(usize),
    None,
}

/// Orders to begin with: pieces sorted by these.
const MEASURES: usize = 4;
/// A changed order is kept where it is no worse than the one so many tries ago (late acceptance: Burke and
/// Bykov, European Journal of Operational Research 258, 2017).
const LATE: usize = 50;

/// The best plan found within the budget.
pub(super) fn search(problem: &Problem, bound: &Bound, meter: &mut Meter<'_>) -> Found {
    let areas = (0..problem.shapes.len()).map(|s| area_of(problem, s)).collect();
    let pairs = Pairs::new(&problem.variants, problem.clear);
    let mut search = Search {
        problem,
        pairs,
        areas,
        rows: BTreeMap::new(),
        begin: Begin::Each,
        trails: [0, 1].map(|_| vec![Trail::default(); problem.planks.len() * (1 + problem.shapes.len())]),
        most_used: f64::INFINITY,
        seed: 1,
    };
    let made: Vec<u32> = problem.shapes.iter().map(|s| s.count).collect();
    let least = bound.least(problem, &made);
    let mut best = Found { beds: Vec::new(), missing: made };
    let mut rank = search.rank(&best);
    let mut order = Vec::new();
    let mut tried: Vec<Vec<Next>> = Vec::new();
    for measure in 0..MEASURES {
        let by = search.sorted(measure);
        if tried.contains(&by) {
            continue;
        }
        tried.push(by.clone());
        // The first plan is made whatever the budget, for a plan without pieces helps nobody.
        if meter.over() && measure > 0 {
            return best;
        }
        let found = search.plan(&by);
        search.spend(meter);
        if search.rank(&found) < rank {
            (rank, best, order) = (search.rank(&found), found, by);
            tell(meter, &best, rank, least);
        }
    }
    search.improve(order, best, rank, least, meter)
}

fn tell(meter: &mut Meter<'_>, best: &Found, rank: Rank, least: i64) {
    meter.tell(rank.1, least.min(rank.1), best.missing.iter().sum(), true);
}

fn area_of(problem: &Problem, shape: usize) -> f64 {
    problem.variants.iter().find(|v| v.shape == shape).map_or(0.0, |v| v.area)
}

impl Search<'_> {
    fn spend(&mut self, meter: &mut Meter<'_>) {
        meter.spend(std::mem::take(&mut self.pairs.work));
    }

    fn rank(&self, found: &Found) -> Rank {
        let missing = found.missing.iter().zip(&self.areas).map(|(&n, a)| f64::from(n) * a).sum();
        let cost = found.beds.iter().map(|b| self.problem.planks[b.kind].price * i64::from(b.times)).sum();
        (missing, cost, found.beds.iter().map(|b| self.used(&b.placed) * f64::from(b.times)).sum())
    }

    /// The shapes, largest first by area, length, width, or both sides.
    fn sorted(&self, measure: usize) -> Vec<Next> {
        let size = |s: usize| {
            let v = self.problem.variants.iter().find(|v| v.shape == s);
            v.map_or(0.0, |v| {
                let (length, width) = (v.high[0] - v.low[0], v.high[1] - v.low[1]);
                [v.area, length, width, length * width][measure]
            })
        };
        let mut order: Vec<usize> = self
            .problem
            .shapes
            .iter()
            .enumerate()
            .flat_map(|(s, shape)| std::iter::repeat_n(s, shape.count as usize))
            .collect();
        order.order_by(|&a, &b| size(b).total_cmp(&size(a)).then(a.cmp(&b)));
        order.into_iter().map(|shape| Next { shape, variant: None }).collect()
    }

    /// Other orders, one or two pieces moved or turned at a time, as long as there is work left.
    fn improve(
        &mut self,
        mut order: Vec<Next>,
        mut best: Found,
        mut rank: Rank,
        least: i64,
        meter: &mut Meter<'_>,
    ) -> Found {
        let mut current = rank;
        let mut late = [rank; LATE];
        let one_kind = self.problem.shapes.iter().filter(|s| s.count > 0).count() < 2;
        let mut tries = 0_usize;
        while !meter.over() && order.len() > 1 && !one_kind {
            let mut other = order.clone();
            self.shuffle(&mut other);
            if other == order {
                meter.spend(other.len() as u64);
                continue;
            }
            let before = &mut late[tries % LATE];
            tries += 1;
            let allowed = if current > *before { current } else { *before };
            *before = current;
            self.begin = self.draw();
            self.most_used = self.most_used(allowed);
            let found = self.plan(&other);
            self.spend(meter);
            let new = self.rank(&found);
            if new <= allowed {
                (current, order) = (new, other);
                self.trails.swap(0, 1);
            }
            if new < rank {
                (rank, best) = (new, found);
                tell(meter, &best, rank, least);
            }
            meter.tell(rank.1, least.min(rank.1), best.missing.iter().sum(), false);
        }
        best
    }

    /// How much of a plank a plan may use that is no worse: told where all goes on one.
    fn most_used(&self, current: Rank) -> f64 {
        let [plank] = &self.problem.planks[..] else { return f64::INFINITY };
        if current.0 > 0.0 || current.1 > plank.price { f64::INFINITY } else { current.2 + 1e-9 }
    }

    /// Mostly no rows: they are there from the first plans, and each costs a filling.
    fn draw(&mut self) -> Begin {
        match self.below(16) {
            0 => Begin::Each,
            1 | 2 => Begin::One(self.below(self.problem.shapes.len())),
            _ => Begin::None,
        }
    }

    fn below(&mut self, n: usize) -> usize {
        self.seed = self.seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.seed >> 33) as usize) % n
    }

    fn shuffle(&mut self, order: &mut Vec<Next>) {
        for _ in 0..1 + self.below(2) {
            let (from, to) = (self.below(order.len()), self.below(order.len()));
            match self.below(5) {
                0 | 1 => order.swap(from, to),
                2 | 3 => {
                    let piece = order.remove(from);
                    order.insert(to, piece);
                }
                _ => order[from].variant = self.any_variant(order[from].shape),
            }
        }
    }

    /// Any variant of a shape, or the choice among all.
    fn any_variant(&mut self, shape: usize) -> Option<usize> {
        let own: Vec<usize> =
            (0..self.problem.variants.len()).filter(|&v| self.problem.variants[v].shape == shape).collect();
        own.get(self.below(own.len() + 1)).copied()
    }

    /// A whole plan from an order: plank after plank, of the kind that gives most area for its price.
    fn plan(&mut self, order: &[Next]) -> Found {
        let mut left: Vec<u32> = self.problem.shapes.iter().map(|s| s.count).collect();
        let mut stock = self.problem.limits();
        let mut beds: Vec<Filled> = Vec::new();
        while left.iter().any(|&n| n > 0) {
            let Some((kind, placed)) = self.next(order, &left, &stock) else { break };
            let mut counts = vec![0_u32; left.len()];
            placed.iter().for_each(|p| counts[self.problem.variants[p.variant].shape] += 1);
            let repeats = (0..left.len()).filter(|&s| counts[s] > 0).map(|s| left[s] / counts[s]).min();
            let times = repeats.unwrap_or(1).min(stock[kind]).max(1);
            left.iter_mut().zip(&counts).for_each(|(l, c)| *l -= c * times);
            stock[kind] -= times;
            beds.push(Filled { kind, times, placed });
        }
        Found { beds, missing: left }
    }

    /// The next plank: the best area for its price, or the cheapest that takes all that is left. Kinds that may be best
    /// come first, and what cannot be better than what is known is given up.
    fn next(&mut self, order: &[Next], left: &[u32], stock: &[u32]) -> Option<(usize, Vec<Placed>)> {
        let wanted = Wanted::new(left, &self.areas);
        let least = |k: usize| {
            let [length, width] = self.problem.beds[k];
            wanted.rate(self.problem.planks[k].price, wanted.area.min(length * width))
        };
        let mut kinds: Vec<(usize, f64)> =
            (0..stock.len()).filter(|&k| stock[k] > 0).map(|k| (k, least(k))).collect();
        kinds.order_by(|a, b| a.1.total_cmp(&b.1));
        let mut best = Best { rate: f64::INFINITY, area: 0.0, used: f64::INFINITY, found: None };
        for (kind, least) in kinds {
            for rows in self.beginnings(left) {
                if least > best.rate {
                    break;
                }
                let begun = rows.map_or_else(Vec::new, |shape| self.rows_of(shape, kind, left));
                if rows.is_some() && begun.len() < 2 {
                    continue;
                }
                let price = self.problem.planks[kind].price;
                let shorter = least >= best.rate && best.area >= wanted.area;
                let limit = Limit {
                    used: if shorter { self.most_used.min(best.used) } else { self.most_used },
                    area: best.least_area(price),
                };
                let placed = self.filling(order, left, kind, &begun, limit);
                let area = wanted.area_of(&placed, self.problem, &self.areas);
                let (rate, used) = (wanted.rate(price, area), self.used(&placed));
                if !placed.is_empty() && (rate, -area, used) < (best.rate, -best.area, best.used) {
                    best = Best { rate, area, used, found: Some((kind, placed)) };
                }
            }
        }
        best.found
    }

    /// Where the right end of the pieces lies.
    fn used(&self, placed: &[Placed]) -> f64 {
        placed.iter().map(|p| p.x + self.problem.variants[p.variant].high[0]).fold(0.0, f64::max)
    }

    /// Ways to begin a plank: with nothing, and with rows of each shape that is asked for and has enough pieces.
    fn beginnings(&self, left: &[u32]) -> impl Iterator<Item = Option<usize>> + use<> {
        let begin = self.begin;
        let asked = move |s: &usize| begin == Begin::Each || begin == Begin::One(*s);
        let several: Vec<usize> = (0..left.len()).filter(|&s| left[s] > 1).filter(asked).collect();
        std::iter::once(None).chain(several.into_iter().map(Some))
    }

    /// Rows of a shape, no more pieces than are left.
    fn rows_of(&mut self, shape: usize, kind: usize, left: &[u32]) -> Vec<Placed> {
        let most = self.problem.shapes[shape].count as usize;
        let rows = self.rows.entry((shape, kind));
        let bed = self.problem.beds[kind];
        let rows = rows.or_insert_with(|| rows::fullest(shape, bed, most, &mut self.pairs));
        rows[..rows.len().min(left[shape] as usize)].to_vec()
    }

    /// A plank with some pieces on it already, filled up in the order; nothing where it cannot keep within the limit.
    fn filling(
        &mut self,
        order: &[Next],
        left: &[u32],
        kind: usize,
        begun: &[Placed],
        limit: Limit,
    ) -> Vec<Placed> {
        let first = self.problem.shapes.iter().zip(left).all(|(s, n)| s.count == *n);
        let rows = begun.first().map_or(0, |p| 1 + self.problem.variants[p.variant].shape);
        let trail_at = kind * (1 + left.len()) + rows;
        let mut trail = if first { self.trails[0][trail_at].shared(order) } else { Trail::default() };
        let mut state = trail.last().unwrap_or_else(|| self.begun(left, kind, begun));
        for (place, next) in order.iter().enumerate().skip(state.seen) {
            if state.left[next.shape] > 0 {
                if state.bed.place(*next, limit.used, &mut self.pairs) {
                    state.left[next.shape] -= 1;
                } else {
                    state.left[next.shape] = 0;
                    if limit.used.is_finite() || self.reachable(&state) < limit.area {
                        return Vec::new();
                    }
                }
            }
            state.seen = place + 1;
            if first {
                trail.keep(&state);
            }
            let right = |p: &Placed| p.x + self.problem.variants[p.variant].high[0];
            if state.bed.placed.last().is_some_and(|p| right(p) > limit.used) {
                return Vec::new();
            }
        }
        if first {
            self.trails[1][trail_at] = trail;
        }
        state.bed.placed
    }

    /// The area of what lies on the plank and of all that may still be laid on it.
    fn reachable(&self, state: &State) -> f64 {
        let open: f64 = state.left.iter().zip(&self.areas).map(|(&n, a)| f64::from(n) * a).sum();
        open + state.bed.placed.iter().map(|p| self.problem.variants[p.variant].area).sum::<f64>()
    }

    fn begun(&self, left: &[u32], kind: usize, begun: &[Placed]) -> State {
        let mut bed = Bed::new(self.problem.beds[kind], self.problem.variants.len());
        let mut left = left.to_vec();
        bed.placed.extend_from_slice(begun);
        begun.iter().for_each(|p| left[self.problem.variants[p.variant].shape] -= 1);
        State { seen: 0, bed, left }
    }
}
