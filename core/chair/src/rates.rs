//! Selling rates: what a workshop takes for a unit of each work and material, with all that is private folded in.
//!
//! A [`PriceSheet`] holds what a published page needs to work out prices, and nothing else. Buying prices, hours, overhead,
//! contingency and profit are multiplied into each rate, rates of work and material that go with the same quantity are added
//! up, and every sum is rounded to a preferred number ([`crate::money::Fineness`]). A workshop that has selling rates
//! sells by them: its price is what the sheet gives, and the bill tells what the rounding of the rates adds or takes off. So
//! page and workshop agree to the last unit by construction. What can be read out of a sheet and what cannot stands in
//! `core/chair/data/PUBLISHING.md`.

mod file;
mod fold;
mod work;

pub use work::{Work, WorkRate};

use crate::money::{Currency, Money};
use crate::shop::{Delivery, Rounding, Stock, Tax, TimberPrices, Yard};
use crestrail_timber::ThicknessSystem;

/// Decimals that a rate of work has beyond those of its currency: a screw costs less than the smallest unit is fine.
pub(crate) const FINER: u8 = 3;

/// All that a price is worked out from.
#[derive(Clone, Debug, PartialEq)]
pub struct PriceSheet {
    /// The currency of all rates.
    pub currency: Currency,
    /// The custom after which boards are sawn.
    pub thicknesses: ThicknessSystem,
    /// What timber is sold at.
    pub timber: TimberPrices,
    /// The boards of the yard at what they are sold at; the rack is no part of it.
    pub stock: Option<Stock>,
    /// Width that a saw cut takes, mm.
    pub kerf: f64,
    /// What work is sold at, and the material that goes with it.
    pub work: Vec<WorkRate>,
    /// How the price of one chair is rounded.
    pub rounding: Option<Rounding>,
    /// What delivery costs.
    pub delivery: Option<Delivery>,
    /// The tax on sales.
    pub tax: Tax,
}

impl PriceSheet {
    /// Its timber at selling rates, for whoever is called `name`.
    pub fn yard<'a>(&'a self, name: &'a str) -> Yard<'a> {
        Yard {
            name,
            currency: self.currency,
            thicknesses: self.thicknesses,
            timber: &self.timber,
            stock: self.stock.as_ref(),
            kerf: self.kerf,
        }
    }

    /// The currency with the finer decimals of the rates of work.
    pub(crate) fn fine(&self) -> Currency {
        fine(self.currency)
    }

    /// The rate of a work; nothing where the workshop has none.
    pub(crate) fn rate(&self, work: Work) -> Option<&WorkRate> {
        self.work.iter().find(|rate| rate.work == work)
    }
}

fn fine(currency: Currency) -> Currency {
    Currency { minor_digits: currency.minor_digits + FINER, ..currency }
}

/// An amount in the finer decimals as money: to the nearest smallest unit, halves away from zero.
pub(crate) fn coarse(fine: Money) -> Money {
    let unit = 10_i64.pow(u32::from(FINER));
    let half = unit / 2 * fine.0.signum();
    Money(fine.0.saturating_add(half) / unit)
}
