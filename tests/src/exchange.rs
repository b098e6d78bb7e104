//! Solids for other programs, as base64.

use crate::Refused;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use crestrail_chair::chair::Chair;
use crestrail_chair::export::{Exchange, Format, Wanted, exchange};
use crestrail_chair::reading::Fields;
use serde_json::{Value, json};

/// Longest name, and longest moment, in characters.
const LONGEST: usize = 60;

/// The file that the request names: of the whole chair, or of one of its `shapes` by name.
pub(crate) fn file(fields: &Fields<'_>, chair: &Chair) -> Result<Value, Refused> {
    let words = |field: &str| if fields.has(field) { fields.text(field, LONGEST) } else { Ok(String::new()) };
    let (name, part, stamp) = (words("name")?, words("part")?, words("stamp")?);
    let format = fields.choice("format", &Format::NAMED)?;
    let wanted = if fields.has("part") { Wanted::Part(&part) } else { Wanted::Chair };
    let bytes = exchange(chair, &Exchange { name: &name, format, wanted, stamp: &stamp })?;
    Ok(json!({"base64": STANDARD.encode(bytes)}))
}
