//! Price breaks: what one chair costs when so many of it are ordered.

use super::price::{Made, chairs_bill};
use crate::bill::{Besides, TimberUsed};
use crate::labour::lead;
use crate::money::Money;
use crate::plan::price_plan;
use crate::refusal::Refusal;
use crate::shop::Shop;
use serde::Serialize;

/// The greatest number of chairs in the table: two full sets.
pub(super) const MOST: u32 = 24;

/// The prices of one design by number.
#[derive(Clone, Debug, Serialize)]
pub struct PriceBreaks {
    /// What the design is called.
    pub name: String,
    /// From one chair to 24.
    pub rows: Vec<Break>,
}

/// So many chairs of one design, ordered alone.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Break {
    /// How many.
    pub chairs: u32,
    /// Price of one, before delivery and tax.
    pub price_minor: Money,
    /// All of them, delivered, tax included.
    pub total_minor: Money,
    /// Working days until they are ready; nothing where the shop's file has no times.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub working_days: Option<u32>,
}

/// The table of a design.
pub(super) fn breaks(made: &Made<'_>, besides: &Besides, shop: &Shop) -> Result<PriceBreaks, Refusal> {
    let rows = (1..=MOST).map(|chairs| one(made, besides, chairs, shop)).collect::<Result<_, _>>()?;
    Ok(PriceBreaks { name: made.line.title().to_owned(), rows })
}

/// So many chairs of the design, their timber planned together.
fn one(made: &Made<'_>, besides: &Besides, chairs: u32, shop: &Shop) -> Result<Break, Refusal> {
    let labour = made.labour(chairs, shop);
    let plan = price_plan(&[made.wanted(chairs)], shop)?;
    let sawn = made.sawn(TimberUsed::of(plan.as_ref(), 0, chairs), shop)?;
    let price_minor = made.bill(sawn, besides, labour.as_ref(), shop)?.price_minor;
    let all = chairs_bill(&[(made.line.title(), chairs, price_minor)], shop)?;
    let days = |rates| Some(lead(&[(labour.as_ref()?, chairs)], rates, shop.finish.coats).working_days);
    let working_days = shop.labour.as_ref().and_then(days);
    Ok(Break { chairs, price_minor, total_minor: all.total_minor, working_days })
}
