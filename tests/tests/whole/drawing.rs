//! The drawing to a scale, over random designs: no words on other words or on a line, and each figure as long as it says.

use crate::random::Random;
use crestrail_chair::chair::Chair;
use crestrail_chair::design::Design;
use crestrail_chair::joints::Bench;
use crestrail_chair::length::Lengths;
use crestrail_chair::report::service;
use crestrail_chair::sheets::{FullSize, Label, Order, drawing, paper};
use crestrail_sheet::{Align, Faces, Group, Item, Path, Sheet, Text};
use kurbo::{Affine, Point, Rect, Vec2};

const SEED: u64 = 129;
const COUNT: usize = 100;
/// Papers with what figures are written in: inches to a sixteenth and a sixty-fourth have the longest figures.
const PAPERS: [(&str, Lengths); 9] = [
    ("a4", Lengths::Millimetres),
    ("a3", Lengths::Centimetres),
    ("letter", Lengths::Inches(16)),
    ("tabloid", Lengths::Inches(64)),
    ("roll", Lengths::Millimetres),
    ("a2", Lengths::Millimetres),
    ("a1", Lengths::Inches(32)),
    ("ansi-c", Lengths::Inches(64)),
    ("ansi-d", Lengths::Inches(8)),
];

fn faces() -> Faces {
    let regular = include_bytes!("../../../www/page/fonts/crestrail-sans-regular.ttf").to_vec();
    let medium = include_bytes!("../../../www/page/fonts/crestrail-sans-medium.ttf").to_vec();
    Faces::read(regular, medium).expect("the fonts of the page")
}

fn drawn(design: &Design, (paper_name, lengths): (&str, Lengths)) -> Option<Vec<FullSize>> {
    let chair = Chair::resolve(design, &Bench::default()).ok()?;
    let label = Label {
        title: "Kitchen chair, second set",
        owner: "A workshop",
        number: "7C76D143",
        date: "2026-03-09",
    };
    let service = service(design);
    let paper = paper(paper_name).expect("a paper");
    Some(
        drawing(&Order { chair: &chair, service: &service, paper, lengths, label }, "drawing")
            .expect("sheets"),
    )
}

/// `COUNT` designs that can be built, each with its sheets on one of the papers.
fn over_designs(look: impl Fn(&Design, &str, &[FullSize])) {
    let mut random = Random::new(SEED);
    let (mut done, mut drawings) = (0, 0);
    while done < COUNT {
        let design = random.design();
        let paper = PAPERS[done % PAPERS.len()];
        drawings += 1;
        assert!(drawings < 3 * COUNT, "most designs cannot be built");
        if let Some(sheets) = drawn(&design, paper) {
            look(&design, paper.0, &sheets);
            done += 1;
        }
    }
}

/// All that is on a sheet but the picture of the chair taken apart, which has tests of its own.
fn flat<'a>(items: &'a [Item], found: &mut Vec<&'a Item>) {
    for item in items {
        match item {
            Item::Group(group) if is(group, "view", "exploded") => {}
            Item::Group(group) => flat(&group.items, found),
            other => found.push(other),
        }
    }
}

fn is(group: &Group, name: &str, value: &str) -> bool {
    group.data.iter().any(|row| row.0 == name && row.1 == value)
}

/// A line of words as it lies on paper: a rectangle in a frame turned about a point.
struct Block {
    words: String,
    /// In the frame of the words: from the left end of the base line.
    rect: Rect,
    onto_paper: Affine,
}

impl Block {
    fn of(text: &Text, faces: &Faces) -> Self {
        let length = faces.of(text.weight).length(&text.words) * text.size;
        let before = match text.align {
            Align::Start => 0.0,
            Align::Middle => length / 2.0,
            Align::End => length,
        };
        let tails = text.words.chars().any(|c| "gjpqy,;()Q/".contains(c));
        let below = if tails { 0.2 * text.size } else { 0.0 };
        // Capitals and figures of the page's typeface are 0.7 of its size high.
        let rect = Rect::new(-before, -0.7 * text.size, length - before, below);
        let onto_paper = Affine::translate(text.at.to_vec2()) * Affine::rotate(text.turn.to_radians());
        Self { words: text.words.clone(), rect, onto_paper }
    }

