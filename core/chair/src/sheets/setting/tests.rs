use super::figures::Way;
use super::table::{SMALL, long};
use super::*;
use crate::choices::{Choice, Family};
use crate::design::Design;
use crate::joints::Bench;
use crate::joints::tests::random::Random;
use crate::sheets::FullSize;
use crestrail_sheet::{Faces, Text};
use kurbo::Rect;
use serde_json::json;

fn faces() -> Faces {
    let regular = include_bytes!("../../../../../www/page/fonts/crestrail-sans-regular.ttf").to_vec();
    let medium = include_bytes!("../../../../../www/page/fonts/crestrail-sans-medium.ttf").to_vec();
    Faces::read(regular, medium).expect("the fonts of the page")
}

fn chair(values: serde_json::Value) -> Chair {
    let design = Design::from_value(&values).expect("a design");
    Chair::resolve(&design, &Bench::default()).expect("a chair")
}

fn texts(items: &[Item]) -> Vec<&Text> {
    items.iter().flat_map(nested).collect()
}

fn nested(item: &Item) -> Vec<&Text> {
    match item {
        Item::Text(text) => vec![text],
        Item::Group(group) => texts(&group.items),
        Item::Path(_) | Item::Circle(_) | Item::Window(_) => Vec::new(),
    }
}

/// What a line of text covers in the page's typeface.
fn covered(text: &Text, faces: &Faces) -> Rect {
    crate::sheets::tests::covered(text, faces.of(text.weight).length(&text.words) * text.size)
}

/// The first word that leaves its sheet or lies on another.
fn unreadable(sheet: &FullSize, faces: &Faces) -> Option<String> {
    let paper = Rect::new(0.0, 0.0, sheet.sheet.width, sheet.sheet.height);
    let all: Vec<(&Text, Rect)> =
        texts(&sheet.sheet.items).into_iter().map(|text| (text, covered(text, faces))).collect();
    for (i, (text, own)) in all.iter().enumerate() {
        if !paper.contains_rect(*own) {
            return Some(format!("{}: {} leaves the sheet", sheet.name, text.words));
        }
        if let Some((other, _)) = all[i + 1..].iter().find(|(_, rect)| rect.overlaps(*own)) {
            return Some(format!("{}: {} on {}", sheet.name, text.words, other.words));
        }
    }
    None
}

/// Designs anywhere between the limits, in all units.
#[test]
fn words_of_random_chairs_are_readable() {
    let faces = faces();
    let mut random = Random::new(11);
    let units = crate::length::ALL;
    let (mut built, mut drawn) = (0, 0);
    while built < 100 {
        drawn += 1;
        assert!(drawn < 1000, "only {built} of {drawn} designs can be built");
        let design = random.design();
        let Ok(chair) = Chair::resolve(&design, &Bench::default()) else { continue };
        for sheet in setting_out(&chair, units[built % units.len()].1).expect("sheets") {
            let fault = unreadable(&sheet, &faces);
            assert_eq!(fault, None, "{design:?}");
        }
        built += 1;
    }
}

/// Right and left are told apart, and the left one is the right one's mirror image: the same figures on the same faces.
#[test]
fn pairs_are_mirrored() {
    let mut pairs = 0;
    for family in Family::picks() {
        let chair = chair(json!({"family": family.name}));
        let all = subjects(&chair).expect("subjects");
        for right in all.iter().filter(|subject| subject.hand() == "right") {
            let left = all.iter().find(|s| s.hand() == "left" && s.part.letter == right.part.letter);
            let left = left.expect("its twin");
            let told = |subject: &Subject<'_>| -> Vec<String> {
                let row = |f: &Figure| format!("{} {:?} {:.3} {:?}", f.face, f.way, f.value, f.what);
                subject.figures.iter().map(row).collect()
            };
            assert_eq!(told(right), told(left), "{} {}", family.name, right.key());
            assert_ne!(right.marked.blank.unrolled(), left.marked.blank.unrolled(), "{}", right.key());
            pairs += 1;
        }
    }
    assert!(pairs > 10, "{pairs}");
}

/// Every figure of a part stands on its sheets, written in the unit that was asked for.
#[test]
fn every_figure_is_drawn() {
    let chair = chair(json!({"family": "armchair", "back": "splat", "crest": "curved", "splay": 4.0}));
    for (_, lengths, _) in crate::length::ALL {
        let sheets = setting_out(&chair, lengths).expect("sheets");
        for subject in subjects(&chair).expect("subjects") {
            let name = format!("setting-{}", subject.key());
            let own = sheets.iter().filter(|sheet| sheet.name.starts_with(&name));
            let words: Vec<&str> =
                own.flat_map(|sheet| texts(&sheet.sheet.items)).map(|text| text.words.as_str()).collect();
            for figure in &subject.figures {
                let text = format!("{}  {}", lengths.write(figure.value), figure.what.join(", "));
                assert!(words.contains(&text.as_str()), "{name}: {text}");
            }
        }
    }
}

#[test]
fn the_front_leg_is_set_out_as_the_joint_list_says() {
    let chair = chair(json!({}));
    let all = subjects(&chair).expect("subjects");
    let leg = all.iter().find(|subject| subject.key() == "A-right").expect("a front leg");
    let along: Vec<String> = (leg.figures.iter())
        .filter(|f| f.way == Way::Along && f.what.iter().any(|what| what == "F"))
        .map(|f| Lengths::Millimetres.write(f.value))
        .collect();
    // The joint list tells heights above the floor; the leg stands upright on it.
    let list = crate::lists::joint_list(&chair);
    let row = list.iter().find(|row| (row.letter_host.as_str(), row.letter_guest.as_str()) == ("A", "F"));
    assert_eq!(
        along,
        row.expect("a row").mortise.above_floor[0].map(|height| Lengths::Millimetres.write(height))
    );
}

#[test]
fn each_gauge_is_set_once() {
    let chair = chair(json!({}));
    let gauges = gauges(&subjects(&chair).expect("subjects"));
    let mut keys: Vec<String> =
        gauges.settings.iter().map(|s| format!("{} {:.1?}", s.from, s.pins)).collect();
    let count = keys.len();
    keys.sort_unstable();
    keys.dedup();
    assert_eq!(keys.len(), count);
    assert!(gauges.settings.iter().any(|s| s.uses.len() > 1), "nothing is shared");
}

#[test]
fn the_estimate_of_a_text_is_never_too_short() {
    let faces = faces();
    let sheets = setting_out(&chair(json!({})), Lengths::Inches(32)).expect("sheets");
    for text in sheets.iter().flat_map(|sheet| texts(&sheet.sheet.items)).filter(|text| text.size == SMALL) {
        let (told, true_) = (long(&text.words), faces.of(text.weight).length(&text.words) * SMALL);
        assert!(told >= true_ && told < 1.35 * true_ + 1.0, "{}: {told} for {true_}", text.words);
    }
}
