//! The timber plan: which boards to take and how to saw them, for one chair or for a whole order.
//!
//! Rows of the cutting lists become pieces by species and thickness (`pieces`); each class is sawn by the
//! solver that suits it (`saw`); what comes of it is drawn, listed and priced. Every cost has a bound beside it
//! that no plan can undercut.

mod class;
mod making;
mod needed;
mod pieces;
mod room;
mod saw;
mod selling;
mod sets;
mod stand;

pub use class::{Board, ClassPlan, Laid, Missing, Offcut, SawCut, Stack, Way};
pub use needed::BoardsNeeded;
pub use pieces::RoughPieces;
pub(crate) use selling::sold;
pub use sets::{SETS, SetRow, sets};
pub use stand::Origin;

use crate::chair::Chair;
use crate::lists::CuttingRow;
use crate::money::Money;
use crate::rates::PriceSheet;
use crate::refusal::Refusal;
use crate::shop::{Shop, Stock};
use core::ops::ControlFlow;
use serde::Serialize;

/// Chairs of one design that are wanted.
#[derive(Clone, Copy, Debug)]
pub struct Wanted<'a> {
    /// What is sawn for one.
    pub pieces: &'a RoughPieces,
    /// How many.
    pub count: u32,
}

/// How hard to look for a cheaper plan: units of work, each about a nanosecond. Work and not time, so that every
/// machine gives the same plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// For one species and thickness.
    pub each_class: u64,
}

impl Effort {
    /// For a price: beside a knob that is being moved, in an order, in its price breaks. The same for all, so that
    /// one chair has one price.
    pub const PRICE: Self = Self { each_class: 2_000_000 };
    /// For sets of chairs beside each other: seven plans at once.
    pub const SETS: Self = Self { each_class: 10_000_000 };
    /// For the plan that goes to the saw.
    pub const SAW: Self = Self { each_class: 100_000_000 };
}

/// Where the planning stands.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Standing {
    /// Share of the work done, 0 to 1; it jumps ahead where a class is proven best early.
    pub done: f64,
}

/// Told where the planning stands; the answer is to go on or to stop.
pub type Hear<'a> = &'a mut dyn FnMut(Standing) -> ControlFlow<()>;

/// What to buy and how to saw it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TimberPlan {
    /// Kind and version of the file.
    pub crestrail: &'static str,
    /// Code of ISO 4217.
    pub currency: &'static str,
    /// Decimals of the currency's minor unit.
    pub minor_digits: u8,
    /// For how many chairs.
    pub chairs: u32,
    /// Width of the saw's cut, mm.
    pub kerf: f64,
    /// What the boards cost that are bought.
    pub cost_minor: Money,
    /// No plan with these boards costs less.
    pub bound_minor: Money,
    /// What the offcuts worth keeping count for.
    pub credit_minor: Money,
    /// By how much the cost may lie above the best possible, as a share of the bound: 0 is proven best.
    pub above_bound: f64,
    /// Share of the boards' area that ends as rough pieces.
    #[serde(rename = "yield")]
    pub yields: f64,
    /// One for each species and thickness.
    pub classes: Vec<ClassPlan>,
    /// The boards behind the price where the shop has selling rates, at these; else empty.
    #[serde(skip)]
    pub sold: Vec<ClassPlan>,
}

/// The plan for these chairs together. `None` where the shop has no stock list, or the listener stopped it. A refusal where
/// the shop has no price for a species.
pub fn plan(
    wanted: &[Wanted<'_>],
    shop: &Shop,
    effort: Effort,
    hear: Hear<'_>,
) -> Result<Option<TimberPlan>, Refusal> {
    let Some(stock) = &shop.stock else { return Ok(None) };
    let pieces = pieces::by_class(wanted);
    let all = pieces.len() as f64;
    let mut classes = Vec::new();
    for (i, pieces) in pieces.into_iter().enumerate() {
        let mut told = |share: f64| hear(Standing { done: (i as f64 + share) / all });
        match making::planned(pieces, wanted.len(), shop.yard(), stock, effort, &mut told)? {
            Some(class) => classes.push(class),
            None => return Ok(None),
        }
    }
    Ok(Some(TimberPlan::of(classes, wanted.iter().map(|w| w.count).sum(), shop)))
}

/// The plan behind a price, which is found so quickly that nobody need listen. Where the shop has selling rates, it holds
/// the boards at these, too.
pub fn price_plan(wanted: &[Wanted<'_>], shop: &Shop) -> Result<Option<TimberPlan>, Refusal> {
    match PriceSheet::of(shop) {
        Some(sheet) => selling::both(wanted, shop, &sheet),
        None => plan(wanted, shop, Effort::PRICE, &mut |_| ControlFlow::Continue(())),
    }
}

/// The same for one chair alone.
pub fn plan_of_one(chair: &Chair, rows: &[CuttingRow], shop: &Shop) -> Result<Option<TimberPlan>, Refusal> {
    price_plan(&[Wanted { pieces: &RoughPieces::of(chair, rows), count: 1 }], shop)
}

impl TimberPlan {
    fn of(classes: Vec<ClassPlan>, chairs: u32, shop: &Shop) -> Self {
        let sum = |of: fn(&ClassPlan) -> Money| Money(classes.iter().map(|c| of(c).0).sum());
        let (cost, bound) = (sum(|c| c.cost_minor), sum(|c| c.bound_minor));
        let area = |of: fn(&ClassPlan) -> f64| classes.iter().map(of).sum::<f64>();
        let boards = area(|c| c.boards_m2);
        Self {
            crestrail: "timber-plan/1",
            currency: shop.currency.code,
            minor_digits: shop.currency.minor_digits,
            chairs,
            kerf: shop.kerf,
            cost_minor: cost,
            bound_minor: bound,
            credit_minor: sum(|c| c.credit_minor),
            above_bound: above(cost, bound),
            yields: if boards > 0.0 { area(|c| c.pieces_m2) / boards } else { 0.0 },
            classes,
            sold: Vec::new(),
        }
    }

    /// The class of a species and a wanted thickness.
    pub fn class(&self, species: &str, thickness_mm: f64) -> Option<&ClassPlan> {
        class_of(&self.classes, species, thickness_mm)
    }

    /// The boards of each class in short.
    pub fn boards_needed(&self) -> Vec<BoardsNeeded> {
        self.classes.iter().map(BoardsNeeded::of).collect()
    }
}

/// The class of a species and a wanted thickness among these.
pub(crate) fn class_of<'a>(
    classes: &'a [ClassPlan],
    species: &str,
    thickness_mm: f64,
) -> Option<&'a ClassPlan> {
    classes.iter().find(|c| c.timber.id == species && c.wanted_mm == thickness_mm)
}

/// By how much a cost lies above its bound, as a share of the bound.
fn above(cost: Money, bound: Money) -> f64 {
    if bound.0 > 0 { (cost.0 - bound.0) as f64 / bound.0 as f64 } else { 0.0 }
}

/// The trims of a stock.
fn trims(stock: &Stock) -> [f64; 2] {
    [stock.trim_ends, stock.trim_edges]
}

#[cfg(test)]
pub(crate) mod tests;
