//! Lists the English phrases of the core, or those that the catalogue of a language lacks: `phrases`, `phrases de`. For
//! whoever translates: one JSON object, each phrase with the file in which it stands.

use crestrail_tests::phrases::{catalogue, phrases};

fn main() {
    let mut all = phrases();
    if let Some(language) = std::env::args().nth(1) {
        let catalogue = catalogue(&language);
        all.retain(|phrase, _| catalogue.texts(phrase).is_empty());
    }
    let text = serde_json::to_string_pretty(&all).unwrap_or_default();
    println!("{text}");
}
