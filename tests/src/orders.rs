//! Orders and their quotes.

use crate::Refused;
use core::ops::ControlFlow;
use crestrail_chair::drawing::View;
use crestrail_chair::export::quote_of;
use crestrail_chair::order::{Order, timber_plan};
use crestrail_chair::plan::Effort;
use crestrail_chair::reading::Fields;
use crestrail_chair::shop::Shop;
use serde_json::{Value, json};

/// An order as the object of its file, or the text of a quote that holds one.
fn read(fields: &Fields<'_>) -> Result<Order, Refused> {
    Ok(match fields.needed("order")? {
        Value::String(text) => Order::read(text)?,
        value => Order::from_value(value)?,
    })
}

/// The timber plan of an order.
pub(crate) fn plan(fields: &Fields<'_>, shop: &Shop, effort: Effort) -> Result<Value, Refused> {
    let order = read(fields)?;
    let plan = timber_plan(&order.made(shop)?, shop, effort, &mut |_| ControlFlow::Continue(()))?;
    plan.map(|plan| json!(plan)).ok_or_else(|| Refused::new("shop.stock", "The shop has no stock list."))
}

/// What an order costs and when it is ready.
pub(crate) fn order(fields: &Fields<'_>, shop: &Shop) -> Result<Value, Refused> {
    let order = read(fields)?;
    Ok(json!(order.report(&order.made(shop)?, shop)?))
}

/// The quote of an order.
pub(crate) fn quote(fields: &Fields<'_>, shop: &Shop) -> Result<Value, Refused> {
    let order = read(fields)?;
    let text = |name| fields.value(name).and_then(Value::as_str).unwrap_or_default();
    Ok(json!({"text": quote_of(&order, text("number"), text("date"), shop, &View::default())?}))
}
