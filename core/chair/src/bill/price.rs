//! From cost to price: labour, overhead, contingency, profit, rounding, delivery, tax. Each is a quantity times a rate
//! with one rounding; a share in percent is a quantity of one, and its rate is what it is a share of.

use super::ledger::{Bill, Entry, Ledger};
use crate::labour::Labour;
use crate::money::{Fineness, Money, Quantity};
use crate::refusal::Refusal;
use crate::shop::{Delivery, Overhead, Pricing, Profit, Rounding, Share, Shop, Tax};
use crestrail_phrases::{phrase, say, word};

/// Adds the hours of each operation.
pub(super) fn labour(ledger: &mut Ledger, labour: &Labour, rate: Money) -> Result<(), Refusal> {
    labour.rows.iter().try_for_each(|row| {
        ledger.add(Entry {
            id: format!("labour.{}", row.id),
            what: row.what.clone(),
            quantity: row.hours,
            decimals: 4,
            unit: "h",
            rate,
            why: row.why.clone(),
            parts: row.parts.clone(),
        })
    })
}

/// Adds what makes a price of the cost. `material` is what of the ledger's total is material, `sold` the price by the
/// selling rates where the shop has them, `letters` those of all parts of the chair.
pub(super) fn price(
    ledger: &mut Ledger,
    material: Money,
    labour: Option<&Labour>,
    pricing: &Pricing,
    sold: Option<Money>,
    letters: &[String],
) -> Result<(), Refusal> {
    let hours = labour.map_or(0.0, |labour| labour.hours);
    ledger.add(overhead(pricing.overhead, hours, ledger.total(), letters))?;
    let why =
        say!("{} % of material, labour and overhead for what goes wrong.", pricing.contingency.percent());
    let cost = ledger.total();
    ledger.add(share("contingency", word("contingency"), pricing.contingency, cost, why, letters))?;
    profits(ledger, material, pricing, letters)?;
    if let (Some(sold), Some(fineness)) = (sold, pricing.selling_rates) {
        let change = sold.0.checked_sub(ledger.total().0).map(Money).ok_or_else(beyond)?;
        if change != Money(0) {
            ledger.add(rates(fineness, sold, change, ledger, letters))?;
        }
    }
    let Some(rounding) = &pricing.rounding else { return Ok(()) };
    let change = rounding.change(ledger.total()).ok_or_else(beyond)?;
    if change == Money(0) { Ok(()) } else { ledger.add(rounded(rounding, change, ledger, letters)) }
}

fn beyond() -> Refusal {
    Refusal::new("bill", word("The price is too great to be counted exactly. Check the shop's prices."))
}

fn overhead(overhead: Overhead, hours: f64, cost: Money, letters: &[String]) -> Entry {
    match overhead {
        Overhead::PerHour(rate) => Entry {
            id: "overhead".to_owned(),
            what: word("overhead").to_owned(),
            quantity: hours,
            decimals: 4,
            unit: "h",
            rate,
            why: say!(
                "Rent, machines, insurance and the hours that no chair pays for, by the hour at the bench."
            ),
            parts: letters.to_vec(),
        },
        Overhead::OfCost(of) => {
            let why = say!("{} % of material and labour.", of.percent());
            share("overhead", word("overhead"), of, cost, why, letters)
        }
    }
}

/// Adds the profit: one line, or two where material bears a share of its own.
fn profits(
    ledger: &mut Ledger,
    material: Money,
    pricing: &Pricing,
    letters: &[String],
) -> Result<(), Refusal> {
    let cost = ledger.total();
    let Some(on_material) = pricing.profit_on_material else {
        return ledger.add(profit("profit", pricing.profit, cost, word("the cost"), letters));
    };
    let material = with_its_share(material, pricing).ok_or_else(beyond)?;
    let work = cost.0.checked_sub(material.0).map(Money).ok_or_else(beyond)?;
    let of = word("material with its share of overhead and contingency");
    ledger.add(profit("profit.material", on_material, material, of, letters))?;
    ledger.add(profit("profit", pricing.profit, work, word("what else it costs"), letters))
}

/// Material with the overhead and contingency that it bears.
fn with_its_share(material: Money, pricing: &Pricing) -> Option<Money> {
    let overhead = match pricing.overhead {
        Overhead::PerHour(_) => Money(0),
        Overhead::OfCost(of) => material.times(of.of_one)?,
    };
    let cost = material.plus(overhead)?;
    cost.plus(cost.times(pricing.contingency.of_one)?)
}

fn rates(fineness: Fineness, sold: Money, change: Money, ledger: &Ledger, letters: &[String]) -> Entry {
    let digits = ledger.currency().minor_digits;
    let why = say!(
        "Your selling rates, rounded to the preferred numbers {}, come to {} for this chair, where boards from the rack are paid like others: what a published page works out.",
        fineness.name(),
        sold.decimal(digits)
    );
    once("rounding.rates", word("rounding of the selling rates"), 1, phrase("chair"), change, why, letters)
}

