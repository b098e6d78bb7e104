//! The quote: a dated document for a customer, as one HTML file ready to print, with the order inside so that it can be
//! opened again. Nothing of the workshop's rates, hours, buying prices or margin stands in it.

use super::escape::html;
use super::sections::quantity;
use super::style::{QUOTE, STYLE};
use super::table::{Cell, table, tenths};
use crate::bill::{Bill, BillLine};
use crate::date::Date;
use crate::drawing::{View, exploded};
use crate::finding::Verdict;
use crate::labour::Lead;
use crate::lists::customer_cautions;
use crate::money::Money;
use crate::order::{Made, ORDER_MARK, Order, OrderReport};
use crate::refusal::Refusal;
use crate::report::{Overall, service};
use crate::shop::{Quoting, Shop};
use crestrail_sheet::svg;

/// What a quote is written from. All text is escaped; pictures are put in as they are.
#[derive(Clone, Copy, Debug)]
struct Quote<'a> {
    /// Its number, as the workshop counts.
    number: &'a str,
    /// The day on which it is written.
    date: Date,
    /// The workshop.
    shop: &'a Shop,
    /// The order.
    order: &'a Order,
    /// Its chairs, worked out.
    made: &'a [Made<'a>],
    /// What they cost.
    report: &'a OrderReport,
    /// A picture of each: an `<svg>` element made by this program.
    pictures: &'a [String],
}

/// Longest number of a quote, characters.
const LONGEST_NUMBER: usize = 40;

/// The quote of an order as HTML, each chair drawn as `view` says. A refusal names `number` or `date` (see
/// [`Date::read`]), what of the order cannot be built or priced, or what the shop's file does not say.
pub fn quote_of(
    order: &Order,
    number: &str,
    date: &str,
    shop: &Shop,
    view: &View,
) -> Result<String, Refusal> {
    let number = number.trim();
    if number.is_empty() || number.chars().count() > LONGEST_NUMBER || number.chars().any(char::is_control) {
        let why = format!("A quote needs a number of 1 to {LONGEST_NUMBER} characters.");
        return Err(Refusal::new("number", why));
    }
    let date = Date::read("date", date)?;
    let made = order.made(shop)?;
    let report = order.report(&made, shop)?;
    let picture = |made: &Made<'_>| svg::write(&exploded(&made.chair, view, &service(&made.line.design)));
    let pictures: Vec<String> = made.iter().map(picture).collect();
    quote_html(&Quote { number, date, shop, order, made: &made, report: &report, pictures: &pictures })
}

/// The quote as HTML. It asks for nothing from outside and runs no script. A refusal where the shop's file does not say
/// what a quote needs.
fn quote_html(quote: &Quote<'_>) -> Result<String, Refusal> {
    let quoting = needed(quote)?;
    let parts = [
        header(quote, quoting),
        quote.made.iter().enumerate().map(|(i, made)| chair(quote, quoting, i, made)).collect(),
        section("Price", &(prices(&quote.report.bill) + &ready(quote.report.lead.as_ref()))),
        section("Terms", &list(&quoting.terms)),
        section("Please note", &list(&cautions(quote))),
        embedded(quote.order),
    ];
    let title = html(quote.number);
    Ok(format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; img-src data:\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <title>Quote {title}</title>\n<style>{STYLE}{QUOTE}</style>\n</head>\n<body>\n{}</body>\n</html>\n",
        parts.concat()
    ))
}

/// What the shop writes on its quotes. A quote without a price for work would be given away.
fn needed<'a>(quote: &Quote<'a>) -> Result<&'a Quoting, Refusal> {
    let refuse = |part: &str| {
        let why = format!(
            "The file of {} has no part \"{part}\", and a quote needs it. Add it to shop.json.",
            quote.shop.name
        );
        Refusal::new(part, why)
    };
    let Shop { labour, pricing, quoting, .. } = quote.shop;
    if labour.is_none() {
        return Err(refuse("labour"));
    }
    if pricing.is_none() {
        return Err(refuse("pricing"));
    }
    quoting.as_ref().ok_or_else(|| refuse("quote"))
}

