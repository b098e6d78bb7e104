//! The door `design` of `tests/src/doors`.
#![no_main]

crestrail_fuzz::door!("design");
