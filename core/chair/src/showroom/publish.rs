//! The file of a published folder.

use super::lowest::lowest;
use super::{PriceTold, SHOWROOM_FILE, Showroom};
use crate::chair::Chair;
use crate::money::Money;
use crate::refusal::Refusal;
use crate::shop::Shop;
use serde_json::{Value, json};

/// The showroom as it is published: the maker's own lines, the bench that shapes the joints, and beside each offer the
/// lowest price where prices are told so. Nothing else of the workshop's book goes into it.
///
/// Refused are an offer that cannot be built or priced, a "from" that is lower than any price found, and prices of chairs as
/// they stand, for which a published page would need the book.
pub fn published(source: &Value, shop: &Shop) -> Result<Value, Refusal> {
    let showroom = Showroom::from_value(source)?;
    showroom.suits(shop)?;
    if showroom.price == PriceTold::Shown {
        return Err(no_book());
    }
    let mut file = source.clone();
    file["crestrail"] = SHOWROOM_FILE.header().into();
    file["bench"] = json!({"cutters": shop.cutters, "joint_fit": shop.joint_fit});
    for (i, offer) in showroom.offers.iter().enumerate() {
        let at = |field: &str| format!("offers[{i}].{field}");
        Chair::resolve(&offer.design, &shop.bench()).map_err(|clash| {
            Refusal::new(at("knobs"), format!("“{}” cannot be built. {}", offer.name, clash.why))
        })?;
        let entry = file["offers"][i].as_object_mut();
        let Some(entry) = entry else { continue };
        if showroom.price == PriceTold::Nothing {
            entry.remove("from");
            continue;
        }
        let found = lowest(offer, shop).map_err(|r| Refusal::new(at("knobs"), r.why))?;
        if let Some(said) = offer.from.filter(|said| *said < found) {
            return Err(Refusal::new(at("from"), too_low(&showroom, said, found)));
        }
        entry.insert("from".to_owned(), major(offer.from.unwrap_or(found), showroom.currency.minor_digits));
    }
    Ok(file)
}

fn no_book() -> Refusal {
    let why = "A published page cannot work out the price of each chair: it would need your book of prices, and that stays private. Write \"from\" or \"none\".";
    Refusal::new("price", why)
}

fn too_low(showroom: &Showroom, said: Money, found: Money) -> String {
    let words = |money| super::amount(money, showroom.currency);
    format!(
        "From {} is promised, but the cheapest chair found of this offer costs {}. Write that or more, or leave \"from\" out.",
        words(said),
        words(found)
    )
}

/// An amount in major units, as files have it.
fn major(money: Money, minor_digits: u8) -> Value {
    money.decimal(minor_digits).to_number()
}
