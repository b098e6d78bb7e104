//! Every way into the core, each as a function that takes any bytes: what a fuzzer calls, and what the tests call with
//! the same files and mutations of them.
//!
//! A door takes or refuses. It panics where the core breaks a promise: a refusal without words, a file that reads back as
//! another one, a figure that is none. What follows a taken file is kept small, so that a fuzzer tries many.

mod figures;
mod files;
mod numbers;
mod words;

use crate::Refused;
use crestrail_chair::refusal::Refusal;
use serde_json::Value;

/// A way in.
#[derive(Clone, Copy, Debug)]
pub struct Door {
    /// Its name: that of its fuzz target and of the folder of its files.
    pub name: &'static str,
    /// Says whether the bytes were taken.
    pub enter: fn(&[u8]) -> bool,
}

/// All of them.
pub const DOORS: [Door; 13] = [
    Door { name: "design", enter: files::design },
    Door { name: "shop", enter: files::shop },
    Door { name: "order", enter: files::order },
    Door { name: "showroom", enter: files::showroom },
    Door { name: "message", enter: files::message },
    Door { name: "quote_pdf", enter: files::quote_pdf },
    Door { name: "link", enter: words::link },
    Door { name: "probe", enter: words::probe },
    Door { name: "phrases", enter: words::phrases },
    Door { name: "figures", enter: figures::figures },
    Door { name: "outlines", enter: numbers::outlines },
    Door { name: "packing", enter: numbers::packing },
    Door { name: "frame", enter: numbers::frame },
];

/// The door of this name.
///
/// # Panics
/// Where there is none.
pub fn door(name: &str) -> Door {
    *DOORS.iter().find(|door| door.name == name).expect("a door of this name")
}

/// Longest refusal, characters: some list all names there are.
const LONGEST_WORDS: usize = 4000;

/// Whether something was taken; a refusal says what is wrong, and where.
fn taken<T>(result: Result<T, Refusal>) -> Option<T> {
    result.map_err(|refusal| worded(&refusal.where_, &refusal.why)).ok()
}

/// Likewise of an answer to a request.
fn answered(result: Result<Value, Refused>) -> bool {
    let Err(Refused(error)) = &result else { return true };
    let text = |name: &str| error[name].as_str().unwrap_or_default();
    worded(text("where"), text("why"));
    false
}

fn worded(place: &str, why: &str) {
    assert!(!place.is_empty() && why.chars().count() <= LONGEST_WORDS, "{place}: {why}");
    let end = why.trim_end_matches(['"', '”', ')']);
    assert!(end.ends_with(['.', '?', '…']) && why.len() > 10, "no sentence: {why:?}");
}
