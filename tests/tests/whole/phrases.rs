//! The core in other languages: each catalogue is whole, and what the core says in it tells the same figures.

use crate::random::Random;
use crestrail_chair::chair::Chair;
use crestrail_chair::choices::{Choice, Family};
use crestrail_chair::design::Design;
use crestrail_chair::drawing::View;
use crestrail_chair::export::{QuoteAsked, quote_html};
use crestrail_chair::knob::Knob;
use crestrail_chair::order::{Order, OrderLine};
use crestrail_chair::report::report;
use crestrail_chair::shop::{DEMO_SHOP, Shop};
use crestrail_chair::showroom::Showroom;
use crestrail_phrases::{Catalogue, in_english, speak};
use crestrail_tests::phrases::{LANGUAGES, bare, catalogue, kept, phrases};
use serde_json::{Value, json};
use std::fs;

/// Fields of the report whose texts are no words: names in files, letters and codes.
const NO_WORDS: [&str; 14] = [
    "crestrail",
    "design",
    "id",
    "knob",
    "letter",
    "letters",
    "letter_guest",
    "letter_host",
    "parts",
    "currency",
    "group",
    "stage",
    "topic",
    "verdict",
];

#[test]
fn every_catalogue_has_every_phrase_and_no_other() {
    let (all, bare) = (phrases(), bare());
    assert!(all.len() > 900, "{} phrases were found in the sources", all.len());
    for language in LANGUAGES {
        let catalogue = catalogue(language);
        assert_eq!(catalogue.language(), language);
        let missing: Vec<&String> = all.keys().filter(|key| catalogue.texts(key).is_empty()).collect();
        assert!(missing.is_empty(), "{language} lacks {missing:#?}");
        let stale: Vec<&str> =
            catalogue.patterns().filter(|key| !all.contains_key(*key) && !bare.contains_key(*key)).collect();
        assert!(stale.is_empty(), "{language} has what nobody says: {stale:#?}");
    }
}

/// A text that is the same in another language is a name, a title or a sign; whoever adds one says so here.
#[test]
fn what_stays_as_it_is_in_english_is_named() {
    for language in LANGUAGES {
        let catalogue = catalogue(language);
        let same: Vec<&str> = catalogue.patterns().filter(|key| catalogue.texts(key) == [*key]).collect();
        let long: Vec<&&str> = same.iter().filter(|key| words(key) > 1 && !is_title(key)).collect();
        assert!(long.is_empty(), "{language} leaves in English {long:#?}");
    }
}

fn is_title(text: &str) -> bool {
    text.starts_with("Joyce, ") || text.starts_with("Elek et al.")
}

/// Runs of three letters and more outside the holes.
fn words(text: &str) -> usize {
    let mut bare = String::new();
    let mut within = false;
    for c in text.chars() {
        match c {
            '{' => within = true,
            '}' => within = false,
            c if !within => bare.push(c),
            _ => {}
        }
    }
    bare.split(|c: char| !c.is_alphabetic()).filter(|word| word.chars().count() > 2).count()
}

/// Figures that stand in an English text stand in the other one too; the first forms of a plural may say them in words.
#[test]
fn the_figures_of_a_phrase_are_those_of_its_english() {
    for language in LANGUAGES {
        let catalogue = catalogue(language);
        for key in catalogue.patterns() {
            let texts = catalogue.texts(key);
            let last = texts.last().expect("a phrase has a text");
            if texts.len() == 1 && !key.starts_with("Ready about 1 ") {
                assert_eq!(figures(key, '.'), figures(last, sign(language)), "{language}: {key}\n{last}");
            }
        }
    }
}

fn sign(language: &str) -> char {
    if matches!(language, "de" | "es" | "fr") { ',' } else { '.' }
}

/// The figures of a text, sorted; a decimal sign counts between two digits, and spaces between thousands are left out. A number
/// of a clause or a part of a standard's name is read as figures too, so its points are read as commas are.
fn figures(text: &str, sign: char) -> Vec<String> {
    let letters: Vec<char> = text.chars().collect();
    let digit = |at: usize| letters.get(at).is_some_and(char::is_ascii_digit);
    let (mut found, mut now) = (Vec::new(), String::new());
    for (at, c) in letters.iter().enumerate() {
        let joins = (*c == sign || *c == '.') && at > 0 && digit(at - 1) && digit(at + 1);
        match c {
            c if c.is_ascii_digit() => now.push(*c),
            _ if joins => now.push('.'),
            _ if !now.is_empty() => found.push(std::mem::take(&mut now)),
            _ => {}
        }
    }
    found.extend((!now.is_empty()).then_some(now));
    found.sort();
    found
}

