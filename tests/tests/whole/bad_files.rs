//! `design.json` and links that are broken, foreign, newer or cut short: each refused in plain words that
//! name the field; and whatever is written reads back the same.

use crate::random::Random;
use crestrail_chair::design::{Design, NamedDesign};
use crestrail_chair::link;
use serde_json::{Value, json};

fn refused(text: &str) -> (String, String) {
    match NamedDesign::read(text) {
        Ok(_) => panic!("was read: {}", text.chars().take(200).collect::<String>()),
        Err(refusal) => {
            assert!(refusal.why.ends_with('.') && refusal.why.chars().count() < 700, "{refusal}");
            (refusal.where_, refusal.why)
        }
    }
}

fn file() -> Value {
    json!({"crestrail": "design/1", "name": "Kitchen", "knobs": Design::default().to_map()})
}

/// The file with one thing changed, given as a path of names.
fn with(path: &[&str], value: Value) -> String {
    let mut file = file();
    let mut at = &mut file;
    for name in path {
        at = &mut at[*name];
    }
    *at = value;
    file.to_string()
}

fn without(path: &str) -> String {
    let mut file = file();
    let knobs = file["knobs"].as_object_mut().expect("an object");
    knobs.remove(path).expect("a knob");
    file.to_string()
}

#[test]
fn the_file_itself_is_read() {
    let named = NamedDesign::read(&file().to_string()).expect("it is whole");
    assert_eq!((named.name.as_str(), named.design), ("Kitchen", Design::default()));
}

/// What is changed, the field that must be named, and a word of the reason.
#[test]
fn each_bad_design_file_names_its_field() {
    let cases = [
        (String::new(), "design.json", "empty"),
        ("\u{feff} ".to_owned(), "design.json", "empty"),
        ("<html></html>".to_owned(), "design.json", "not JSON"),
        (file().to_string()[..200].to_owned(), "design.json", "cut short"),
        ("[1, 2]".to_owned(), "design.json", "list"),
        (json!({"version": 3, "items": []}).to_string(), "crestrail", "not a design.json"),
        (with(&["crestrail"], json!("shop/1")), "crestrail", "shop file"),
        (with(&["crestrail"], json!("design/2")), "crestrail", "newer"),
        (with(&["crestrail"], json!("design/0")), "crestrail", "never a version"),
        (with(&["crestrail"], json!(1)), "crestrail", "not a design.json"),
        (with(&["knobs"], json!([])), "knobs", "object"),
        (with(&["knobs"], json!(null)), "knobs", "object"),
        (with(&["knobs", "sofa"], json!(1)), "knobs.sofa", "no knob"),
        (with(&["extra"], json!(1)), "extra", "not known"),
        (with(&["name"], json!(7)), "name", "text"),
        (with(&["name"], json!("x".repeat(61))), "name", "61 characters"),
        (with(&["name"], json!("two\nlines")), "name", "control characters"),
        (without("seat_height"), "knobs.seat_height", "missing"),
        (without("species"), "knobs.species", "missing"),
        (with(&["knobs", "seat_height"], json!(900)), "knobs.seat_height", "from 380 to 520 mm"),
        (with(&["knobs", "seat_height"], json!("450")), "knobs.seat_height", "number"),
        (with(&["knobs", "seat_height"], json!(null)), "knobs.seat_height", "nothing"),
        (with(&["knobs", "seat_height"], json!(true)), "knobs.seat_height", "number"),
        (with(&["knobs", "back_slats"], json!(2.5)), "knobs.back_slats", "whole number"),
        (with(&["knobs", "back_slats"], json!(-3)), "knobs.back_slats", "from 2 to 6"),
        (with(&["knobs", "species"], json!("plastic")), "knobs.species", "cannot be"),
        (with(&["knobs", "pegs"], json!(0)), "knobs.pegs", "text"),
        (file().to_string().replace(":450.0", ":NaN"), "design.json", "not JSON"),
        (file().to_string().replace(":450.0", ":1e999"), "design.json", "not JSON"),
        (file().to_string().replacen("\"name\"", "\"name\":\"a\",\"name\"", 1), "design.json", "twice"),
        (format!("{}x", file()), "design.json", "not JSON"),
        (format!("{{\"crestrail\":\"{}\"}}", "d".repeat(1_100_000)), "design.json", "bytes"),
    ];
    for (text, place, word) in cases {
        let (where_, why) = refused(&text);
        assert_eq!(where_, place, "{why}");
        assert!(why.to_lowercase().contains(&word.to_lowercase()), "\"{word}\" is not said: {why}");
    }
}

/// The last byte is a line break, which nobody misses.
#[test]
fn a_design_file_is_refused_wherever_it_is_cut() {
    let text = NamedDesign { name: "Kitchen".to_owned(), design: Design::default() }.write();
    for end in (0..text.trim_end().len()).filter(|&end| text.is_char_boundary(end)) {
        refused(&text[..end]);
    }
}

#[test]
fn what_is_written_reads_back() {
    let mut random = Random::new(7);
    for _ in 0..300 {
        let design = random.design();
        let named = NamedDesign { name: "Zoë's \"best\" <chair>".to_owned(), design: design.clone() };
        assert_eq!(NamedDesign::read(&named.write()), Ok(named));
        assert_eq!(link::read(&link::write(&design)), Ok(design));
    }
}

/// A link in which one character was lost, doubled or changed.
#[test]
fn a_damaged_link_is_refused() {
    let link = link::write(&Random::new(8).design());
    assert!(link.is_ascii());
    for i in 0..link.len() {
        let lost = format!("{}{}", &link[..i], &link[i + 1..]);
        let doubled = format!("{}{}", &link[..=i], &link[i..]);
        let other = if &link[i..=i] == "7" { "8" } else { "7" };
        let changed = format!("{}{other}{}", &link[..i], &link[i + 1..]);
        for bad in [lost, doubled, changed, link[..i].to_owned()] {
            if bad != link {
                let refusal = link::read(&bad).expect_err(&bad);
                assert!(!refusal.where_.is_empty() && refusal.why.ends_with('.'), "{refusal}");
            }
        }
    }
}

#[test]
fn links_that_are_none() {
    let long = format!("design/1;{}", "a=1;".repeat(5000));
    for bad in [
        "",
        "#",
        "#top",
        "design/1",
        "design/1;check=",
        "design/2;check=00000000",
        "%00",
        "check=;",
        ";;;;",
        &long,
        "ü;check=12345678",
    ] {
        let refusal = link::read(bad).expect_err(bad);
        assert!(refusal.where_ == "link" && refusal.why.ends_with('.'), "{refusal}");
    }
}
