use super::*;
use crate::design::Design;
use crate::order::ORDER_MARK;
use crestrail_sheet::Item;
use crestrail_sheet::pdf::{self, Page};
use serde_json::json;

fn order(customer: &str) -> Order {
    let knobs = |family: &str| {
        serde_json::Value::Object(Design::from_value(&json!({"family": family})).expect("a kind").to_map())
    };
    Order::from_value(&json!({
        "crestrail": "order/1",
        "customer": customer,
        "lines": [
            {"name": "Side </script> chair", "quantity": 6, "knobs": knobs("side_chair")},
            {"name": "Stool", "quantity": 2, "knobs": knobs("stool")},
        ],
    }))
    .expect("an order")
}

fn asked<'a>(order: &'a Order, shop: &'a Shop, view: &'a View) -> QuoteAsked<'a> {
    QuoteAsked { order, number: "2026-014", date: "2026-03-09", shop, view }
}

fn written(order: &Order, shop: &Shop) -> Result<String, Refusal> {
    quote_html(&asked(order, shop, &View::default()))
}

fn faces() -> Faces {
    let regular = include_bytes!("../../../../../www/page/fonts/crestrail-sans-regular.ttf").to_vec();
    let medium = include_bytes!("../../../../../www/page/fonts/crestrail-sans-medium.ttf").to_vec();
    Faces::read(regular, medium).expect("the fonts of the page")
}

fn printed(order: &Order, paper: &str) -> Document {
    let (shop, view) = (Shop::demo(), View::default());
    let paper = Paper::named(paper).expect("a paper");
    quote_pdf(&asked(order, &shop, &view), paper, &faces()).expect("printed")
}

/// The words of the pages, a line each.
fn words(document: &Document) -> Vec<Vec<String>> {
    fn all(items: &[Item], found: &mut Vec<String>) {
        for item in items {
            match item {
                Item::Group(group) => all(&group.items, found),
                Item::Text(text) => found.push(text.words.clone()),
                _ => {}
            }
        }
    }
    let page = |page: &Page| {
        let mut found = Vec::new();
        all(&page.sheet.items, &mut found);
        found
    };
    document.pages.iter().map(page).collect()
}

#[test]
fn it_holds_all_that_a_customer_asks() {
    let page = written(&order("Ada <b>"), &Shop::demo()).expect("written");
    for needed in [
        "<h1>Quote 2026-014</h1>",
        "9 March 2026",
        "8 April 2026",
        "Ada &lt;b&gt;",
        "Quillbeam Chairs (invented)",
        "6 × Side &lt;/script&gt; chair",
        "<dd><bdi>white ash</bdi></dd>",
        "Hard oil, three coats",
        "<td>Packing and carrying</td>",
        "17.5 %",
        "Deposit with the order",
        "working days after the order",
        "The deposit is due with the order",
        "No chair is meant for standing on",
    ] {
        assert!(page.contains(needed), "{needed}");
    }
    assert_eq!(page.matches("<figure><svg").count(), 4, "each chair as it stands and taken apart");
    assert_eq!(page.matches("<script").count(), 1, "the order, and nothing that runs");
}

#[test]
fn the_same_order_is_opened_again() {
    let order = order("Ada");
    let page = written(&order, &Shop::demo()).expect("written");
    assert_eq!(Order::read(&page), Ok(order));
}

/// Neither rate, margin, hours nor what is paid for a bill's lines below a chair's price.
#[test]
fn nothing_private_is_in_it() {
    let (shop, order) = (Shop::demo(), order("Ada"));
    let page = written(&order, &shop).expect("written");
    // The order holds every knob; its numbers are no prices.
    let (seen, _) = page.split_once(ORDER_MARK).expect("an order");
    let (_, seen) = seen.split_once("<body>").expect("a body");
    let printed: String =
        words(&printed(&order, "a4")).concat().iter().map(|line| format!("{line}<")).collect();
    let made = order.made(&shop).expect("built");
    let report = order.report(&made, &shop).expect("priced");
    for row in &report.rows {
        for line in &row.bill.lines {
            for amount in [line.rate_minor, line.amount_minor] {
                let figure = format!("EUR {}<", amount.decimal(2));
                let told = report.bill.lines.iter().any(|l| [l.rate_minor, l.amount_minor].contains(&amount));
                assert!(told || !seen.contains(&figure), "{} of {}", figure, line.id);
                assert!(told || !printed.contains(&figure), "{} of {} in print", figure, line.id);
            }
        }
    }
    for word in
        ["29.00", "11.50", "22 %", "28.2051", "margin", "overhead", "contingency", "hours at the bench"]
    {
        assert!(!seen.contains(word) && !printed.contains(word), "{word}");
    }
}

