//! A published page and the Workshop: one price, and nothing private on the page.

use super::with;
use crate::bill::bill;
use crate::chair::Chair;
use crate::design::Design;
use crate::lists::cutting_list;
use crate::rates::PriceSheet;
use crate::report::allowances;
use crate::shop::{DEMO_SHOP, Shop};
use crate::showroom::{Allowed, Offer, Showroom, published};
use proptest::prelude::*;
use serde_json::{Value, json};

/// The demo's showroom, its prices shown.
fn shown() -> Value {
    with("/price", json!("shown"))
}

fn demo() -> Value {
    serde_json::from_str(DEMO_SHOP).expect("JSON")
}

/// A book: shares, rules and ways of buying as the choices say, rates and prices moved by `by`.
fn book(choices: u32, by: f64) -> Value {
    let mut file = demo();
    let pick = |bit: u32| choices >> bit & 1 == 1;
    let cents = |value: f64| (value * 100.0).round() / 100.0;
    file["labour"]["rate"] = cents(29.0 * by).into();
    file["labour"]["batch"] = if pick(0) { 4.into() } else { 1.into() };
    for row in file["timber"]["species"].as_array_mut().expect("rows") {
        row["price"] = cents(row["price"].as_f64().expect("a price") / by).into();
    }
    let pricing = &mut file["pricing"];
    pricing["selling_rates"] = if pick(1) { "R80".into() } else { "R40".into() };
    pricing["profit"] = if pick(2) { json!({"markup": 31.5}) } else { json!({"margin": 27.25}) };
    if pick(3) {
        pricing["profit_on_material"] = if pick(4) { json!({"markup": 12}) } else { json!({"margin": 9}) };
    }
    if pick(5) {
        pricing["overhead"] = json!({"percent_of_cost": 24});
    }
    pricing["tax"]["percent"] = if pick(6) { 0.into() } else { json!(19.25) };
    match choices >> 7 & 3 {
        0 => drop(pricing.as_object_mut().expect("an object").remove("rounding")),
        way => {
            let way = ["up", "nearest", "down"][way as usize - 1];
            pricing["rounding"] = json!({"to": 2.5, "way": way});
        }
    }
    if pick(9) {
        pricing.as_object_mut().expect("an object").remove("delivery");
    }
    if pick(10) {
        file["pegs"] = json!({"by": "metre", "price": 1.35});
    }
    match choices >> 11 & 3 {
        0 => drop(file.as_object_mut().expect("an object").remove("stock")),
        1 => file["stock"]["rack"] = json!([]),
        2 => file["stock"]["offer"][1]["price"] = json!(31.4),
        _ => {}
    }
    file
}

/// A design of an offer, each open knob somewhere in its range.
fn somewhere(offer: &Offer, spots: &[f64]) -> Design {
    let mut design = offer.design.clone();
    for (opened, spot) in offer.open.iter().zip(spots.iter().cycle()) {
        let knob = offer.knob(opened.knob).expect("a knob");
        let whole = matches!(knob.kind, crate::knob::Kind::Count { .. });
        let value: Value = match &opened.allowed {
            Allowed::Span(from, to) if whole => ((from + (to - from) * spot).round() as u64).into(),
            Allowed::Span(from, to) => ((from + (to - from) * spot).round().clamp(*from, *to)).into(),
            Allowed::Picks(names) => {
                names[((names.len() as f64 * spot) as usize).min(names.len() - 1)].into()
            }
        };
        design = design.with(opened.knob, &value).expect("allowed");
    }
    design
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, ..ProptestConfig::default() })]

    /// Of any design on offer, in any book: what the published text alone gives is the Workshop's total, to the last unit.
    #[test]
    fn the_published_page_and_the_workshop_have_one_price(
        choices in 0_u32..8192, by in 0.7..1.5_f64, place in 0_usize..5,
        spots in prop::collection::vec(0.0..1.0_f64, 9),
    ) {
        let shop = Shop::from_value(&book(choices, by)).expect("a book");
        let file = published(&shown(), &shop).expect("published");
        let showroom = Showroom::from_json(&format!("{file:#}")).expect("read again");
        let offer = &showroom.offers[place];
        let design = somewhere(offer, &spots);
        prop_assert_eq!(offer.allows(&design), Ok(()));
        let bench = showroom.bench.clone().expect("published");
        let Ok(chair) = Chair::resolve(&design, &bench) else { return Ok(()) };
        let rows = cutting_list(&chair, &allowances(&design), shop.thicknesses);
        let own = bill(&chair, &rows, &shop).expect("priced");
        let label = showroom.seen(offer, &design, &chair, None).expect("seen").label.expect("told");
        prop_assert_eq!(label.price_minor, own.total_minor);
        prop_assert!(!label.from);

        // Rounding the rates moves the price by no more than a rate can be off; what the rack saves is the workshop's.
        let rack = shop.stock.as_ref().is_some_and(|s| s.rack.iter().any(|k| k.species == design.species()));
        let rates = own.lines.iter().find(|l| l.id == "rounding.rates").map_or(0, |l| l.amount_minor.0);
        let sold = own.price_minor.0 as f64;
        prop_assert!(rack || (rates as f64).abs() < 0.036 * sold, "{} of {}", rates, sold);
    }
}

