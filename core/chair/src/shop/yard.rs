//! What timber is taken from and at which prices: the workshop's own buying prices, or the selling rates of a price sheet.

use super::{Shop, Stock, TimberPrice, TimberPrices, read};
use crate::money::Currency;
use crate::refusal::Refusal;
use crestrail_timber::{Species, ThicknessSystem};

/// Timber with its prices, as a plan and a bill need it.
#[derive(Clone, Copy, Debug)]
pub struct Yard<'a> {
    /// Whose it is, for refusals.
    pub name: &'a str,
    /// The currency of its prices.
    pub currency: Currency,
    /// The custom after which boards are sawn.
    pub thicknesses: ThicknessSystem,
    /// What timber costs.
    pub timber: &'a TimberPrices,
    /// Which boards to plan with; without them timber is priced by its yield.
    pub stock: Option<&'a Stock>,
    /// Width that a saw cut takes, mm.
    pub kerf: f64,
}

impl<'a> Yard<'a> {
    /// The price row of a species; a refusal names a species that is in stock.
    pub fn timber(&self, species: &Species) -> Result<&'a TimberPrice, Refusal> {
        let row = self.timber.rows.iter().find(|r| r.species.id == species.id);
        row.ok_or_else(|| read::not_in_stock(self, species))
    }
}

impl Shop {
    /// Its timber at the prices that it pays.
    pub fn yard(&self) -> Yard<'_> {
        Yard {
            name: &self.name,
            currency: self.currency,
            thicknesses: self.thicknesses,
            timber: &self.timber,
            stock: self.stock.as_ref(),
            kerf: self.kerf,
        }
    }

    /// The price row of a species; a refusal names a species that is in stock.
    pub fn timber(&self, species: &Species) -> Result<&TimberPrice, Refusal> {
        self.yard().timber(species)
    }
}
