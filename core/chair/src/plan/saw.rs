//! Which solver saws a class, and what all of them give back.

mod by_length;
mod by_outline;
mod by_width;
mod known;

use super::class::{Offcut, SawCut, Way};
use super::making::Told;
use super::pieces::Piece;
use super::stand::Stand;
use super::{Effort, trims};
use crate::money::{Money, Quantity};
use crate::refusal::Refusal;
use crate::shop::Stock;
use core::ops::ControlFlow;
use crestrail_packing::{Budget, Progress, Refused};
use crestrail_phrases::word;

/// What a class is sawn from and how.
#[derive(Clone)]
pub(super) struct Sawing {
    pub(super) way: Way,
    pub(super) cost: i64,
    pub(super) bound: i64,
    pub(super) boards: Vec<Sawn>,
    /// How many of each piece the boards did not give.
    pub(super) missing: Vec<u32>,
}

/// Boards of one kind that are sawn alike.
#[derive(Clone)]
pub(super) struct Sawn {
    /// Which board, by its place among those at hand.
    pub(super) stand: usize,
    pub(super) times: u32,
    /// Which piece, and its outline on the board.
    pub(super) laid: Vec<(usize, Vec<[f64; 2]>)>,
    pub(super) cuts: Vec<SawCut>,
    pub(super) offcuts: Vec<Offcut>,
}

impl Sawing {
    /// The same boards at other prices, for which nothing is proven.
    pub(super) fn at(&self, stands: &[Stand]) -> Result<Self, Refusal> {
        let price = |sawn: &Sawn| stands[sawn.stand].price.times(Quantity::count(sawn.times));
        let cost = self.boards.iter().try_fold(Money(0), |sum, sawn| sum.plus(price(sawn)?));
        let beyond = || {
            Refusal::new(
                "stock",
                word("The boards cost more than can be counted exactly. Check the shop's prices."),
            )
        };
        Ok(Self { cost: cost.ok_or_else(beyond)?.0, bound: 0, ..self.clone() })
    }
}

/// All that a solver is told.
#[derive(Clone, Copy)]
struct Bench<'a> {
    pieces: &'a [Piece],
    stands: &'a [Stand],
    /// Off each end and each edge.
    trims: [f64; 2],
    kerf: f64,
    /// An offcut of this length and width is worth keeping, mm.
    worth: [f64; 2],
}

/// The pieces sawn from these boards; `None` where the listener stopped it. Each piece fits at least one board.
pub(super) fn sawn(
    pieces: &[Piece],
    stands: &[Stand],
    stock: &Stock,
    kerf: f64,
    effort: Effort,
    told: Told<'_>,
) -> Result<Option<Sawing>, Refusal> {
    let worth = [stock.offcuts.length, stock.offcuts.width];
    let bench = Bench { pieces, stands, trims: trims(stock), kerf, worth };
    if effort != Effort::PRICE {
        return solved(bench, effort, told);
    }
    if let Some(known) = known::recall(&bench) {
        return Ok(Some(known));
    }
    let sawing = solved(bench, effort, told)?;
    sawing.iter().for_each(|sawing| known::keep(&bench, sawing));
    Ok(sawing)
}

/// The same, worked out.
fn solved(bench: Bench<'_>, effort: Effort, told: Told<'_>) -> Result<Option<Sawing>, Refusal> {
    let mut stopped = false;
    let mut hear = |progress: &Progress| {
        let answer = told(progress.work as f64 / effort.each_class.max(1) as f64);
        stopped |= answer.is_break();
        answer
    };
    let budget = Budget::of(effort.each_class);
    let sawing = if bench.pieces.iter().any(|p| p.outline.is_some()) {
        by_outline::sawn(bench, effort, &mut hear)
    } else if bench.is_one_wide() {
        by_length::sawn(bench, budget, &mut hear)
    } else {
        by_width::sawn(bench, budget, &mut hear)
    };
    let sawing = sawing.map_err(|refused: Refused| Refusal::new("stock", refused.to_string()))?;
    Ok((!stopped && told(1.0) == ControlFlow::Continue(())).then_some(sawing))
}

impl Bench<'_> {
    /// Whether no board has room for two pieces side by side, and all have room for each.
    fn is_one_wide(&self) -> bool {
        let widths = || self.pieces.iter().map(|p| p.width);
        let (narrow, wide) = (widths().fold(f64::INFINITY, f64::min), widths().fold(0.0, f64::max));
        let rooms = || self.stands.iter().map(|s| s.room(self.trims)[1]);
        rooms().all(|room| wide <= room && room < 2.0 * narrow + self.kerf)
    }
}

/// The corners of a rectangle, counter-clockwise.
fn rectangle([x, y]: [f64; 2], [length, width]: [f64; 2]) -> Vec<[f64; 2]> {
    vec![[x, y], [x + length, y], [x + length, y + width], [x, y + width]]
}
