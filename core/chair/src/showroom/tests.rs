mod agree;

use super::*;
use crate::chair::Chair;
use crate::design::Design;
use crate::knob::Knob;
use serde_json::{Value, json};

fn file() -> Value {
    serde_json::from_str(DEMO_SHOWROOM).expect("JSON")
}

/// The file with one thing changed, at a JSON pointer whose last name may be new.
fn with(pointer: &str, value: Value) -> Value {
    let mut file = file();
    let (parent, name) = pointer.rsplit_once('/').expect("a pointer");
    match file.pointer_mut(parent).expect(pointer) {
        Value::Array(list) => list[name.parse::<usize>().expect("a place")] = value,
        object => object[name] = value,
    }
    file
}

fn rows(offer: &Offer) -> Vec<Value> {
    offer.rows().iter().map(|row| serde_json::to_value(row).expect("plain")).collect()
}

fn row(offer: &Offer, name: &str) -> Option<Value> {
    rows(offer).into_iter().find(|row| row["name"] == name)
}

#[test]
fn the_demo_is_read_and_every_chair_on_offer_can_be_built() {
    let (showroom, shop) = (Showroom::demo(), Shop::demo());
    assert_eq!(showroom.offers.len(), 5);
    for offer in &showroom.offers {
        let chair = Chair::resolve(&offer.design, &shop.bench()).expect("built");
        let seen = showroom.seen(offer, &offer.design, &chair, Some(&shop)).expect("seen");
        assert!(seen.overall.height > 300.0, "{}", offer.name);
        assert_eq!(
            seen.concerns.iter().find(|c| c.verdict == crate::finding::Verdict::Fails),
            None,
            "{}",
            offer.name
        );
        assert_eq!(offer.allows(&offer.design), Ok(()));
    }
}

/// A seat at the top of its range is high for most people, whatever is open; a joint near its limit is told only where
/// something open mends it.
#[test]
fn customers_hear_of_what_concerns_them() {
    use crate::finding::{Topic, Verdict};
    let shop = Shop::demo();
    let topics = |open: Value| {
        let showroom = Showroom::from_value(&with("/offers/0/open", open)).expect("read");
        let offer = &showroom.offers[0];
        let design = offer.design.with("seat_height", &json!(480)).expect("a height");
        let chair = Chair::resolve(&design, &shop.bench()).expect("built");
        let all = crate::checks::findings(&chair, &crate::report::service(&design));
        let seen = showroom.seen(offer, &design, &chair, None).expect("seen").concerns;
        let strength = |topic: Topic, verdict: Verdict| topic == Topic::Strength && verdict == Verdict::Close;
        assert!(all.iter().any(|f| strength(f.topic, f.verdict)), "the chair has a joint near its limit");
        assert!(seen.iter().any(|c| c.topic == Topic::Fit), "a high seat");
        seen.iter().filter(|c| strength(c.topic, c.verdict)).count()
    };
    assert_eq!(topics(json!([{"knob": "seat_height"}])), 0);
    let all: Vec<Value> = Design::default()
        .knobs()
        .iter()
        .filter(|knob| knob.name != "family")
        .filter(|knob| {
            knob.picks().len() != 1 && !["species", "sits", "stature", "seat"].contains(&knob.name)
        })
        .map(|knob| json!({"knob": knob.name}))
        .collect();
    assert!(topics(json!(all)) > 0);
}

