//! The door `phrases` of `tests/src/doors`.
#![no_main]

crestrail_fuzz::door!("phrases");
