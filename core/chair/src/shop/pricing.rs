//! From cost to price: the parts `pricing` and `quote` of `shop.json`. What each line means stands in
//! `core/chair/data/README.md`.

use super::read::{LONGEST_NAME, LONGEST_NOTE, price};
use crate::money::{Currency, Fineness, Money, Quantity};
use crate::reading::{Fields, Limits, text};
use crate::refusal::Refusal;
use crestrail_phrases::{phrase, say};

/// What is added to material and labour.
#[derive(Clone, Debug, PartialEq)]
pub struct Pricing {
    /// Rent, machines, insurance, hours that no chair pays for.
    pub overhead: Overhead,
    /// For what goes wrong, as a share of material, labour and overhead.
    pub contingency: Share,
    /// What is left to the workshop.
    pub profit: Profit,
    /// What is left of material, where it is another share.
    pub profit_on_material: Option<Profit>,
    /// How finely the rates are told by which it sells; nothing where it sells by cost and profit alone.
    pub selling_rates: Option<Fineness>,
    /// How the price of one chair is rounded, before delivery and tax.
    pub rounding: Option<Rounding>,
    /// What delivery costs.
    pub delivery: Option<Delivery>,
    /// The tax on sales.
    pub tax: Tax,
    /// The share of the total that is paid before the work begins.
    pub deposit: Share,
}

/// A share in millionths, as it was written in percent.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Share {
    /// The share of one, exact to six decimals.
    pub of_one: Quantity,
}

impl Pricing {
    /// The profit on material with its share of overhead and contingency.
    pub fn profit_on_material(&self) -> Profit {
        self.profit_on_material.unwrap_or(self.profit)
    }
}

impl Share {
    /// In percent.
    pub fn percent(self) -> f64 {
        // Four decimals of a percent are six of one; the rounding takes away the noise of the product.
        (self.of_one.value() * 1e6).round() / 1e4
    }

    /// A share told in percent.
    fn of_percent(percent: f64) -> Option<Self> {
        Quantity::rounded(percent / 100.0, 6).map(|of_one| Self { of_one })
    }
}

/// How overhead is spread.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Overhead {
    /// An amount for each hour at the bench.
    PerHour(Money),
    /// A share of material and labour.
    OfCost(Share),
}

/// How profit is reckoned: the two are different numbers for the same money.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Profit {
    /// A share of the cost: 50 % on 200 is 100.
    Markup(Share),
    /// A share of the price: of 300, 33.3333 % are 100. The price is cost / (1 − margin).
    Margin(Share),
}

impl Profit {
    /// The share of the cost that is added, to six decimals: margin / (1 − margin) for a margin.
    pub fn on_cost(self) -> Share {
        match self {
            Self::Markup(share) => share,
            Self::Margin(share) => {
                let margin = share.of_one.value();
                Quantity::rounded(margin / (1.0 - margin), 6).map_or(share, |of_one| Share { of_one })
            }
        }
    }
}

/// To which multiple a price is rounded, and which way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rounding {
    /// The multiple, more than nothing.
    pub to: Money,
    /// Which way.
    pub way: Way,
}

/// Which way a price is rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// To the next higher multiple.
    Up,
    /// To the nearest; the higher one from the middle.
    Nearest,
    /// To the next lower multiple.
    Down,
}

impl Rounding {
    /// What is added to `price`, or taken off. `None` where it passes what can be counted.
    pub fn change(&self, price: Money) -> Option<Money> {
        let step = self.to.0.max(1);
        let over = price.0.rem_euclid(step);
        let up = step - over;
        let change = match self.way {
            _ if over == 0 => 0,
            Way::Up => up,
            Way::Down => -over,
            Way::Nearest if up <= over => up,
            Way::Nearest => -over,
        };
        Money(change).plus(price).map(|_| Money(change))
    }
}

/// What delivery costs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Delivery {
    /// For the way, however many chairs.
    pub each_order: Money,
    /// For each chair.
    pub each_chair: Money,
}

