//! What an order costs and when it is ready.

use super::breaks::{PriceBreaks, breaks};
use super::read::{Order, OrderLine};
use crate::bill::{
    Besides, Bill, Entry, Ledger, Sawn, TimberUsed, besides_timber, bill_from, sold, timber_ledger,
};
use crate::chair::Chair;
use crate::labour::{Labour, Lead, Task, labour, lead, tasks};
use crate::money::Money;
use crate::plan::{BoardsNeeded, Effort, Hear, RoughPieces, TimberPlan, Wanted, plan, price_plan};
use crate::refusal::Refusal;
use crate::report::{Report, report};
use crate::shop::Shop;
use crestrail_phrases::{phrase, say, word};
use serde::Serialize;

/// A chair of an order, worked out.
#[derive(Clone, Debug)]
pub struct Made<'a> {
    /// Its line of the order.
    pub line: &'a OrderLine,
    /// The chair.
    pub chair: Chair,
    /// All that is told of one.
    pub report: Report,
    tasks: Vec<Task>,
    pieces: RoughPieces,
}

/// What an order costs and when it is ready. Money in minor units.
#[derive(Clone, Debug, Serialize)]
pub struct OrderReport {
    /// Kind and version.
    pub crestrail: &'static str,
    /// See [`Order::name`].
    pub name: String,
    /// See [`Order::customer`].
    pub customer: String,
    /// All chairs.
    pub chairs: u32,
    /// One row a design.
    pub rows: Vec<OrderRow>,
    /// Chairs at their prices, delivery, tax; exactly added.
    pub bill: Bill,
    /// When all of it is ready; nothing where the shop's file has no times.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lead: Option<Lead>,
    /// Which boards the whole order takes; empty where the shop has no stock list.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub boards: Vec<BoardsNeeded>,
    /// How price and time change with the number of chairs, for each design.
    pub breaks: Vec<PriceBreaks>,
}

/// One design of an order.
#[derive(Clone, Debug, Serialize)]
pub struct OrderRow {
    /// What it is called.
    pub name: String,
    /// How many.
    pub quantity: u32,
    /// Price of one among so many, before delivery and tax.
    pub price_minor: Money,
    /// Of all of them.
    pub amount_minor: Money,
    /// The bill of one, with the set-up shared by all of them.
    pub bill: Bill,
    /// The work at one; nothing where the shop's file has no times.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub labour: Option<Labour>,
}

/// What a design without a name is called.
const UNNAMED: &str = phrase("Chair");

impl OrderLine {
    /// What it is called, also where it has no name.
    pub fn title(&self) -> &str {
        if self.name.is_empty() { word(UNNAMED) } else { &self.name }
    }
}

