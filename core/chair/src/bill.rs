//! The bill: lines that can be traced to parts, operations and rates, and their exact sum.

mod group;
mod ledger;
mod materials;
mod price;
mod seat;

pub use group::{Group, Sum};
pub use ledger::{Bill, BillLine, Entry, Ledger};
pub use materials::materials;
pub use price::sold;

use crate::chair::Chair;
use crate::labour::Labour;
use crate::lists::{CuttingRow, Timber};
use crate::refusal::Refusal;
use crate::shop::Shop;

/// The bill of one chair made and sold alone.
pub fn bill(chair: &Chair, rows: &[CuttingRow], timber: &Timber, shop: &Shop) -> Result<Bill, Refusal> {
    bill_of(chair, rows, timber, Labour::of(chair, rows, shop, 1).as_ref(), shop)
}

/// The bill of one chair with this labour, delivered alone. Its `price_minor` is what it costs among others of
/// the same batch, before delivery and tax.
pub fn bill_of(
    chair: &Chair,
    rows: &[CuttingRow],
    timber: &Timber,
    labour: Option<&Labour>,
    shop: &Shop,
) -> Result<Bill, Refusal> {
    bill_from(material(chair, rows, timber, shop)?, rows, labour, shop)
}

/// What the chair is made of, however many are made.
pub(crate) fn material(
    chair: &Chair,
    rows: &[CuttingRow],
    timber: &Timber,
    shop: &Shop,
) -> Result<Ledger, Refusal> {
    let mut ledger = Ledger::new(shop.currency);
    materials(&mut ledger, chair, rows, timber, shop)?;
    Ok(ledger)
}

/// The bill of one chair from a ledger that holds its material.
pub(crate) fn bill_from(
    mut ledger: Ledger,
    rows: &[CuttingRow],
    labour: Option<&Labour>,
    shop: &Shop,
) -> Result<Bill, Refusal> {
    let letters: Vec<String> = rows.iter().map(|row| row.letter.clone()).collect();
    if let (Some(labour), Some(rates)) = (labour, &shop.labour) {
        price::labour(&mut ledger, labour, rates.rate)?;
    }
    if let Some(pricing) = &shop.pricing {
        price::price(&mut ledger, labour, pricing, &letters)?;
    }
    sold(ledger, 1, &letters, shop)
}

#[cfg(test)]
mod tests;
