//! Files to take away: CSV, JSON, the printable parts list, the quote as HTML and as PDF, and solids for other programs.

mod book;
mod csv;
mod escape;
mod exchange;
mod html;
mod json;
mod plan;
mod quote;
mod sections;
mod set;
mod style;
mod table;

pub use self::csv::{bill_csv, cutting_list_csv};
pub use book::{Book, Told, bench_book};
pub use exchange::{Exchange, Format, ShapeRow, Wanted, exchange, shapes};
pub use html::{PartsList, parts_list_html};
pub use json::report_json;
pub use plan::plan_csv;
pub use quote::{QuoteAsked, quote_html, quote_pdf};