/// The designs of the goldens, one of each kind, and some at random.
fn designs() -> Vec<Design> {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("data/designs.json");
    let text = fs::read_to_string(path).expect("the designs are there");
    let goldens: serde_json::Map<String, Value> = serde_json::from_str(&text).expect("they are JSON");
    let mut all: Vec<Design> =
        goldens.values().map(|values| Design::from_value(values).expect("a design")).collect();
    all.extend(Family::ALL.iter().map(|(family, _)| Design::of(*family)));
    let mut random = Random::new(5);
    all.extend((0..12).map(|_| random.design()));
    all
}

#[test]
fn reports_say_the_same_in_every_language() {
    let (shop, mut wrong) = (Shop::demo(), Vec::new());
    for design in designs() {
        let told = || match Chair::resolve(&design, &shop.bench()) {
            Ok(chair) => json!(report(&design, &chair, &shop)),
            Err(clash) => json!({ "why": clash.why }),
        };
        let english = told();
        for language in LANGUAGES {
            speak(Some(kept(language)));
            let other = told();
            speak(None);
            if let (Value::Object(english), Value::Object(other)) = (&english, &other) {
                for (field, value) in
                    english.iter().filter(|(field, _)| !matches!(field.as_str(), "findings" | "design"))
                {
                    same(field, value, &other[field], kept(language), &mut wrong);
                }
                let sorted = |value: Option<&Value>, sign: char| {
                    let mut all = value.and_then(Value::as_array).cloned().unwrap_or_default();
                    // Findings that are equally grave come in the order of their subjects' letters.
                    all.sort_by_cached_key(|finding| place_of(finding, sign));
                    Value::Array(all)
                };
                let plain = sorted(english.get("findings"), '.');
                let worded = sorted(other.get("findings"), sign(language));
                same("findings", &plain, &worded, kept(language), &mut wrong);
            }
        }
    }
    none(wrong);
}

/// What puts a finding in its place whatever it is worded in: its figures.
fn place_of(finding: &Value, sign: char) -> (Vec<String>, Vec<String>) {
    let bare = ["topic", "knob", "value", "limit", "used"].map(|field| finding[field].to_string());
    let words = ["subject", "say", "source"].map(|field| finding[field].as_str().unwrap_or_default());
    (bare.to_vec(), figures(&words.join(" "), sign))
}

/// Tells all that is wrong, each once.
fn none(mut wrong: Vec<String>) {
    wrong.sort();
    wrong.dedup();
    assert!(wrong.is_empty(), "{} texts are wrong:\n{}", wrong.len(), wrong.join("\n"));
}

/// Whether two values are the same but for their words, which are in another language and tell the same figures.
fn same(path: &str, english: &Value, other: &Value, catalogue: &Catalogue, wrong: &mut Vec<String>) {
    match (english, other) {
        (Value::Object(a), Value::Object(b)) => {
            assert_eq!(a.len(), b.len(), "{path}");
            for (field, value) in a {
                if NO_WORDS.contains(&field.as_str()) {
                    assert_eq!(*value, b[field], "{path}.{field}");
                } else {
                    same(&format!("{path}.{field}"), value, &b[field], catalogue, wrong);
                }
            }
        }
        (Value::Array(a), Value::Array(b)) => {
            assert_eq!(a.len(), b.len(), "{path}");
            a.iter().zip(b).for_each(|(a, b)| same(path, a, b, catalogue, wrong));
        }
        (Value::String(a), Value::String(b)) if !NO_WORDS.contains(&path) => {
            wrong.extend(said(path, a, b, catalogue));
        }
        (Value::String(_), Value::String(_)) => {}
        _ => assert_eq!(english, other, "{path}"),
    }
}

