//! `order.json`: read with a refusal that names the field, and written.

use crate::design::{Design, Missing};
use crate::reading::{self, Fields, FileKind, Limits};
use crate::refusal::Refusal;
use crate::told::Told;
use crestrail_phrases::{phrase, word};
use serde_json::{Value, json};

/// The file of an order. Version 2 may hold what the customer was told.
pub const ORDER_FILE: FileKind = FileKind { name: "order", file: "order.json", oldest: 1, version: 2 };

/// What stands before the `order.json` within a quote.
pub const ORDER_MARK: &str = "<script type=\"application/json\" id=\"crestrail-order\">";
const MARK_ENDS: &str = "</script>";

/// Most designs in an order, and most chairs of one design.
const MOST_DESIGNS: usize = 40;
const QUANTITY: Limits = Limits { label: phrase("The quantity"), min: 1.0, max: 999.0, unit: "" };
/// Characters of a name.
const LONGEST_NAME: usize = 60;

/// Designs with their quantities.
#[derive(Clone, Debug, PartialEq)]
pub struct Order {
    /// What it is called; may be empty.
    pub name: String,
    /// Whom it is for; may be empty.
    pub customer: String,
    /// The designs, one or more.
    pub lines: Vec<OrderLine>,
}

/// So many chairs of one design.
#[derive(Clone, Debug, PartialEq)]
pub struct OrderLine {
    /// What the design is called; may be empty.
    pub name: String,
    /// How many chairs, one or more.
    pub quantity: u32,
    /// The design.
    pub design: Design,
    /// What the customer was told of it in the Showroom.
    pub told: Option<Told>,
}

impl Order {
    /// Reads the text of an `order.json`, or of a quote, which holds one.
    pub fn read(text: &str) -> Result<Self, Refusal> {
        let text = within_a_quote(text)?.unwrap_or(text);
        Self::from_value(&reading::parse(ORDER_FILE.file, text)?)
    }

    /// Reads an `order.json` that has been parsed.
    pub fn from_value(value: &Value) -> Result<Self, Refusal> {
        let top = reading::open(&ORDER_FILE, value)?;
        top.only(&["crestrail", "name", "customer", "lines"])?;
        let listed = top.list("lines", MOST_DESIGNS)?;
        let lines: Result<Vec<OrderLine>, Refusal> =
            listed.into_iter().map(|(path, value)| line(&Fields::at(path, value)?)).collect();
        let order = Self { name: name(&top, "name")?, customer: name(&top, "customer")?, lines: lines? };
        if order.lines.is_empty() {
            return Err(Refusal::new(
                "lines",
                word("The order has no chair in it. Add a design with its quantity."),
            ));
        }
        Ok(order)
    }

    /// The order as the object of its file.
    pub fn to_value(&self) -> Value {
        let line = |line: &OrderLine| {
            let mut value =
                json!({"name": line.name, "quantity": line.quantity, "knobs": line.design.to_map()});
            if let Some(told) = &line.told {
                value["told"] = told.to_value();
            }
            value
        };
        json!({
            "crestrail": ORDER_FILE.header(),
            "name": self.name,
            "customer": self.customer,
            "lines": self.lines.iter().map(line).collect::<Vec<_>>(),
        })
    }

    /// The text of an `order.json`.
    pub fn write(&self) -> String {
        format!("{:#}\n", self.to_value())
    }

    /// All its chairs.
    pub fn chairs(&self) -> u32 {
        self.lines.iter().map(|line| line.quantity).sum()
    }
}

fn line(f: &Fields<'_>) -> Result<OrderLine, Refusal> {
    f.only(&["name", "quantity", "knobs", "told"])?;
    Ok(OrderLine {
        name: name(f, "name")?,
        quantity: f.count("quantity", &QUANTITY)?,
        design: Design::from_fields(&f.object("knobs")?, Missing::Refuse)?,
        told: f.has("told").then(|| f.object("told").and_then(|f| Told::from_fields(&f))).transpose()?,
    })
}

/// A name that may be empty or left out.
fn name(f: &Fields<'_>, field: &str) -> Result<String, Refusal> {
    match f.value(field) {
        None => Ok(String::new()),
        Some(Value::String(name)) if name.trim().is_empty() => Ok(String::new()),
        Some(_) => f.text(field, LONGEST_NAME),
    }
}

/// The `order.json` within a quote; nothing where the text is no HTML.
fn within_a_quote(text: &str) -> Result<Option<&str>, Refusal> {
    let start = text.trim_start_matches('\u{feff}').trim_start();
    if !start.starts_with('<') {
        return Ok(None);
    }
    let inner = start.split_once(ORDER_MARK).and_then(|(_, rest)| rest.split_once(MARK_ENDS));
    let missing =
        word("This is a page, but not a quote of this program: it holds no order. Choose another file.");
    inner.map(|(order, _)| Some(order)).ok_or_else(|| Refusal::new(ORDER_FILE.file, missing))
}
