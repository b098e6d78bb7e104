use super::*;
use crate::paper::{PAPERS, Paper};
use crate::{Group, Path};
use kurbo::Size;

fn drawing(width: f64, height: f64) -> Sheet {
    let line = Path::line(vec![(0.0, 0.0).into(), (width, height).into()], Stroke::solid(INK, 0.5));
    let (title, description) = ("Leg".to_owned(), "A line".to_owned());
    Sheet {
        width,
        height,
        unit: Unit::Millimetre,
        decimals: 2,
        title,
        description,
        items: vec![Item::Path(line)],
    }
}

fn caption() -> Caption {
    Caption { title: "Back leg".into(), of: "Side chair".into(), is_full_size: true, first: 3, pages: 9 }
}

fn paper(name: &str) -> &'static Paper {
    Paper::named(name).expect("a paper")
}

fn windows(tiles: &[Tile]) -> Vec<Window> {
    let window = |tile: &Tile| match &tile.sheet.items[0] {
        Item::Window(window) => window.clone(),
        other => panic!("{other:?}"),
    };
    tiles.iter().map(window).collect()
}

/// Every point of the drawing is seen on some sheet, whatever the sizes.
#[test]
fn sheets_cover_the_drawing_and_overlap() {
    for paper in &PAPERS {
        for (width, height) in
            [(1000.0, 120.0), (120.0, 1000.0), (30.0, 20.0), (1700.0, 1100.0), (194.0, 254.0)]
        {
            let layout = Layout::of(Size::new(width, height), paper);
            let size = layout.window().size();
            let (first, last) = (layout.from((0, 0)), layout.from((layout.rows - 1, layout.columns - 1)));
            assert!(first.x <= 1e-6 && first.y <= 1e-6, "{paper:?} {layout:?}");
            assert!(last.x + size.width >= width - 1e-6 && last.y + size.height >= height - 1e-6);
            if layout.columns > 1 {
                let step = layout.from((0, 1)).x - first.x;
                assert!((size.width - step - OVERLAP).abs() < 1e-9);
            }
        }
    }
}

#[test]
fn a_leg_takes_few_sheets() {
    let count = |name, width, height| Layout::of(Size::new(width, height), paper(name)).count();
    // 281 mm show on a sheet of A4 on its side, 265 new ones on each after the first.
    assert_eq!(count("a4", 1000.0, 120.0), 4);
    assert_eq!(count("a4", 120.0, 1000.0), 5);
    assert_eq!(count("a3", 1000.0, 120.0), 3);
    assert_eq!(count("roll", 1000.0, 120.0), 1);
    assert_eq!(count("roll", 1700.0, 1100.0), 2);
}

#[test]
fn a_roll_is_cut_where_the_drawing_ends() {
    let layout = Layout::of(Size::new(500.0, 1000.0), paper("roll"));
    assert_eq!(layout.page, Size::new(914.4, 1000.0 + 2.0 * MARGIN + FOOT));
    let small = Layout::of(Size::new(50.0, 40.0), paper("roll"));
    assert!(small.page.height >= 200.0 || small.page.width >= 200.0);
}

/// The marks of two neighbours lie at the same points of the drawing, inside both windows.
#[test]
fn neighbours_share_their_marks() {
    let drawing = drawing(500.0, 300.0);
    let layout = Layout::of(Size::new(500.0, 300.0), paper("a4"));
    let tiles = tiles(&drawing, &layout, &caption());
    assert_eq!((layout.rows, layout.columns, tiles.len()), (2, 2, 4), "{layout:?}");
    let marks = |window: &Window| -> Vec<Point> {
        let Some(Item::Group(Group { items, .. })) = window.items.last() else { panic!("no marks") };
        let crosses = items.iter().filter_map(|item| match item {
            Item::Group(group) => group.items[2].extent().map(|ring| ring.center()),
            _ => None,
        });
        crosses.collect()
    };
    let all = windows(&tiles);
    let shared = |a: &Window, b: &Window| {
        let close = |p: &Point, q: &Point| (*p - *q).hypot2() < 1e-12;
        marks(a).iter().filter(|p| marks(b).iter().any(|q| close(p, q))).count()
    };
    assert_eq!(shared(&all[0], &all[1]), 2);
    assert_eq!(shared(&all[0], &all[layout.columns]), 2);
    assert_eq!(shared(&all[0], &all[layout.columns + 1]), 0);
    for window in &all {
        let seen = Rect::from_origin_size(window.from, window.frame.size());
        assert!(marks(window).iter().all(|&p| seen.contains(p)));
    }
}

/// Words where a mark would stand send it along the strip, on both sheets alike.
#[test]
fn marks_keep_clear_of_words() {
    let mut drawing = drawing(500.0, 300.0);
    let layout = Layout::of(Size::new(500.0, 300.0), paper("a4"));
    let mark = |drawing: &Sheet, i: usize| {
        let all = windows(&tiles(drawing, &layout, &caption()));
        let Some(Item::Group(marks)) = all[i].items.last() else { panic!("no marks") };
        marks.items[0].extent().expect("a cross").center()
    };
    let (here, there) = (mark(&drawing, 0), mark(&drawing, 1));
    assert_eq!(here, there);
    let words = "888.7".to_owned();
    let (align, weight) = (crate::Align::Middle, crate::Weight::Regular);
    drawing.items.push(Item::Text(crate::Text {
        words,
        at: here,
        align,
        size: 3.5,
        weight,
        colour: INK,
        turn: 0.0,
    }));
    let moved = mark(&drawing, 0);
    assert_eq!(moved, mark(&drawing, 1));
    assert!(moved.x == here.x && moved.y >= here.y + 6.0, "{moved:?} {here:?}");
}

#[test]
fn sheets_are_named_by_row_and_column() {
    let layout = Layout::of(Size::new(500.0, 300.0), paper("a4"));
    let made = tiles(&drawing(500.0, 300.0), &layout, &caption());
    let names: Vec<&str> = made.iter().map(|tile| tile.place.as_str()).collect();
    assert_eq!(names, ["A1", "A2", "B1", "B2"]);
    assert_eq!(place_name((26, 0)), "AA1");
    let one = tiles(&drawing(100.0, 50.0), &Layout::of(Size::new(100.0, 50.0), paper("a4")), &caption());
    assert_eq!((one.len(), one[0].place.as_str(), one[0].sheet.title.as_str()), (1, "", "Back leg"));
}

/// Both bars stand on every sheet with their whole length, and nothing below the drawing leaves the paper.
#[test]
fn bars_have_their_lengths_on_every_paper() {
    for paper in &PAPERS {
        let layout = Layout::of(Size::new(300.0, 50.0), paper);
        for tile in tiles(&drawing(300.0, 50.0), &layout, &caption()) {
            let bars: Vec<&Group> = tile
                .sheet
                .items
                .iter()
                .filter_map(|item| match item {
                    Item::Group(group) if group.data[0].0 == "bar" => Some(group),
                    _ => None,
                })
                .collect();
            let length = |group: &Group| match &group.items[0] {
                Item::Path(path) => path.traces[1].points[0].x - path.traces[0].points[0].x,
                other => panic!("{other:?}"),
            };
            assert_eq!(bars.iter().map(|bar| length(bar)).collect::<Vec<_>>(), [100.0, 101.6]);
            for bar in bars {
                let extent = Item::Group(bar.clone()).extent().expect("lines");
                assert!(extent.x1 < tile.sheet.width && extent.y1 < tile.sheet.height, "{}", paper.name);
            }
        }
    }
}
