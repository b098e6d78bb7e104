//! The door `figures` of `tests/src/doors`.
#![no_main]

crestrail_fuzz::door!("figures");
