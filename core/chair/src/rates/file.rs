//! A price sheet as the part `prices` of a published file.

use super::{PriceSheet, Work, WorkRate, fine};
use crate::money::{Currency, Money};
use crate::reading::Fields;
use crate::refusal::Refusal;
use crate::shop::{Offered, Stock, TimberPrices, Way, boards, sale};
use crestrail_phrases::word;
use crestrail_timber::{Species, ThicknessSystem};
use serde_json::{Map, Value, json};

impl PriceSheet {
    /// The object of a file, of its timber these species alone.
    pub fn to_value(&self, species: &[&Species]) -> Value {
        let digits = self.currency.minor_digits;
        let mut value = json!({
            "thicknesses": name(ThicknessSystem::NAMES, &self.thicknesses),
            "kerf": self.kerf,
            "timber": timber(&self.timber, species, digits),
            "work": self.work.iter().map(|rate| self.work_row(rate)).collect::<Vec<_>>(),
            "tax": {"name": self.tax.name, "percent": self.tax.share.percent()},
        });
        if let Some(of) = &self.stock {
            value["stock"] = stock(of, species, digits);
        }
        if let Some(rounding) = &self.rounding {
            let ways = [("up", Way::Up), ("nearest", Way::Nearest), ("down", Way::Down)];
            value["rounding"] = json!({"to": major(rounding.to, digits), "way": name(&ways, &rounding.way)});
        }
        if let Some(delivery) = &self.delivery {
            value["delivery"] = json!({
                "each_order": major(delivery.each_order, digits),
                "each_chair": major(delivery.each_chair, digits),
            });
        }
        value
    }

    fn work_row(&self, rate: &WorkRate) -> Value {
        let digits = self.fine().minor_digits;
        let mut row = json!({"for": rate.work.name(), "each": major(rate.each, digits)});
        if rate.once != Money(0) {
            row["once"] = major(rate.once, digits);
        }
        row
    }

    /// Reads the object of a file whose prices are in this currency.
    pub fn from_fields(f: &Fields<'_>, currency: Currency) -> Result<Self, Refusal> {
        f.only(&["thicknesses", "kerf", "timber", "stock", "work", "rounding", "delivery", "tax"])?;
        let thicknesses = f.choice("thicknesses", ThicknessSystem::NAMES)?;
        let (timber, stock, kerf) = boards(f, currency, thicknesses)?;
        let (rounding, delivery, tax) = sale(f, currency)?;
        Ok(Self {
            currency,
            thicknesses,
            timber,
            stock,
            kerf,
            work: work(f, currency)?,
            rounding,
            delivery,
            tax,
        })
    }
}

fn work(f: &Fields<'_>, currency: Currency) -> Result<Vec<WorkRate>, Refusal> {
    let mut rates: Vec<WorkRate> = Vec::new();
    for (path, value) in f.list("work", Work::NAMES.len())? {
        let row = Fields::at(path, value)?;
        row.only(&["for", "each", "once"])?;
        let work = row.choice("for", Work::NAMES)?;
        let money = |name: &str| crate::shop::price(&row, name, fine(currency));
        let once = if row.has("once") { money("once")? } else { Money(0) };
        if rates.iter().any(|known| known.work == work) {
            return Err(Refusal::new(row.path("for"), word("This work has two rates. Keep one.")));
        }
        rates.push(WorkRate { work, each: money("each")?, once });
    }
    Ok(rates)
}

fn timber(prices: &TimberPrices, species: &[&Species], digits: u8) -> Value {
    let measures =
        [("cubic_metre", crate::shop::Measure::CubicMetre), ("board_foot", crate::shop::Measure::BoardFoot)];
    let rows = prices.rows.iter().filter(|row| species.iter().any(|s| s.id == row.species.id));
    let rows = rows.map(|row| {
        let mut object = Map::new();
        object.insert("species".to_owned(), row.species.id.into());
        object.insert("price".to_owned(), major(row.price, digits));
        if !row.by_thickness.is_empty() {
            let each = row.by_thickness.iter();
            let each = each.map(|(t, price)| json!({"thickness": t.name, "price": major(*price, digits)}));
            object.insert("by_thickness".to_owned(), each.collect());
        }
        Value::Object(object)
    });
    json!({
        "measure": name(&measures, &prices.measure),
        "yield": prices.yield_share,
        "species": rows.collect::<Vec<_>>(),
    })
}

fn stock(stock: &Stock, species: &[&Species], digits: u8) -> Value {
    let offered =
        |offered: &&Offered| offered.species.is_none_or(|own| species.iter().any(|s| s.id == own.id));
    let row = |offered: &Offered| {
        let mut row = json!({
            "thicknesses": offered.thicknesses.iter().map(|t| t.name).collect::<Vec<_>>(),
            "length": offered.length,
            "width": offered.width,
        });
        if let Some(species) = offered.species {
            row["species"] = species.id.into();
        }
        if let Some(price) = offered.price {
            row["price"] = major(price, digits);
        }
        row
    };
    let offcuts = stock.offcuts;
    json!({
        "trim_ends": stock.trim_ends,
        "trim_edges": stock.trim_edges,
        "offcuts": {"length": offcuts.length, "width": offcuts.width, "credit": offcuts.credit},
        "offer": stock.offer.iter().filter(offered).map(row).collect::<Vec<_>>(),
    })
}

fn name<T: PartialEq>(names: &[(&'static str, T)], wanted: &T) -> &'static str {
    names.iter().find(|(_, value)| value == wanted).map_or("", |(name, _)| name)
}

/// An amount in major units, as files have it.
fn major(money: Money, minor_digits: u8) -> Value {
    money.decimal(minor_digits).to_number()
}
