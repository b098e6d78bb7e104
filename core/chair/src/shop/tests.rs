use super::*;
use serde_json::json;

fn demo() -> Value {
    serde_json::from_str(DEMO_SHOP).expect("JSON")
}

/// The demo with one place changed.
fn with(pointer: &str, value: Value) -> Result<Shop, Refusal> {
    let mut shop = demo();
    *shop.pointer_mut(pointer).expect(pointer) = value;
    Shop::from_value(&shop)
}

fn refused(pointer: &str, value: Value) -> (String, String) {
    let refusal = with(pointer, value).expect_err(pointer);
    (refusal.where_, refusal.why)
}

#[test]
fn the_invented_workshop_is_read() {
    let shop = Shop::demo();
    assert_eq!(shop.currency.code, "EUR");
    assert_eq!(shop.cutters, [5.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0]);
    assert_eq!(shop.pegs.price, Money(18));
    assert!(shop.name.contains("invented") && shop.note.is_some_and(|n| n.contains("invented")));
}

#[test]
fn the_invented_workshop_stocks_every_species() {
    let shop = Shop::demo();
    assert!(crestrail_timber::all().iter().all(|s| shop.timber(s).is_ok()));
}

#[test]
fn a_thickness_may_have_its_own_price() {
    let shop = Shop::demo();
    let ash = crestrail_timber::species("ash_white").expect("listed");
    let row = shop.timber(ash).expect("in stock");
    let at = |name: &str| row.at(shop.thicknesses.thickness(name));
    assert_eq!(at("26 mm"), Money(162_000));
    assert_eq!(at("80 mm"), Money(186_300));
    assert_eq!(row.at(None), Money(162_000));
}

#[test]
fn rates_outside_their_limits_are_refused_by_name() {
    for (pointer, value, place, says) in [
        ("/kerf", json!(-3), "kerf", "Saw kerf is -3 mm; it must be from 0 to 10 mm."),
        (
            "/timber/yield",
            json!(70),
            "timber.yield",
            "Yield, as a share of 1, is 70; it must be from 0.2 to 1.",
        ),
        (
            "/timber/yield",
            json!(0),
            "timber.yield",
            "Yield, as a share of 1, is 0; it must be from 0.2 to 1.",
        ),
        ("/pegs/price", json!(-0.01), "pegs.price", "The price is -0.01; it must be from 0 to 10000000000."),
        (
            "/pegs/price",
            json!(0.005),
            "pegs.price",
            "The price 0.005 has more decimals than EUR has (2). Round it.",
        ),
        ("/timber/species/2/price", json!(1e300), "timber.species[2].price", "The price is 1"),
        (
            "/glue/grams_per_m2",
            Value::Null,
            "glue.grams_per_m2",
            "Here must be a number, but there is nothing (null).",
        ),
        ("/finish/coats", json!(2.5), "finish.coats", "Coats is 2.5; it must be a whole number."),
        (
            "/fixings/per_slat",
            json!("four"),
            "fixings.per_slat",
            "Here must be a number, but there is the text \"four\".",
        ),
        ("/cutters", json!([]), "cutters", "No cutter is listed."),
        ("/cutters", json!([6, 5]), "cutters[1]", "The cutters must rise"),
        ("/cutters", json!({}), "cutters", "Here must be a list […], but there is an object."),
    ] {
        let (at, why) = refused(pointer, value);
        assert_eq!(at, place);
        assert!(why.starts_with(says), "{why}");
    }
}

#[test]
fn unknown_names_are_refused() {
    let (at, why) = refused("/currency", json!("EURO"));
    assert_eq!(
        (at.as_str(), why.starts_with("\"EURO\" is not a currency code of ISO 4217")),
        ("currency", true)
    );
    let (at, why) = refused("/timber/species/0/species", json!("ash"));
    assert!(at == "timber.species[0].species" && why.contains("ash_european, ash_white"), "{why}");
    let (at, why) = refused("/thicknesses", json!("inches"));
    assert!(at == "thicknesses" && why.contains("quarters, en_1313, continental, british"), "{why}");
    let (at, _) = refused("/timber/species/0", json!({"species": "oak_red", "price": 1}));
    assert_eq!(at, "timber.species[23]", "the second row of the same species");
    let (at, why) = refused("/pegs", json!({"by": "each", "price": 1, "colour": 3}));
    assert!(at == "pegs.colour" && why.contains("known are: by, price"), "{why}");
}

