//! Files that somebody opens or drops on the page.

use super::taken;
use crestrail_chair::chair::Chair;
use crestrail_chair::checkin::check_in;
use crestrail_chair::choices::Family;
use crestrail_chair::design::{Design, NamedDesign};
use crestrail_chair::order::Order;
use crestrail_chair::reading;
use crestrail_chair::report::report;
use crestrail_chair::shop::{SHOP_FILE, Shop};
use crestrail_chair::showroom::{SHOWROOM_FILE, Showroom, published};
use crestrail_sheet::pdf;
use serde_json::json;
use std::sync::LazyLock;

static SHOP: LazyLock<Shop> = LazyLock::new(Shop::demo);
static SHOWROOM: LazyLock<Showroom> = LazyLock::new(Showroom::demo);

/// The chair with the fewest parts.
static STOOL: LazyLock<Design> = LazyLock::new(|| {
    let stool = Design::of(Family::Stool);
    let bare = stool.with("seat", &json!("pad")).and_then(|stool| stool.with("stretchers", &json!("none")));
    bare.expect("a stool may be so")
});

/// A `design.json`: read, it can be written and read again, and is built or refused in words.
pub(super) fn design(bytes: &[u8]) -> bool {
    let Ok(text) = str::from_utf8(bytes) else { return false };
    let Some(named) = taken(NamedDesign::read(text)) else { return false };
    assert_eq!(NamedDesign::read(&named.write()).as_ref(), Ok(&named), "what is written reads back the same");
    if let Err(clash) = Chair::check(&named.design, &SHOP.bench()) {
        super::worded("build", &clash.why);
    }
    true
}

/// A `shop.json`: with it a stool has a report whose figures are numbers.
pub(super) fn shop(bytes: &[u8]) -> bool {
    let Ok(text) = str::from_utf8(bytes) else { return false };
    let value = taken(reading::parse(SHOP_FILE.file, text));
    let Some(shop) = value.and_then(|value| taken(Shop::from_value(&value))) else { return false };
    match Chair::resolve(&STOOL, &shop.bench()) {
        Ok(chair) => {
            let report = report(&STOOL, &chair, &shop);
            if let Some(refusal) = &report.no_bill {
                super::worded(&refusal.where_, &refusal.why);
            }
            let mut told = serde_json::to_value(&report).expect("a report is plain data");
            let fields = told.as_object_mut().expect("an object");
            // These hold the shop's own words, whatever they are.
            fields.retain(|name, _| !["cautions", "no_bill"].contains(&name.as_str()));
            if report.no_bill.is_some() {
                fields.remove("bill");
            }
            crate::sweep::numbers("report", &told).unwrap_or_else(|why| panic!("{why}"));
        }
        Err(clash) => super::worded("build", &clash.why),
    }
    true
}

/// An `order.json`, or a quote that holds one. Only a small one is priced.
pub(super) fn order(bytes: &[u8]) -> bool {
    let Ok(text) = str::from_utf8(bytes) else { return false };
    let Some(order) = taken(Order::read(text)) else { return false };
    assert_eq!(Order::read(&order.write()).as_ref(), Ok(&order), "what is written reads back the same");
    if order.lines.len() == 1 && order.chairs() <= 2 {
        let priced = order.made(&SHOP).and_then(|made| order.bare_report(&made, &SHOP));
        if let Some(report) = taken(priced) {
            let told = serde_json::to_value(&report).expect("a report is plain data");
            assert!(told["bill"].is_object(), "{told}");
        }
    }
    true
}

/// A `showroom.json`, as its maker wrote it or as `publish` did.
pub(super) fn showroom(bytes: &[u8]) -> bool {
    let Ok(text) = str::from_utf8(bytes) else { return false };
    let Some(value) = taken(reading::parse(SHOWROOM_FILE.file, text)) else { return false };
    let Some(showroom) = taken(Showroom::from_value(&value)) else { return false };
    for offer in &showroom.offers {
        assert_eq!(offer.allows(&offer.design), Ok(()), "an offer allows its own design");
        assert!(!offer.rows().is_empty());
    }
    // Publishing works out the lowest price of each offer, which takes long.
    if showroom.offers.len() == 1 && showroom.bench.is_none() {
        taken(published(&value, &SHOP));
    }
    true
}

/// What a customer sends: an order, a quote, a design, a link, a message with a link.
pub(super) fn message(bytes: &[u8]) -> bool {
    let Ok(text) = str::from_utf8(bytes) else { return false };
    let text = super::words::mended(text);
    let Some(checked) = taken(check_in(&text, &SHOP, Some(&SHOWROOM))) else { return false };
    let told = serde_json::to_value(&checked).expect("plain data");
    assert!(told["lines"].as_array().is_some_and(|lines| !lines.is_empty()), "{told}");
    true
}

/// A PDF file in which a quote may carry its order.
pub(super) fn quote_pdf(bytes: &[u8]) -> bool {
    let Ok(files) = pdf::attached(bytes) else { return false };
    for file in &files {
        order(file);
    }
    !files.is_empty()
}
