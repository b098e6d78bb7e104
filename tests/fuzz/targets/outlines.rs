//! The door `outlines` of `tests/src/doors`.
#![no_main]

crestrail_fuzz::door!("outlines");
