//! Orders and their quotes.

use crate::Refused;
use crate::sheets::{faces, pdf_answer};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use core::ops::ControlFlow;
use crestrail_chair::drawing::View;
use crestrail_chair::export::{QuoteAsked, quote_html, quote_pdf};
use crestrail_chair::order::{Order, timber_plan};
use crestrail_chair::plan::Effort;
use crestrail_chair::reading::Fields;
use crestrail_chair::sheets::paper;
use crestrail_chair::shop::Shop;
use crestrail_sheet::pdf;
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

/// The quote of an order as HTML, or with a paper as PDF, which carries the order.
pub(crate) fn quote(fields: &Fields<'_>, shop: &Shop) -> Result<Value, Refused> {
    let order = read(fields)?;
    let text = |name| fields.value(name).and_then(Value::as_str).unwrap_or_default();
    let view = View::default();
    let asked = QuoteAsked { order: &order, number: text("number"), date: text("date"), shop, view: &view };
    if !fields.has("paper") {
        return Ok(json!({"text": quote_html(&asked)?}));
    }
    let document = quote_pdf(&asked, paper(text("paper"))?, &faces()?)?;
    let mut answer = pdf_answer(&document)?;
    answer["order"] = json!(order.write());
    Ok(answer)
}

/// The files inside a PDF file, as texts.
pub(crate) fn attached(fields: &Fields<'_>) -> Result<Value, Refused> {
    let refuse = |why: String| Refused::new("pdf_base64", why);
    let text = fields.needed("pdf_base64")?.as_str().unwrap_or_default();
    let bytes = STANDARD.decode(text).map_err(|error| refuse(error.to_string()))?;
    let found = pdf::attached(&bytes).map_err(|error| refuse(error.to_string()))?;
    let texts: Vec<String> = found.iter().map(|file| String::from_utf8_lossy(file).into_owned()).collect();
    Ok(json!(texts))
}
