//! What moves the price: each knob tried a step down and up, the others as they stand. It resolves the chair a few
//! hundred times, so it is asked for by itself and never with a report.

use crate::bill::bill;
use crate::chair::Chair;
use crate::design::Design;
use crate::knob::{Group, Kind, Knob};
use crate::lists::cutting_list;
use crate::money::Money;
use crate::refusal::Refusal;
use crate::report::allowances;
use crate::shop::{Pricing, Shop};
use crestrail_phrases::{say, word};
use crestrail_sorting::Order as _;
use serde::Serialize;
use serde_json::Value;

/// How far the price moves with one knob. Money in minor units.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Swing {
    /// The knob.
    pub knob: &'static str,
    /// What the page calls it.
    pub label: &'static str,
    /// The cheapest of what was tried.
    pub low: Tried,
    /// The dearest.
    pub high: Tried,
    /// From the cheapest to the dearest.
    pub span_minor: Money,
}

/// A value of a knob and the price of the chair with it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Tried {
    /// The value.
    pub value: Value,
    /// The value in words, such as `470 mm`.
    pub say: String,
    /// Whether it is the value of the design.
    pub present: bool,
    /// Price of one chair made alone, before rounding, delivery and tax.
    pub price_minor: Money,
}

/// All knobs that move the price, the strongest first.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Tornado {
    /// Code of ISO 4217.
    pub currency: &'static str,
    /// Decimals of its minor unit.
    pub minor_digits: u8,
    /// Price of the design as it stands, before rounding, delivery and tax.
    pub price_minor: Money,
    /// The knobs.
    pub swings: Vec<Swing>,
}

/// A size moves by this share of its range, in whole steps and at least one: a single step of a millimetre or five would say little.
const STRIDE: f64 = 0.1;

/// Tries every knob. `progress` hears how many of how many knobs are done. Where a try cannot be built or priced it
/// is left out.
pub fn tornado(design: &Design, shop: &Shop, progress: &dyn Fn(usize, usize)) -> Result<Tornado, Refusal> {
    let shop = without_rounding(shop);
    let price_minor = price(design, &shop)
        .ok_or_else(|| Refusal::new("design", word("This design has no price, so nothing moves it.")))??;
    let knobs = design.knobs();
    let mut swings: Vec<Swing> = Vec::new();
    for (done, knob) in knobs.iter().enumerate() {
        progress(done, knobs.len());
        swings.extend(swing(design, &shop, knob, price_minor));
    }
    progress(knobs.len(), knobs.len());
    swings.order_by(|a, b| b.span_minor.cmp(&a.span_minor).then(a.knob.cmp(b.knob)));
    let (currency, minor_digits) = (shop.currency.code, shop.currency.minor_digits);
    Ok(Tornado { currency, minor_digits, price_minor, swings })
}

/// A round price would hide what is smaller than its multiple.
fn without_rounding(shop: &Shop) -> Shop {
    let pricing = shop.pricing.clone().map(|pricing| Pricing { rounding: None, ..pricing });
    Shop { pricing, ..shop.clone() }
}

/// The price of a design; nothing where it cannot be built.
fn price(design: &Design, shop: &Shop) -> Option<Result<Money, Refusal>> {
    let chair = Chair::resolve(design, &shop.bench()).ok()?;
    let rows = cutting_list(&chair, &allowances(design), shop.thicknesses);
    Some(bill(&chair, &rows, shop).map(|bill| bill.price_minor))
}

/// Another kind is another chair, and who a chair is for changes nothing of its wood.
fn moves_a_price(group: Group) -> bool {
    !matches!(group, Group::Kind | Group::Use)
}

fn swing(design: &Design, shop: &Shop, knob: &Knob, present: Money) -> Option<Swing> {
    let standing_values = design.to_map();
    if !moves_a_price(knob.group) || !knob.applies_in(&standing_values) {
        return None;
    }
    let now = standing_values.get(knob.name)?.clone();
    let standing = Tried { say: say(knob, &now), value: now.clone(), present: true, price_minor: present };
    let tried = values(knob, &now).into_iter().filter_map(|value| {
        let price_minor = price(&design.with(knob.name, &value).ok()?, shop)?.ok()?;
        Some(Tried { say: say(knob, &value), value, present: false, price_minor })
    });
    let all: Vec<Tried> = core::iter::once(standing).chain(tried).collect();
    let low = all.iter().min_by_key(|tried| tried.price_minor)?.clone();
    let high = all.iter().max_by_key(|tried| tried.price_minor)?.clone();
    let span_minor = Money(high.price_minor.0.checked_sub(low.price_minor.0)?);
    (span_minor > Money(0)).then_some(Swing {
        knob: knob.name,
        label: word(knob.label),
        low,
        high,
        span_minor,
    })
}