    fn corners(&self) -> [Point; 4] {
        let r = self.rect;
        [(r.x0, r.y0), (r.x1, r.y0), (r.x1, r.y1), (r.x0, r.y1)].map(|p| self.onto_paper * Point::from(p))
    }

    /// Whether a line from `a` to `b` on paper comes nearer than `clear` (Liang and Barsky 1984).
    fn is_met_by(&self, a: Point, b: Point, clear: f64) -> bool {
        let back = self.onto_paper.inverse();
        let (a, b, r) = (back * a, back * b, self.rect.inflate(clear, clear));
        let way = b - a;
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for (step, low, high) in [(way.x, r.x0 - a.x, r.x1 - a.x), (way.y, r.y0 - a.y, r.y1 - a.y)] {
            if step.abs() < 1e-12 {
                if low > 0.0 || high < 0.0 {
                    return false;
                }
            } else {
                let (near, far) = (low / step, high / step);
                from = from.max(near.min(far));
                to = to.min(near.max(far));
            }
        }
        from < to
    }

    fn meets(&self, other: &Self) -> bool {
        let edges = |block: &Self| {
            let c = block.corners();
            [0, 1, 2, 3].map(|i| (c[i], c[(i + 1) % 4]))
        };
        let middle = other.onto_paper * other.rect.center();
        edges(other).iter().any(|&(a, b)| self.is_met_by(a, b, 0.0))
            || self.is_met_by(middle, middle + Vec2::new(1e-6, 0.0), 0.0)
    }
}

fn segments(item: &Item) -> Vec<(Point, Point)> {
    match item {
        Item::Path(Path { traces, .. }) => {
            let pairs = |trace: &crestrail_sheet::Trace| {
                let close = trace.closed.then(|| (trace.points[trace.points.len() - 1], trace.points[0]));
                trace.points.windows(2).map(|w| (w[0], w[1])).chain(close).collect::<Vec<_>>()
            };
            traces.iter().flat_map(pairs).collect()
        }
        Item::Circle(circle) => {
            let at = |i: i32| {
                circle.centre + circle.radius * Vec2::from_angle(f64::from(i) * core::f64::consts::TAU / 24.0)
            };
            (0..24).map(|i| (at(i), at(i + 1))).collect()
        }
        _ => Vec::new(),
    }
}

fn check_words(sheet: &Sheet, faces: &Faces, told: &str) {
    let mut items = Vec::new();
    flat(&sheet.items, &mut items);
    let texts = items.iter().filter_map(|item| match item {
        Item::Text(text) => Some(Block::of(text, faces)),
        _ => None,
    });
    let blocks: Vec<Block> = texts.collect();
    assert!(blocks.len() > 15, "{told}");
    let frame = Rect::new(20.0, 10.0, sheet.width - 10.0, sheet.height - 10.0);
    for (i, block) in blocks.iter().enumerate() {
        let inside = block.corners().iter().all(|&p| frame.contains(p));
        assert!(inside, "{told}: {} leaves the frame", block.words);
        for other in &blocks[..i] {
            assert!(!block.meets(other), "{told}: {} on {}", block.words, other.words);
        }
        for (a, b) in items.iter().flat_map(|item| segments(item)) {
            assert!(!block.is_met_by(a, b, 0.1), "{told}: a line {a:?} to {b:?} through {}", block.words);
        }
    }
}

#[test]
fn no_words_lie_on_words_or_lines() {
    let faces = faces();
    over_designs(|design, paper, sheets| {
        for sheet in sheets {
            check_words(
                &sheet.sheet,
                &faces,
                &format!("{} on {paper}, {}", sheet.name, crestrail_chair::link::write(design)),
            );
        }
    });
}

/// The groups named `name`, with their values.
fn groups<'a>(items: &'a [Item], name: &str, found: &mut Vec<&'a Group>) {
    for item in items {
        if let Item::Group(group) = item {
            if group.data.iter().any(|row| row.0 == name) {
                found.push(group);
            }
            groups(&group.items, name, found);
        }
    }
}