#[test]
fn rows_are_within_what_is_allowed() {
    let showroom = Showroom::demo();
    let chair = &showroom.offers[0];
    let height = row(chair, "seat_height").expect("open");
    assert_eq!(
        (&height["min"], &height["max"], &height["default"]),
        (&json!(420.0), &json!(480.0), &json!(450.0))
    );
    let picks = |name: &str| -> Vec<String> {
        let row = row(chair, name).expect("open");
        row["choices"].as_array().expect("picks").iter().map(|p| p["name"].to_string()).collect()
    };
    assert_eq!(picks("back"), ["\"slats\"", "\"laths\"", "\"splat\""]);
    assert_eq!(picks("species").len(), 5);
    assert!(row(chair, "family").is_none() && row(chair, "rail_width").is_none(), "closed");
    // Depends on an open choice, so the rule stays; on a closed one, so it goes.
    assert_eq!(
        row(chair, "back_slats").expect("open")["applies"],
        json!([{"knob": "back", "any": ["slats"]}])
    );
    assert_eq!(row(chair, "back_height").expect("open")["applies"].as_array().map(Vec::len), Some(1));
    let stool = with("/offers/2/open", json!([{"knob": "back_height"}, {"knob": "seat_slat_gap"}]));
    let stool = &Showroom::from_value(&stool).expect("read").offers[2];
    assert!(row(stool, "back_height").is_none(), "a stool has no back");
    let closed = with("/open", json!([{"knob": "seat_slat_gap"}]));
    let gap = row(&Showroom::from_value(&closed).expect("read").offers[0], "seat_slat_gap").expect("open");
    assert_eq!(gap.get("applies"), None, "the seat is closed, and has slats for good");
}

#[test]
fn a_design_from_elsewhere_is_held_against_the_offer() {
    let showroom = Showroom::demo();
    let offer = &showroom.offers[0];
    let turned = |knob: &str, value: Value| {
        let design = offer.design.with(knob, &value).expect("a value");
        offer.allows(&design).map_err(|refusal| refusal.to_string())
    };
    assert_eq!(turned("seat_height", json!(475.5)), Ok(()));
    assert_eq!(
        turned("seat_height", json!(500)),
        Err("seat_height: Seat height is 500 mm; with “Kitchen chair” it is from 420 to 480 mm.".to_owned())
    );
    assert!(turned("rail_width", json!(70)).expect_err("closed").contains("it is 64 mm"));
    assert!(turned("species", json!("teak")).expect_err("not offered").contains("is “teak”; with"));
    assert!(
        offer.allows(&showroom.offers[2].design).expect_err("another kind").to_string().starts_with("family")
    );
}

