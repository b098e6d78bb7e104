//! The files to take away, as text.

use crate::Refused;
use crestrail_chair::export::{bill_csv, cutting_list_csv};
use crestrail_chair::length::Lengths;
use crestrail_chair::reading::Fields;
use crestrail_chair::report::Report;
use serde_json::{Value, json};

#[derive(Clone, Copy)]
enum Kind {
    CuttingList,
    Bill,
}

const KINDS: &[(&str, Kind)] = &[("cutting_list_csv", Kind::CuttingList), ("bill_csv", Kind::Bill)];

/// Longest name of a design, characters.
const LONGEST_NAME: usize = 60;

/// The file that the request names, of a report.
pub(crate) fn text(fields: &Fields<'_>, report: &Report) -> Result<Value, Refused> {
    let name = if fields.has("name") { fields.text("name", LONGEST_NAME)? } else { String::new() };
    let unit = if fields.has("unit") { fields.text("unit", LONGEST_NAME)? } else { String::new() };
    let lengths = Lengths::named(&unit)?;
    let bytes = match fields.choice("kind", KINDS)? {
        Kind::CuttingList => cutting_list_csv(&name, &report.cutting_list, lengths),
        Kind::Bill => match (&report.bill, &report.no_bill) {
            (Some(bill), _) => bill_csv(&name, bill),
            (None, Some(refusal)) => return Err(refusal.clone().into()),
            (None, None) => return Err(Refused::new("bill", "There is no bill.")),
        },
    };
    let bytes = bytes.map_err(|error| Refused::new("file", error.to_string()))?;
    let text = String::from_utf8(bytes).map_err(|error| Refused::new("file", error.to_string()))?;
    Ok(json!({"text": text}))
}