/// What is tried: one stride down and up, or every other possibility of a choice.
fn values(knob: &Knob, now: &Value) -> Vec<Value> {
    let (number, around) =
        (now.as_f64().unwrap_or_default(), |at: f64, stride: f64| [at - stride, at + stride]);
    match knob.kind {
        Kind::Range { min, max, step, .. } => {
            let stride = step * (STRIDE * (max - min) / step).round().max(1.0);
            around(number, stride).iter().map(|v| v.clamp(min, max).into()).filter(|v| v != now).collect()
        }
        Kind::Count { min, max, .. } => {
            let inside =
                around(number, 1.0).into_iter().filter(|v| (f64::from(min)..=f64::from(max)).contains(v));
            inside.map(|v| (v as u64).into()).collect()
        }
        Kind::Choice { .. } => {
            knob.picks().iter().map(|pick| pick.name.into()).filter(|v| v != now).collect()
        }
    }
}

fn say(knob: &Knob, value: &Value) -> String {
    match (knob.kind, value) {
        (Kind::Choice { .. }, Value::String(name)) => {
            let picks = knob.picks();
            picks
                .iter()
                .find(|pick| pick.name == name)
                .map_or(name.as_str(), |pick| word(pick.label))
                .to_owned()
        }
        (Kind::Range { unit, .. }, value) => say!("{}{}", value.as_f64().unwrap_or_default(), unit.sign()),
        (_, value) => value.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use core::cell::Cell;
    use serde_json::json;

    /// A stool has few parts and few knobs, so that the test is quick.
    fn stool() -> Design {
        Design::from_value(&json!({"family": "stool"})).expect("a design")
    }

    #[test]
    fn the_strongest_comes_first_and_each_holds_the_present_price() {
        let heard = Cell::new(0);
        let tornado =
            tornado(&stool(), &Shop::demo(), &|done, _| heard.set(heard.get() + done)).expect("priced");
        assert!(heard.get() > 0 && tornado.swings.len() > 5);
        assert!(tornado.swings.windows(2).all(|pair| pair[0].span_minor >= pair[1].span_minor));
        for swing in &tornado.swings {
            let range = swing.low.price_minor..=swing.high.price_minor;
            assert!(range.contains(&tornado.price_minor), "{swing:?}");
        }
        let named = |knob: &str| tornado.swings.iter().find(|swing| swing.knob == knob);
        // The dearest timber of the invented yard, and one of the cheapest.
        assert_eq!(named("species").map(|s| s.high.value.clone()), Some(json!("teak")));
        assert!(named("seat_width").is_some_and(|s| s.low.say.ends_with(" mm")), "{:?}", named("seat_width"));
    }

    /// So the knobs of its users need no trial.
    #[test]
    fn who_it_is_for_moves_no_price() {
        let (design, shop) = (stool(), Shop::demo());
        let at = |design: &Design| price(design, &shop).expect("built").expect("priced");
        let present = at(&design);
        let mut tried = 0;
        for knob in design.knobs().iter().filter(|knob| knob.group == Group::Use) {
            for value in values(knob, &design.to_map()[knob.name]) {
                assert_eq!(at(&design.with(knob.name, &value).expect("allowed")), present, "{}", knob.name);
                tried += 1;
            }
        }
        assert!(tried > 20, "{tried}");
    }

    #[test]
    fn tries_keep_within_the_limits() {
        let design = stool();
        for knob in design.knobs().iter() {
            let now = design.to_map()[knob.name].clone();
            for value in values(knob, &now) {
                assert!(value != now && design.with(knob.name, &value).is_ok(), "{} {value}", knob.name);
            }
        }
    }
}
