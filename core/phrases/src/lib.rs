//! Texts in other languages.
//!
//! English stands in the program, where it is made: `say!("The seat is {} mm high", height)`, or [`word`] where there
//! is nothing to fill in. A [`Catalogue`] gives for each English pattern the one of another language; [`speak`] puts it
//! in force, on the thread that calls it. Without one everything stays English. A text that a catalogue lacks stays
//! English as well: tests hold that none lacks any.
//!
//! A value that is a plain number gets the decimal sign of the language; what else is put in stands as it is.

extern crate self as crestrail_phrases;

mod catalogue;
mod fill;
#[path = "../macros/src/pattern.rs"]
pub mod pattern;
mod plural;
#[cfg(test)]
mod tests;

pub use catalogue::{Catalogue, Unread};
pub use crestrail_phrases_macros::say;

use core::cell::Cell;
use core::fmt::Display;
use std::borrow::Cow;

thread_local! {
    static SPOKEN: Cell<Option<&'static Catalogue>> = const { Cell::new(None) };
}

/// Puts a catalogue in force on this thread, or English.
pub fn speak(catalogue: Option<&'static Catalogue>) {
    SPOKEN.set(catalogue);
}

/// The catalogue in force.
pub fn spoken() -> Option<&'static Catalogue> {
    SPOKEN.get()
}

/// The language that is spoken, as `de`.
pub fn language() -> &'static str {
    SPOKEN.get().map_or("en", Catalogue::language)
}

/// Whether it is written from right to left.
pub fn is_right_to_left() -> bool {
    SPOKEN.get().is_some_and(Catalogue::is_right_to_left)
}

/// Does `work` in English, whatever is spoken: for papers that stay English.
pub fn in_english<T>(work: impl FnOnce() -> T) -> T {
    /// Goes back to what was spoken, also when the work breaks off.
    struct Back(Option<&'static Catalogue>);
    impl Drop for Back {
        fn drop(&mut self) {
            SPOKEN.set(self.0);
        }
    }
    let _back = Back(SPOKEN.replace(None));
    work()
}

/// Marks an English text, in a table or a constant, that [`word`] is asked for later: so whoever looks for phrases in the
/// sources finds it.
pub const fn phrase(english: &'static str) -> &'static str {
    english
}

/// A text without holes, in the language that is spoken.
pub fn word(english: &'static str) -> &'static str {
    match SPOKEN.get() {
        None => english,
        Some(catalogue) => catalogue.word(english).unwrap_or(english),
    }
}

/// A label within a sentence: English writes it small there.
pub fn in_sentence(label: &'static str) -> Cow<'static, str> {
    match SPOKEN.get() {
        None => Cow::Owned(label.to_lowercase()),
        Some(_) => Cow::Borrowed(word(label)),
    }
}

/// A figure with the decimal sign of the language.
pub fn figure(text: &str) -> Cow<'_, str> {
    match SPOKEN.get() {
        None => Cow::Borrowed(text),
        Some(catalogue) => catalogue.figure(text),
    }
}

/// What [`say!`] does at run time: the pattern of the language for the English one, filled with the values of its holes in
/// the order in which the English pattern has them.
pub fn filled(english: &'static str, values: &[&dyn Display]) -> String {
    match SPOKEN.get() {
        None => fill::english(english, values),
        Some(catalogue) => catalogue.filled(english, values),
    }
}
