use super::*;
use crate::font::tests::faces;
use crate::{Align, Circle, Colour, Fill, Item, Path, Stroke, Text, Unit, Weight, Window};
use kurbo::Rect;

const INK: Colour = Colour::hex(0x102030);

fn text(words: &str, weight: Weight, turn: f64) -> Item {
    let at = (20.0, 30.0).into();
    Item::Text(Text { words: words.into(), at, align: Align::Middle, size: 5.0, weight, colour: INK, turn })
}

fn sheet(width: f64, height: f64, items: Vec<Item>) -> Sheet {
    let (title, description) = (String::new(), String::new());
    Sheet { width, height, unit: Unit::Millimetre, decimals: 2, title, description, items }
}

fn everything() -> Vec<Item> {
    let stroke = Stroke { dashes: vec![3.0, 1.0], opacity: 0.5, ..Stroke::solid(INK, 0.35) };
    let fill = Some(Fill { opacity: 0.25, ..Fill::solid(INK) });
    let line = Path::line(vec![(10.0, 20.0).into(), (110.0, 20.0).into()], stroke.clone());
    let circle = Circle { centre: (50.0, 50.0).into(), radius: 9.0, fill, stroke: Some(stroke) };
    let frame = Rect::new(10.0, 10.0, 60.0, 60.0);
    let inner = vec![Item::Path(line.clone()), text("seen through", Weight::Regular, 0.0)];
    vec![
        Item::Path(line),
        Item::Circle(circle),
        text("Zoë’s Čechý", Weight::Medium, -90.0),
        Item::Window(Window { frame, from: (5.0, 5.0).into(), items: inner }),
    ]
}

fn document(pages: Vec<Sheet>) -> Document {
    let page = |(i, sheet)| Page { sheet, label: format!("A{i}") };
    let title = "Zoë’s chair".to_owned();
    let pages = pages.into_iter().enumerate().map(page).collect();
    let (bookmarks, attachments) = (Vec::new(), Vec::new());
    Document { title, language: "en".into(), full_size: true, pages, bookmarks, attachments }
}

/// The file as text, with every squeezed stream opened.
fn opened(bytes: &[u8]) -> String {
    let find = |from: usize, what: &[u8]| {
        bytes[from..].windows(what.len()).position(|at| at == what).map(|i| from + i)
    };
    let (mut text, mut at) = (String::new(), 0);
    while let Some(start) = find(at, b"stream\n") {
        text.push_str(&String::from_utf8_lossy(&bytes[at..start]));
        let end = find(start, b"\nendstream").expect("an end");
        let inside = miniz_oxide::inflate::decompress_to_vec_zlib(&bytes[start + 7..end]).expect("squeezed");
        text.push_str(&String::from_utf8_lossy(&inside));
        at = end + 10;
    }
    text + &String::from_utf8_lossy(&bytes[at..])
}

fn written(document: &Document) -> Written {
    write(document, &faces()).expect("a document")
}

#[test]
fn pages_have_the_size_of_their_sheets() {
    let text = opened(&written(&document(vec![sheet(210.0, 297.0, Vec::new())])).bytes);
    assert!(text.starts_with("%PDF-1.7"));
    // 210 mm is 210 / 25.4 × 72 points.
    assert!(text.contains("/MediaBox [0 0 595.2756 841.8898]"), "{text}");
    assert!(text.contains("/PrintScaling /None") && text.contains("/DisplayDocTitle true"));
    assert!(text.contains("/Lang (en)"));
    let small = Document { full_size: false, ..document(vec![sheet(210.0, 297.0, Vec::new())]) };
    assert!(!opened(&written(&small).bytes).contains("/PrintScaling"));
}

