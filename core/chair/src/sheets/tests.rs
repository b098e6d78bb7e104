use super::*;
use crate::choices::{Choice, Family};
use crate::design::Design;
use crate::joints::Bench;
use crate::length::Lengths;
use crestrail_sheet::paper::PAPERS;
use crestrail_sheet::{Align, Item, Text};
use kurbo::Rect;
use serde_json::json;

fn chair(values: serde_json::Value) -> Chair {
    let design = Design::from_value(&values).expect("a design");
    Chair::resolve(&design, &Bench::default()).expect("a chair")
}

fn sheets(values: serde_json::Value) -> Vec<FullSize> {
    full_size(&chair(values), Lengths::Millimetres).expect("sheets")
}

fn names(sheets: &[FullSize]) -> Vec<&str> {
    sheets.iter().map(|sheet| sheet.name.as_str()).collect()
}

fn texts(items: &[Item]) -> Vec<&Text> {
    items.iter().flat_map(nested).collect()
}

fn nested(item: &Item) -> Vec<&Text> {
    match item {
        Item::Text(text) => vec![text],
        Item::Group(group) => group.items.iter().flat_map(nested).collect(),
        Item::Path(_) | Item::Circle(_) | Item::Window(_) => Vec::new(),
    }
}

/// How long a line of text is, about. Setting-out sheets are measured with the typeface itself, in `setting`.
fn about(text: &Text) -> f64 {
    pens::length(&text.words, text.size) * 0.92
}

/// What a line of text of this length covers: capitals and figures stand about 0.7 of its size high.
pub(super) fn covered(text: &Text, length: f64) -> Rect {
    let before = match text.align {
        Align::Start => 0.0,
        Align::Middle => length / 2.0,
        Align::End => length,
    };
    let (x, y, high) = (text.at.x, text.at.y, 0.7 * text.size);
    if text.turn == 0.0 {
        Rect::new(x - before, y - high, x - before + length, y)
    } else {
        Rect::new(x - high, y - length + before, x, y + before)
    }
}

/// Every kind of chair in its first sizes: all words lie on their sheet, none on another.
#[test]
fn words_are_readable() {
    for family in Family::picks() {
        for sheet in sheets(json!({"family": family.name})).into_iter().filter(|sheet| sheet.is_full_size) {
            let paper = Rect::new(0.0, 0.0, sheet.sheet.width, sheet.sheet.height);
            let all = texts(&sheet.sheet.items);
            for (i, text) in all.iter().enumerate() {
                let own = covered(text, about(text));
                assert!(
                    paper.contains_rect(own),
                    "{} {}: {} leaves the sheet",
                    family.name,
                    sheet.name,
                    text.words
                );
                for other in &all[i + 1..] {
                    let clash = covered(other, about(other)).overlaps(own);
                    assert!(!clash, "{} {}: {} on {}", family.name, sheet.name, text.words, other.words);
                }
            }
        }
    }
}

#[test]
fn parts_with_an_outline_of_their_own_have_a_template() {
    let plain = names(&sheets(json!({}))).join(" ");
    assert!(plain.contains("template-B") && !plain.contains("template-A") && !plain.contains("template-C "));
    let curved = json!({"family": "armchair", "back": "splat", "crest": "curved", "splay": 4.0});
    let curved = sheets(curved);
    for letter in ["A", "B", "R", "K"] {
        assert!(names(&curved).contains(&format!("template-{letter}").as_str()), "{:?}", names(&curved));
    }
}

#[test]
fn each_letter_has_one_template_and_the_rod_three_views() {
    let sheets = sheets(json!({}));
    let mut once = names(&sheets);
    once.sort_unstable();
    once.dedup();
    assert_eq!(once.len(), sheets.len());
    let before =
        names(&sheets).into_iter().take_while(|name| !name.starts_with("setting-")).collect::<Vec<_>>();
    assert!(before.ends_with(&["rod-front", "rod-side", "rod-plan"]));
}

#[test]
fn names_mean_one_sheet_or_all_of_a_kind() {
    let all = sheets(json!({}));
    let count = |name: &str| chosen(all.clone(), name).map(|found| found.len());
    assert_eq!(count("sheets").unwrap(), all.len());
    assert_eq!(count("rod").unwrap(), 3);
    let [templates, setting] = ["template", "setting"].map(|name| count(name).unwrap());
    assert!(templates > 3 && setting > templates);
    assert_eq!(templates + 3 + setting + count("gauges").unwrap() + count("labels").unwrap(), all.len());
    assert_eq!(count("template-B").unwrap(), 1);
    assert!(count("template-Z").unwrap_err().to_string().contains("template-B"));
    assert!(paper("a5").unwrap_err().to_string().contains("tabloid"));
}

