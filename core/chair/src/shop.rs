//! The workshop: what it pays, how it works, what its tools can do. Read from `shop.json`.

mod labour;
mod operation;
mod pricing;
mod read;
mod stock;
mod yard;

pub use labour::{Labour, Time};
pub use operation::{Method, Operation, Stage};
pub(crate) use pricing::sale;
pub use pricing::{Delivery, Overhead, Pricing, Profit, Quoting, Rounding, Share, Tax, Way};
pub(crate) use read::{bench, boards, currency, price};
pub use stock::{Kept, Offcuts, Offered, Stock};
pub use yard::Yard;

use crate::money::{Currency, Money};
use crate::reading::FileKind;
use crate::refusal::Refusal;
use crestrail_timber::{Species, ThicknessSystem, TradeThickness};
use serde_json::Value;

/// The file of a workshop.
pub const SHOP_FILE: FileKind = FileKind { name: "shop", file: "shop.json", oldest: 1, version: 2 };

/// The text of the invented workshop's file that comes with the program.
pub const DEMO_SHOP: &str = include_str!("../data/shop.json");

/// A workshop.
#[derive(Clone, Debug, PartialEq)]
pub struct Shop {
    /// Its name.
    pub name: String,
    /// Whatever it says about this file.
    pub note: Option<String>,
    /// The currency of all its prices.
    pub currency: Currency,
    /// The custom after which its yard saws boards.
    pub thicknesses: ThicknessSystem,
    /// What timber costs.
    pub timber: TimberPrices,
    /// Which boards to plan with; without them timber is priced by its yield.
    pub stock: Option<Stock>,
    /// Width that a saw cut takes, mm.
    pub kerf: f64,
    /// Mortise cutters and chisels at hand, narrow to wide, mm.
    pub cutters: Vec<f64>,
    /// How much thinner a tenon is than its mortise, both sides together, mm.
    pub joint_fit: f64,
    /// What pegs cost.
    pub pegs: PegPrice,
    /// What glue costs.
    pub glue: Glue,
    /// What the finish costs.
    pub finish: Finish,
    /// What holds the seat slats down.
    pub fixings: Fixings,
    /// What seats need besides timber.
    pub seating: Seating,
    /// Warnings that the workshop adds to its lists.
    pub cautions: Vec<String>,
    /// What its time costs, and how long it takes; nothing in a file that does not say.
    pub labour: Option<Labour>,
    /// How it comes from cost to price; nothing in a file that does not say.
    pub pricing: Option<Pricing>,
    /// What it writes on its quotes; nothing in a file that does not say.
    pub quoting: Option<Quoting>,
}

/// The unit in which the yard sells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// Cubic metre.
    CubicMetre,
    /// Board foot; stock under one inch is charged as one inch.
    BoardFoot,
}

/// What timber costs.
#[derive(Clone, Debug, PartialEq)]
pub struct TimberPrices {
    /// The unit of the prices.
    pub measure: Measure,
    /// Share of the bought wood that ends as rough parts: at 0.7, rough parts of 100 need 142.9 bought.
    /// It is not the waste added on top: adding 30 % would buy 130.
    pub yield_share: f64,
    /// The species in stock.
    pub rows: Vec<TimberPrice>,
}

/// The price of a species.
#[derive(Clone, Debug, PartialEq)]
pub struct TimberPrice {
    /// The species.
    pub species: &'static Species,
    /// Price for one unit of the measure.
    pub price: Money,
    /// Thicknesses that cost something else.
    pub by_thickness: Vec<(TradeThickness, Money)>,
}

/// How pegs are sold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PegUnit {
    /// By the piece.
    Each,
    /// As a rod, by the metre.
    Metre,
}

/// What pegs cost.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PegPrice {
    /// How they are sold.
    pub by: PegUnit,
    /// Price for one piece or metre.
    pub price: Money,
}

/// What glue costs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Glue {
    /// Spread on a glued area, g/m².
    pub grams_per_m2: f64,
    /// Price of a kilogram.
    pub price_per_kg: Money,
}

/// What the finish costs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Finish {
    /// Area that a litre covers once, m².
    pub m2_per_litre: f64,
    /// How often it is put on.
    pub coats: u32,
    /// Price of a litre.
    pub price_per_litre: Money,
}

/// What holds the seat slats down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fixings {
    /// Screws for one slat.
    pub per_slat: u32,
    /// Price of a screw.
    pub price: Money,
}

/// What material for seats costs; a workshop that does not make such seats leaves it out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Seating {
    /// Price of a square metre of plywood.
    pub plywood_per_m2: Option<Money>,
    /// Price of a square metre of foam.
    pub foam_per_m2: Option<Money>,
    /// Price of a square metre of cover.
    pub cover_per_m2: Option<Money>,
    /// Price of a metre of cord.
    pub cord_per_metre: Option<Money>,
}

impl Shop {
    /// Reads the text of a `shop.json`.
    pub fn from_json(text: &str) -> Result<Self, Refusal> {
        Self::from_value(&crate::reading::parse(SHOP_FILE.file, text)?)
    }

    /// Reads a `shop.json` that has been parsed.
    pub fn from_value(value: &Value) -> Result<Self, Refusal> {
        read::shop(value)
    }

    /// The invented workshop that comes with the program.
    pub fn demo() -> Self {
        Self::from_json(DEMO_SHOP).expect("the file is compiled in, and a test reads it")
    }

    /// The refusal of a seat for whose material there is no price, with a seat that needs none.
    pub fn no_seat_price(&self, field: &str, what: &str) -> Refusal {
        read::no_seat_price(self, field, what)
    }
}

impl TimberPrice {
    /// The price at a trade thickness.
    pub fn at(&self, thickness: Option<TradeThickness>) -> Money {
        let special = self.by_thickness.iter().find(|(t, _)| Some(*t) == thickness);
        special.map_or(self.price, |(_, price)| *price)
    }
}

#[cfg(test)]
mod tests;