#[test]
fn what_is_wrong_is_named() {
    let open = |entry: Value| with("/offers/0/open", json!([entry]));
    for (file, place, says) in [
        (with("/crestrail", json!("showroom/2")), "crestrail", "showroom/2 is newer"),
        (with("/crestrail", json!("shop/2")), "crestrail", "This is a shop file"),
        (with("/rate", json!(29)), "rate", "\"rate\" is not known"),
        (with("/brand", json!("")), "brand", "0 characters"),
        (with("/contact/mail", json!("bench")), "contact.mail", "not an address of mail"),
        (
            with("/contact/mail", json!("a@b.example?cc=c@d.example")),
            "contact.mail",
            "not an address of mail",
        ),
        (with("/contact/mail", json!("a..b@c.example")), "contact.mail", "not an address of mail"),
        (with("/colours/light", json!("teal")), "colours.light", "\"teal\" is not a colour"),
        (with("/colours/light", json!("#9fd8d0")), "colours.light", "Choose a darker one"),
        (with("/colours/dark", json!("#1f5f5b")), "colours.dark", "Choose a lighter one"),
        (with("/language", json!("tlh")), "language", "no words in \"tlh\""),
        (with("/lengths", json!("furlong")), "lengths", "Choose one of: mm, cm, in"),
        (with("/currency", json!("EURO")), "currency", "not a currency code"),
        (with("/price", json!("secret")), "price", "shown, from, none"),
        (with("/offers", json!([])), "offers", "No chair is on offer"),
        (with("/offers/1/name", json!("Kitchen chair")), "offers[1].name", "offered twice"),
        (with("/offers/1/knobs/sofa", json!(1)), "offers[1].knobs.sofa", "no knob called \"sofa\""),
        (
            with("/offers/1/knobs/seat_height", json!(9000)),
            "offers[1].knobs.seat_height",
            "Seat height is 9000",
        ),
        (with("/offers/0/from", json!(1.234)), "offers[0].from", "more decimals than EUR"),
        (open(json!({"knob": "sofa"})), "offers[0].open[0].knob", "no knob called \"sofa\""),
        (open(json!({"knob": "family"})), "offers[0].open[0].knob", "an offer of its own"),
        (
            open(json!({"knob": "seat_height", "from": 300})),
            "offers[0].open[0].from",
            "“Kitchen chair” cannot be 300",
        ),
        (
            open(json!({"knob": "seat_height", "from": "low"})),
            "offers[0].open[0].from",
            "Here must be a number",
        ),
        (
            open(json!({"knob": "seat_height", "from": 460})),
            "offers[0].open[0].knob",
            "begins with seat height at 450",
        ),
        (
            open(json!({"knob": "seat_height", "from": 450, "to": 450})),
            "offers[0].open[0].knob",
            "nothing to choose",
        ),
        (
            open(json!({"knob": "seat_height", "only": []})),
            "offers[0].open[0].only",
            "Write \"from\" and \"to\"",
        ),
        (open(json!({"knob": "back_slats", "from": 2.5})), "offers[0].open[0].knob", "whole numbers"),
        (open(json!({"knob": "back", "from": 1})), "offers[0].open[0].knob", "is a choice"),
        (open(json!({"knob": "back", "only": ["slats"]})), "offers[0].open[0].knob", "nothing to choose"),
        (
            open(json!({"knob": "back", "only": ["slats", "wings"]})),
            "offers[0].open[0].only[1]",
            "cannot be \"wings\"",
        ),
        (
            open(json!({"knob": "species", "only": ["teak", "oak_red"]})),
            "offers[0].open[0].knob",
            "begins with timber",
        ),
        (
            with("/offers/0/open", json!([{"knob": "rake"}, {"knob": "rake"}])),
            "offers[0].open[1].knob",
            "opened twice",
        ),
        (with("/open", json!([{"knob": "kick", "to": 10}])), "open[0].to", "of “Stool” cannot be 10"),
        (with("/bench", json!({"cutters": [6]})), "bench.joint_fit", "missing"),
    ] {
        let refusal = Showroom::from_value(&file).expect_err(says);
        assert!(refusal.why.contains(says), "{says}: {refusal}");
        assert_eq!(refusal.where_, place, "{refusal}");
    }
}

#[test]
fn labels_say_what_the_maker_chose() {
    let shop = Shop::demo();
    let label = |price: &str, from: Value, shop: Option<&Shop>| {
        let mut file = with("/price", json!(price));
        file["offers"][0]["from"] = from;
        let showroom = Showroom::from_value(&file).expect("read");
        let offer = &showroom.offers[0];
        let chair = Chair::resolve(&offer.design, &Shop::demo().bench()).expect("built");
        showroom
            .seen(offer, &offer.design, &chair, shop)
            .expect("seen")
            .label
            .map(|l| (l.from, l.price_minor.0))
    };
    assert_eq!(label("none", json!(500), Some(&shop)), None);
    assert_eq!(label("from", json!(500), Some(&shop)), Some((true, 50_000)));
    assert_eq!(label("from", json!(500), None), Some((true, 50_000)));
    let (from, shown) = label("shown", json!(500), Some(&shop)).expect("told");
    assert!(!from && shown > 50_000, "{shown}");
    assert_eq!(label("shown", json!(500), None), None, "without the book no price is made up");
}