impl Order {
    /// Its chairs, worked out; a design that cannot be built is refused with its place in the order.
    pub fn made(&self, shop: &Shop) -> Result<Vec<Made<'_>>, Refusal> {
        self.lines.iter().enumerate().map(|(i, line)| Made::of(i, line, shop)).collect()
    }

    /// What it costs and when it is ready, of its chairs worked out.
    pub fn report(&self, made: &[Made<'_>], shop: &Shop) -> Result<OrderReport, Refusal> {
        let breaks =
            made.iter().map(|made| breaks(made, &made.besides(shop)?, shop)).collect::<Result<_, _>>()?;
        Ok(OrderReport { breaks, ..self.bare_report(made, shop)? })
    }

    /// The same without the tables of prices by number, which take most of the time.
    pub fn bare_report(&self, made: &[Made<'_>], shop: &Shop) -> Result<OrderReport, Refusal> {
        let plan = price_plan(&wanted(made), shop)?;
        let row = |(design, made): (usize, &Made<'_>)| made.row(plan.as_ref(), design, shop);
        let rows = made.iter().enumerate().map(row).collect::<Result<Vec<OrderRow>, _>>()?;
        let bill = total(&rows, shop)?;
        let works: Vec<(&Labour, u32)> =
            rows.iter().filter_map(|row| Some((row.labour.as_ref()?, row.quantity))).collect();
        let lead = shop.labour.as_ref().map(|rates| lead(&works, rates, shop.finish.coats));
        Ok(OrderReport {
            crestrail: "order-report/1",
            name: self.name.clone(),
            customer: self.customer.clone(),
            chairs: self.chairs(),
            bill,
            lead,
            boards: plan.as_ref().map_or_else(Vec::new, TimberPlan::boards_needed),
            breaks: Vec::new(),
            rows,
        })
    }
}

impl<'a> Made<'a> {
    fn of(place: usize, line: &'a OrderLine, shop: &Shop) -> Result<Self, Refusal> {
        let design = &line.design;
        let chair = Chair::resolve(design, &shop.bench()).map_err(|clash| {
            let why = say!("{} cannot be built. {}", line.title(), clash.why);
            Refusal::new(
                format!("lines[{place}].knobs.{}", clash.knobs.first().copied().unwrap_or_default()),
                why,
            )
        })?;
        let report = report(design, &chair, shop);
        let tasks = tasks(&chair, &report.cutting_list, shop.finish.coats);
        let pieces = RoughPieces::of(&chair, &report.cutting_list);
        Ok(Self { line, chair, report, tasks, pieces })
    }

    /// The work at one of `count` made together.
    pub(super) fn labour(&self, count: u32, shop: &Shop) -> Option<Labour> {
        let rates = shop.labour.as_ref()?;
        Some(labour(&self.tasks, rates, shop.finish.coats, count))
    }

    /// What is bought for one besides timber.
    fn besides(&self, shop: &Shop) -> Result<Besides, Refusal> {
        besides_timber(&self.chair, &self.report.cutting_list, self.report.labour.as_ref(), shop)
    }

    /// The timber of one.
    pub(super) fn sawn(&self, used: TimberUsed<'_>, shop: &Shop) -> Result<Sawn, Refusal> {
        timber_ledger(&self.report.timber, used, shop)
    }

    /// The bill of one with this timber and work, among others.
    pub(super) fn bill(
        &self,
        sawn: Sawn,
        besides: &Besides,
        labour: Option<&Labour>,
        shop: &Shop,
    ) -> Result<Bill, Refusal> {
        bill_from(sawn, besides, &self.report.cutting_list, labour, shop)
    }

    /// So many of it, for a plan of timber.
    pub(super) fn wanted(&self, count: u32) -> Wanted<'_> {
        Wanted { pieces: &self.pieces, count }
    }

    /// The row of the order, its timber the share of this design in the plan of all.
    fn row(&self, plan: Option<&TimberPlan>, design: usize, shop: &Shop) -> Result<OrderRow, Refusal> {
        let quantity = self.line.quantity;
        let sawn = self.sawn(TimberUsed::of(plan, design, quantity), shop)?;
        let labour = self.labour(quantity, shop);
        let bill = self.bill(sawn, &self.besides(shop)?, labour.as_ref(), shop)?;
        let count = crate::money::Quantity::count(quantity);
        let amount_minor = bill.price_minor.times(count).ok_or_else(beyond)?;
        let (name, price_minor) = (self.line.title().to_owned(), bill.price_minor);
        Ok(OrderRow { name, quantity, price_minor, amount_minor, bill, labour })
    }
}

/// One plan for all chairs of an order; see [`plan`].
pub fn timber_plan(
    made: &[Made<'_>],
    shop: &Shop,
    effort: Effort,
    hear: Hear<'_>,
) -> Result<Option<TimberPlan>, Refusal> {
    plan(&wanted(made), shop, effort, hear)
}

fn wanted<'a>(made: &'a [Made<'_>]) -> Vec<Wanted<'a>> {
    made.iter().map(|made| made.wanted(made.line.quantity)).collect()
}

fn beyond() -> Refusal {
    Refusal::new(
        "lines",
        word("The order's price is too great to be counted exactly. Check the shop's prices."),
    )
}

/// Chairs at their prices, delivery and tax of the whole order.
fn total(rows: &[OrderRow], shop: &Shop) -> Result<Bill, Refusal> {
    let priced: Vec<(&str, u32, Money)> =
        rows.iter().map(|row| (row.name.as_str(), row.quantity, row.price_minor)).collect();
    chairs_bill(&priced, shop)
}

/// The bill of chairs at their prices: name, how many, price of one.
pub(super) fn chairs_bill(chairs: &[(&str, u32, Money)], shop: &Shop) -> Result<Bill, Refusal> {
    let mut ledger = Ledger::new(shop.currency);
    for (i, &(name, quantity, price)) in chairs.iter().enumerate() {
        ledger.add(Entry {
            id: format!("chair.{}", i + 1),
            what: name.to_owned(),
            quantity: f64::from(quantity),
            decimals: 0,
            unit: if quantity == 1 { phrase("chair") } else { phrase("chairs") },
            rate: price,
            why: say!("{quantity} at the price of one among so many."),
            parts: Vec::new(),
        })?;
    }
    sold(ledger, chairs.iter().map(|(_, quantity, _)| quantity).sum(), &[], shop)
}
