//! Which layouts pay, for the covering program.

use super::beam::{Beam, Look};
use super::catalogue::Catalogue;
use super::fit;
use super::layout::Placed;
use super::problem::{Problem, Size, ways};
use super::sizes;
use super::strips::{Laid, Strips, Way};
use super::table::{Table, whole};
use crate::budget::Meter;
use crate::cover::{Cover, Cutter, Pattern, Priced};
use crate::shares::Shares;
use crestrail_sorting::Order as _;
use std::collections::{BTreeMap, BTreeSet};

/// Pieces of equal size and grain in one row, largest first.
pub(super) struct Rows {
    pub(super) pieces: Vec<Vec<usize>>,
    pub(super) sizes: Vec<Size>,
    pub(super) grain: Vec<bool>,
    pub(super) demand: Vec<u32>,
}

impl Rows {
    pub(super) fn of(problem: &Problem) -> Self {
        let mut rows: BTreeMap<(i64, Size, bool), Vec<usize>> = BTreeMap::new();
        for (p, piece) in problem.pieces.iter().enumerate().filter(|(_, p)| p.count > 0) {
            let size = problem.sizes[p];
            rows.entry((-size[0] * size[1], size, piece.grain)).or_default().push(p);
        }
        let demand = rows.values().map(|row| row.iter().map(|&p| problem.pieces[p].count).sum()).collect();
        Self {
            sizes: rows.keys().map(|k| k.1).collect(),
            grain: rows.keys().map(|k| k.2).collect(),
            pieces: rows.into_values().collect(),
            demand,
        }
    }

    pub(super) fn areas(&self) -> Vec<i64> {
        self.sizes.iter().map(|s| s[0] * s[1]).collect()
    }
}

/// Makes layouts, and remembers them.
pub(super) struct Slicer {
    pub(super) rooms: Vec<Size>,
    pub(super) ways: Vec<Way>,
    pub(super) areas: Vec<i64>,
    pub(super) shares: Vec<Shares>,
    table: Option<Table>,
    known: BTreeMap<Pattern, Vec<Placed>>,
    calls: u32,
    /// A rest of this size is worth keeping.
    pub(super) worth: Size,
    /// No plan of the whole order costs less, as far as its boards tell it.
    pub(super) floor: i64,
    /// Every layout, where pieces are few; not yet asked for, none, or the list.
    catalogue: Option<Option<Catalogue>>,
}

/// A layout is new if it is worth this much more than asked, parts of the scale.
const WORTH: i64 = 1 << 15;

impl Slicer {
    pub(super) fn new(problem: &Problem, rows: &Rows) -> Self {
        let list: Vec<Way> = (0..rows.sizes.len())
            .flat_map(|row| {
                ways(rows.sizes[row], rows.grain[row]).into_iter().map(move |size| Way { row, size })
            })
            .collect();
        let shares = problem.rooms.iter().map(|room| sizes::shares(&list, rows.sizes.len(), *room)).collect();
        Self {
            rooms: problem.rooms.clone(),
            ways: list,
            areas: rows.areas(),
            shares,
            table: None,
            known: BTreeMap::new(),
            calls: 0,
            worth: problem.worth,
            floor: 0,
            catalogue: None,
        }
    }

    /// Kind and pieces of each pattern of a plan, laid so that a rest stays in one part.
    pub(super) fn layouts(&self, patterns: &[Pattern]) -> Vec<(usize, Vec<Placed>)> {
        let mut known: BTreeMap<&Pattern, Vec<Placed>> = BTreeMap::new();
        let mut laid = |p| known.entry(p).or_insert_with(|| self.tidied(p.kind, self.layout(p))).clone();
        patterns.iter().map(|p| (p.kind, laid(p))).collect()
    }

    /// The layout of a pattern, or one with more pieces of which some are left out.
    fn layout(&self, pattern: &Pattern) -> Vec<Placed> {
        let mut want = vec![0_u32; self.areas.len()];
        pattern.takes.iter().for_each(|&(row, n)| want[row] = n);
        let holds = |p: &Pattern| {
            p.kind == pattern.kind
                && pattern.takes.iter().all(|&(row, n)| p.takes.iter().any(|&(r, m)| r == row && m >= n))
        };
        let own = self.known.get(pattern).or_else(|| self.known.iter().find(|(p, _)| holds(p)).map(|k| k.1));
        let mut placed = own.cloned().or_else(|| self.catalogued(pattern)).unwrap_or_default();
        placed.retain(|p| {
            let keep = want[p.row] > 0;
            want[p.row] = want[p.row].saturating_sub(1);
            keep
        });
        placed
    }

