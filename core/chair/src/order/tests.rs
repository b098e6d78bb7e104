use super::*;
use crate::bill::Bill;
use crate::design::Design;
use crate::money::Money;
use crate::shop::Shop;
use serde_json::{Value, json};

fn knobs(family: &str) -> Value {
    Value::Object(Design::from_value(&json!({"family": family})).expect("a kind").to_map())
}

fn file() -> Value {
    json!({
        "crestrail": "order/1",
        "name": "Dining room",
        "customer": "Ada",
        "lines": [
            {"name": "Side chair", "quantity": 6, "knobs": knobs("side_chair")},
            {"name": "", "quantity": 2, "knobs": knobs("stool")},
        ],
    })
}

fn refused(pointer: &str, value: Value) -> (String, String) {
    let mut file = file();
    *file.pointer_mut(pointer).expect(pointer) = value;
    let refusal = Order::from_value(&file).expect_err(pointer);
    (refusal.where_, refusal.why)
}

#[test]
fn goes_there_and_back() {
    let order = Order::read(&file().to_string()).expect("good");
    assert_eq!((order.chairs(), order.lines[1].title()), (8, "Chair"));
    assert_eq!(Order::read(&order.write()), Ok(order));
}

#[test]
fn what_is_wrong_is_named() {
    for (pointer, value, place, says) in [
        ("/crestrail", json!("order/3"), "crestrail", "order/3 is newer"),
        ("/crestrail", json!("design/1"), "crestrail", "This is a design file"),
        ("/lines", json!([]), "lines", "The order has no chair in it."),
        ("/lines", json!("six"), "lines", "Here must be a list"),
        ("/lines/0/quantity", json!(0), "lines[0].quantity", "The quantity is 0; it must be from 1 to 999."),
        (
            "/lines/1/quantity",
            json!(2.5),
            "lines[1].quantity",
            "The quantity is 2.5; it must be a whole number.",
        ),
        ("/lines/1/quantity", Value::Null, "lines[1].quantity", "Here must be a number"),
        ("/lines/1/knobs/seat_height", json!(9000), "lines[1].knobs.seat_height", "Seat height"),
        ("/lines/1/knobs", json!({}), "lines[1].knobs", ""),
        (
            "/lines/0",
            json!({"quantity": 1, "colour": 2}),
            "lines[0].colour",
            "The name \"colour\" is not known",
        ),
        ("/name", json!("a\nb"), "name", "The text has control characters"),
    ] {
        let (at, why) = refused(pointer, value);
        assert!(at.starts_with(place) && why.starts_with(says), "{at}: {why}");
    }
    let why = Order::read("<html></html>").expect_err("no order").why;
    assert!(why.contains("not a quote of this program"), "{why}");
}

fn priced(shop: &Shop) -> OrderReport {
    let order = Order::from_value(&file()).expect("good");
    order.report(&order.made(shop).expect("built"), shop).expect("priced")
}

/// Six side chairs and two stools: each at its price among as many, then delivery of eight and the tax.
#[test]
fn an_order_adds_up() {
    let report = priced(&Shop::demo());
    let rows: i64 = report.rows.iter().map(|row| row.amount_minor.0).sum();
    assert_eq!((report.chairs, report.bill.price_minor), (8, Money(rows)));
    for row in &report.rows {
        assert_eq!(row.amount_minor.0, row.price_minor.0 * i64::from(row.quantity));
        assert_eq!(row.labour.as_ref().map(|labour| labour.batch), Some(row.quantity));
    }
    let tax = ((rows + 4800 + 8 * 900) as f64 * 0.175 + 0.5).floor() as i64;
    assert_eq!(report.bill.total_minor, Money(rows + 4800 + 8 * 900 + tax));
    let ids: Vec<&str> = report.bill.lines.iter().map(|line| line.id.as_str()).collect();
    assert_eq!(ids, ["chair.1", "chair.2", "delivery.order", "delivery.chairs", "tax"]);
    let lead = report.lead.expect("the demo has times");
    let hours: f64 = report
        .rows
        .iter()
        .map(|row| f64::from(row.quantity) * row.labour.as_ref().map_or(0.0, |l| l.hours))
        .sum();
    assert!((lead.bench_hours - hours).abs() < 1e-6 && f64::from(lead.working_days) >= (hours / 6.4).floor());
}

