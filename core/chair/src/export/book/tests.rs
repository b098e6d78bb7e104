use super::*;
use crestrail_sheet::pdf::{self, Bookmark, Page};
use crestrail_sheet::{Item, Text};
use serde_json::json;

fn faces() -> Faces {
    let regular = include_bytes!("../../../../../www/page/fonts/crestrail-sans-regular.ttf").to_vec();
    let medium = include_bytes!("../../../../../www/page/fonts/crestrail-sans-medium.ttf").to_vec();
    Faces::read(regular, medium).expect("the fonts of the page")
}

fn printed(knobs: &serde_json::Value, shop: &Shop, paper: &str, name: &str) -> Result<Document, Refusal> {
    let design = Design::from_value(knobs).expect("a design");
    let chair = Chair::resolve(&design, &shop.bench()).expect("it can be built");
    let paper = Paper::named(paper).expect("a paper");
    let lengths = Lengths::Millimetres;
    let book = Book { name, design: &design, chair: &chair, shop, paper, lengths, date: "9 March 2026" };
    bench_book(&book, &faces(), &mut |_, _, _| ())
}

fn default_book(paper: &str) -> Document {
    printed(&json!({}), &Shop::demo(), paper, "Kitchen chair").expect("a book")
}

fn texts(items: &[Item]) -> Vec<&Text> {
    let mut found = Vec::new();
    for item in items {
        match item {
            Item::Text(text) => found.push(text),
            Item::Group(group) => found.extend(texts(&group.items)),
            Item::Window(window) => found.extend(texts(&window.items)),
            Item::Path(_) | Item::Circle(_) => {}
        }
    }
    found
}

fn says(page: &Page, words: &str) -> bool {
    texts(&page.sheet.items).iter().any(|text| text.words == words)
}

/// The words at the left and at the right of a page's foot.
fn foot(page: &Page) -> [String; 2] {
    let y = page.sheet.height - 6.0;
    let own = texts(&page.sheet.items).into_iter().filter(|text| (text.at.y - y).abs() < 1e-9);
    let own: Vec<String> = own.map(|text| text.words.clone()).collect();
    own.try_into().expect("two words at the foot")
}

#[test]
fn every_page_tells_its_chapter_and_its_number() {
    for paper in ["a4", "letter", "a3", "tabloid"] {
        let document = default_book(paper);
        let count = document.pages.len();
        for (i, page) in document.pages.iter().enumerate() {
            let [chapter, number] = foot(page);
            assert_eq!(number, format!("Kitchen chair  ·  {} of {count}", i + 1));
            assert_eq!(page.label, (i + 1).to_string());
            let mine = document.bookmarks.iter().rfind(|mark| mark.page <= i).expect("a chapter before it");
            assert_eq!(chapter, mine.title, "page {}", i + 1);
        }
    }
}

/// Each row of the contents names the page on which its chapter's foot is first seen, and so does its bookmark.
#[test]
fn contents_bookmarks_and_pages_agree() {
    for family in ["side_chair", "armchair", "stool", "bench_three"] {
        let document = printed(&json!({"family": family}), &Shop::demo(), "a4", "").expect("a book");
        let cover = texts(&document.pages[0].sheet.items);
        assert_eq!(document.bookmarks[0].title, "Bench book");
        assert_eq!(document.bookmarks.len(), 11);
        for mark in &document.bookmarks[1..] {
            let title = cover.iter().find(|text| text.words == mark.title).expect("a row of the contents");
            let beside = |text: &&&Text| text.at.x > title.at.x && (text.at.y - title.at.y).abs() < 1e-9;
            let page = cover.iter().find(beside).expect("a page number");
            assert_eq!(page.words, (mark.page + 1).to_string(), "{}", mark.title);
            let first = document.pages.iter().position(|page| foot(page)[0] == mark.title);
            assert_eq!(first, Some(mark.page), "{}", mark.title);
        }
    }
}

/// A bookmark below a chapter's stands on the page that says its words.
#[test]
fn bookmarks_within_a_chapter_point_to_the_pages_that_say_them() {
    let document = default_book("a4");
    let within = |title: &str| -> Vec<Bookmark> {
        let chapter = document.bookmarks.iter().find(|mark| mark.title == title).expect("a chapter");
        chapter.children.clone()
    };
    let [timber, setting, findings] = ["Timber plan", "Setting out", "Findings"].map(within);
    assert!(timber.len() > 4 && setting.len() > 20 && findings.len() == 2);
    for mark in timber.iter().chain(&setting).chain(&findings) {
        assert!(says(&document.pages[mark.page], &mark.title), "{} on page {}", mark.title, mark.page + 1);
    }
    assert_eq!(within("Drawing").len(), 3);
    assert!(within("Labels").is_empty());
}

