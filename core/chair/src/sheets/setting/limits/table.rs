//! The limits on a sheet: each size with its deviations one above the other (ISO 129-1; from memory) and a box to tick when
//! it has been measured.

use super::{Checked, Limit, Limits, limits};
use crate::length::Lengths;
use crate::sheets::pens::{self, Pen};
use crate::sheets::setting::joints::Tables;
use crate::sheets::setting::table::{Block, LINE, SMALL, line, long};
use crestrail_sheet::{Align, Item, Weight};
use crestrail_sorting::Order as _;
use kurbo::{Point, Vec2};

/// Height of a row, mm: two deviations above each other.
const ROW: f64 = 5.4;
/// Letters of deviations as a share of the others.
const LESS: f64 = 0.8;
/// Side of a box, and the room before it and after it, mm.
const BOX: f64 = 2.6;
const GAP: f64 = 1.2;
const BETWEEN: f64 = 3.6;

/// The table of a part, one row for joints that are alike; empty for a part without joints.
pub(in super::super) fn blocks(tables: &Tables<'_>) -> Vec<Block> {
    let rows = alike(limits(tables.chair, tables.subject));
    if rows.is_empty() {
        return Vec::new();
    }
    let drawer = Drawer { lengths: tables.lengths };
    let tenons = |limits: &&Limits| limits.all[0].what.is_of_tenon();
    let own: Vec<&Limits> = rows.iter().filter(tenons).collect();
    let cut: Vec<&Limits> = rows.iter().filter(|limits| !tenons(limits)).collect();
    let mut top = Block { height: 2.0, ..Block::default() };
    top.add(&line(
        "Limits: tick each size when it has been measured; how they were chosen is told at Gauges and cutters",
        Weight::Medium,
    ));
    let mut blocks = drawer.table(&own);
    blocks.extend(drawer.table(&cut));
    // What is said first stays with the first row.
    top.add(&blocks.remove(0));
    blocks.insert(0, top);
    blocks
}

/// By what the limits are chosen.
pub(in super::super) const CHOSEN: &str = "Limits on the setting-out sheets. A mortise's cut: H11 of ISO 286-1. A tenon's thickness: half of the play that the shop wants, more or less (common practice, no source). Its length and the mortise's depth: class m of ISO 2768-1; the draw of a peg: class c; all else: class f. Which class a size takes is common practice, no source. What must not be too large, as a tenon, or too small, as a mortise, has its whole zone on the other side, so that every joint goes together at its worst limits.";

impl Checked {
    fn is_of_tenon(self) -> bool {
        matches!(self, Self::Shoulders | Self::Thick | Self::Wide | Self::Long | Self::Draw)
    }
}

/// Rows with the same limits become one that names both.
fn alike(all: Vec<Limits>) -> Vec<Limits> {
    let mut rows: Vec<Limits> = Vec::new();
    for limits in all {
        let near = |a: &Limit, b: &Limit| a.what == b.what && (a.size - b.size).abs() < 0.005;
        let same = |other: &&mut Limits| {
            other.all.len() == limits.all.len() && other.all.iter().zip(&limits.all).all(|(a, b)| near(a, b))
        };
        match rows.iter_mut().find(same) {
            Some(other) if other.title == limits.title => {}
            Some(other) => {
                let short = limits.title.trim_start_matches("Tenon ").trim_start_matches("Mortise ");
                other.title = format!("{}; {short}", other.title);
            }
            None => rows.push(limits),
        }
    }
    rows
}

struct Drawer {
    lengths: Lengths,
}

impl Drawer {
    /// Rows below each other, each size below the head of its column.
    fn table(&self, rows: &[&Limits]) -> Vec<Block> {
        if rows.is_empty() {
            return Vec::new();
        }
        let mut columns: Vec<Checked> =
            rows.iter().flat_map(|row| &row.all).map(|limit| limit.what).collect();
        columns.order();
        columns.dedup();
        let first = rows.iter().map(|row| long(&row.title)).fold(0.0, f64::max) + BETWEEN;
        let wide = |what: Checked| {
            let own = rows.iter().flat_map(|row| &row.all).filter(|limit| limit.what == what);
            own.map(|limit| self.length(limit)).fold(long(what.name()), f64::max) + BETWEEN
        };
        let mut at = vec![first];
        for what in &columns {
            at.push(at[at.len() - 1] + wide(*what));
        }
        let mut head = Block::default();
        for (what, x) in columns.iter().zip(&at) {
            head.items.extend(line(what.name(), Weight::Regular).at(Point::new(*x, 0.0)));
        }
        head.height = LINE;
        head.width = at[columns.len()];
        head.items.push(pens::line(Point::new(0.0, LINE), Point::new(head.width, LINE), Pen::Thin));
        let row = |row: &&Limits| {
            let mut block = Block { width: head.width, height: ROW, items: Vec::new() };
            block.items.push(word(&row.title, Point::new(0.0, BASE), SMALL));
            for (what, x) in columns.iter().zip(&at) {
                let own = row.all.iter().find(|limit| limit.what == *what);
                block.items.extend(own.into_iter().flat_map(|limit| self.limit(limit, *x)));
            }
            block
        };
        let mut blocks: Vec<Block> = rows.iter().map(row).collect();
        head.add(&blocks.remove(0));
        blocks.insert(0, head);
        blocks
    }

    fn length(&self, limit: &Limit) -> f64 {
        let [upper, lower] = self.deviations(limit);
        let deviation = long(&upper).max(long(&lower)) * LESS;
        BOX + GAP + long(&self.lengths.fine(limit.size)) + 0.6 + deviation
    }

    /// The box, the size, and its deviations above each other; those that are alike as one.
    fn limit(&self, limit: &Limit, x: f64) -> Vec<Item> {
        let size = self.lengths.fine(limit.size);
        let corners = [(0.0, 0.0), (BOX, 0.0), (BOX, BOX), (0.0, BOX)];
        let place = Vec2::new(x, BASE - BOX + 0.3);
        let corners = corners.map(|corner| Point::from(corner) + place);
        let start = x + BOX + GAP;
        let after = start + long(&size) + 0.6;
        let [upper, lower] = self.deviations(limit);
        let mut items = vec![pens::lines(vec![pens::closed(&corners)], Pen::Thin)];
        items.push(word(&size, Point::new(start, BASE), SMALL));
        if lower.is_empty() {
            items.push(word(&upper, Point::new(after, BASE), SMALL * LESS));
        } else {
            items.push(word(&upper, Point::new(after, BASE - 1.35), SMALL * LESS));
            items.push(word(&lower, Point::new(after, BASE + 0.85), SMALL * LESS));
        }
        let value = format!("{:?} {:.4} {:.4} {:.4}", limit.what, limit.size, limit.upper, limit.lower);
        vec![pens::group("limit", value, items)]
    }

    /// The upper one and the lower one; `±` and nothing where they are alike.
    fn deviations(&self, limit: &Limit) -> [String; 2] {
        if (limit.upper + limit.lower).abs() < 1e-9 {
            return [format!("±{}", self.lengths.deviation(limit.upper)), String::new()];
        }
        let signed = |v: f64| match v {
            v if v > 1e-9 => format!("+{}", self.lengths.deviation(v)),
            v if v < -1e-9 => format!("−{}", self.lengths.deviation(-v)),
            _ => "0".to_owned(),
        };
        [signed(limit.upper), signed(limit.lower)]
    }
}

/// The base line of a row, mm below its top.
const BASE: f64 = 3.6;

fn word(words: &str, at: Point, size: f64) -> Item {
    pens::words(words, at, Align::Start, size, Weight::Regular)
}
