use super::*;
use crate::font::tests::faces;
use crate::paper::Paper;
use crate::pdf::Page;

const INK: Colour = Colour::hex(0);

fn kind(size: f64) -> Type {
    Type { size, weight: Weight::Regular, colour: INK, leading: 1.4 }
}

fn frame(paper: &str) -> Frame {
    let paper = Paper::named(paper).expect("a paper");
    let foot = "Foot".to_owned();
    Frame { paper, level: false, sides: 20.0, above: 20.0, below: 20.0, foot, small: kind(2.5) }
}

fn looks(width: f64) -> Rows {
    let head = Type { weight: Weight::Medium, ..kind(3.0) };
    Rows { width, head, cell: kind(3.0), note: kind(2.5), line: INK }
}

fn words_of(items: &[Item]) -> Vec<&Text> {
    fn text(item: &Item) -> Option<&Text> {
        if let Item::Text(text) = item { Some(text) } else { None }
    }
    items.iter().filter_map(text).collect()
}

fn told(page: &Page) -> Vec<&str> {
    words_of(&page.sheet.items).iter().map(|text| text.words.as_str()).collect()
}

const PROSE: &str = "Wood moves with the seasons: in a dry winter a panel shrinks across the grain, in a damp summer it swells.";

#[test]
fn lines_are_as_full_as_they_can_be_and_no_word_is_lost() {
    let (faces, kind) = (faces(), kind(3.4));
    for width in [25.0, 60.0, 170.0] {
        let lines = broken(PROSE, width, &kind, &faces);
        assert_eq!(lines.join(" "), PROSE);
        for (line, next) in lines.iter().zip(lines.iter().skip(1)) {
            let word = next.split(' ').next().expect("a word");
            assert!(length(line, &kind, &faces) <= width);
            assert!(length(&format!("{line} {word}"), &kind, &faces) > width, "{line} | {word}");
        }
    }
}

#[test]
fn a_word_longer_than_a_line_is_parted() {
    let (faces, kind) = (faces(), kind(3.4));
    let word = "Langholzzuschnittliste".repeat(3);
    let lines = broken(&format!("a {word} b"), 30.0, &kind, &faces);
    assert!(lines.len() > 3 && lines.iter().all(|line| length(line, &kind, &faces) <= 30.0));
    assert_eq!(lines.concat().replace(' ', ""), format!("a{word}b"));
    assert_eq!(broken("漢", 0.1, &kind, &faces), ["漢"], "a letter wider than the line stands alone");
    assert_eq!(broken("a\n\nb", 30.0, &kind, &faces), ["a", "", "b"]);
}

#[test]
fn cells_stay_within_their_columns() {
    let faces = faces();
    let columns = [("Part", false), ("Length", true), ("Timber", false)]
        .map(|(head, numbers)| Column { head: head.to_owned(), numbers });
    let row = |i: usize| vec![Cell::of(PROSE), Cell::of(format!("{}", 1000 * i)), Cell::of(PROSE)];
    let rows: Vec<Vec<Cell>> = (0..9).map(row).collect();
    for piece in table(&columns, &rows, 1, &looks(120.0), &faces) {
        let texts = words_of(&piece.items);
        for text in &texts {
            let long =
                length(&text.words, &Type { size: text.size, weight: text.weight, ..kind(1.0) }, &faces);
            let (from, to) = match text.align {
                Align::Start => (text.at.x, text.at.x + long),
                _ => (text.at.x - long, text.at.x),
            };
            assert!(from >= -1e-6 && to <= 120.0 + 1e-6, "{} from {from} to {to}", text.words);
            assert!(text.at.y < piece.height);
        }
        let ends: Vec<f64> = texts.iter().filter(|t| t.align == Align::End).map(|t| t.at.x).collect();
        assert!(ends.iter().all(|end| *end == ends[0]));
    }
}

#[test]
fn a_long_table_goes_on_below_its_head_and_nothing_runs_over_the_foot() {
    let faces = faces();
    for paper in ["a4", "letter"] {
        let frame = frame(paper);
        let (width, height) = frame.room();
        let columns = [Column { head: "Head".to_owned(), numbers: false }];
        let rows: Vec<Vec<Cell>> = (0..120).map(|i| vec![Cell::of(format!("Row {i}"))]).collect();
        let (pages, _) = paged(table(&columns, &rows, 2, &looks(width), &faces), &frame);
        assert!(pages.len() > 2);
        let mut found = Vec::new();
        for (i, page) in pages.iter().enumerate() {
            let lines = told(page);
            assert_eq!(lines[0], "Head");
            assert_eq!(
                lines[lines.len() - 2..],
                ["Foot".to_owned(), format!("{} of {}", i + 1, pages.len())]
            );
            found.extend(lines[1..lines.len() - 2].iter().map(|line| (*line).to_owned()));
            let texts = words_of(&page.sheet.items);
            assert!(texts[..texts.len() - 2].iter().all(|text| text.at.y <= frame.above + height));
        }
        assert_eq!(found, (0..120).map(|i| format!("Row {i}")).collect::<Vec<_>>());
        // The sums are not alone on the last page.
        assert!(told(&pages[pages.len() - 1]).contains(&"Row 117"));
    }
}

#[test]
fn a_heading_goes_with_what_it_heads() {
    let frame = frame("a4");
    let (_, height) = frame.room();
    let strip = |name: &str, high: f64| Piece::of(high, vec![kind(3.0).words(name, 0.0, 0.0, Align::Start)]);
    let heading = Piece { bookmark: Some("Second".to_owned()), ..strip("Heading", 10.0).below(5.0).kept() };
    let (pages, marks) = paged(vec![strip("First", height - 20.0), heading, strip("Text", 10.0)], &frame);
    assert_eq!(
        pages.iter().map(told).collect::<Vec<_>>(),
        [vec!["First", "Foot", "1 of 2"], vec!["Heading", "Text", "Foot", "2 of 2"]]
    );
    assert_eq!((marks[0].title.as_str(), marks[0].page), ("Second", 1));
    // At the head of a page there is no room above.
    assert_eq!(words_of(&pages[1].sheet.items)[0].at.y, frame.above + kind(3.0).base());
    let breaks = Piece { breaks: true, ..strip("New", 5.0) };
    assert_eq!(paged(vec![strip("First", 5.0), breaks.clone()], &frame).0.len(), 2);
    assert_eq!(paged(vec![breaks], &frame).0.len(), 1, "no empty page before it");
}

#[test]
fn figures_keep_their_shape() {
    let line = Item::Path(crate::Path::line(
        vec![(0.0, 0.0).into(), (400.0, 100.0).into()],
        crate::Stroke::solid(INK, 1.0),
    ));
    let (title, description) = (String::new(), String::new());
    let sheet = crate::Sheet {
        width: 400.0,
        height: 100.0,
        unit: crate::Unit::Pixel,
        decimals: 1,
        title,
        description,
        items: vec![line],
    };
    let piece = figure(&sheet, 80.0, 60.0);
    assert_eq!(piece.height, 20.0);
    let wide = figure(&sheet, 80.0, 10.0);
    let extent = wide.items[0].extent().expect("a line");
    assert!((extent.center().x - 40.0).abs() < 1e-9 && (extent.height() - 10.1).abs() < 1e-9);
}
