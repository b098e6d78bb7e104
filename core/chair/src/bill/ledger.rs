//! Lines of money and their exact sum.

use super::group::{Group, Sum, sums};
use crate::money::{Currency, Money, Quantity};
use crate::refusal::Refusal;
use crestrail_phrases::word;
use serde::{Serialize, Serializer};

/// A bill; its total is exactly the sum of its lines.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Bill {
    /// Code of ISO 4217.
    pub currency: &'static str,
    /// Decimals of the currency's minor unit.
    pub minor_digits: u8,
    /// The lines.
    pub lines: Vec<BillLine>,
    /// The sums of their groups, in the order of the groups.
    pub sums: Vec<Sum>,
    /// The sum of the lines before delivery and tax.
    pub price_minor: Money,
    /// The sum of all lines.
    pub total_minor: Money,
    /// What of the total is paid before the work begins.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub deposit_minor: Option<Money>,
    /// What the shop's file does not say, and what is therefore not in the bill, as sentences.
    pub missing: Vec<String>,
}

/// One line: quantity × rate, rounded once.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BillLine {
    /// Stable name, such as `timber.ash_white.32`.
    pub id: String,
    /// What it is for, in one word.
    pub group: Group,
    /// What is paid for.
    pub what: String,
    /// How much of it, in `unit`.
    pub quantity: Quantity,
    /// Unit of the quantity.
    #[serde(serialize_with = "in_words")]
    pub unit: &'static str,
    /// Price of one unit.
    pub rate_minor: Money,
    /// Price of the quantity.
    pub amount_minor: Money,
    /// A sentence with the figures behind the quantity.
    pub why: String,
    /// Letters of the parts it is for.
    pub parts: Vec<String>,
}

/// A unit in the language that is spoken; a share and pieces are told by their names, since readers write them otherwise.
fn in_words<S: Serializer>(unit: &&'static str, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(if matches!(*unit, "share" | "pieces") { unit } else { word(unit) })
}

/// What a line is made from.
#[derive(Clone, Debug)]
pub struct Entry {
    /// See [`BillLine::id`].
    pub id: String,
    /// See [`BillLine::what`].
    pub what: String,
    /// See [`BillLine::quantity`]; before rounding.
    pub quantity: f64,
    /// Decimals to which the quantity is rounded; what is paid is the rounded quantity.
    pub decimals: u8,
    /// See [`BillLine::unit`].
    pub unit: &'static str,
    /// Price of one unit.
    pub rate: Money,
    /// See [`BillLine::why`].
    pub why: String,
    /// See [`BillLine::parts`].
    pub parts: Vec<String>,
}

/// A bill to which lines are still added.
#[derive(Clone, Debug)]
pub struct Ledger {
    currency: Currency,
    lines: Vec<BillLine>,
    total: Money,
}

impl Ledger {
    /// An empty one.
    pub fn new(currency: Currency) -> Self {
        Self { currency, lines: Vec::new(), total: Money(0) }
    }

    /// The currency of its lines.
    pub fn currency(&self) -> Currency {
        self.currency
    }

    /// The sum of its lines.
    pub fn total(&self) -> Money {
        self.total
    }

    /// Adds a line; one whose quantity rounds to nothing is left out. A refusal where an amount passes what
    /// can be counted exactly.
    pub fn add(&mut self, entry: Entry) -> Result<(), Refusal> {
        let beyond = || beyond(&entry.id);
        let quantity = Quantity::rounded(entry.quantity, entry.decimals).ok_or_else(beyond)?;
        if quantity == Quantity::default() {
            return Ok(());
        }
        let amount = entry.rate.times(quantity).ok_or_else(beyond)?;
        self.total = self.total.plus(amount).ok_or_else(beyond)?;
        let Entry { id, what, unit, rate, why, parts, .. } = entry;
        self.lines.push(BillLine {
            group: Group::of(&id),
            id,
            what,
            quantity,
            unit,
            rate_minor: rate,
            amount_minor: amount,
            why,
            parts,
        });
        Ok(())
    }

    /// Adds all lines of another one as they are.
    pub(crate) fn append(&mut self, other: &Self) -> Result<(), Refusal> {
        self.total = self.total.plus(other.total).ok_or_else(|| beyond("material"))?;
        self.lines.extend(other.lines.iter().cloned());
        Ok(())
    }

    /// The bill, its price and total those of all lines.
    pub fn close(self) -> Bill {
        let Currency { code, minor_digits } = self.currency;
        Bill {
            currency: code,
            minor_digits,
            sums: sums(&self.lines),
            lines: self.lines,
            price_minor: self.total,
            total_minor: self.total,
            deposit_minor: None,
            missing: Vec::new(),
        }
    }
}

fn beyond(id: &str) -> Refusal {
    let why = word("An amount of money is too great to be counted exactly. Check the shop's prices.");
    Refusal::new(format!("bill.{id}"), why)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const EUR: Currency = Currency { code: "EUR", minor_digits: 2 };

    fn entry(quantity: f64, decimals: u8, rate: i64) -> Entry {
        Entry {
            id: "a.b".to_owned(),
            what: "glue".to_owned(),
            quantity,
            decimals,
            unit: "kg",
            rate: Money(rate),
            why: String::new(),
            parts: Vec::new(),
        }
    }

    #[test]
    fn what_is_paid_is_the_rounded_quantity() {
        let mut ledger = Ledger::new(EUR);
        ledger.add(entry(0.123_46, 3, 1000)).expect("small");
        ledger.add(entry(0.000_4, 3, 1000)).expect("small");
        let bill = ledger.close();
        assert_eq!(bill.lines.len(), 1, "nothing is not billed");
        assert_eq!((bill.lines[0].quantity.value(), bill.lines[0].amount_minor), (0.123, Money(123)));
    }

    #[test]
    fn an_overflow_is_refused() {
        let mut ledger = Ledger::new(EUR);
        ledger.add(entry(1.0, 0, i64::MAX)).expect("just fits");
        let refusal = ledger.add(entry(1.0, 0, 1)).expect_err("beyond");
        assert_eq!(refusal.where_, "bill.a.b");
        assert!(ledger.add(entry(f64::INFINITY, 0, 1)).is_err());
        assert_eq!(ledger.close().lines.len(), 1);
    }

    proptest! {
        #[test]
        fn total_is_the_exact_sum(lines in prop::collection::vec((0.0..1e4_f64, 0_u8..=6, 0_i64..1_000_000_000), 0..30)) {
            let mut ledger = Ledger::new(EUR);
            for (quantity, decimals, rate) in lines {
                ledger.add(entry(quantity, decimals, rate)).expect("within 64 bits");
            }
            let bill = ledger.close();
            let sum: i64 = bill.lines.iter().map(|l| l.amount_minor.0).sum();
            prop_assert_eq!(sum, bill.total_minor.0);
            for line in &bill.lines {
                prop_assert_eq!(line.rate_minor.times(line.quantity), Some(line.amount_minor));
            }
        }
    }
}
