//! The lowest price for which an offer can be had, for labels that say "from".
//!
//! Each open knob in turn is tried at its ends, or with each of its possibilities, and stays where the chair is cheapest;
//! that goes on until a whole round brings nothing. What is found is the price of a chair that can be ordered, so "from" is
//! true; a still cheaper mixture of sizes may be missed.

use super::offer::Offer;
use super::open::{Allowed, Opened};
use super::seen::total;
use crate::chair::Chair;
use crate::design::Design;
use crate::knob::Kind;
use crate::money::Money;
use crate::refusal::Refusal;
use crate::shop::Shop;
use serde_json::Value;

/// Rounds over all open knobs: the second finds what a choice of the first has changed, and hardly any needs a third.
const ROUNDS: usize = 4;

/// The lowest price found of an offer; a refusal where the chair that it begins with cannot be built or priced.
pub(super) fn lowest(offer: &Offer, shop: &Shop) -> Result<Money, Refusal> {
    let mut best = (price(&offer.design, shop)?, offer.design.clone());
    for _ in 0..ROUNDS {
        let before = best.0;
        for opened in &offer.open {
            for value in ends(offer, opened) {
                let Ok(design) = best.1.with(opened.knob, &value) else { continue };
                // What cannot be built or priced is no chair that customers can have.
                if let Ok(found) = price(&design, shop)
                    && found < best.0
                {
                    best = (found, design);
                }
            }
        }
        if best.0 == before {
            break;
        }
    }
    Ok(best.0)
}

fn price(design: &Design, shop: &Shop) -> Result<Money, Refusal> {
    let chair = Chair::resolve(design, &shop.bench()).map_err(|clash| Refusal::new("knobs", clash.why))?;
    total(design, &chair, shop)
}

/// The values of an open knob between which the cheapest lies.
fn ends(offer: &Offer, opened: &Opened) -> Vec<Value> {
    let whole = offer.knob(opened.knob).is_some_and(|knob| matches!(knob.kind, Kind::Count { .. }));
    match &opened.allowed {
        Allowed::Span(from, to) if whole => vec![(*from as u64).into(), (*to as u64).into()],
        Allowed::Span(from, to) => vec![(*from).into(), (*to).into()],
        Allowed::Picks(names) => names.iter().map(|name| (*name).into()).collect(),
    }
}
