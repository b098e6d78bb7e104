//! The door `shop` of `tests/src/doors`.
#![no_main]

crestrail_fuzz::door!("shop");
