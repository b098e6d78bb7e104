//! The door `order` of `tests/src/doors`.
#![no_main]

crestrail_fuzz::door!("order");
