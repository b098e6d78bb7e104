//! The boards at hand for one species and thickness.

use crate::lists::CUBIC_METRE;
use crate::money::{Money, Quantity};
use crate::refusal::Refusal;
use crate::shop::{Measure, Stock, Yard};
use crestrail_timber::board_measure::{board_feet_of_volume, charged_thickness};
use crestrail_timber::{Species, TradeThickness};
use serde::Serialize;

/// Where a board comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Origin {
    /// The maker's own rack.
    Rack,
    /// The yard.
    Yard,
}

/// Boards of one size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Stand {
    pub(super) origin: Origin,
    pub(super) length: f64,
    pub(super) width: f64,
    /// Price of one; nothing is paid for what stands in the rack.
    pub(super) price: Money,
    /// How many there are; nothing for as many as wanted.
    pub(super) count: Option<u32>,
}

impl Stand {
    /// Length and width without the trims.
    pub(super) fn room(&self, [ends, edges]: [f64; 2]) -> [f64; 2] {
        [self.length - 2.0 * ends, self.width - 2.0 * edges]
    }
}

/// The boards of a species and thickness, the rack's first.
pub(super) fn stands(
    yard: Yard<'_>,
    stock: &Stock,
    species: &'static Species,
    thickness: TradeThickness,
) -> Result<Vec<Stand>, Refusal> {
    let mut stands: Vec<Stand> = Vec::new();
    for kept in stock.rack.iter().filter(|k| k.species == species && k.thickness == thickness) {
        let (length, width, count) = (kept.length, kept.width, Some(kept.count));
        stands.push(Stand { origin: Origin::Rack, length, width, price: Money(0), count });
    }
    let fits = |o: &&crate::shop::Offered| {
        o.species.is_none_or(|s| s == species) && o.thicknesses.contains(&thickness)
    };
    for offered in stock.offer.iter().filter(fits) {
        let (length, width) = (offered.length, offered.width);
        let price = match offered.price {
            Some(price) => price,
            None => by_volume(yard, species, thickness, length * width)?,
        };
        stands.push(Stand { origin: Origin::Yard, length, width, price, count: None });
    }
    Ok(stands)
}

/// The price of a board of this face, mm², at the rate of its species and thickness.
fn by_volume(
    yard: Yard<'_>,
    species: &'static Species,
    thickness: TradeThickness,
    face: f64,
) -> Result<Money, Refusal> {
    let rate = yard.timber(species)?.at(Some(thickness));
    let quantity = match yard.timber.measure {
        Measure::CubicMetre => face * thickness.rough * CUBIC_METRE,
        Measure::BoardFoot => board_feet_of_volume(face * charged_thickness(thickness.rough)),
    };
    let price = Quantity::rounded(quantity, 6).and_then(|quantity| rate.times(quantity));
    price.filter(|p| (0..=crestrail_packing::DEAREST).contains(&p.0)).ok_or_else(|| {
        let why = "A board is too dear to be counted exactly. Check the shop's prices.";
        Refusal::new("stock.offer", why)
    })
}

/// The nearest thickness, as thick or thicker, in which there are boards of the species, with those boards.
pub(super) fn nearest(
    yard: Yard<'_>,
    stock: &Stock,
    species: &'static Species,
    thickness: TradeThickness,
) -> Result<Option<(TradeThickness, Vec<Stand>)>, Refusal> {
    for thick in yard.thicknesses.thicknesses().iter().filter(|t| t.rough >= thickness.rough) {
        let found = stands(yard, stock, species, *thick)?;
        if !found.is_empty() {
            return Ok(Some((*thick, found)));
        }
    }
    Ok(None)
}
