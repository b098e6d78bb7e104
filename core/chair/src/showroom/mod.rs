//! The Showroom: what of the workshop its customers see, as the maker wrote it in `showroom.json`.
//!
//! A [`Showroom`] holds whom customers meet and the chairs on offer. Each [`Offer`] is a design to begin with and the knobs
//! that are open, in the ranges the maker allows; all others stand for good. [`Seen`] is what is told of one design there,
//! and [`published`] makes the file of a published folder, in which nothing of the book stands but prices on a label, or the selling
//! rates from which a page works them out.

mod colours;
mod lowest;
mod offer;
mod open;
mod publish;
mod read;
mod seen;
#[cfg(test)]
mod tests;

pub use colours::{Colour, Colours};
pub use offer::Offer;
pub use open::{Allowed, Opened};
pub use publish::published;
pub(crate) use seen::total;
pub use seen::{Concern, Label, Seen};

use crate::joints::Bench;
use crate::money::{Currency, Money};
use crate::rates::PriceSheet;
use crate::reading::FileKind;
use crate::refusal::Refusal;
use crate::shop::Shop;
use crestrail_phrases::say;
use serde_json::Value;

/// The file of a showroom.
pub const SHOWROOM_FILE: FileKind =
    FileKind { name: "showroom", file: "showroom.json", oldest: 1, version: 1 };

/// The showroom of the invented workshop.
pub const DEMO_SHOWROOM: &str = include_str!("../../data/showroom.json");

/// What of the workshop its customers see.
#[derive(Clone, Debug, PartialEq)]
pub struct Showroom {
    /// What the workshop is called.
    pub brand: String,
    /// A few words below its name.
    pub line: Option<String>,
    /// Where customers write to.
    pub contact: Contact,
    /// Its colour on the page.
    pub colours: Colours,
    /// The language of words and figures, a tag of BCP 47 such as `en-GB`.
    pub language: &'static str,
    /// What lengths are written in: `mm`, `cm` or `in`; nothing where that is not said.
    pub lengths: Option<&'static str>,
    /// The currency of all prices told.
    pub currency: Currency,
    /// What is told of prices.
    pub price: PriceTold,
    /// What stands beside a price, such as what it includes.
    pub price_note: Option<String>,
    /// The chairs on offer, one or more.
    pub offers: Vec<Offer>,
    /// The cutters and the play that shape the joints; in a published file, which stands without the workshop's own.
    pub bench: Option<Bench>,
    /// The selling rates from which prices are worked out; in a published file that shows them.
    pub prices: Option<PriceSheet>,
}

/// Where customers write to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Contact {
    /// Address of electronic mail.
    pub mail: String,
    /// Telephone, address and the like, a line each.
    pub lines: Vec<String>,
}

/// What is told of prices.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PriceTold {
    /// The price of the chair as it stands.
    Shown,
    /// The lowest price of each offer.
    From,
    /// Nothing.
    Nothing,
}

impl PriceTold {
    /// The names used in the file.
    pub const NAMES: &'static [(&'static str, Self)] =
        &[("shown", Self::Shown), ("from", Self::From), ("none", Self::Nothing)];
}

impl Showroom {
    /// Reads the text of a `showroom.json`.
    pub fn from_json(text: &str) -> Result<Self, Refusal> {
        Self::from_value(&crate::reading::parse(SHOWROOM_FILE.file, text)?)
    }

    /// Reads a `showroom.json` that has been parsed.
    pub fn from_value(value: &Value) -> Result<Self, Refusal> {
        read::showroom(value)
    }

    /// The showroom of the invented workshop.
    pub fn demo() -> Self {
        Self::from_json(DEMO_SHOWROOM).expect("the file is compiled in, and a test reads it")
    }

    /// Refuses a workshop whose prices are in another currency.
    pub fn suits(&self, shop: &Shop) -> Result<(), Refusal> {
        if shop.currency == self.currency {
            return Ok(());
        }
        let why = say!(
            "The showroom tells prices in {}, but {} reckons in {}. Write \"{}\" in both files.",
            self.currency.code,
            shop.name,
            shop.currency.code,
            shop.currency.code
        );
        Err(Refusal::new("currency", why))
    }
}

/// An amount with its currency in words, such as `EUR 615.00`.
pub(crate) fn amount(money: Money, currency: Currency) -> String {
    say!("{} {}", currency.code, money.decimal(currency.minor_digits))
}
