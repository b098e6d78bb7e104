//! Checking in: what a customer sends is worked out anew with the private book, and held against what the customer saw.
//!
//! A file or a link can be altered on the way, and prices change. So nothing that it says is believed but the design and
//! the number of chairs; all else is compared and told.

use crate::chair::Chair;
use crate::design::{Design, NamedDesign};
use crate::link;
use crate::order::Order;
use crate::refusal::Refusal;
use crate::report::{Overall, overall};
use crate::shop::Shop;
use crate::showroom::{Offer, Showroom, total};
use crate::told::{Told, ToldLabel};
use crestrail_phrases::{say, word};
use crestrail_sorting::Order as _;
use serde::Serialize;
use serde_json::{Map, Value};

/// What a customer sent, checked.
#[derive(Clone, Debug, Serialize)]
pub struct CheckedIn {
    /// What the customer calls it; may be empty.
    pub name: String,
    /// Who the customer is; may be empty.
    pub customer: String,
    /// Each design, one or more.
    pub lines: Vec<CheckedLine>,
}

/// A design that a customer sent, checked.
#[derive(Clone, Debug, Serialize)]
pub struct CheckedLine {
    /// What it is called; may be empty.
    pub name: String,
    /// How many chairs.
    pub quantity: u32,
    /// The values of all knobs.
    pub design: Map<String, Value>,
    /// What one costs with delivery and tax, in words; nothing where the book cannot tell.
    pub price: Option<String>,
    /// Whether the customer was told any price.
    pub price_told: bool,
    /// What is not as the customer saw it, the gravest first.
    pub differences: Vec<Difference>,
}

/// Something that is not as the customer saw it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Difference {
    /// What differs.
    pub what: &'static str,
    /// What the customer's file or link says.
    pub told: String,
    /// What is true here.
    pub now: String,
    /// What it means.
    pub say: String,
    /// Whether the maker must not pass it over.
    pub grave: bool,
}

/// Checks in the text of an `order.json`, a quote, a `design.json`, a link, or a message with a link in it.
/// `showroom` is the maker's own, where one is known.
pub fn check_in(text: &str, shop: &Shop, showroom: Option<&Showroom>) -> Result<CheckedIn, Refusal> {
    let start = text.trim_start_matches('\u{feff}').trim_start();
    if start.starts_with('<') || (start.starts_with('{') && text.contains("\"order/")) {
        let Order { name, customer, lines } = Order::read(text)?;
        let check = |line: &crate::order::OrderLine| {
            let told = line.told.clone().unwrap_or_default();
            checked(&line.name, line.quantity, &line.design, &told, shop, showroom)
        };
        return Ok(CheckedIn { name, customer, lines: lines.iter().map(check).collect() });
    }
    if start.starts_with('{') {
        let NamedDesign { name, design } = NamedDesign::read(text)?;
        return Ok(one(name, &design, &Told::default(), shop, showroom));
    }
    let link = link::find(start).ok_or_else(|| {
        let why = word(
            "There is no link to a chair in this text. Paste the whole link, or the message that it came in.",
        );
        Refusal::new("link", why)
    })?;
    let (design, label) = link::read_told(&link)?;
    Ok(one(String::new(), &design, &Told { label, ..Told::default() }, shop, showroom))
}

fn one(name: String, design: &Design, told: &Told, shop: &Shop, showroom: Option<&Showroom>) -> CheckedIn {
    let line = checked(&name, 1, design, told, shop, showroom);
    CheckedIn { name, customer: String::new(), lines: vec![line] }
}

fn checked(
    name: &str,
    quantity: u32,
    design: &Design,
    told: &Told,
    shop: &Shop,
    showroom: Option<&Showroom>,
) -> CheckedLine {
    let mut differences = Vec::new();
    let mut price = None;
    match Chair::resolve(design, &shop.bench()) {
        Err(clash) => differences.push(unbuilt(&clash.why)),
        Ok(chair) => {
            price = priced(design, &chair, told, shop, showroom, &mut differences);
            differences.extend(told.size.and_then(|size| size_difference(size, &overall(design, &chair))));
        }
    }
    differences.extend(showroom.and_then(|showroom| not_offered(showroom, told, design)));
    differences.order_by_key(|difference| !difference.grave);
    CheckedLine {
        name: name.to_owned(),
        quantity,
        design: design.to_map(),
        price,
        price_told: told.label.is_some(),
        differences,
    }
}

