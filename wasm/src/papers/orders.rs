//! Orders, and what moves the price.

use crate::progress::Progress;
use crate::refused::Refused;
use crate::request::Request;
use crestrail_chair::order::{Order, OrderReport};
use crestrail_chair::refusal::Refusal;
use crestrail_chair::swing::{Tornado, tornado};
use crestrail_phrases::word;

pub(crate) fn order_of(request: &Request) -> Result<Order, Refusal> {
    let missing = || Refusal::new("order", "\"order\" is missing. Add it.");
    Order::from_value(request.value().get("order").ok_or_else(missing)?)
}

/// What an order costs and when it is ready.
pub(crate) fn order(request: &Request) -> Result<OrderReport, Refused> {
    let (order, shop) = (order_of(request)?, request.shop()?);
    let made = order.made(&shop)?;
    let breaks = request.wants("want", "breaks");
    Ok(if breaks { order.report(&made, &shop)? } else { order.bare_report(&made, &shop)? })
}

/// What moves the price of a design.
pub(crate) fn moves(request: &Request, progress: &Progress<'_>) -> Result<Tornado, Refused> {
    let (design, shop) = (request.design()?, request.shop()?);
    Ok(tornado(&design, &shop, &|done, of| progress.tell(done, of, word("Trying sizes")))?)
}