/// One chair more never makes the others dearer, for they share the set-up; the row of six is what the order pays.
#[test]
fn the_price_falls_with_the_number() {
    let shop = Shop { stock: None, ..Shop::demo() };
    let report = priced(&shop);
    for table in &report.breaks {
        assert_eq!(table.rows.iter().map(|row| row.chairs).collect::<Vec<_>>(), (1..=24).collect::<Vec<_>>());
        assert!(table.rows.windows(2).all(|pair| pair[0].price_minor >= pair[1].price_minor));
        assert!(table.rows.windows(2).all(|pair| pair[0].total_minor < pair[1].total_minor));
        assert!(table.rows.windows(2).all(|pair| pair[0].working_days <= pair[1].working_days));
    }
    assert!(report.breaks[0].rows[0].price_minor > report.breaks[0].rows[23].price_minor);
    assert_eq!(report.breaks[0].rows[5].price_minor, report.rows[0].price_minor);
    let slow = Shop { labour: None, ..shop };
    let flat = &priced(&slow).breaks[0].rows;
    assert!(flat.iter().all(|row| row.price_minor == flat[0].price_minor && row.working_days.is_none()));
}

/// Whole boards are bought, so the price may rise by a chair that needs one board more; over many it falls. The order's
/// designs share their boards, so none of its rows is dearer by its timber than the same number alone.
#[test]
fn planned_boards_are_shared() {
    let shop = Shop::demo();
    let report = priced(&shop);
    let timber = |bill: &Bill| {
        let lines = bill.lines.iter().filter(|l| l.id.starts_with("timber."));
        lines.map(|l| l.amount_minor.0).sum::<i64>()
    };
    let together: i64 = report.rows.iter().map(|r| i64::from(r.quantity) * timber(&r.bill)).sum();
    let bought: i64 = report.boards.iter().map(|c| c.cost_minor.0 - c.credit_minor.0).sum();
    // Each line of each chair is rounded to the cent once.
    assert!(bought > 0 && (together - bought).abs() <= 8 * 6, "{together} {bought}");
    for table in &report.breaks {
        assert!(table.rows[0].price_minor > table.rows[23].price_minor);
    }
}

#[test]
fn a_design_that_cannot_be_built_is_named() {
    let mut file = file();
    let laths = Design::from_value(&json!({"back": "laths", "fill_thickness": 8})).expect("within the knobs");
    file["lines"][0]["knobs"] = Value::Object(laths.to_map());
    let order = Order::from_value(&file).expect("good");
    let shop = Shop { cutters: vec![8.0], ..Shop::demo() };
    let refusal = order.made(&shop).expect_err("the one cutter is too wide for thin laths");
    assert!(refusal.where_.starts_with("lines[0].knobs"), "{refusal}");
    assert!(refusal.why.starts_with("Side chair cannot be built."), "{refusal}");
}

/// One chair of an order has the first of its price breaks, by selling rates, too; a batch shares their set-up.
#[test]
fn orders_are_sold_by_the_same_rates() {
    let shop = Shop::demo();
    let knobs = serde_json::json!({"family": "stool"});
    let knobs = crate::design::Design::from_value(&knobs).expect("a stool").to_map();
    let report = |quantity: u32| {
        let text = serde_json::json!({"crestrail": "order/2", "name": "", "customer": "",
            "lines": [{"name": "Stool", "quantity": quantity, "knobs": knobs}]});
        let order = Order::read(&text.to_string()).expect("an order");
        order.report(&order.made(&shop).expect("made"), &shop).expect("priced")
    };
    let (one, six) = (report(1), report(6));
    assert_eq!(one.rows[0].price_minor, one.breaks[0].rows[0].price_minor);
    assert_eq!(six.rows[0].price_minor, one.breaks[0].rows[5].price_minor);
    assert!(six.rows[0].price_minor < one.rows[0].price_minor);
    for row in [&one.rows[0], &six.rows[0]] {
        assert!(row.bill.lines.iter().any(|line| line.id == "rounding.rates"));
        let before = row.bill.lines.iter().filter(|line| line.group < crate::bill::Group::Delivery);
        assert_eq!(before.map(|line| line.amount_minor.0).sum::<i64>(), row.price_minor.0);
    }
}
