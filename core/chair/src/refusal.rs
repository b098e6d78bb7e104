//! Refusals: why a file, a link or a value is not taken, and what to do.

use core::fmt;
use serde::Serialize;

/// A plain refusal. On screen everything stays as it was.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Refusal {
    /// The field, as a path such as `timber.yield`, or the name of the file.
    #[serde(rename = "where")]
    pub where_: String,
    /// What is wrong and what to do, in whole sentences.
    pub why: String,
    /// A change that would mend it, where there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mend: Option<Box<Mend>>,
}

/// A change of one value that would mend a refusal.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Mend {
    /// The knob or field.
    pub knob: String,
    /// Its new value.
    pub value: serde_json::Value,
    /// The change in words, such as "Set seat height to 520 mm".
    pub say: String,
}

impl Refusal {
    /// A refusal of the field `where_`.
    pub fn new(where_: impl Into<String>, why: impl Into<String>) -> Self {
        let mut where_ = where_.into();
        if where_.is_empty() {
            // A name without letters is shown by its quotes.
            where_.push_str("\"\"");
        }
        Self { where_, why: why.into(), mend: None }
    }

    /// The same with a way out.
    pub fn with_mend(self, mend: Mend) -> Self {
        Self { mend: Some(Box::new(mend)), ..self }
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.where_, self.why)
    }
}

impl core::error::Error for Refusal {}
