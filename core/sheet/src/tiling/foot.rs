//! What stands below the drawing: words, two bars of known length, and where the sheet belongs.

use super::{Caption, FOOT, INK, Layout, MARGIN, THIN, rectangle};
use crate::paper::INCH;
use crate::{Align, Colour, Fill, Group, Item, Path, Stroke, Text, Trace, Weight};
use kurbo::{Point, Rect, Vec2};

/// Sizes of letters, mm (ISO 3098-1: 3.5 and 2.5 are nominal sizes).
const LARGE: f64 = 3.5;
const SMALL: f64 = 2.5;
/// The ends of a bar, mm high on each side of it.
const END: f64 = 2.5;
/// Of the bars' ends: as wide as a pencil line, so that a rule can be laid to their middle.
const LINE: f64 = 0.25;
/// The room of the map, mm.
const MAP: (f64, f64) = (24.0, 15.0);
const HERE: Colour = Colour::hex(0x666666);

/// All of it for the page with this number.
pub(super) fn items(layout: &Layout, caption: &Caption, number: usize, place: (usize, usize)) -> Vec<Item> {
    let top = layout.page.height - MARGIN - FOOT;
    let (left, right) = (MARGIN, layout.page.width - MARGIN);
    let mut title = caption.title.clone();
    let name = layout.place(place);
    if !name.is_empty() {
        title = format!("{title}, sheet {name}");
    }
    let base = top + 5.5;
    let mut items = vec![
        words(&title, Point::new(left, base), Align::Start, LARGE, Weight::Medium),
        words(
            &format!("{} of {}", number, caption.pages),
            Point::new(right, base),
            Align::End,
            LARGE,
            Weight::Regular,
        ),
    ];
    if caption.is_full_size {
        items.push(bar("100 mm", Point::new(left, top + 12.5), 100.0, 10));
        items.push(bar("4 in", Point::new(left, top + 21.5), 4.0 * INCH, 8));
    }
    let full = ["Full size: print at 100 %.", "Check both bars first."];
    let notes =
        core::iter::once(caption.of.as_str()).chain(full.into_iter().filter(|_| caption.is_full_size));
    let at = left + if caption.is_full_size { 4.0 * INCH + 15.0 } else { 0.0 };
    for (line, note) in notes.enumerate() {
        let base = Point::new(at, top + 12.0 + 4.2 * line as f64);
        items.push(words(note, base, Align::Start, SMALL, Weight::Regular));
    }
    if layout.count() > 1 {
        items.push(map(layout, place, Point::new(right, top + 9.0)));
    }
    items
}

fn words(text: &str, at: Point, align: Align, size: f64, weight: Weight) -> Item {
    Item::Text(Text { words: text.to_owned(), at, align, size, weight, colour: INK, turn: 0.0 })
}

/// A line of known length between the middles of its two ends, with its parts marked.
fn bar(name: &'static str, at: Point, length: f64, parts: usize) -> Item {
    let upright = |x: f64, up: f64, down: f64| Trace {
        points: vec![at + Vec2::new(x, -up), at + Vec2::new(x, down)],
        closed: false,
    };
    let mut ends = vec![upright(0.0, END, END), upright(length, END, END)];
    ends.push(Trace { points: vec![at, at + Vec2::new(length, 0.0)], closed: false });
    let between = (1..parts).map(|i| upright(length * i as f64 / parts as f64, END / 2.0, 0.0)).collect();
    let path =
        |traces, width| Item::Path(Path { traces, fill: None, stroke: Some(Stroke::solid(INK, width)) });
    let label = words(name, at + Vec2::new(length + 2.5, 0.9), Align::Start, SMALL, Weight::Medium);
    Item::Group(Group {
        data: vec![("bar", name.to_owned())],
        items: vec![path(ends, LINE), path(between, THIN), label],
    })
}

/// All sheets as small boxes, this one filled; its upper right corner lies at `corner`.
fn map(layout: &Layout, place: (usize, usize), corner: Point) -> Item {
    let page = layout.page;
    let (rows, columns) = (layout.rows as f64, layout.columns as f64);
    let scale = (MAP.0 / (page.width * columns)).min(MAP.1 / (page.height * rows));
    let (wide, high) = (page.width * scale, page.height * scale);
    let start = corner - Vec2::new(wide * columns, 0.0);
    let cell = |(row, column): (usize, usize)| {
        let origin = start + Vec2::new(wide * column as f64, high * row as f64);
        rectangle(Rect::from_origin_size(origin, (wide, high)))
    };
    let all = (0..layout.rows).flat_map(|row| (0..layout.columns).map(move |column| (row, column)));
    let here = Path { traces: vec![cell(place)], fill: Some(Fill::solid(HERE)), stroke: None };
    let boxes = Path { traces: all.map(cell).collect(), fill: None, stroke: Some(Stroke::solid(INK, THIN)) };
    Item::Group(Group {
        data: vec![("layer", "map".to_owned())],
        items: vec![Item::Path(here), Item::Path(boxes)],
    })
}