/// The list tells as many sheets as are printed, and each drawing has its bookmark.
#[test]
fn the_document_has_the_pages_that_the_list_tells() {
    let chair = chair(json!({}));
    let drawings = full_size(&chair, Lengths::Millimetres).expect("sheets");
    // A roll takes several drawings on one piece.
    for paper in PAPERS.iter().filter(|paper| paper.long.is_some()) {
        let document = print(&Print { name: "", drawings: &drawings, paper, design: None });
        let told: usize =
            (listed(&chair, &drawings).iter().filter(|row| !row.scaled).flat_map(|row| &row.pages))
                .filter(|pages| pages.paper == paper.name)
                .map(|pages| pages.count)
                .sum();
        assert_eq!(document.pages.len(), told, "{}", paper.name);
        assert_eq!(document.bookmarks.len(), drawings.len());
        assert!(document.attachments.is_empty());
        let last = document.bookmarks.last().expect("bookmarks");
        assert!(last.page + last.children.len().max(1) == told);
    }
}

fn drawn(values: serde_json::Value, paper_name: &str, wanted: &str) -> Vec<FullSize> {
    let chair = chair(values);
    let service = crate::service::Service {
        user: 100.0,
        pegged: true,
        sitter: crestrail_sitter::Sitter::Adults,
        table: None,
        climate: crate::service::Service::HOUSE,
    };
    let label = Label { title: "Chair", owner: "A workshop", number: "1", date: "2026-03-09" };
    let paper = paper(paper_name).expect("a paper");
    drawing(&Order { chair: &chair, service: &service, paper, lengths: Lengths::Millimetres, label }, wanted)
        .expect("sheets")
}

fn words_of(sheet: &FullSize) -> Vec<String> {
    texts(&sheet.sheet.items).iter().map(|text| text.words.clone()).collect()
}

/// A larger paper takes a larger scale of ISO 5455, and where one had no room the sheet says so.
#[test]
fn the_scale_follows_the_paper_and_is_told() {
    let scale = |paper: &str| {
        let words = words_of(&drawn(json!({}), paper, "drawing-views")[0]);
        assert!(words.iter().any(|w| w.contains("have no room on")), "{words:?}");
        words.iter().find_map(|w| w.strip_prefix("1:").map(str::to_owned)).expect("a scale")
    };
    assert_eq!(["a4", "a3", "roll"].map(scale), ["10", "5", "2"]);
}

/// ISO 5456-2: what is seen from above stands below the view from the front in first angle, above it in third angle, both
/// above the same middle line.
#[test]
fn views_stand_as_their_projection_asks() {
    let place = |paper: &str, words: &str| {
        let sheet = &drawn(json!({}), paper, "drawing-views")[0];
        texts(&sheet.sheet.items).iter().find(|text| text.words == words).map(|text| text.at)
    };
    let (front, above) = (place("a4", "Front").unwrap(), place("a4", "From above").unwrap());
    assert!(above.y > front.y && (above.x - front.x).abs() < 1e-9);
    assert!(place("a4", "From the left").unwrap().x > front.x);
    let (front, above) = (place("letter", "Front").unwrap(), place("letter", "From above").unwrap());
    assert!(above.y < front.y && (above.x - front.x).abs() < 1e-9);
    assert!(place("letter", "From the right").unwrap().x > front.x);
}

#[test]
fn the_whole_drawing_has_three_sheets_numbered() {
    for family in Family::picks() {
        let sheets = drawn(json!({"family": family.name}), "a4", "drawing");
        assert_eq!(names(&sheets), ["drawing-views", "drawing-sections", "drawing-parts"]);
        for (i, sheet) in sheets.iter().enumerate() {
            assert!(words_of(sheet).contains(&format!("{} of 3", i + 1)));
        }
    }
}

/// Whoever prints must know which sheets the printer may not fit to its paper, and of which it does not matter.
#[test]
fn only_templates_and_the_rod_claim_full_size() {
    let chair = chair(json!({}));
    let rows = listed(&chair, &sheets(json!({})));
    let at_full_size: Vec<&str> =
        rows.iter().filter(|row| row.full_size).map(|row| row.name.as_str()).collect();
    assert!(
        at_full_size.iter().any(|name| name.starts_with("template-")) && at_full_size.contains(&"rod-front")
    );
    for row in &rows {
        let kind = row.name.split('-').next().unwrap_or_default();
        assert_eq!(row.full_size, matches!(kind, "template" | "rod"), "{}", row.name);
        assert_eq!(row.scaled, kind == "drawing", "{}", row.name);
    }
}
