//! The door `frame` of `tests/src/doors`.
#![no_main]

crestrail_fuzz::door!("frame");