/// What is wrong with a text in another language beside its English.
fn said(path: &str, english: &str, other: &str, catalogue: &Catalogue) -> Option<String> {
    let language = catalogue.language();
    if other.contains(['{', '}']) {
        return Some(format!("{language} {path}: a hole is left in {other:?}"));
    }
    if english == other {
        let meant = catalogue.word(english) == Some(english) || words(english) == 0 || is_title(english);
        // What a workshop wrote itself, and what the solver of planks says of a shape.
        let others = DEMO_SHOP.contains(english) || english.starts_with("shapes[");
        return (!meant && !others && !is_code(english))
            .then(|| format!("{language} {path}: {english:?} stayed English"));
    }
    let counted = |text: &str, sign: char| {
        let mut all = figures(text, sign);
        // One, two and none may be said in words.
        all.retain(|figure| !matches!(figure.as_str(), "0" | "1" | "2"));
        all
    };
    let differs = counted(english, '.') != counted(other, sign(language));
    differs.then(|| format!("{language} {path}: other figures in {english:?} than in {other:?}"))
}

/// A name as programs write it, or a unit.
fn is_code(text: &str) -> bool {
    !text.contains(' ')
        && (text.chars().all(|c| c.is_ascii_lowercase() || c == '_' || c.is_ascii_digit() || c == '.')
            || words(text) < 2)
}

#[test]
fn knobs_of_every_kind_are_said_in_every_language() {
    let mut wrong = Vec::new();
    for (family, _) in Family::ALL {
        let rows = || json!(Design::of(*family).knobs().iter().map(Knob::row).collect::<Vec<_>>());
        let english = rows();
        for language in LANGUAGES {
            speak(Some(kept(language)));
            let other = rows();
            speak(None);
            for (a, b) in english.as_array().expect("rows").iter().zip(other.as_array().expect("rows")) {
                for field in ["label", "help", "groupLabel"] {
                    wrong.extend(said(field, text(&a[field]), text(&b[field]), kept(language)));
                }
                let picks = |row: &Value| row["choices"].as_array().cloned().unwrap_or_default();
                for (a, b) in picks(a).iter().zip(&picks(b)) {
                    assert_eq!(a["name"], b["name"]);
                    wrong.extend(said("pick", text(&a["label"]), text(&b["label"]), kept(language)));
                }
            }
        }
    }
    none(wrong);
}

fn text(value: &Value) -> &str {
    value.as_str().expect("a text")
}

#[test]
fn a_quote_is_in_the_language_that_is_spoken() {
    let (shop, view) = (Shop::demo(), View::default());
    let line = OrderLine { name: String::new(), quantity: 2, design: Design::default(), told: None };
    let order = Order { name: String::new(), customer: String::new(), lines: vec![line] };
    let asked = QuoteAsked { order: &order, number: "7", date: "2026-03-09", shop: &shop, view: &view };
    for (language, head, day) in [
        ("de", "<html lang=\"de\">", "9. März 2026"),
        ("fr", "<html lang=\"fr\">", "9 mars 2026"),
        ("ar", "<html lang=\"ar\" dir=\"rtl\">", "9 مارس 2026"),
    ] {
        speak(Some(kept(language)));
        let quote = quote_html(&asked).expect("a quote");
        speak(None);
        assert!(quote.contains(head) && quote.contains(day), "{language}");
        let bare = quote.split("<script").next().unwrap_or_default();
        for word in ["Quote ", "Deposit", "Please note", "How many", "seat rail", "working day", "front leg"]
        {
            assert!(!bare.contains(word), "{language}: {word} stayed English");
        }
    }
}

#[test]
fn what_a_customer_sees_is_in_the_language_that_is_spoken() {
    let (room, shop, mut wrong) = (Showroom::demo(), Shop::demo(), Vec::new());
    for offer in &room.offers {
        let chair = Chair::resolve(&offer.design, &shop.bench()).expect("an offer is built");
        let seen = || json!(room.seen(offer, &offer.design, &chair, Some(&shop)).expect("priced"));
        let english = seen();
        for language in LANGUAGES {
            speak(Some(kept(language)));
            let other = seen();
            speak(None);
            same("seen", &english, &other, kept(language), &mut wrong);
        }
    }
    none(wrong);
}

/// English is never far: papers for the bench are made in it, and afterwards the language goes on.
#[test]
fn papers_are_in_english_whatever_is_spoken() {
    speak(Some(kept("de")));
    let part = || crestrail_chair::part::Role::BackLeg.name();
    assert_eq!((in_english(part), part()), ("back leg", "Hinterbein"));
    speak(None);
}