#[test]
fn a_published_file_has_true_prices_from_and_is_read_again() {
    let shop = Shop::demo();
    let mut source = with("/open", json!([{"knob": "species", "only": ["ash_white", "beech_european"]}]));
    source["offers"] = json!([source["offers"][2]]);
    let value = published(&source, &shop).expect("published");
    let showroom = Showroom::from_value(&value).expect("read again");
    assert_eq!(showroom.bench.as_ref(), Some(&shop.bench()));
    let (offer, bench) = (&showroom.offers[0], shop.bench());
    let from = offer.from.expect("told");
    // Somebody can have it for that, and nobody among the corners of the two sizes and timbers for less.
    let corners = [420.0, 480.0].iter().flat_map(|height| [360.0, 460.0].map(|width| (*height, width)));
    let prices: Vec<_> = corners
        .flat_map(|(height, width)| ["ash_white", "beech_european"].map(|species| (height, width, species)))
        .map(|(height, width, species)| {
            let design =
                json!({"family": "stool", "seat_height": height, "seat_width": width, "species": species});
            let design = Design::from_value(&design).expect("a stool");
            assert_eq!(offer.allows(&design), Ok(()));
            seen::total(&design, &Chair::resolve(&design, &bench).expect("built"), &shop).expect("priced")
        })
        .collect();
    assert_eq!(prices.iter().min(), Some(&from));

    for (pointer, wrong, place, says) in [
        ("/offers/0/from", json!(1), "offers[0].from", "the cheapest chair found"),
        ("/currency", json!("GBP"), "currency", "reckons in EUR"),
    ] {
        let mut source = source.clone();
        let (parent, name) = pointer.rsplit_once('/').expect("a pointer");
        source.pointer_mut(parent).expect(pointer)[name] = wrong;
        let refusal = published(&source, &shop).expect_err(says);
        assert!(refusal.why.contains(says), "{refusal}");
        assert_eq!(refusal.where_, place);
    }
    source["price"] = "none".into();
    source["offers"][0]["from"] = 700.into();
    assert_eq!(
        published(&source, &shop).expect("published")["offers"][0].get("from"),
        None,
        "no price is told"
    );
}

/// Whoever tries to read rate, overhead, margin and buying prices out of a published file finds a quite different workshop
/// that publishes the very same: what a file does not tell apart cannot be read back from it.
#[test]
fn another_workshop_publishes_the_same_file() {
    let book = |rate: f64| {
        let mut shop: Value = serde_json::from_str(crate::shop::DEMO_SHOP).expect("JSON");
        shop["labour"]["rate"] = rate.into();
        shop["pricing"]["overhead"] = json!({"percent_of_cost": 12});
        shop["pricing"]["profit"] = json!({"margin": 40});
        for row in shop["timber"]["species"].as_array_mut().expect("a list") {
            row["price"] = (row["price"].as_f64().expect("a price") * 2.0).into();
        }
        Shop::from_value(&shop).expect("a book")
    };
    let mut source = with("/offers/2/open", json!([{"knob": "seat_height", "from": 420, "to": 480}]));
    source["open"] = json!([{"knob": "species", "only": ["ash_white", "beech_european"]}]);
    source["offers"] = json!([source["offers"][2]]);
    let file = published(&source, &Shop::demo()).expect("published");
    let from = |file: &Value| file["offers"][0]["from"].as_f64().expect("a price");
    // The price rises with the rate, cent by cent, and is rounded to multiples of five: some rate meets it.
    let (mut low, mut high) = (0_u32, 10_000_u32);
    while low < high {
        let rate = u32::midpoint(low, high);
        let other = published(&source, &book(f64::from(rate) / 100.0)).expect("published");
        if from(&other) < from(&file) { low = rate + 1 } else { high = rate }
    }
    let rate = f64::from(low) / 100.0;
    assert_eq!(published(&source, &book(rate)).expect("published"), file);
    assert!((rate - 29.0).abs() > 3.0, "another rate, not nearly the same one: {rate}");
}

/// Every row that the Showroom hands to the page has a control there: two values at least.
#[test]
fn every_open_knob_can_be_turned() {
    for offer in Showroom::demo().offers {
        for row in rows(&offer) {
            let choices = row["choices"].as_array().map_or(0, Vec::len);
            assert!(choices > 1 || row["min"].as_f64() < row["max"].as_f64(), "{row}");
        }
        let all: Vec<&str> = offer.design.knobs().iter().map(|knob: &Knob| knob.name).collect();
        assert!(offer.open.iter().all(|opened| all.contains(&opened.knob)));
    }
}
