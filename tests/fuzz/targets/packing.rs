//! The door `packing` of `tests/src/doors`.
#![no_main]

crestrail_fuzz::door!("packing");
