//! Orders, quotes, and what moves the price.

use crate::progress::Progress;
use crate::refused::Refused;
use crate::request::Request;
use crestrail_chair::date::Date;
use crestrail_chair::drawing::exploded;
use crestrail_chair::export::{Quote, quote_html};
use crestrail_chair::order::{Order, OrderReport};
use crestrail_chair::refusal::Refusal;
use crestrail_chair::report::service;
use crestrail_chair::swing::{Tornado, tornado};
use crestrail_sheet::svg;

/// Longest number of a quote, characters.
const LONGEST_NUMBER: usize = 40;

fn order_of(request: &Request) -> Result<Order, Refusal> {
    let missing = || Refusal::new("order", "\"order\" is missing. Add it.");
    Order::from_value(request.value().get("order").ok_or_else(missing)?)
}

/// What an order costs and when it is ready.
pub(crate) fn order(request: &Request) -> Result<OrderReport, Refused> {
    let (order, shop) = (order_of(request)?, request.shop()?);
    Ok(order.report(&order.made(&shop)?, &shop)?)
}

/// The text of the quote of an order.
pub(crate) fn quote(request: &Request) -> Result<String, Refused> {
    let (order, shop, view) = (order_of(request)?, request.shop()?, request.view()?);
    let number = request.text("number").trim();
    if number.is_empty() || number.chars().count() > LONGEST_NUMBER || number.chars().any(char::is_control) {
        let why = format!("A quote needs a number of 1 to {LONGEST_NUMBER} characters.");
        return Err(Refusal::new("number", why).into());
    }
    let date = Date::read("date", request.text("date"))?;
    let made = order.made(&shop)?;
    let report = order.report(&made, &shop)?;
    let pictures: Vec<String> = made
        .iter()
        .map(|made| svg::write(&exploded(&made.chair, &view, &service(&made.line.design))))
        .collect();
    let (shop, pictures) = (&shop, pictures.as_slice());
    let quote = Quote { number, date, shop, order: &order, made: &made, report: &report, pictures };
    Ok(quote_html(&quote)?)
}

/// What moves the price of a design.
pub(crate) fn moves(request: &Request, progress: &Progress<'_>) -> Result<Tornado, Refused> {
    let (design, shop) = (request.design()?, request.shop()?);
    Ok(tornado(&design, &shop, &|done, of| progress.tell(done, of, "Trying sizes"))?)
}