fn header(quote: &Quote<'_>, quoting: &Quoting) -> String {
    let paragraph = |line: &String| format!("<p>{}</p>", html(line));
    let contact: String = quoting.contact.iter().map(paragraph).collect();
    let until = quote.date.plus_days(quoting.valid_days);
    let mut facts = vec![("Date", quote.date.to_string()), ("Valid until", until.to_string())];
    facts.extend([("For", &quote.order.customer), ("Order", &quote.order.name)].map(|(k, v)| (k, v.clone())));
    let rows: String = facts.iter().filter(|(_, v)| !v.is_empty()).map(fact).collect();
    format!(
        "<header><div><h1>Quote {}</h1><p><b>{}</b></p>{contact}</div><dl>{rows}</dl></header>\n",
        html(quote.number),
        html(&quote.shop.name)
    )
}

fn fact((what, much): &(&str, String)) -> String {
    format!("<dt>{}</dt><dd>{}</dd>", html(what), html(much))
}

fn section(title: &str, content: &str) -> String {
    format!("<section><h2>{}</h2>{content}</section>\n", html(title))
}

fn list(lines: &[String]) -> String {
    let items: String = lines.iter().map(|line| format!("<li>{}</li>\n", html(line))).collect();
    format!("<ul>\n{items}</ul>")
}

/// Picture and sizes of one design.
fn chair(quote: &Quote<'_>, quoting: &Quoting, place: usize, made: &Made<'_>) -> String {
    let picture = quote.pictures.get(place).map_or("", String::as_str);
    let facts: String = sizes(&made.report.overall)
        .into_iter()
        .chain([("Timber", timber(made))])
        .chain(quoting.finish.clone().map(|finish| ("Finish", finish)))
        .map(|row| fact(&row))
        .collect();
    let title = format!("{} × {}", made.line.quantity, made.line.title());
    section(&title, &format!("<div class=\"chair\"><figure>{picture}</figure><dl>{facts}</dl></div>"))
}

fn sizes(overall: &Overall) -> Vec<(&'static str, String)> {
    let mm = |v: f64| format!("{} mm", tenths(v.round()));
    vec![
        ("Width", mm(overall.width)),
        ("Depth", mm(overall.depth)),
        ("Height", mm(overall.height)),
        ("Seat height", mm(overall.seat_height)),
        ("Weight, about", format!("{:.1} kg", overall.mass_kg)),
    ]
}

/// The timbers of a chair, each once.
fn timber(made: &Made<'_>) -> String {
    let mut names: Vec<&str> = Vec::new();
    for line in &made.report.timber.lines {
        if !names.contains(&line.species) {
            names.push(line.species);
        }
    }
    names.join(", ")
}

/// Chairs, delivery, tax and the total, without what is behind a price.
fn prices(bill: &Bill) -> String {
    let money = |m: Money| format!("{} {}", bill.currency, m.decimal(bill.minor_digits));
    let each = |line: &BillLine| if line.unit == "share" { String::new() } else { money(line.rate_minor) };
    let row = |line: &BillLine| {
        let (what, amount) = (capital(&line.what), money(line.amount_minor));
        vec![Cell::Text(what), Cell::Number(quantity(line)), Cell::Number(each(line)), Cell::Number(amount)]
    };
    let rows: Vec<Vec<Cell>> = bill.lines.iter().map(row).collect();
    let foot = |what: &str, amount: Money| {
        format!("<tr><td colspan=\"3\">{what}</td><td class=\"n\">{}</td></tr>", html(&money(amount)))
    };
    let deposit = bill.deposit_minor.map_or(String::new(), |amount| foot("Deposit with the order", amount));
    let foot = format!("<tfoot>{}{deposit}</tfoot>", foot("Total", bill.total_minor));
    format!("<div class=\"wide\">{}</div>", table(&["What", ">How many", ">Each", ">Amount"], &rows, &foot))
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or(String::new(), |first| first.to_uppercase().chain(chars).collect())
}