    fn catalogued(&self, pattern: &Pattern) -> Option<Vec<Placed>> {
        let Some(Some(catalogue)) = &self.catalogue else { return None };
        let holds = |counts: &[u32]| pattern.takes.iter().all(|&(row, n)| counts[row] >= n);
        let place = catalogue.full(pattern.kind).find(|(counts, _)| holds(counts))?.1;
        Some(catalogue.layout(&self.ways, place))
    }

    pub(super) fn remember(&mut self, kind: usize, laid: Laid) -> Pattern {
        let mut takes: BTreeMap<usize, u32> = BTreeMap::new();
        laid.placed.iter().for_each(|p| *takes.entry(p.row).or_default() += 1);
        let pattern = Pattern { kind, takes: takes.into_iter().collect() };
        self.known.entry(pattern.clone()).or_insert(laid.placed);
        pattern
    }

    /// The most valuable layout found; a quick look tries ripping first only.
    pub(super) fn best(
        &mut self,
        kind: usize,
        values: &[i64],
        limits: &[u32],
        quick: bool,
        work: &mut u64,
    ) -> Laid {
        let area = whole(self.rooms[kind]);
        let mut strips = Strips { ways: &self.ways, values, work: 0 };
        let mut best = if quick { strips.best(area, limits, 0, 1) } else { strips.both(area, limits) };
        *work += strips.work;
        let order = self.dearest(values, limits);
        for long in [true, false] {
            let laid = fit::fill(vec![area], &self.ways, &order, values, limits, long);
            *work += 200 * (laid.placed.len() * self.ways.len()) as u64;
            if laid.value > best.value {
                best = laid;
            }
        }
        best
    }

    /// The most valuable layout of a beam, waste counted by what a full board is worth.
    pub(super) fn beamed(
        &self,
        kind: usize,
        values: &[i64],
        limits: &[u32],
        full: i64,
        look: Look,
        work: &mut u64,
    ) -> Laid {
        let area = whole(self.rooms[kind]);
        let rate = full.max(1) as f64 / (area.size[0] as f64 * area.size[1] as f64);
        Beam { ways: &self.ways, values, rate, look }.fill(area, limits, work)
    }

    /// Rows by value per area, dearest first.
    fn dearest(&self, values: &[i64], limits: &[u32]) -> Vec<usize> {
        let rate = |row: usize| values[row] as f64 / self.areas[row] as f64;
        let mut order: Vec<usize> = (0..values.len()).filter(|&r| limits[r] > 0 && values[r] > 0).collect();
        order.order_by(|&a, &b| rate(b).total_cmp(&rate(a)).then(a.cmp(&b)));
        order
    }

    /// Layouts worth more than asked; a quick look tries fewer strips.
    fn look(
        &mut self,
        values: &[i64],
        limits: &[u32],
        ask: &[i64],
        quick: bool,
        meter: &mut Meter<'_>,
    ) -> Option<Vec<Pattern>> {
        let mut patterns = Vec::new();
        for (kind, &least) in ask.iter().enumerate() {
            let mut work = 0;
            let mut laid = self.best(kind, values, limits, quick, &mut work);
            if !quick {
                let beamed = self.beamed(kind, values, limits, least, LOOK, &mut work);
                laid = if beamed.value > laid.value { beamed } else { laid };
            }
            if laid.value > least + WORTH {
                patterns.push(self.remember(kind, laid));
            }
            if !meter.spend(work) {
                return None;
            }
        }
        Some(patterns)
    }

    /// Bounds of all kinds from the table, and its layouts where they are of use.
    fn proven(
        &mut self,
        values: &[i64],
        limits: &[u32],
        ask: &[i64],
        meter: &mut Meter<'_>,
    ) -> Option<Priced> {
        let largest = self.rooms.iter().fold([0, 0], |m, r| [r[0].max(m[0]), r[1].max(m[1])]);
        let mut table = self.table.take().unwrap_or_else(|| Table::new(&self.ways, largest));
        let work = table.run(&self.ways, values, limits, meter.left());
        if !meter.spend(work) {
            self.table = Some(table);
            return None;
        }
        let mut priced = Priced { most: ask.to_vec(), patterns: Vec::new() };
        for (kind, &least) in ask.iter().enumerate() {
            let most = table.most(self.rooms[kind]).min(self.shares[kind].most(values, limits));
            priced.most[kind] = most.max(least);
            if most > least + WORTH {
                let placed = table.layout(&self.ways, self.rooms[kind]).unwrap_or_default();
                let laid = within(placed, values, limits);
                if laid.value > least + WORTH {
                    priced.patterns.push(self.remember(kind, laid));
                }
            }
        }
        self.table = Some(table);
        Some(priced)
    }

    fn is_listed(&self) -> bool {
        matches!(self.catalogue, Some(Some(_)))
    }

