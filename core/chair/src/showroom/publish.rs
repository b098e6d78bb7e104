//! The file of a published folder.

use super::lowest::lowest;
use super::seen::total;
use super::{Allowed, Offer, PriceTold, SHOWROOM_FILE, Showroom};
use crate::chair::Chair;
use crate::money::Money;
use crate::rates::PriceSheet;
use crate::refusal::Refusal;
use crate::shop::Shop;
use crestrail_phrases::say;
use crestrail_timber::Species;
use serde_json::{Value, json};

/// The showroom as it is published: the maker's own lines, the bench that shapes the joints, and of prices what is told:
/// beside each offer the lowest one, or the selling rates from which the page works out each. Nothing else of the workshop's
/// book goes into it.
///
/// Refused are an offer that cannot be built or priced, a "from" that is lower than any price found, and prices of chairs as
/// they stand by a book without selling rates.
pub fn published(source: &Value, shop: &Shop) -> Result<Value, Refusal> {
    let showroom = Showroom::from_value(source)?;
    showroom.suits(shop)?;
    let mut file = source.clone();
    file["crestrail"] = SHOWROOM_FILE.header().into();
    file["bench"] = json!({"cutters": shop.cutters, "joint_fit": shop.joint_fit});
    if let Some(object) = file.as_object_mut() {
        object.remove("prices");
    }
    let prices = (showroom.price == PriceTold::Shown).then(|| sheet(shop)).transpose()?;
    for (i, offer) in showroom.offers.iter().enumerate() {
        let from = from(i, offer, &showroom, shop)?;
        let Some(entry) = file["offers"][i].as_object_mut() else { continue };
        match from {
            None => entry.remove("from"),
            Some(from) => {
                entry.insert("from".to_owned(), from.decimal(showroom.currency.minor_digits).to_number())
            }
        };
    }
    if let Some(prices) = prices {
        file["prices"] = prices.to_value(&species(&showroom));
        // What is written must be taken again by the page that reads it.
        Showroom::from_value(&file)?;
    }
    Ok(file)
}

/// The lowest price of an offer, where it is told. An offer that cannot be built or priced is refused in any case.
fn from(place: usize, offer: &Offer, showroom: &Showroom, shop: &Shop) -> Result<Option<Money>, Refusal> {
    let at = |field: &str| format!("offers[{place}].{field}");
    let chair = Chair::resolve(&offer.design, &shop.bench()).map_err(|clash| {
        Refusal::new(at("knobs"), say!("“{}” cannot be built. {}", offer.name, clash.why))
    })?;
    let priced = |found: Result<Money, Refusal>| found.map_err(|r| Refusal::new(at("knobs"), r.why));
    match showroom.price {
        PriceTold::Nothing => Ok(None),
        PriceTold::Shown => priced(total(&offer.design, &chair, shop)).map(|_| None),
        PriceTold::From => {
            let found = priced(lowest(offer, shop))?;
            match offer.from.filter(|said| *said < found) {
                Some(said) => Err(Refusal::new(at("from"), too_low(showroom, said, found))),
                None => Ok(Some(offer.from.unwrap_or(found))),
            }
        }
    }
}

fn sheet(shop: &Shop) -> Result<PriceSheet, Refusal> {
    PriceSheet::of(shop).ok_or_else(|| {
        let why = say!(
            "To show the price of each chair, the page needs selling rates, from which nothing private can be read back. {} has none: add \"selling_rates\": \"R40\" to \"pricing\" in shop.json, or write \"from\" or \"none\" here.",
            shop.name
        );
        Refusal::new("price", why)
    })
}

/// The species that a customer can choose, in the order in which they are first on offer.
fn species(showroom: &Showroom) -> Vec<&'static Species> {
    let mut found: Vec<&'static Species> = Vec::new();
    for offer in &showroom.offers {
        let own = [offer.design.species()];
        let opened = offer.open.iter().filter(|opened| opened.knob == "species");
        let picks = opened.flat_map(|opened| match &opened.allowed {
            Allowed::Picks(names) => {
                names.iter().filter_map(|name| crestrail_timber::species(name)).collect()
            }
            Allowed::Span(..) => Vec::new(),
        });
        for species in own.into_iter().chain(picks) {
            if !found.contains(&species) {
                found.push(species);
            }
        }
    }
    found
}

fn too_low(showroom: &Showroom, said: Money, found: Money) -> String {
    let words = |money| super::amount(money, showroom.currency);
    say!(
        "From {} is promised, but the cheapest chair found of this offer costs {}. Write that or more, or leave \"from\" out.",
        words(said),
        words(found)
    )
}
