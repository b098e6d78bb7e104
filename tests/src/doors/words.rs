//! Links, lines and patterns.

use super::{answered, taken};
use crestrail_chair::link as links;
use crestrail_phrases::Catalogue;
use std::borrow::Cow;

/// What follows the `#` of an address. A fuzzer does not guess checksums, so the text is tried with its own one too.
pub(super) fn link(bytes: &[u8]) -> bool {
    let Ok(text) = str::from_utf8(bytes) else { return false };
    if let Some(found) = links::find(text) {
        taken(links::read_told(&found));
    }
    let first = opened(text);
    let mended = mended(text);
    first | (mended != text && opened(&mended))
}

fn opened(text: &str) -> bool {
    let Some((design, told)) = taken(links::read_told(text)) else { return false };
    let again = links::read_told(&links::write_told(&design, told.as_ref()));
    assert_eq!(again, Ok((design, told)), "what is written reads back the same");
    true
}

/// The text with the checksum that its link should have (FNV-1a, as `link.rs` says).
pub(super) fn mended(text: &str) -> Cow<'_, str> {
    let whole = text.strip_prefix('#').unwrap_or(text);
    let Some((body, _)) = whole.rsplit_once(";check=").filter(|(body, _)| body.starts_with("design/")) else {
        return text.into();
    };
    let sum = body.bytes().fold(0x811c_9dc5_u32, |sum, b| (sum ^ u32::from(b)).wrapping_mul(0x0100_0193));
    format!("{body};check={sum:08x}").into()
}

/// Requests that take long for one answer; other doors lead to what they do.
const LONG: [&str; 9] = [
    "\"ranges\"",
    "\"fit\"",
    "\"tornado\"",
    "\"plan\"",
    "\"order\"",
    "\"quote\"",
    "\"published\"",
    "\"book\"",
    "\"work\"",
];

/// A request of `probe`.
pub(super) fn probe(bytes: &[u8]) -> bool {
    let Ok(text) = str::from_utf8(bytes) else { return false };
    if LONG.iter().any(|long| text.contains(long)) {
        return false;
    }
    match crate::answered(text) {
        Ok(value) => {
            // An answer is a line, whatever is in it.
            let line = value.to_string();
            assert!(!line.contains('\n'));
            true
        }
        refused => answered(refused),
    }
}

/// Bytes.
const LONGEST_PATTERN: usize = 20_000;

/// A catalogue of another language, or one English pattern.
pub(super) fn phrases(bytes: &[u8]) -> bool {
    let Ok(text) = str::from_utf8(bytes) else { return false };
    // Patterns stand in the program's own sources; none is longer.
    if text.len() > LONGEST_PATTERN {
        return false;
    }
    if let Ok(pattern) = crestrail_phrases::pattern::Pattern::read(text) {
        let again = crestrail_phrases::pattern::Pattern::read(&pattern.key).expect("a key is a pattern");
        assert_eq!(again.key, pattern.key, "a key is its own key");
    }
    let _ = crestrail_phrases::pattern::text_of(text);
    match Catalogue::read(text) {
        Err(unread) => {
            assert!(!unread.place.is_empty() || !unread.why.is_empty());
            false
        }
        Ok(catalogue) => {
            for pattern in catalogue.patterns() {
                assert!(!catalogue.texts(pattern).is_empty());
                // There are never more holes than letters.
                let values = vec![&2.5_f64 as &dyn std::fmt::Display; pattern.len()];
                let _ = (catalogue.word(pattern), catalogue.filled(pattern, &values));
            }
            true
        }
    }
}
