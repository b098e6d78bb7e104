//! The reports of a few hand-chosen designs (`tests/data/designs.json`) as readable text. After a change
//! that is meant, `CRESTRAIL_BLESS=1 cargo test -p crestrail-tests goldens` writes them anew, and
//! the difference shows in `tests/golden`.

use crestrail_tests::diff;
use crestrail_tests::goldens::{self, Golden};
use crestrail_tests::review;
use std::fs;
use std::path::Path;

#[test]
fn reports_are_as_blessed() {
    let bless = std::env::var_os("CRESTRAIL_BLESS").is_some();
    let mut wrong = String::new();
    for Golden { path, now } in goldens::reports() {
        if bless {
            fs::write(&path, &now).expect("the golden can be written");
        }
        let blessed = goldens::kept(&path);
        if blessed != now {
            wrong.push_str(&format!("\n{}\n{}", path.display(), diff::of(&blessed, &now)));
        }
    }
    assert!(wrong.is_empty(), "reports changed (− as blessed, + as now):\n{wrong}");
}

/// A golden whose design was taken out or renamed would be compared with nothing.
#[test]
fn each_golden_has_its_design() {
    let wanted: Vec<_> = goldens::reports().into_iter().map(|golden| golden.path).collect();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("golden");
    for entry in fs::read_dir(folder).expect("the folder is there") {
        let path = entry.expect("readable").path();
        assert!(wanted.contains(&path), "{} belongs to no design", path.display());
    }
}

#[test]
fn the_difference_is_told_line_by_line() {
    assert_eq!(diff::of("a\nb\nc\n", "a\nB\nc\nd\n"), "  2 − b\n  2 + B\n  4 + d\n");
    assert_eq!(diff::of("a\n", "a\n"), "");
}

/// Old, new and what differs, with letters that HTML would take for its own.
#[test]
fn a_review_shows_what_changed_and_nothing_else() {
    let made = |path: &str, old: &str, new: &str| review::Changed {
        name: path.to_owned(),
        old: old.to_owned(),
        new: new.to_owned(),
    };
    let many: String = (0..40).map(|i| format!("line {i}\n")).collect();
    let page = review::page(&[
        made("a.txt", &many, &many.replace("line 20", "<b>")),
        made("b.svg", "<svg width='1'/>", "<svg width='2'/>"),
        made("c.txt", "same\n", "same\n"),
    ]);
    assert!(page.contains("&lt;b&gt;") && !page.contains("<b>"), "{page}");
    assert!(page.contains("line 19") && page.contains("line 21") && !page.contains("line 30"), "{page}");
    assert_eq!(page.matches("<img ").count(), 4, "old, new, and both over each other");
    assert!(!page.contains("c.txt"), "what is as it was is not shown");
    assert!(page.contains("2 of 3 changed"), "{page}");
}
