//! Files as earlier versions of the program wrote them (`tests/data/earlier`): each of them still opens, and says the same.
//!
//! A file's name begins with its kind and version, such as `order-1`. Whoever changes a format adds a file as it was before; none is
//! ever taken away.

use crestrail_chair::chair::Chair;
use crestrail_chair::design::{DESIGN_FILE, Design, NamedDesign};
use crestrail_chair::link;
use crestrail_chair::order::{ORDER_FILE, Order};
use crestrail_chair::reading;
use crestrail_chair::report::report;
use crestrail_chair::shop::{SHOP_FILE, Shop};
use crestrail_chair::showroom::{SHOWROOM_FILE, Showroom};
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("data/earlier")
}

/// Names and texts of the files whose names begin so, in the order of their names; at least one.
fn files(begins: &str) -> Vec<(String, String)> {
    let entries = fs::read_dir(folder()).expect("a folder of earlier files");
    let mut found: Vec<PathBuf> = entries.map(|entry| entry.expect("readable").path()).collect();
    found.retain(|path| name(path).starts_with(begins));
    found.sort();
    assert!(!found.is_empty(), "no earlier file begins with {begins}");
    found.iter().map(|path| (name(path), fs::read_to_string(path).expect("a text"))).collect()
}

fn name(path: &Path) -> String {
    path.file_name().expect("a name").to_string_lossy().into_owned()
}

fn values(name: &str, text: &str) -> Value {
    reading::parse(name, text).unwrap_or_else(|why| panic!("{name}: {why}"))
}

#[test]
fn every_version_that_is_still_read_has_its_file() {
    for kind in [DESIGN_FILE, ORDER_FILE, SHOP_FILE, SHOWROOM_FILE] {
        for version in kind.oldest..=kind.version {
            let header = format!("{}/{version}", kind.name);
            for (name, text) in files(&header.replace('/', "-")) {
                assert_eq!(values(&name, &text)["crestrail"], header, "{name}");
            }
        }
    }
}

/// What a file says is what the chair has; what it could not say yet has the first value of its kind, and that is told.
#[test]
fn designs_open_with_what_they_say() {
    for (name, text) in files("design-") {
        let (named, notes) =
            NamedDesign::read_with_notes(&text).unwrap_or_else(|why| panic!("{name}: {why}"));
        let (said, has) = (values(&name, &text), named.design.to_map());
        let said = said["knobs"].as_object().expect("knobs");
        let first = Design::of(named.design.family()).to_map();
        for (knob, value) in &has {
            let wanted = said.get(knob).unwrap_or(&first[knob]);
            assert_eq!(value.as_f64(), wanted.as_f64(), "{name}: {knob}");
            assert_eq!(value.as_str(), wanted.as_str(), "{name}: {knob}");
        }
        assert_eq!(notes.len(), usize::from(said.len() < has.len()), "{name}: {notes:?}");
        assert!(Chair::resolve(&named.design, &Shop::demo().bench()).is_ok(), "{name} can be built");
        assert_eq!(NamedDesign::read(&named.write()), Ok(named), "{name}");
    }
}

#[test]
fn orders_and_quotes_open() {
    for (name, text) in files("order-").into_iter().chain(files("quote-")) {
        let order = Order::read(&text).unwrap_or_else(|why| panic!("{name}: {why}"));
        assert!(order.chairs() >= 4 && order.customer == "Ada", "{name}");
        assert_eq!(order.lines[0].design.seat_height(), 455.0, "{name}");
        assert_eq!(order.lines[0].told.is_some(), name == "order-2.json", "{name}");
    }
}

/// A workshop's book opens and gives a price; the first had no hours yet, so the price is that of the material.
#[test]
fn books_open_and_price_a_chair() {
    let design = Design::default();
    for (name, text) in files("shop-") {
        let shop = Shop::from_value(&values(&name, &text)).unwrap_or_else(|why| panic!("{name}: {why}"));
        let chair = Chair::resolve(&design, &shop.bench()).expect("it is built");
        let priced = report(&design, &chair, &shop);
        assert!(priced.bill.is_some_and(|bill| bill.total_minor.0 > 5_000), "{name} gives a price");
        assert_eq!(priced.labour.is_some(), name != "shop-1.json", "{name}");
    }
}

#[test]
fn showrooms_open() {
    for (name, text) in files("showroom-") {
        let showroom =
            Showroom::from_value(&values(&name, &text)).unwrap_or_else(|why| panic!("{name}: {why}"));
        assert!(!showroom.offers.is_empty(), "{name}");
    }
}

#[test]
fn links_open() {
    let (_, text) = files("links").remove(0);
    for line in text.lines() {
        let design = link::read(line).unwrap_or_else(|why| panic!("{line}: {why}"));
        assert_eq!(design.seat_height(), 455.0, "{line}");
    }
}
