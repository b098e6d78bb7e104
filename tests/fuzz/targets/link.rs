//! The door `link` of `tests/src/doors`.
#![no_main]

crestrail_fuzz::door!("link");