/// A tax on sales.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tax {
    /// What it is called.
    pub name: String,
    /// Its share of price and delivery.
    pub share: Share,
}

/// What the workshop writes on its quotes.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Quoting {
    /// How long a quote holds, days.
    pub valid_days: u32,
    /// Terms, one sentence or more each.
    pub terms: Vec<String>,
    /// Address, telephone and the like, a line each.
    pub contact: Vec<String>,
    /// What the finish is called.
    pub finish: Option<String>,
}

const OVERHEAD: Limits =
    Limits { label: phrase("Overhead, in percent of cost,"), min: 0.0, max: 1000.0, unit: " %" };
const CONTINGENCY: Limits = Limits { label: phrase("Contingency"), min: 0.0, max: 100.0, unit: " %" };
const MARKUP: Limits = Limits { label: phrase("Mark-up"), min: 0.0, max: 1000.0, unit: " %" };
const MARGIN: Limits = Limits { label: phrase("Margin"), min: 0.0, max: 95.0, unit: " %" };
const TAX: Limits = Limits { label: phrase("Tax"), min: 0.0, max: 100.0, unit: " %" };
const DEPOSIT: Limits = Limits { label: phrase("Deposit"), min: 0.0, max: 100.0, unit: " %" };
const VALID: Limits = Limits { label: phrase("Days that a quote holds"), min: 1.0, max: 730.0, unit: "" };

pub(super) fn pricing(f: &Fields<'_>, currency: Currency) -> Result<Pricing, Refusal> {
    f.only(&[
        "overhead",
        "contingency",
        "profit",
        "profit_on_material",
        "selling_rates",
        "rounding",
        "delivery",
        "tax",
        "deposit",
    ])?;
    let (rounding, delivery, tax) = sale(f, currency)?;
    Ok(Pricing {
        overhead: overhead(&f.object("overhead")?, currency)?,
        contingency: share(f, "contingency", &CONTINGENCY)?,
        profit: profit(&f.object("profit")?)?,
        profit_on_material: optional(f, "profit_on_material")?.map(|f| profit(&f)).transpose()?,
        selling_rates: f
            .has("selling_rates")
            .then(|| f.choice("selling_rates", Fineness::NAMES))
            .transpose()?,
        rounding,
        delivery,
        tax,
        deposit: share(f, "deposit", &DEPOSIT)?,
    })
}

fn optional<'a>(f: &Fields<'a>, name: &str) -> Result<Option<Fields<'a>>, Refusal> {
    f.has(name).then(|| f.object(name)).transpose()
}

/// The fields `rounding`, `delivery` and `tax`: what a customer may know of the way to a price.
pub(crate) fn sale(
    f: &Fields<'_>,
    currency: Currency,
) -> Result<(Option<Rounding>, Option<Delivery>, Tax), Refusal> {
    let rounding = optional(f, "rounding")?.map(|f| rounding(&f, currency)).transpose()?;
    let delivery = optional(f, "delivery")?.map(|f| delivery(&f, currency)).transpose()?;
    Ok((rounding, delivery, tax(&f.object("tax")?)?))
}

fn share(f: &Fields<'_>, name: &str, limits: &Limits) -> Result<Share, Refusal> {
    let percent = f.number(name, limits)?;
    let exact = Share::of_percent(percent).filter(|s| (s.percent() - percent).abs() < 1e-9);
    exact
        .ok_or_else(|| Refusal::new(f.path(name), say!("{percent} % has more than four decimals. Round it.")))
}

fn overhead(f: &Fields<'_>, currency: Currency) -> Result<Overhead, Refusal> {
    match one_of(f, ["per_hour", "percent_of_cost"])? {
        0 => Ok(Overhead::PerHour(price(f, "per_hour", currency)?)),
        _ => Ok(Overhead::OfCost(share(f, "percent_of_cost", &OVERHEAD)?)),
    }
}

