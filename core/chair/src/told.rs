//! What a customer was told of a chair when asking for a quote: the label, and the sizes of the whole.
//!
//! It travels with the customer's order or link, so that the maker can compare it with the book.

use crate::money::{Currency, Money};
use crate::reading::{Fields, Limits};
use crate::refusal::Refusal;
use crestrail_phrases::{phrase, say, word};
use serde_json::{Value, json};

/// What a customer was told; each part may be missing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Told {
    /// The name of the offer.
    pub offer: Option<String>,
    /// What stood on the label.
    pub label: Option<ToldLabel>,
    /// Width, depth and height of the chair, mm.
    pub size: Option<[f64; 3]>,
}

/// What stood on a label.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ToldLabel {
    /// Whether it was only the lowest price of the offer.
    pub from: bool,
    /// One chair, with delivery and tax.
    pub price: Money,
    /// Its currency.
    pub currency: Currency,
}

const WAYS: &[(&str, bool)] = &[("shown", false), ("from", true)];
/// Characters of an offer's name, as in a showroom.
const LONGEST_NAME: usize = 60;
/// Up to 2⁵³ a whole number is the same everywhere.
const MINOR: Limits =
    Limits { label: phrase("The price in minor units"), min: 0.0, max: 9_007_199_254_740_992.0, unit: "" };
/// No chair is larger.
const SIZE: Limits = Limits { label: phrase("The size"), min: 1.0, max: 10_000.0, unit: " mm" };

impl Told {
    /// Reads the object of an order.
    pub fn from_fields(f: &Fields<'_>) -> Result<Self, Refusal> {
        f.only(&["offer", "label", "size"])?;
        let size = |f: &Fields<'_>| -> Result<[f64; 3], Refusal> {
            f.only(&["width", "depth", "height"])?;
            Ok([f.number("width", &SIZE)?, f.number("depth", &SIZE)?, f.number("height", &SIZE)?])
        };
        Ok(Self {
            offer: f.has("offer").then(|| f.text("offer", LONGEST_NAME)).transpose()?,
            label: f.has("label").then(|| f.object("label").and_then(|f| label(&f))).transpose()?,
            size: f.has("size").then(|| f.object("size").and_then(|f| size(&f))).transpose()?,
        })
    }

    /// The object of an order; what is missing is left out.
    pub fn to_value(&self) -> Value {
        let mut value = json!({});
        if let Some(offer) = &self.offer {
            value["offer"] = offer.as_str().into();
        }
        if let Some(ToldLabel { from, price, currency }) = &self.label {
            value["label"] = json!({"way": way(*from), "currency": currency.code, "minor": price.0});
        }
        if let Some([width, depth, height]) = self.size {
            value["size"] = json!({"width": width, "depth": depth, "height": height});
        }
        value
    }
}

fn label(f: &Fields<'_>) -> Result<ToldLabel, Refusal> {
    f.only(&["way", "currency", "minor"])?;
    let minor = f.number("minor", &MINOR)?;
    if minor.fract() != 0.0 {
        return Err(Refusal::new(f.path("minor"), word("The price in minor units must be a whole number.")));
    }
    Ok(ToldLabel {
        from: f.choice("way", WAYS)?,
        price: Money(minor as i64),
        currency: crate::shop::currency(f)?,
    })
}

fn way(from: bool) -> &'static str {
    if from { "from" } else { "shown" }
}

impl ToldLabel {
    /// As it stands in a link: `from.EUR.41500`.
    pub fn write(&self) -> String {
        format!("{}.{}.{}", way(self.from), self.currency.code, self.price.0)
    }

    /// Reads what stands in a link.
    pub fn read(text: &str) -> Option<Self> {
        let (said, rest) = text.split_once('.')?;
        let (code, minor) = rest.split_once('.')?;
        let (_, from) = WAYS.iter().find(|(name, _)| *name == said)?;
        let price = minor.parse().ok().filter(|minor| (0..=1 << 53).contains(minor))?;
        Some(Self { from: *from, price: Money(price), currency: Currency::find(code)? })
    }
}

impl core::fmt::Display for ToldLabel {
    /// Such as `from EUR 415.00`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let Currency { code, minor_digits } = self.currency;
        let price = self.price.decimal(minor_digits);
        f.write_str(&if self.from { say!("from {code} {price}") } else { say!("{code} {price}") })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_label_goes_there_and_back() {
        for text in ["from.EUR.41500", "shown.JPY.98000", "shown.BHD.0"] {
            assert_eq!(ToldLabel::read(text).expect(text).write(), text);
        }
        for wrong in
            ["", "from", "from.EUR", "from.EUR.", "from.EUR.-5", "from.EUR.4.5", "free.EUR.1", "from.EURO.1"]
        {
            assert_eq!(ToldLabel::read(wrong), None, "{wrong}");
        }
        assert_eq!(ToldLabel::read("from.EUR.41500").expect("read").to_string(), "from EUR 415.00");
    }

    #[test]
    fn what_was_told_goes_there_and_back() {
        let label = ToldLabel::read("shown.EUR.61550");
        for told in [
            Told::default(),
            Told { offer: Some("Stool".to_owned()), label, size: Some([400.0, 340.5, 450.0]) },
        ] {
            let value = told.to_value();
            assert_eq!(Told::from_fields(&Fields::at("told", &value).expect("object")), Ok(told));
        }
    }

    #[test]
    fn what_is_wrong_is_named() {
        for (value, place) in [
            (json!({"price": 1}), "told.price"),
            (json!({"label": {"way": "free", "currency": "EUR", "minor": 1}}), "told.label.way"),
            (json!({"label": {"way": "from", "currency": "XYZ", "minor": 1}}), "told.label.currency"),
            (json!({"label": {"way": "from", "currency": "EUR", "minor": -1}}), "told.label.minor"),
            (json!({"label": {"way": "from", "currency": "EUR", "minor": 0.5}}), "told.label.minor"),
            (json!({"size": {"width": 0, "depth": 1, "height": 1}}), "told.size.width"),
        ] {
            let fields = Fields::at("told", &value).expect("object");
            assert_eq!(Told::from_fields(&fields).expect_err(place).where_, place);
        }
    }
}
