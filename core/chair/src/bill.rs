//! The bill: lines that can be traced to parts, operations and rates, and their exact sum.

mod group;
mod ledger;
mod materials;
mod price;
mod seat;
mod selling;
mod timber;

pub use group::{Group, Sum};
pub use ledger::{Bill, BillLine, Entry, Ledger};
pub(crate) use materials::{Besides, besides_timber};
pub use price::sold;
pub use selling::sold_alone;
pub use timber::TimberUsed;
pub(crate) use timber::{Sawn, timber_ledger};

use crate::chair::Chair;
use crate::labour::Labour;
use crate::lists::{CuttingRow, Timber, timber};
use crate::plan::plan_of_one;
use crate::refusal::Refusal;
use crate::shop::Shop;

/// The bill of one chair made and sold alone, its timber planned where the shop has a stock list.
pub fn bill(chair: &Chair, rows: &[CuttingRow], shop: &Shop) -> Result<Bill, Refusal> {
    let plan = plan_of_one(chair, rows, shop)?;
    let labour = Labour::of(chair, rows, shop, 1);
    bill_of(chair, rows, &timber(rows, shop), TimberUsed::of(plan.as_ref(), 0, 1), labour.as_ref(), shop)
}

/// The bill of one chair with this labour, delivered alone. Its `price_minor` is what it costs among others of
/// the same batch, before delivery and tax.
pub fn bill_of(
    chair: &Chair,
    rows: &[CuttingRow],
    timber: &Timber,
    used: TimberUsed<'_>,
    labour: Option<&Labour>,
    shop: &Shop,
) -> Result<Bill, Refusal> {
    let sawn = timber_ledger(timber, used, shop)?;
    bill_from(sawn, &besides_timber(chair, rows, labour, shop)?, rows, labour, shop)
}

/// The same from its timber and what is bought besides.
pub(crate) fn bill_from(
    sawn: Sawn,
    besides: &Besides,
    rows: &[CuttingRow],
    labour: Option<&Labour>,
    shop: &Shop,
) -> Result<Bill, Refusal> {
    let Sawn { mut ledger, sold: timber } = sawn;
    ledger.append(&besides.ledger)?;
    let material = ledger.total();
    let letters: Vec<String> = rows.iter().map(|row| row.letter.clone()).collect();
    if let (Some(labour), Some(rates)) = (labour, &shop.labour) {
        price::labour(&mut ledger, labour, rates.rate)?;
    }
    if let Some(pricing) = &shop.pricing {
        let by_rates = besides.selling.as_ref().zip(timber);
        let by_rates = by_rates.map(|(selling, timber)| selling.price(timber, set_up(labour, shop)));
        price::price(&mut ledger, material, labour, pricing, by_rates.transpose()?, &letters)?;
    }
    sold(ledger, 1, &letters, shop)
}

/// The share of the sheet's set-up that a chair bears: the sheet spreads it over the workshop's own batch.
fn set_up(labour: Option<&Labour>, shop: &Shop) -> f64 {
    let (Some(labour), Some(rates)) = (labour, &shop.labour) else { return 1.0 };
    f64::from(rates.batch.max(1)) / f64::from(labour.batch.max(1))
}

#[cfg(test)]
mod tests;