/// The sheet that is written is the sheet that is read.
#[test]
fn a_sheet_is_read_as_it_was_written() {
    for choices in [0, 1024, 2048 + 2, 4096 + 64, 8191] {
        let shop = Shop::from_value(&book(choices, 1.1)).expect("a book");
        let sheet = PriceSheet::of(&shop).expect("selling rates");
        let all: Vec<_> = sheet.timber.rows.iter().map(|row| row.species).collect();
        let mut file = shown();
        file["prices"] = sheet.to_value(&all);
        let text = file.to_string();
        assert_eq!(Showroom::from_json(&text).expect("read").prices, Some(sheet));
    }
}

#[test]
fn what_is_wrong_in_a_sheet_is_named() {
    let file = published(&shown(), &Shop::demo()).expect("published");
    for (pointer, value, place) in [
        ("/prices/work/0/for", json!("sofa"), "prices.work[0].for"),
        ("/prices/work/1/for", json!("chair"), "prices.work[1].for"),
        ("/prices/work/0/each", json!(-1), "prices.work[0].each"),
        ("/prices/timber/species/0/price", json!("dear"), "prices.timber.species[0].price"),
        ("/prices/rate", json!(29), "prices.rate"),
        ("/prices/tax/percent", json!(1000), "prices.tax.percent"),
    ] {
        let mut file = file.clone();
        let (parent, name) = pointer.rsplit_once('/').expect("a pointer");
        file.pointer_mut(parent).expect(pointer)[name] = value;
        assert_eq!(Showroom::from_value(&file).expect_err(pointer).where_, place);
    }
    let refusal = published(&shown(), &without_rates()).expect_err("no rates");
    assert!(refusal.where_ == "price" && refusal.why.contains("\"selling_rates\": \"R40\""), "{refusal}");
}

fn without_rates() -> Shop {
    let mut file = demo();
    file["pricing"].as_object_mut().expect("an object").remove("selling_rates");
    Shop::from_value(&file).expect("a book")
}

/// A sheet holds the timber that is on offer, and nothing of the rack.
#[test]
fn only_what_is_needed_is_published() {
    let file = published(&shown(), &Shop::demo()).expect("published");
    let species: Vec<&str> = file["prices"]["timber"]["species"]
        .as_array()
        .expect("rows")
        .iter()
        .filter_map(|row| row["species"].as_str())
        .collect();
    assert_eq!(species, ["ash_white", "beech_european", "cherry_black", "oak_european", "walnut_black"]);
    assert_eq!(file["prices"]["stock"].get("rack"), None);
    assert_eq!(file["offers"][0].get("from"), None);
    let from = published(&super::file(), &Shop::demo()).expect("published");
    assert_eq!(from.get("prices"), None, "no rates where the lowest prices are told");
}

/// Whoever tries to read rate, margin, times and buying prices out of a sheet finds that a quite different workshop
/// publishes the very same: what a file does not tell apart cannot be read back from it.
#[test]
fn another_workshop_publishes_the_same_sheet() {
    // A currency of thousandths, and nothing so cheap that its last decimal counts: the books differ by rounded figures.
    let own = || {
        let mut file = demo();
        file["currency"] = "KWD".into();
        file["fixings"]["price"] = 0.7.into();
        file["seating"]["cord_per_metre"] = 1.7.into();
        file
    };
    let mut room = shown();
    room["currency"] = "KWD".into();
    let other = || {
        let mut file = own();
        // Half the time at twice the rate and overhead; and a third of the margin, with dearer hours and material.
        let factor = (1.0 / 0.78) / (1.0 + 7.5 / 100.0);
        file["labour"]["rate"] = ((29.0_f64 * 2.0 * factor * 1000.0).round() / 1000.0).into();
        file["pricing"]["overhead"]["per_hour"] =
            ((11.5_f64 * 2.0 * factor * 1000.0).round() / 1000.0).into();
        file["pricing"]["profit"] = json!({"markup": 7.5});
        for part in ["operations", "joints"] {
            halve(&mut file["labour"][part]);
        }
        for row in file["timber"]["species"].as_array_mut().expect("rows") {
            scale(row, "price", factor);
            row.get_mut("by_thickness")
                .and_then(Value::as_array_mut)
                .into_iter()
                .flatten()
                .for_each(|t| scale(t, "price", factor));
        }
        for (part, name) in
            [("pegs", "price"), ("glue", "price_per_kg"), ("finish", "price_per_litre"), ("fixings", "price")]
        {
            scale(&mut file[part], name, factor);
        }
        for name in ["plywood_per_m2", "foam_per_m2", "cover_per_m2", "cord_per_metre"] {
            scale(&mut file["seating"], name, factor);
        }
        Shop::from_value(&file).expect("a book")
    };
    let one = published(&room, &Shop::from_value(&own()).expect("a book")).expect("published");
    assert_eq!(published(&room, &other()).expect("published"), one);
}

fn scale(object: &mut Value, name: &str, factor: f64) {
    let price = object[name].as_f64().expect("a price") * factor;
    object[name] = ((price * 1000.0).round() / 1000.0).into();
}

fn halve(value: &mut Value) {
    match value {
        Value::Object(map) => map.values_mut().for_each(halve),
        Value::Number(number) => *value = (number.as_f64().expect("a time") / 2.0).into(),
        _ => {}
    }
}
