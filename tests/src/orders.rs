//! Orders and their quotes.

use crate::Refused;
use crestrail_chair::date::Date;
use crestrail_chair::drawing::{View, exploded};
use crestrail_chair::export::{Quote, quote_html};
use crestrail_chair::order::Order;
use crestrail_chair::reading::Fields;
use crestrail_chair::report::service;
use crestrail_chair::shop::Shop;
use crestrail_sheet::svg;
use serde_json::{Value, json};

/// Longest number of a quote, characters.
const LONGEST_NUMBER: usize = 40;

/// An order as the object of its file, or the text of a quote that holds one.
fn read(fields: &Fields<'_>) -> Result<Order, Refused> {
    Ok(match fields.needed("order")? {
        Value::String(text) => Order::read(text)?,
        value => Order::from_value(value)?,
    })
}

/// What an order costs and when it is ready.
pub(crate) fn order(fields: &Fields<'_>, shop: &Shop) -> Result<Value, Refused> {
    let order = read(fields)?;
    Ok(json!(order.report(&order.made(shop)?, shop)?))
}

/// The quote of an order.
pub(crate) fn quote(fields: &Fields<'_>, shop: &Shop) -> Result<Value, Refused> {
    let order = read(fields)?;
    let number = fields.text("number", LONGEST_NUMBER)?;
    let date = Date::read("date", &fields.text("date", LONGEST_NUMBER)?)?;
    let made = order.made(shop)?;
    let report = order.report(&made, shop)?;
    let pictures: Vec<String> = made
        .iter()
        .map(|made| svg::write(&exploded(&made.chair, &View::default(), &service(&made.line.design))))
        .collect();
    let quote = Quote {
        number: &number,
        date,
        shop,
        order: &order,
        made: &made,
        report: &report,
        pictures: &pictures,
    };
    Ok(json!({"text": quote_html(&quote)?}))
}
