//! The door `message` of `tests/src/doors`.
#![no_main]

crestrail_fuzz::door!("message");
