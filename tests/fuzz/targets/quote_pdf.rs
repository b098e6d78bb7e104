//! The door `quote_pdf` of `tests/src/doors`.
#![no_main]

crestrail_fuzz::door!("quote_pdf");
