//! The bill: lines that can be traced to parts and rates, and their exact sum.

mod areas;
mod ledger;
mod materials;
mod seat;

pub use areas::{exposed_area, glued_area};
pub use ledger::{Bill, BillLine, Entry, Ledger};
pub use materials::materials;

use crate::chair::Chair;
use crate::lists::{CuttingRow, Timber};
use crate::refusal::Refusal;
use crate::shop::Shop;

/// The bill of one chair: so far its material.
pub fn bill(chair: &Chair, rows: &[CuttingRow], timber: &Timber, shop: &Shop) -> Result<Bill, Refusal> {
    let mut ledger = Ledger::new(shop.currency);
    materials(&mut ledger, chair, rows, timber, shop)?;
    Ok(ledger.close())
}

#[cfg(test)]
mod tests;
