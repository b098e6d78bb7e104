//! Patterns, plurals and catalogues.

use crate::pattern::{Pattern, text_of};
use crate::plural::category;
use crate::{Catalogue, figure, in_english, say, speak, word};

const GERMAN: &str = r#"{"crestrail": "phrases/1", "language": "de", "decimal": ",", "phrases": {
    "seat": "Sitz",
    "{what} is {0} mm high": "{0} mm misst: {what}",
    "The {what} holds.": "{what}: hält.",
    "{n} pegs": {"count": "n", "one": "ein Nagel", "other": "{n} Nägel"}}}"#;

fn german() -> &'static Catalogue {
    Catalogue::read(GERMAN).expect("a catalogue").kept()
}

#[test]
fn english_stays_as_format_writes_it() {
    let (what, digits, x) = ("seat", 2, 1.25);
    assert_eq!(say!("The {what} is {:.1} mm", x), format!("The {what} is {:.1} mm", x));
    assert_eq!(
        say!("{x:.digits$}, {y:>8.1}|{0}{0}", 7, y = x),
        format!("{x:.digits$}, {y:>8.1}|{0}{0}", 7, y = x)
    );
    assert_eq!(say!("{{{0}}} {a} {a}", 1, a = 2 + 3), format!("{{{0}}} {a} {a}", 1, a = 2 + 3));
    assert_eq!(
        say!(
            "a \"b\" \u{b0} \
        c"
        ),
        "a \"b\" \u{b0} c"
    );
    assert_eq!(word("seat"), "seat");
}

#[test]
fn another_language_orders_holes_its_own_way_and_writes_its_decimal_sign() {
    speak(Some(german()));
    assert_eq!(say!("{what} is {:.1} mm high", 450.5, what = word("seat")), "450,5 mm misst: Sitz");
    assert_eq!((figure("1.5"), figure("EN 1.5")), ("1,5".into(), "EN 1.5".into()));
    assert_eq!(
        in_english(|| say!("{what} is {:.1} mm high", 450.5, what = word("seat"))),
        "seat is 450.5 mm high"
    );
    assert_eq!(say!("The {what} holds.", what = "bein"), "Bein: hält.");
    assert_eq!([1, 2].map(|n| say!("{n} pegs")), ["ein Nagel", "2 Nägel"]);
    assert_eq!(say!("{n} unknown", n = 1.5), "1,5 unknown");
    speak(None);
    assert_eq!(say!("{n} pegs", n = 1), "1 pegs");
}

/// Examples of the CLDR chart of plural rules.
#[test]
fn counts_have_their_category() {
    for (language, counts) in [
        ("en", [("1", "one"), ("0", "other"), ("2", "other"), ("1.5", "other")]),
        ("fr", [("0", "one"), ("1", "one"), ("2", "other"), ("100", "other")]),
        ("sw", [("1", "one"), ("0", "other"), ("11", "other"), ("101", "other")]),
        ("ar", [("0", "zero"), ("1", "one"), ("2", "two"), ("100", "other")]),
        ("ar", [("3", "few"), ("110", "few"), ("11", "many"), ("199", "many")]),
    ] {
        for (count, wanted) in counts {
            assert_eq!(category(language, count), wanted, "{language} {count}");
        }
    }
}

#[test]
fn what_is_wrong_with_a_catalogue_is_named() {
    let with = |phrase: &str| {
        Catalogue::read(&format!(
            r#"{{"crestrail": "phrases/1", "language": "ar", "decimal": ".", "phrases": {{{phrase}}}}}"#
        ))
        .map(|_| ())
        .map_err(|unread| unread.to_string())
    };
    assert_eq!(with(r#""{a} b": "b {a}""#), Ok(()));
    for (phrase, part) in [
        (r#""{a} b": "b""#, "{a} is missing"),
        (r#""b": "{c} b""#, "no hole {c}"),
        (r#""b": "b {""#, "left open in \"b {\""),
        (r#""b": "b {é""#, "left open"),
        (r#""{a": "b""#, "left open in \"{a\""),
        (r#""b": "b }""#, "left open"),
        (r#""{a}": {"count": "b", "one": "1", "other": "{a}"}"#, "counts by {b}"),
        (r#""{a}": {"count": "a", "one": "1", "other": "{a}"}"#, "\"zero\" is missing"),
    ] {
        let why = with(phrase).expect_err(phrase);
        assert!(why.contains(part), "{why}");
    }
    assert!(Catalogue::read("{}").is_err());
}

/// The same text from the source as the compiler reads it, and the key of a pattern.
#[test]
fn patterns_are_read_from_the_source() {
    assert_eq!(text_of(r#""a \"b\" \u{b0}\n""#).as_deref(), Some("a \"b\" °\n"));
    let pattern = Pattern::read("{} {x:.1} {} {{y}} {x:.1}").expect("a pattern");
    assert_eq!(pattern.key, "{0} {x} {1} {{y}} {x}");
    assert_eq!(pattern.holes.len(), 3);
    assert!(Pattern::read("{x").is_err() && Pattern::read("x}").is_err());
    assert!(Pattern::read("{x:.1} {x}").is_err());
}

/// Latin letters among Arabic ones are kept apart; figures are not.
#[test]
fn what_stands_in_a_text_from_right_to_left_is_kept_apart() {
    let text = r#"{"crestrail": "phrases/1", "language": "ar", "decimal": ".", "right_to_left": true,
        "phrases": {"{0} of {1}": "{0} من {1}"}}"#;
    speak(Some(Catalogue::read(text).expect("a catalogue").kept()));
    assert_eq!(say!("{} of {}", 1.5, "EN 1022"), "1.5 من \u{2068}EN 1022\u{2069}");
    speak(None);
}