fn ready(lead: Option<&Lead>) -> String {
    let words = |lead: &Lead| {
        let days = lead.working_days;
        format!("<p>Ready about {days} working day{} after the order.</p>", if days == 1 { "" } else { "s" })
    };
    lead.map_or(String::new(), words)
}

/// What a customer must know, and what a check says against a design of the order.
fn cautions(quote: &Quote<'_>) -> Vec<String> {
    let mut said: Vec<String> = customer_cautions().iter().map(|s| (*s).to_owned()).collect();
    for made in quote.made {
        let failing = made.report.findings.iter().filter(|finding| finding.verdict == Verdict::Fails);
        for line in failing.map(|finding| format!("{}: {}", made.line.title(), finding.plain)) {
            if !said.contains(&line) {
                said.push(line);
            }
        }
    }
    said
}

/// The order within the page, where no script can run and no tag can end it.
fn embedded(order: &Order) -> String {
    let text = order.to_value().to_string().replace('<', "\\u003c");
    format!("{ORDER_MARK}{text}</script>\n")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use serde_json::json;

    fn order(customer: &str) -> Order {
        let knobs = |family: &str| {
            serde_json::Value::Object(
                Design::from_value(&json!({"family": family})).expect("a kind").to_map(),
            )
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

    fn written(order: &Order, shop: &Shop) -> Result<String, Refusal> {
        let made = order.made(shop).expect("built");
        let report = order.report(&made, shop).expect("priced");
        let pictures = vec!["<svg></svg>".to_owned(); 2];
        let date = Date::read("date", "2026-03-09").expect("a day");
        let pictures = pictures.as_slice();
        quote_html(&Quote { number: "2026-014", date, shop, order, made: &made, report: &report, pictures })
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
            "<dd>white ash</dd>",
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
        assert_eq!(page.matches("<svg>").count(), 2);
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
        let shop = Shop::demo();
        let order = order("Ada");
        let page = written(&order, &shop).expect("written");
        // The order holds every knob; its numbers are no prices.
        let (seen, _) = page.split_once(ORDER_MARK).expect("an order");
        let (_, seen) = seen.split_once("<body>").expect("a body");
        let made = order.made(&shop).expect("built");
        let report = order.report(&made, &shop).expect("priced");
        for row in &report.rows {
            for line in &row.bill.lines {
                for amount in [line.rate_minor, line.amount_minor] {
                    let figure = format!("EUR {}<", amount.decimal(2));
                    let told =
                        report.bill.lines.iter().any(|l| [l.rate_minor, l.amount_minor].contains(&amount));
                    assert!(told || !seen.contains(&figure), "{} of {}", figure, line.id);
                }
            }
        }
        for word in
            ["29.00", "11.50", "22 %", "28.2051", "margin", "overhead", "contingency", "hours at the bench"]
        {
            assert!(!seen.contains(word), "{word}");
        }
    }

    #[test]
    fn it_needs_a_number_and_a_day() {
        let refused = |number: &str, date: &str| {
            quote_of(&order(""), number, date, &Shop::demo(), &View::default()).expect_err("refused").where_
        };
        for number in ["", "  ", "7\n8", &"7".repeat(41)] {
            assert_eq!(refused(number, "2026-03-09"), "number");
        }
        assert_eq!(refused("7", "9 March"), "date");
        let page =
            quote_of(&order(""), " 7 ", "2026-03-09", &Shop::demo(), &View::default()).expect("written");
        assert!(page.contains("<h1>Quote 7</h1>") && page.matches("<figure><svg").count() == 2);
    }

    #[test]
    fn what_is_missing_is_named() {
        let without = |shop: Shop| written(&order(""), &shop).expect_err("something is missing").where_;
        assert_eq!(without(Shop { labour: None, ..Shop::demo() }), "labour");
        assert_eq!(without(Shop { pricing: None, ..Shop::demo() }), "pricing");
        assert_eq!(without(Shop { quoting: None, ..Shop::demo() }), "quote");
    }
}
