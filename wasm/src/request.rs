//! What comes in: plain JavaScript data, checked by the core.

use crate::refused::Refused;
use crestrail_chair::design::Design;
use crestrail_chair::drawing::View;
use crestrail_chair::joints::Bench;
#[cfg(feature = "papers")]
use crestrail_chair::length::Lengths;
use crestrail_chair::refusal::Refusal;
use crestrail_chair::shop::Shop;
use crestrail_chair::showroom::Showroom;
use serde_json::Value;
use std::sync::LazyLock;
use wasm_bindgen::JsValue;

/// The workshop of requests that bring none; read once.
static DEMO: LazyLock<Shop> = LazyLock::new(Shop::demo);

/// A request object.
pub(crate) struct Request(Value);

impl Request {
    /// Takes the object as JSON. NaN and the infinities, which JSON does not have, become null and
    /// are refused where a number is needed.
    pub(crate) fn read(request: JsValue) -> Result<Self, Refusal> {
        let value: Value = serde_wasm_bindgen::from_value(request)
            .map_err(|error| Refusal::new("request", format!("The request is not plain data: {error}.")))?;
        if !value.is_object() {
            return Err(Refusal::new("request", "The request must be an object."));
        }
        Ok(Self(value))
    }

    /// The whole object.
    pub(crate) fn value(&self) -> &Value {
        &self.0
    }

    /// The design; knobs that it does not name have their defaults.
    pub(crate) fn design(&self) -> Result<Design, Refusal> {
        match self.0.get("design") {
            Some(values) if values.is_object() => Design::from_value(values),
            _ => Err(Refusal::new("design", "The design must be an object with knobs by name.")),
        }
    }

    /// The workshop, or the demonstration's where the request brings none.
    pub(crate) fn shop(&self) -> Result<Shop, Refusal> {
        match self.0.get("shop") {
            None | Some(Value::Null) => Ok(DEMO.clone()),
            Some(shop) => Shop::from_value(shop),
        }
    }

    /// The showroom, where the request brings one.
    pub(crate) fn showroom(&self) -> Result<Option<Showroom>, Refusal> {
        match self.0.get("showroom") {
            None | Some(Value::Null) => Ok(None),
            Some(showroom) => Showroom::from_value(showroom).map(Some),
        }
    }

    /// The showroom, which must be there.
    #[cfg(feature = "steps")]
    pub(crate) fn needed_showroom(&self) -> Result<Showroom, Refusal> {
        let missing = || Refusal::new("showroom", "\"showroom\" is missing. Add it.");
        self.showroom()?.ok_or_else(missing)
    }

    /// What shapes the joints: the bench of a published showroom, else the workshop's.
    pub(crate) fn bench(&self) -> Result<Bench, Refusal> {
        match self.showroom()?.and_then(|showroom| showroom.bench) {
            Some(bench) => Ok(bench),
            None => Ok(self.shop()?.bench()),
        }
    }

    /// A place in a list.
    #[cfg(feature = "steps")]
    pub(crate) fn place(&self, field: &str) -> Option<usize> {
        let number = self.0.get(field)?.as_f64()?;
        (number >= 0.0 && number.fract() == 0.0).then_some(number as usize)
    }

    /// How the chair is looked at; what is left out has its default.
    pub(crate) fn view(&self) -> Result<View, Refusal> {
        match self.0.get("view") {
            None | Some(Value::Null) => Ok(View::default()),
            Some(Value::Object(view)) => {
                // In JavaScript a property that is undefined is one that was left out.
                let set = view.iter().filter(|(_, value)| !value.is_null());
                View::from_value(&set.map(|(name, value)| (name.clone(), value.clone())).collect())
            }
            Some(_) => Err(Refusal::new("view", "The view must be an object.")),
        }
    }

    /// A text that may be left out.
    #[cfg(feature = "papers")]
    pub(crate) fn text(&self, field: &str) -> &str {
        self.0.get(field).and_then(Value::as_str).unwrap_or_default()
    }

    /// What lengths are to be written in; millimetres where the request does not say.
    #[cfg(feature = "papers")]
    pub(crate) fn lengths(&self) -> Result<Lengths, Refusal> {
        Lengths::named(self.text("unit"))
    }

    /// Whether `field`, a list of texts, holds the text; nothing where the list is left out.
    fn lists(&self, field: &str, text: &str) -> Option<bool> {
        self.0.get(field).and_then(Value::as_array).map(|list| list.iter().any(|item| item == text))
    }

    /// Whether `field` lists the text; a list that is left out holds all of them.
    pub(crate) fn wants(&self, field: &str, text: &str) -> bool {
        self.lists(field, text).unwrap_or(true)
    }

    /// Whether `field` lists the text; a list that is left out holds none.
    #[cfg(feature = "steps")]
    pub(crate) fn names(&self, field: &str, text: &str) -> bool {
        self.lists(field, text).unwrap_or(false)
    }
}

/// A text.
pub(crate) fn text(value: &JsValue, field: &str) -> Result<String, Refused> {
    let why = || Refusal::new(field, format!("The {field} must be a text."));
    Ok(value.as_string().ok_or_else(why)?)
}
