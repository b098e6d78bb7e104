use super::*;
use serde_json::json;

fn stool(height: f64) -> Design {
    Design::from_value(&json!({"family": "stool", "seat_height": height})).expect("a stool")
}

/// The price of a stool by way of the report, which the page of the Workshop shows.
fn price(height: f64) -> i64 {
    let (design, shop) = (stool(height), Shop::demo());
    let chair = Chair::resolve(&design, &shop.bench()).expect("built");
    crate::report::report(&design, &chair, &shop).bill.expect("priced").total_minor.0
}

fn order(told: &Value) -> String {
    json!({
        "crestrail": "order/2",
        "name": "Kitchen",
        "customer": "Ada",
        "lines": [{"name": "Stool", "quantity": 4, "knobs": stool(470.0).to_map(), "told": told}],
    })
    .to_string()
}

fn label(way: &str, minor: i64) -> Value {
    json!({"offer": "Stool", "label": {"way": way, "currency": "EUR", "minor": minor}})
}

fn line(text: &str, showroom: Option<&Showroom>) -> CheckedLine {
    check_in(text, &Shop::demo(), showroom).expect("read").lines.remove(0)
}

fn grave(line: &CheckedLine) -> Vec<(&str, &str, &str)> {
    let all = line.differences.iter().filter(|d| d.grave);
    all.map(|d| (d.what, d.told.as_str(), d.now.as_str())).collect()
}

#[test]
fn an_honest_order_has_no_difference() {
    let told = label("shown", price(470.0));
    let checked = check_in(&order(&told), &Shop::demo(), Some(&Showroom::demo())).expect("read");
    assert_eq!((checked.customer.as_str(), checked.lines[0].quantity), ("Ada", 4));
    assert_eq!(checked.lines[0].differences, []);
    assert!(checked.lines[0].price_told);
}

#[test]
fn an_altered_price_stands_out() {
    let right = price(470.0);
    let now = line(&order(&label("shown", right)), None).price.expect("priced");
    let altered = line(&order(&label("shown", right - 1)), None);
    let [(what, told, here)] = grave(&altered)[..] else { panic!("{:?}", altered.differences) };
    assert_eq!((what, here), ("Price", now.as_str()));
    assert_ne!(told, here);
    // A link whose checksum was worked out anew after the price was altered.
    let told = ToldLabel::read("shown.EUR.10000").expect("a label");
    let link = format!("https://maker.example/#{}", link::write_told(&stool(470.0), Some(&told)));
    assert_eq!(grave(&line(&link, None)), [("Price", "EUR 100.00", now.as_str())]);
    let other = json!({"label": {"way": "shown", "currency": "GBP", "minor": right}});
    assert_eq!(grave(&line(&order(&other), None)).len(), 1, "another currency");
}

#[test]
fn a_price_from_is_held_against_the_own_label() {
    let mut showroom = Showroom::demo();
    showroom.offers[2].from = Some(crate::money::Money(30_000));
    let honest = line(&order(&label("from", 30_000)), Some(&showroom));
    assert_eq!(grave(&honest), []);
    assert_eq!(honest.differences.len(), 1, "the price of this very chair is told to the maker");
    assert_eq!(grave(&line(&order(&label("from", 20_000)), Some(&showroom))).len(), 1);
    assert_eq!(grave(&line(&order(&label("from", 20_000)), None)), [], "nothing to hold it against");
    assert_eq!(
        grave(&line(&order(&label("from", price(470.0) + 1)), None)).len(),
        1,
        "cheaper than the lowest"
    );
}

#[test]
fn sizes_choices_and_what_cannot_be_made_are_told() {
    let size = json!({"size": {"width": 999.0, "depth": 999.0, "height": 470.0}});
    let found = line(&order(&size), None).differences;
    let [Difference { what: "Size", told, now, grave: false, .. }] = &found[..] else { panic!("{found:?}") };
    assert!(
        told == "999 × 999 × 470 mm" && now.ends_with(" × 470 mm") && !now.contains("999"),
        "{told}, {now}"
    );

    let showroom = Showroom::demo();
    let outside = link::write(&stool(490.0));
    let line = line(&outside, Some(&showroom));
    let [choice] = &line.differences[..] else { panic!("{:?}", line.differences) };
    assert!(choice.grave && choice.say.contains("Seat height is 490 mm"), "{choice:?}");
    let child = Design::from_value(&json!({"family": "child_chair"})).expect("a chair");
    let kind = check_in(&link::write(&child), &Shop::demo(), Some(&showroom)).expect("read");
    assert_eq!(kind.lines[0].differences[0].say, "You offer no chair of this kind.");
}

#[test]
fn designs_and_messages_are_read_and_the_rest_is_refused() {
    let design = NamedDesign { name: "Mine".to_owned(), design: stool(460.0) };
    let checked = line(&design.write(), None);
    assert_eq!((checked.name.as_str(), checked.price_told), ("Mine", false));
    let mail = format!("Hello,\nhttps://maker.example/x/#{} .\nAda", link::write(&stool(460.0)));
    assert_eq!(line(&mail, None).design, stool(460.0).to_map());
    for (text, place) in [
        ("", "link"),
        ("Hello", "link"),
        ("https://maker.example/#design/1;seat_height=460", "link"),
        ("{\"crestrail\": \"shop/2\"}", "crestrail"),
        ("<html></html>", "order.json"),
        (&order(&json!({"label": 5})), "lines[0].told.label"),
    ] {
        let refusal = check_in(text, &Shop::demo(), None).expect_err(text);
        assert_eq!(refusal.where_, place, "{refusal}");
    }
}