fn unbuilt(why: &str) -> Difference {
    Difference {
        what: word("Chair"),
        told: say!("can be made"),
        now: say!("cannot be made"),
        say: say!("With your cutters and this program the chair cannot be made. {why}"),
        grave: true,
    }
}

/// The price with the book in words; adds what differs from the label.
fn priced(
    design: &Design,
    chair: &Chair,
    told: &Told,
    shop: &Shop,
    showroom: Option<&Showroom>,
    differences: &mut Vec<Difference>,
) -> Option<String> {
    let now = match total(design, chair, shop) {
        Ok(price) => ToldLabel { from: false, price, currency: shop.currency },
        Err(refusal) => {
            let told = told.label.map_or_else(|| say!("no price"), |label| label.to_string());
            differences.push(Difference {
                what: word("Price"),
                told,
                now: say!("none"),
                say: refusal.why,
                grave: true,
            });
            return None;
        }
    };
    let own = showroom.and_then(|showroom| own_label(showroom, told, design));
    differences.extend(told.label.and_then(|label| price_difference(label, now, own)));
    Some(now.to_string())
}

/// What the maker's own showroom says on the label of the offer, where it says "from".
fn own_label(showroom: &Showroom, told: &Told, design: &Design) -> Option<ToldLabel> {
    let price = offer_of(showroom, told, design)?.from?;
    Some(ToldLabel { from: true, price, currency: showroom.currency })
}

fn price_difference(label: ToldLabel, now: ToldLabel, own: Option<ToldLabel>) -> Option<Difference> {
    let difference = |say: String, grave: bool| {
        Some(Difference { what: word("Price"), told: label.to_string(), now: now.to_string(), say, grave })
    };
    if label.currency != now.currency {
        return difference(say!("The customer was told a price in {}.", label.currency.code), true);
    }
    if !label.from {
        let say = word(
            "The price the customer sends is not the price of this chair: it was altered on the way, or your prices have changed since.",
        );
        return if label.price == now.price { None } else { difference(say.to_owned(), true) };
    }
    match own.filter(|own| own.currency == label.currency && own.price != label.price) {
        Some(own) => difference(
            say!(
                "Your own label says {own}: what the customer sends was altered on the way, or your prices have changed since."
            ),
            true,
        ),
        None if now.price < label.price => difference(
            say!(
                "This chair is cheaper than the lowest price told: your prices have changed since, or the label was altered."
            ),
            true,
        ),
        None if now.price == label.price => None,
        None => difference(
            say!("The customer knows the lowest price of the offer, and not yet the price of this chair."),
            false,
        ),
    }
}

/// Sizes are told to a tenth of a millimetre.
const SAME_SIZE: f64 = 0.05;

fn size_difference(told: [f64; 3], now: &Overall) -> Option<Difference> {
    let now = [now.width, now.depth, now.height];
    let differs = told.iter().zip(&now).any(|(told, now)| (told - now).abs() > SAME_SIZE);
    let words = |[width, depth, height]: [f64; 3]| say!("{width} × {depth} × {height} mm");
    let say = word(
        "Width, depth or height are not as the customer saw them: the file was altered, or the program has changed since.",
    );
    differs.then(|| Difference {
        what: word("Size"),
        told: words(told),
        now: words(now),
        say: say.to_owned(),
        grave: false,
    })
}

/// The offer that the customer began with: the one named, else the first that allows the design.
fn offer_of<'a>(showroom: &'a Showroom, told: &Told, design: &Design) -> Option<&'a Offer> {
    let named = showroom.offers.iter().find(|offer| told.offer.as_ref() == Some(&offer.name));
    named.or_else(|| showroom.offers.iter().find(|offer| offer.allows(design).is_ok()))
}

/// Tells of a design that the maker's showroom does not allow.
fn not_offered(showroom: &Showroom, told: &Told, design: &Design) -> Option<Difference> {
    if showroom.offers.iter().any(|offer| offer.allows(design).is_ok()) {
        return None;
    }
    let alike = || showroom.offers.iter().find(|offer| offer.design.family() == design.family());
    let why = match offer_of(showroom, told, design).or_else(alike) {
        Some(offer) => offer.allows(design).err().map(|refusal| refusal.why),
        None => Some(say!("You offer no chair of this kind.")),
    };
    why.map(|say| Difference {
        what: word("Choice"),
        told: say!("on offer"),
        now: say!("not on offer"),
        say,
        grave: true,
    })
}

#[cfg(test)]
mod tests;