/// Where the arrows of a dimension end; of an oblique stroke its middle.
fn tips(group: &Group) -> Vec<Point> {
    let tip = |item: &Item| match item {
        Item::Path(path) if path.fill.is_some() => Some(path.traces[0].points[0]),
        Item::Path(path) => {
            let points = &path.traces[0].points;
            let way = points[points.len() - 1] - points[0];
            let oblique =
                points.len() == 2 && (way.x + way.y).abs() < 1e-9 && (way.x.abs() - 2.2).abs() < 1e-9;
            oblique.then(|| points[0].midpoint(points[1]))
        }
        _ => None,
    };
    group.items.iter().filter_map(tip).collect()
}

fn words(group: &Group) -> String {
    let text = |item: &Item| match item {
        Item::Text(text) => Some(text.words.clone()),
        _ => None,
    };
    group.items.iter().find_map(text).expect("a figure")
}

fn datum(group: &Group, name: &str) -> String {
    group.data.iter().find(|row| row.0 == name).map(|row| row.1.clone()).expect("a datum")
}

/// The scale is that of the title block; sections tell it too.
fn scale(sheet: &Sheet) -> f64 {
    let mut items = Vec::new();
    flat(&sheet.items, &mut items);
    let told = |item: &&Item| match item {
        Item::Text(text) => text.words.strip_prefix("1:").and_then(|rest| rest.parse::<f64>().ok()),
        _ => None,
    };
    items.iter().find_map(told).expect("a scale")
}

/// A figure in mm, or in degrees, and how far it may be from what it tells: half of its last digit.
fn read(written: &str, paper: &str) -> (f64, f64) {
    if let Some(degrees) = written.strip_suffix('°') {
        return (degrees.parse().expect("a number"), 0.05);
    }
    let number = |word: &str| match word.split_once('/') {
        Some((above, below)) => {
            above.parse::<f64>().expect("a number") / below.parse::<f64>().expect("a number")
        }
        None => word.parse::<f64>().expect("a number"),
    };
    let figure: f64 = written.split(' ').map(number).sum();
    let (_, lengths) = PAPERS.iter().find(|row| row.0 == paper).expect("a paper");
    match lengths {
        Lengths::Millimetres => (figure, 0.05),
        Lengths::Centimetres => (figure * 10.0, 0.05),
        Lengths::Inches(_) => (figure * 25.4, 0.0005 * 25.4),
    }
}

#[test]
fn figures_say_how_long_they_are_drawn() {
    over_designs(|design, paper, sheets| {
        for sheet in &sheets[..sheets.len() - 1] {
            let (scale, told) = (scale(&sheet.sheet), crestrail_chair::link::write(design));
            let mut origins = Vec::new();
            groups(&sheet.sheet.items, "origin", &mut origins);
            let origin = |group: &&Group| {
                group.items.iter().find_map(|item| match item {
                    Item::Circle(circle) => Some(circle.centre),
                    _ => None,
                })
            };
            let origins: Vec<Point> = origins.iter().filter_map(origin).collect();
            let mut figures = Vec::new();
            groups(&sheet.sheet.items, "dimension", &mut figures);
            assert!(!figures.is_empty() || sheet.name == "drawing-sections");
            for group in figures {
                let (name, written, value) = (datum(group, "dimension"), words(group), datum(group, "value"));
                let value: f64 = value.parse().expect("a number");
                let (figure, within) = read(&written, paper);
                assert!((figure - value).abs() <= within + 1e-4, "{name}: {written} for {value}");
                if written.ends_with('°') {
                    continue;
                }
                let tips = tips(group);
                let long = match tips.as_slice() {
                    [a, b] => (*b - *a).hypot2().sqrt(),
                    // Running from the origin on the same line.
                    [a] => {
                        let far =
                            origins.iter().map(|o| *a - *o).filter(|w| w.x.abs() < 1e-6 || w.y.abs() < 1e-6);
                        far.map(|way| way.hypot2().sqrt())
                            .find(|long| (long * scale - value).abs() < 1e-3)
                            .unwrap_or(f64::NAN)
                    }
                    other => panic!("{name}: {} tips", other.len()),
                };
                assert!(
                    (long * scale - value).abs() < 1e-3,
                    "{name}: drawn {} for {value}, {paper} {told}",
                    long * scale
                );
            }
        }
    });
}
