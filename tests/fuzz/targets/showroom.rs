//! The door `showroom` of `tests/src/doors`.
#![no_main]

crestrail_fuzz::door!("showroom");