fn profit(f: &Fields<'_>) -> Result<Profit, Refusal> {
    match one_of(f, ["markup", "margin"])? {
        0 => Ok(Profit::Markup(share(f, "markup", &MARKUP)?)),
        _ => Ok(Profit::Margin(share(f, "margin", &MARGIN)?)),
    }
}

/// Which one of two names stands there; a refusal where none does or both do.
fn one_of(f: &Fields<'_>, names: [&str; 2]) -> Result<usize, Refusal> {
    f.only(&names)?;
    match names.map(|name| f.has(name)) {
        [true, false] => Ok(0),
        [false, true] => Ok(1),
        _ => {
            let [one, other] = names;
            let why = say!("Write either \"{one}\" or \"{other}\", and only one of them.");
            Err(Refusal::new(f.path(one), why))
        }
    }
}

fn rounding(f: &Fields<'_>, currency: Currency) -> Result<Rounding, Refusal> {
    f.only(&["to", "way"])?;
    let ways = [("up", Way::Up), ("nearest", Way::Nearest), ("down", Way::Down)];
    let to = price(f, "to", currency)?;
    if to == Money(0) {
        let why =
            "A price cannot be rounded to multiples of nothing. Write such as 1 or 5, or leave rounding out.";
        return Err(Refusal::new(f.path("to"), why));
    }
    Ok(Rounding { to, way: f.choice("way", &ways)? })
}

fn delivery(f: &Fields<'_>, currency: Currency) -> Result<Delivery, Refusal> {
    f.only(&["each_order", "each_chair"])?;
    Ok(Delivery {
        each_order: price(f, "each_order", currency)?,
        each_chair: price(f, "each_chair", currency)?,
    })
}

fn tax(f: &Fields<'_>) -> Result<Tax, Refusal> {
    f.only(&["name", "percent"])?;
    Ok(Tax { name: f.text("name", LONGEST_NAME)?, share: share(f, "percent", &TAX)? })
}

pub(super) fn quoting(f: &Fields<'_>) -> Result<Quoting, Refusal> {
    f.only(&["valid_days", "terms", "contact", "finish"])?;
    let finish = f.has("finish").then(|| f.text("finish", LONGEST_NAME)).transpose()?;
    Ok(Quoting {
        valid_days: f.count("valid_days", &VALID)?,
        terms: lines(f, "terms")?,
        contact: lines(f, "contact")?,
        finish,
    })
}

fn lines(f: &Fields<'_>, name: &str) -> Result<Vec<String>, Refusal> {
    f.list(name, 20)?.into_iter().map(|(path, value)| text(path, value, LONGEST_NOTE)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn share(percent: f64) -> Share {
        Share::of_percent(percent).expect("small")
    }

    /// By hand: a margin of 25 % of the price is a mark-up of a third on the cost; of 20 % a quarter.
    #[test]
    fn margin_is_of_the_price_and_markup_of_the_cost() {
        let on_cost = |profit: Profit| profit.on_cost().of_one.value();
        assert_eq!(on_cost(Profit::Margin(share(25.0))), 0.333_333);
        assert_eq!(on_cost(Profit::Margin(share(20.0))), 0.25);
        assert_eq!(on_cost(Profit::Markup(share(20.0))), 0.2);
        assert_eq!(on_cost(Profit::Margin(share(0.0))), 0.0);
        assert_eq!(share(8.0375).percent(), 8.0375);
    }

    #[test]
    fn prices_are_rounded_to_multiples() {
        let change = |to: i64, way: Way, price: i64| {
            Rounding { to: Money(to), way }.change(Money(price)).map(|change| change.0)
        };
        for (way, changes) in [(Way::Up, [0, 4, 2]), (Way::Nearest, [0, -1, 2]), (Way::Down, [0, -1, -3])] {
            assert_eq!([100, 101, 103].map(|price| change(5, way, price)), changes.map(Some));
        }
        assert_eq!(change(10, Way::Nearest, 105), Some(5), "the middle goes up");
        assert_eq!(change(10, Way::Up, i64::MAX), None);
    }
}