/// Each field that the file has is needed, but those that a workshop may leave out.
#[test]
fn missing_names_are_refused() {
    let full = demo();
    for name in full.as_object().expect("object").keys() {
        let mut shop = full.clone();
        shop.as_object_mut().expect("object").remove(name);
        let read = Shop::from_value(&shop);
        match name.as_str() {
            "note" | "stock" | "seating" | "cautions" | "labour" | "pricing" | "quote" => {
                assert!(read.is_ok());
            }
            name => assert_eq!(read.expect_err(name).where_, name),
        }
    }
}

#[test]
fn stock_lists_are_read_and_refused_by_name() {
    let stock = Shop::demo().stock.expect("the demo has one");
    assert!(stock.offer.len() > 3 && stock.rack.iter().any(|k| k.species.id == "oak_european"));
    let (at, why) = refused("/stock/offer/0/thicknesses/1", json!("4/4"));
    assert!(at == "stock.offer[0].thicknesses[1]" && why.contains("20 mm, 26 mm"), "{at} {why}");
    let (at, why) = refused("/stock/offer/0/thicknesses", json!([]));
    assert!(at == "stock.offer[0].thicknesses" && why.contains("No thickness"), "{at} {why}");
    let (at, why) = refused("/stock/offer/2/width", json!(-200));
    assert!(at == "stock.offer[2].width" && why.contains("-200 mm"), "{at} {why}");
    let (at, why) = refused("/stock/rack/0/count", json!(1.5));
    assert!(at == "stock.rack[0].count" && why.contains("whole number"), "{at} {why}");
    let (at, _) = refused("/stock/rack/0/species", json!("ebony"));
    assert_eq!(at, "stock.rack[0].species");
    let (at, why) = refused("/stock/trim_edges", json!(60));
    assert!(
        at == "stock.offer[0]" && why.contains("Nothing is left of a board of 2000 × 120 mm"),
        "{at} {why}"
    );
    let (at, _) = refused("/stock/offcuts/credit", json!(101));
    assert_eq!(at, "stock.offcuts.credit");
}

#[test]
fn other_files_are_refused() {
    let why = |text: &str| Shop::from_json(text).expect_err(text).why;
    assert!(
        why(&DEMO_SHOP.replace("shop/2", "shop/3"))
            .starts_with("shop/3 is newer than this program reads (shop/2)")
    );
    assert!(why("{\"crestrail\":\"design/1\"}").starts_with("This is a design file"));
    assert!(why("{\"prices\":[]}").starts_with("This is JSON, but not a shop.json"));
    assert!(why(&DEMO_SHOP[..400]).starts_with("The file ends too early, at line"));
    assert!(why("prices,1,2").starts_with("This is not JSON"));
}

#[test]
fn a_species_without_a_price_comes_with_a_way_out() {
    let shop = with("/timber/species", json!([{"species": "oak_red", "price": 1500}])).expect("good");
    let ash = crestrail_timber::species("ash_white").expect("listed");
    let refusal = shop.timber(ash).expect_err("not in stock");
    assert_eq!(refusal.mend.map(|m| (m.knob, m.value)), Some(("species".to_owned(), json!("oak_red"))));
}

/// A workshop may leave out what it does not use, but what it writes must be right.
#[test]
fn seat_prices_are_read_one_by_one() {
    assert_eq!(Shop::demo().seating.plywood_per_m2, Some(Money(2350)));
    let some = with("/seating", json!({"cord_per_metre": 0.2})).expect("good").seating;
    assert_eq!((some.cord_per_metre, some.foam_per_m2), (Some(Money(20)), None));
    let (at, why) = refused("/seating/foam_per_m2", json!(-1));
    assert!(at == "seating.foam_per_m2" && why.starts_with("The price is -1"), "{at}: {why}");
    let (at, _) = refused("/seating", json!({"leather": 3}));
    assert_eq!(at, "seating.leather");
}