#[test]
fn nothing_reaches_beyond_the_paper_and_no_text_meets_the_foot() {
    for family in ["side_chair", "armchair", "bench_three"] {
        for paper in ["a4", "letter"] {
            let document = printed(&json!({"family": family}), &Shop::demo(), paper, "").expect("a book");
            let [short, long] = Paper::named(paper).map(|p| [p.short, p.long.expect("a sheet")]).expect("it");
            for (i, page) in document.pages.iter().enumerate() {
                let sheet = &page.sheet;
                let lies = [sheet.width, sheet.height];
                assert!(lies == [short, long] || lies == [long, short], "page {} is {lies:?}", i + 1);
                for text in texts(&sheet.items) {
                    let inside = text.at.x > 3.0 && text.at.x < sheet.width - 3.0 && text.at.y > 3.0;
                    let foot = (text.at.y - (sheet.height - 6.0)).abs() < 1e-9;
                    let clear = foot || text.at.y < sheet.height - 9.0;
                    assert!(inside && clear, "{family} {paper} page {}: {:?} {}", i + 1, text.at, text.words);
                }
            }
        }
    }
}

/// A shop without a stock list has no timber plan; the contents say so, and the chapters behind move up.
#[test]
fn what_is_lacking_is_left_out_and_said() {
    let shop = Shop { stock: None, ..Shop::demo() };
    let document = printed(&json!({}), &shop, "a4", "").expect("a book");
    assert!(document.bookmarks.iter().all(|mark| mark.title != "Timber plan"));
    let cover: Vec<&str> =
        texts(&document.pages[0].sheet.items).iter().map(|text| text.words.as_str()).collect();
    let words = cover.join(" ");
    assert!(words.contains("Left out. ") && words.contains("has no stock list"), "{words}");
    assert!(cover.contains(&"–"));
    let setting = document.bookmarks.iter().find(|mark| mark.title == "Setting out").expect("it");
    assert_eq!(foot(&document.pages[setting.page])[0], "Setting out");
    assert_eq!(foot(&document.pages[setting.page - 1])[0], "Cutting list");
}

#[test]
fn a_long_name_is_shortened_at_the_foot_alone() {
    let name = "The very long name of a chair that nobody would give to one but somebody might";
    let document = printed(&json!({}), &Shop::demo(), "a4", name).expect("a book");
    assert_eq!(document.title, format!("{name}: bench book"));
    for page in &document.pages {
        let [_, number] = foot(page);
        let told = number.split("  ·  ").next().expect("a name");
        let cut = told.strip_suffix('…');
        assert!(name.starts_with(cut.unwrap_or(told)) && told.len() > 20, "{number}");
        // A page that lies level has room for all of it.
        assert_eq!(cut.is_some(), page.sheet.width < page.sheet.height, "{number}");
    }
}

#[test]
fn it_carries_the_design_and_tells_how_far_it_is() {
    let (design, shop) = (Design::from_value(&json!({"seat_height": 460})).expect("a design"), Shop::demo());
    let chair = Chair::resolve(&design, &shop.bench()).expect("it can be built");
    let paper = Paper::named("letter").expect("a paper");
    let lengths = Lengths::Inches(32);
    let book = Book { name: "Oak", design: &design, chair: &chair, shop: &shop, paper, lengths, date: "" };
    let mut told = Vec::new();
    let document = bench_book(&book, &faces(), &mut |done, total, _| told.push((done, total))).expect("it");
    assert_eq!(told, (0..STEPS).map(|done| (done, STEPS)).collect::<Vec<_>>());
    let written = pdf::write(&document, &faces()).expect("a file");
    let inside = pdf::attached(&written.bytes).expect("files inside");
    let text = String::from_utf8(inside[0].clone()).expect("text");
    assert_eq!(NamedDesign::read(&text).expect("a design").design, design);
    assert_eq!(written.missing, Vec::<char>::new());
}

#[test]
fn a_roll_is_refused() {
    let refused = printed(&json!({}), &Shop::demo(), "roll", "").expect_err("no pages");
    assert_eq!(refused.where_, "paper");
}