#[test]
fn lengths_are_told_in_the_units_of_the_sheet() {
    let text = opened(&written(&document(vec![sheet(100.0, 100.0, everything())])).bytes);
    assert!(text.contains("2.8346457 0 0 -2.8346457 0 283.46457 cm"), "{text}");
    assert!(text.contains("[3 1] 0 d") && text.contains("0.35 w"));
    assert!(text.contains("10 20 m\n110 20 l\nS"));
    // The window: cut off, then moved by (10, 10) − (5, 5).
    assert!(text.contains("10 10 50 50 re\nW\nn\n1 0 0 1 5 5 cm"), "{text}");
    // Turned upwards: along the page's upward direction, letters to the left of it.
    assert!(text.contains("0 -1 -1 0 20 "), "{text}");
}

#[test]
fn the_same_document_gives_the_same_bytes() {
    let document = document(vec![sheet(100.0, 100.0, everything()), sheet(50.0, 70.0, everything())]);
    let (one, two) = (written(&document), written(&document));
    assert_eq!(one, two);
    assert!(!opened(&one.bytes).contains("Date"));
}

/// The fonts hold what is used and no more: eleven letters of one, thirteen of the other, and the empty box.
#[test]
fn fonts_are_cut_down_and_letters_are_told_as_characters() {
    let made = written(&document(vec![sheet(100.0, 100.0, everything())]));
    let text = opened(&made.bytes);
    assert!(made.missing.is_empty());
    assert!(text.contains("+CrestrailSans-Medium") && text.contains("+CrestrailSans-Regular"));
    // č and the right single quotation mark, as UTF-16.
    assert!(text.contains("<010C>") && text.contains("<2019>"), "{text}");
    assert!(made.bytes.len() < 12_000, "{}", made.bytes.len());
}

#[test]
fn characters_that_no_font_has_are_told() {
    let words = |words| document(vec![sheet(90.0, 90.0, vec![text(words, Weight::Regular, 0.0)])]);
    let made = written(&words("漢字 & chair \u{7} 漢"));
    assert_eq!(made.missing, ['\u{7}', '字', '漢']);
    assert!(opened(&made.bytes).contains("<0000> <FFFD>"));
    assert_eq!(written(&words("chair")).missing, []);
}

#[test]
fn bookmarks_labels_and_files_are_hung_into_the_catalogue() {
    let mut document = document(vec![sheet(90.0, 90.0, Vec::new()), sheet(90.0, 90.0, Vec::new())]);
    let leaf = |title: &str, page| Bookmark { title: title.into(), page, children: Vec::new() };
    document.bookmarks = vec![
        Bookmark { children: vec![leaf("A0", 0), leaf("A1", 1)], ..leaf("Back leg", 0) },
        leaf("Rod", 1),
    ];
    let bytes = br#"{"crestrail":"design/1"}"#.to_vec();
    let name = "design.json".to_owned();
    let description = "The design".to_owned();
    document.attachments = vec![Attachment { name, media: "application/json", description, bytes }];
    let text = opened(&written(&document).bytes);
    assert!(text.contains("/Title (Back leg)") && text.contains("/Count 2") && text.contains("/Count 4"));
    assert!(text.contains("/PageMode /UseOutlines") && text.contains("/PageLabels"));
    assert!(text.contains("/EmbeddedFiles") && text.contains(r#"{"crestrail":"design/1"}"#));
    assert!(text.contains("/AFRelationship /Source") && text.contains("/AF ["));
    document.bookmarks[0].children[1].page = 2;
    assert_eq!(write(&document, &faces()), Err(Unwritten::NoSuchPage(2)));
}

#[test]
fn what_no_reader_could_show_is_refused() {
    assert_eq!(write(&document(Vec::new()), &faces()), Err(Unwritten::NoPage));
    for (width, height) in [(100.0, 5081.0), (0.0, 100.0), (f64::NAN, 100.0)] {
        let sheets = vec![sheet(90.0, 90.0, Vec::new()), sheet(width, height, Vec::new())];
        assert_eq!(write(&document(sheets), &faces()), Err(Unwritten::PageSize(1)));
    }
    assert!(write(&document(vec![sheet(914.4, 5080.0, Vec::new())]), &faces()).is_ok());
}