#[test]
fn print_says_what_the_page_says() {
    let order = order("Ada <b>");
    for paper in ["a4", "letter"] {
        let document = printed(&order, paper);
        let pages = words(&document);
        let count = pages.len();
        assert!(count >= 3, "{count}");
        let all = pages.concat();
        for needed in [
            "Quote 2026-014",
            "9 March 2026",
            "8 April 2026",
            "Ada <b>",
            "6 × Side </script> chair",
            "white ash",
            "Packing and carrying",
            "17.5 %",
            "Deposit with the order",
            "Parts of 2 × Stool",
        ] {
            assert!(all.iter().any(|line| line == needed), "{needed}");
        }
        for (i, page) in pages.iter().enumerate() {
            assert_eq!(page.last(), Some(&format!("{} of {count}", i + 1)));
        }
        assert_eq!(document.title, "Quote 2026-014, Quillbeam Chairs (invented)");
        let written = pdf::write(&document, &faces()).expect("a file");
        assert!(written.missing.is_empty(), "{:?}", written.missing);
        assert_eq!(pdf::attached(&written.bytes), Ok(vec![order.write().into_bytes()]));
    }
    let (shop, view, roll) = (Shop::demo(), View::default(), Paper::named("roll").expect("a roll"));
    assert_eq!(quote_pdf(&asked(&order, &shop, &view), roll, &faces()).expect_err("a roll").where_, "paper");
}

/// Each line of words ends before the next thing to its right and before the margin.
#[test]
fn no_word_in_print_runs_out_of_the_page() {
    let name = "Dining room chair with a very long name, the third of its kind";
    let order = Order { customer: name.chars().take(60).collect(), ..order("") };
    let faces = faces();
    for paper in ["a4", "letter"] {
        for page in printed(&order, paper).pages {
            for item in &page.sheet.items {
                let Item::Text(text) = item else { continue };
                let long = faces.of(text.weight).length(&text.words) * text.size;
                let end = text.at.x + if text.align == crestrail_sheet::Align::Start { long } else { 0.0 };
                assert!(end <= page.sheet.width - 19.9, "{} ends at {end}", text.words);
                assert!(text.at.y < page.sheet.height - 5.0);
            }
        }
    }
}

#[test]
fn it_needs_a_number_and_a_day() {
    let refused = |number: &str, date: &str| {
        let (order, shop, view) = (order(""), Shop::demo(), View::default());
        quote_html(&QuoteAsked { number, date, ..asked(&order, &shop, &view) }).expect_err("refused").where_
    };
    for number in ["", "  ", "7\n8", &"7".repeat(41)] {
        assert_eq!(refused(number, "2026-03-09"), "number");
    }
    assert_eq!(refused("7", "9 March"), "date");
    let (order, shop, view) = (order(""), Shop::demo(), View::default());
    let page = quote_html(&QuoteAsked { number: " 7 ", ..asked(&order, &shop, &view) }).expect("written");
    assert!(page.contains("<h1>Quote 7</h1>"));
}

#[test]
fn what_is_missing_is_named() {
    let without = |shop: Shop| written(&order(""), &shop).expect_err("something is missing").where_;
    assert_eq!(without(Shop { labour: None, ..Shop::demo() }), "labour");
    assert_eq!(without(Shop { pricing: None, ..Shop::demo() }), "pricing");
    assert_eq!(without(Shop { quoting: None, ..Shop::demo() }), "quote");
}
