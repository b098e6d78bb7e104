//! Files to take away: CSV, JSON, the printable parts list and the quote, as HTML and as PDF.

mod csv;
mod escape;
mod html;
mod json;
mod plan;
mod quote;
mod sections;
mod style;
mod table;

pub use self::csv::{bill_csv, cutting_list_csv};
pub use html::{PartsList, parts_list_html};
pub use json::report_json;
pub use plan::plan_csv;
pub use quote::{QuoteAsked, quote_html, quote_pdf};
