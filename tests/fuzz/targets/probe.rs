//! The door `probe` of `tests/src/doors`.
#![no_main]

crestrail_fuzz::door!("probe");
