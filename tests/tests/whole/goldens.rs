//! The reports of a few hand-chosen designs (`tests/data/designs.json`) as readable text. After a change
//! that is meant, `CRESTRAIL_BLESS=1 cargo test -p crestrail-tests goldens` writes them anew, and
//! the difference shows in `tests/golden`.

use crate::{diff, page};
use crestrail_chair::design::Design;
use crestrail_chair::shop::Shop;
use serde_json::{Map, Value};
use std::fs;
use std::path::{Path, PathBuf};

fn here(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(name)
}

fn designs() -> Map<String, Value> {
    let text = fs::read_to_string(here("data/designs.json")).expect("the designs are there");
    serde_json::from_str(&text).expect("they are JSON")
}

fn file_of(name: &str) -> String {
    format!("{}.txt", name.replace(' ', "_"))
}

#[test]
fn reports_are_as_blessed() {
    let bless = std::env::var_os("CRESTRAIL_BLESS").is_some();
    let mut wrong = String::new();
    for (name, values) in designs() {
        let design = Design::from_value(&values).unwrap_or_else(|refusal| panic!("{name}: {refusal}"));
        let now = page::of(&name, &design, &Shop::demo());
        let path = here("golden").join(file_of(&name));
        if bless {
            fs::write(&path, &now).expect("the golden can be written");
        }
        let blessed = fs::read_to_string(&path).unwrap_or_default().replace("\r\n", "\n");
        if blessed != now {
            wrong.push_str(&format!("\n{}\n{}", path.display(), diff::of(&blessed, &now)));
        }
    }
    assert!(wrong.is_empty(), "reports changed (− as blessed, + as now):\n{wrong}");
}

/// A golden whose design was taken out or renamed would be compared with nothing.
#[test]
fn each_golden_has_its_design() {
    let wanted: Vec<String> = designs().keys().map(|name| file_of(name)).collect();
    for entry in fs::read_dir(here("golden")).expect("the folder is there") {
        let name = entry.expect("readable").file_name().to_string_lossy().into_owned();
        assert!(wanted.contains(&name), "{name} belongs to no design");
    }
}

#[test]
fn the_difference_is_told_line_by_line() {
    assert_eq!(diff::of("a\nb\nc\n", "a\nB\nc\nd\n"), "  2 − b\n  2 + B\n  4 + d\n");
    assert_eq!(diff::of("a\n", "a\n"), "");
}