/// What a shop's file says of its time and its prices is read whole or refused by name.
#[test]
fn times_and_shares_outside_their_limits_are_refused_by_name() {
    for (pointer, value, place, says) in [
        ("/labour/rate", json!(-29), "labour.rate", "The price is -29; it must be from 0"),
        ("/labour/rate", Value::Null, "labour.rate", "Here must be a number, but there is nothing (null)."),
        ("/labour/batch", json!(0), "labour.batch", "Chairs of a batch is 0; it must be from 1 to 100."),
        ("/labour/batch", json!(1.5), "labour.batch", "Chairs of a batch is 1.5; it must be a whole number."),
        (
            "/labour/method",
            json!("laser"),
            "labour.method",
            "\"laser\" is not known here. Choose one of: hand",
        ),
        (
            "/labour/week/hours",
            json!(400),
            "labour.week.hours",
            "Hours a week is 400 h; it must be from 1 to 112 h.",
        ),
        ("/labour/week/days", json!(1), "labour.week.hours", "32 hours in 1 days are 32.0 hours a day"),
        ("/labour/waiting/coat", json!(-1), "labour.waiting.coat", "The wait is -1 h"),
        (
            "/labour/operations/plane/minutes",
            json!(1e9),
            "labour.operations.plane.minutes",
            "The time for one is 1000000000 min; it must be from 0 to 1000 min.",
        ),
        (
            "/labour/operations/plane/set_up",
            json!("ten"),
            "labour.operations.plane.set_up",
            "Here must be a number, but there is the text \"ten\".",
        ),
        (
            "/labour/operations/plane",
            json!({"minutes": 1}),
            "labour.operations.plane.set_up",
            "\"set_up\" is missing",
        ),
        (
            "/labour/operations",
            json!({}),
            "labour.operations.choose_and_mark",
            "\"choose_and_mark\" is missing",
        ),
        (
            "/labour/operations",
            json!({"carve": {}}),
            "labour.operations.carve",
            "The name \"carve\" is not known",
        ),
        ("/labour/joints", json!({"hand": {}}), "labour.joints.hand.blind", "\"blind\" is missing"),
        (
            "/labour/joints/hand/twin/minutes",
            json!(-2),
            "labour.joints.hand.twin.minutes",
            "The time for one is -2 min",
        ),
        (
            "/pricing/tax/percent",
            json!(120),
            "pricing.tax.percent",
            "Tax is 120 %; it must be from 0 to 100 %.",
        ),
        (
            "/pricing/tax/percent",
            json!(17.123_45),
            "pricing.tax.percent",
            "17.12345 % has more than four decimals.",
        ),
        (
            "/pricing/profit",
            json!({"margin": 100}),
            "pricing.profit.margin",
            "Margin is 100 %; it must be from 0 to 95 %.",
        ),
        (
            "/pricing/profit",
            json!({"margin": 9, "markup": 9}),
            "pricing.profit.markup",
            "Write either \"markup\" or",
        ),
        ("/pricing/overhead", json!({}), "pricing.overhead.per_hour", "Write either \"per_hour\" or"),
        (
            "/pricing/rounding/to",
            json!(0),
            "pricing.rounding.to",
            "A price cannot be rounded to multiples of nothing.",
        ),
        ("/pricing/deposit", json!(-1), "pricing.deposit", "Deposit is -1 %"),
        ("/quote/valid_days", json!(0), "quote.valid_days", "Days that a quote holds is 0"),
        ("/quote/terms", json!("pay"), "quote.terms", "Here must be a list"),
    ] {
        let (at, why) = refused(pointer, value);
        assert_eq!(at, place, "{why}");
        assert!(why.starts_with(says), "{why}");
    }
}

/// A file of the first version has no times and no prices of its own, and is still a whole shop.
#[test]
fn an_older_file_still_opens() {
    let mut old = demo();
    let fields = old.as_object_mut().expect("an object");
    ["labour", "pricing", "quote"].iter().for_each(|name| drop(fields.remove(*name)));
    fields.insert("crestrail".to_owned(), json!("shop/1"));
    let shop = Shop::from_value(&old).expect("it was good when it was written");
    assert!(shop.labour.is_none() && shop.pricing.is_none() && shop.quoting.is_none());
    let other = Shop { labour: None, pricing: None, quoting: None, ..Shop::demo() };
    assert_eq!(shop, other);
}

/// Only the method that is used must be there.
#[test]
fn other_methods_may_be_left_out() {
    let machine = demo()["labour"]["joints"]["machine"].clone();
    assert_eq!(with("/labour/joints", json!({"machine": machine})), Ok(Shop::demo()));
    let hand = demo()["labour"]["joints"]["hand"].clone();
    let (at, _) = refused("/labour/joints", json!({"hand": hand}));
    assert_eq!(at, "labour.joints.machine");
}