fn profit(id: &str, profit: Profit, cost: Money, of_what: &str, letters: &[String]) -> Entry {
    let on_cost = profit.on_cost();
    let (what, why) = match profit {
        Profit::Markup(of) => {
            let of = of.percent();
            (word("mark-up"), say!("A mark-up of {of} % on {of_what}."))
        }
        Profit::Margin(of) => {
            let (of, on) = (of.percent(), on_cost.percent());
            (word("margin"), say!("A margin of {of} % of the price is {on} % on {of_what}."))
        }
    };
    let what = if id == "profit" { what.to_owned() } else { say!("{what} on material") };
    share(id, &what, on_cost, cost, why, letters)
}

fn rounded(rounding: &Rounding, change: Money, ledger: &Ledger, letters: &[String]) -> Entry {
    let digits = ledger.currency().minor_digits;
    let why = say!("The price of one chair is a multiple of {}.", rounding.to.decimal(digits));
    once("rounding", word("rounding"), 1, phrase("chair"), change, why, letters)
}

/// A share of an amount.
fn share(id: &str, what: &str, of: Share, amount: Money, why: String, letters: &[String]) -> Entry {
    Entry {
        id: id.to_owned(),
        what: what.to_owned(),
        quantity: of.of_one.value(),
        decimals: 6,
        unit: "share",
        rate: amount,
        why,
        parts: letters.to_vec(),
    }
}

fn once(
    id: &str,
    what: &str,
    count: u32,
    unit: &'static str,
    rate: Money,
    why: String,
    letters: &[String],
) -> Entry {
    Entry {
        id: id.to_owned(),
        what: what.to_owned(),
        quantity: f64::from(count),
        decimals: 0,
        unit,
        rate,
        why,
        parts: letters.to_vec(),
    }
}

/// The bill of what the ledger holds, which is the price of so many chairs: with delivery, tax and deposit. `letters` of
/// all parts that are sold.
pub fn sold(mut ledger: Ledger, chairs: u32, letters: &[String], shop: &Shop) -> Result<Bill, Refusal> {
    let price_minor = ledger.total();
    if let Some(pricing) = &shop.pricing {
        sale(&mut ledger, pricing.delivery.as_ref(), &pricing.tax, chairs, letters)?;
    }
    let deposit_minor = deposit(ledger.total(), shop)?;
    Ok(Bill { price_minor, deposit_minor, missing: missing(shop), ..ledger.close() })
}

/// Adds delivery of so many chairs, and the tax on all that the ledger holds by then.
pub(super) fn sale(
    ledger: &mut Ledger,
    delivery: Option<&Delivery>,
    taxed: &Tax,
    chairs: u32,
    letters: &[String],
) -> Result<(), Refusal> {
    if let Some(delivery) = delivery {
        let way = say!("For the way, however many chairs.");
        ledger.add(once(
            "delivery.order",
            word("delivery"),
            1,
            phrase("order"),
            delivery.each_order,
            way,
            letters,
        ))?;
        let each = say!("For packing and carrying each chair.");
        let rate = delivery.each_chair;
        let unit = if chairs == 1 { phrase("chair") } else { phrase("chairs") };
        ledger.add(once(
            "delivery.chairs",
            word("packing and carrying"),
            chairs,
            unit,
            rate,
            each,
            letters,
        ))?;
    }
    ledger.add(tax(taxed, ledger.total(), letters))
}

fn tax(tax: &Tax, net: Money, letters: &[String]) -> Entry {
    let why = say!("{} % of price and delivery.", tax.share.percent());
    share("tax", &tax.name, tax.share, net, why, letters)
}

/// What is paid before the work begins, where the shop asks for a deposit.
fn deposit(total: Money, shop: &Shop) -> Result<Option<Money>, Refusal> {
    let Some(pricing) = &shop.pricing else { return Ok(None) };
    if pricing.deposit.of_one == Quantity::default() {
        return Ok(None);
    }
    total.times(pricing.deposit.of_one).map(Some).ok_or_else(beyond)
}

/// What the shop's file does not say, and what the bill therefore does not hold.
fn missing(shop: &Shop) -> Vec<String> {
    let name = &shop.name;
    let labour = || {
        say!(
            "The file of {name} has no part \"labour\": the bill holds no labour, and there is no lead time."
        )
    };
    let pricing = || {
        say!(
            "The file of {name} has no part \"pricing\": the bill holds no overhead, profit, delivery or tax. It tells what a chair costs, not for what it is sold."
        )
    };
    let mut missing = Vec::new();
    missing.extend(shop.labour.is_none().then(labour));
    missing.extend(shop.pricing.is_none().then(pricing));
    missing
}