    /// The most valuable layouts of the catalogue.
    fn listed(
        &mut self,
        values: &[i64],
        limits: &[u32],
        ask: &[i64],
        meter: &mut Meter<'_>,
    ) -> Option<Priced> {
        let Some(Some(catalogue)) = &self.catalogue else { return None };
        let mut priced = Priced { most: ask.to_vec(), patterns: Vec::new() };
        let mut work = 0;
        let mut found = Vec::new();
        for (kind, &least) in ask.iter().enumerate() {
            let mut best = (least, None);
            for (counts, place) in catalogue.full(kind) {
                work += 2 * counts.len() as u64;
                let value = worth(counts, values, limits);
                if value > best.0 {
                    best = (value, Some((taken(kind, counts), place)));
                }
            }
            priced.most[kind] = best.0;
            found.extend(best.1.filter(|_| best.0 > least + WORTH));
        }
        for (pattern, place) in found {
            let layout = catalogue.layout(&self.ways, place);
            priced.patterns.push(pattern.clipped(limits));
            self.known.entry(pattern).or_insert(layout);
        }
        meter.spend(work).then_some(priced)
    }
}

/// Layouts side by side where values are given by the program.
const LOOK: Look = Look { width: 10, slack: 0.1 };
/// What a set is worth, each piece as often as asked for at most.
fn worth(counts: &[u32], values: &[i64], limits: &[u32]) -> i64 {
    (0..counts.len()).map(|r| values[r] * i64::from(counts[r].min(limits[r]))).sum()
}

fn taken(kind: usize, counts: &[u32]) -> Pattern {
    Pattern { kind, takes: counts.iter().copied().enumerate().filter(|t| t.1 > 0).collect() }
}

/// The pieces of a layout that are asked for.
fn within(placed: Vec<Placed>, values: &[i64], limits: &[u32]) -> Laid {
    let mut left = limits.to_vec();
    let mut laid = Laid::default();
    for piece in placed {
        if left[piece.row] > 0 {
            left[piece.row] -= 1;
            laid.value += values[piece.row];
            laid.placed.push(piece);
        }
    }
    laid
}

/// Calls between two tables that are run although other layouts pay.
const BETWEEN: u32 = 12;

/// Stands for "not known" where a bound is asked for; far above any value, far below overflow.
const UNKNOWN: i64 = i64::MAX / 4;

impl Cutter for Slicer {
    fn price(
        &mut self,
        values: &[i64],
        limits: &[u32],
        ask: &[i64],
        proof: bool,
        meter: &mut Meter<'_>,
    ) -> Option<Priced> {
        if proof && self.catalogue.is_none() {
            let (catalogue, work) = Catalogue::new(&self.ways, limits, &self.rooms, meter.left());
            self.catalogue = Some(catalogue);
            if !meter.spend(work) {
                return None;
            }
        }
        if self.is_listed() {
            return self.listed(values, limits, ask, meter);
        }
        self.calls += 1;
        let mut priced =
            Priced { most: ask.to_vec(), patterns: self.look(values, limits, ask, true, meter)? };
        // The table also runs now and then, so that there is a bound long before the program is solved.
        if proof && (priced.patterns.is_empty() || self.calls.is_multiple_of(BETWEEN)) {
            let proven = self.proven(values, limits, ask, meter)?;
            priced.most = proven.most;
            priced.patterns.extend(proven.patterns);
        } else if proof {
            priced.most = vec![UNKNOWN; ask.len()];
        }
        if priced.patterns.is_empty() {
            priced.patterns = self.look(values, limits, ask, false, meter)?;
        }
        Some(priced)
    }

    fn all(
        &mut self,
        values: &[i64],
        limits: &[u32],
        ask: &[i64],
        most: usize,
        meter: &mut Meter<'_>,
    ) -> Option<Vec<Pattern>> {
        let Some(Some(catalogue)) = &self.catalogue else { return None };
        let mut patterns = BTreeSet::new();
        for (kind, &least) in ask.iter().enumerate() {
            for (counts, _) in
                catalogue.full(kind).filter(|(counts, _)| worth(counts, values, limits) > least)
            {
                patterns.insert(taken(kind, counts).clipped(limits));
            }
        }
        (meter.spend(1000) && patterns.len() <= most).then(|| patterns.into_iter().collect())
    }

    fn sizes(&self) -> Option<(&[i64], &[i64])> {
        None
    }

    fn greedy(&mut self, rest: &Cover, meter: &mut Meter<'_>) -> Vec<Pattern> {
        self.quick(rest, meter)
    }

    fn start(&mut self, order: &Cover, enough: i64, meter: &mut Meter<'_>) -> Vec<Pattern> {
        self.begun(order, enough, meter)
    }

    fn floor(&self) -> i64 {
        self.floor
    }
}
