//! The marks in the strip that two neighbours both show.

use super::{INK, Layout, OVERLAP, THIN, place_name};
use crate::{Align, Circle, Group, Item, Path, Stroke, Text, Weight};
use kurbo::{Point, Rect, Size, Vec2};

/// From the ends of the strip to its marks, mm.
const ASIDE: f64 = 22.0;
/// Half the length of a mark's lines, and the radius of its ring, mm.
const ARM: f64 = 5.0;
const RING: f64 = 2.5;
/// Size of the neighbour's name, mm.
const LETTERS: f64 = 2.5;

/// A mark is moved along its strip by steps of so much until it lies clear of words, mm; and how often.
const STEP: f64 = 6.0;
const STEPS: usize = 12;

/// The marks and the neighbours' names at all edges of a sheet that have a neighbour, in the drawing's coordinates.
pub(super) fn items(layout: &Layout, (row, column): (usize, usize), drawing: &[Item]) -> Vec<Item> {
    let words = words(drawing);
    let size = layout.window().size();
    let from = layout.from((row, column));
    let edges = [
        (column > 0).then(|| (Edge::Left, (row, column - 1))),
        (column + 1 < layout.columns).then(|| (Edge::Right, (row, column + 1))),
        (row > 0).then(|| (Edge::Top, (row - 1, column))),
        (row + 1 < layout.rows).then(|| (Edge::Bottom, (row + 1, column))),
    ];
    let drawn = |(edge, neighbour): (Edge, (usize, usize))| {
        let [one, other] = edge.marks(from, size, &words);
        [cross(one), cross(other), edge.name(one, neighbour)]
    };
    let items: Vec<Item> = edges.into_iter().flatten().flat_map(drawn).collect();
    vec![Item::Group(Group { data: vec![("layer", "marks".to_owned())], items })]
}

/// What the words of a drawing cover.
fn words(items: &[Item]) -> Vec<Rect> {
    let of = |item: &Item| match item {
        Item::Text(_) => item.extent().into_iter().collect(),
        Item::Group(group) => words(&group.items),
        Item::Path(_) | Item::Circle(_) | Item::Window(_) => Vec::new(),
    };
    items.iter().flat_map(of).collect()
}

#[derive(Clone, Copy)]
enum Edge {
    Left,
    Right,
    Top,
    Bottom,
}

impl Edge {
    /// In the middle of the strip, near both its ends; the neighbour, which knows the same words, finds the same points.
    fn marks(self, from: Point, size: Size, words: &[Rect]) -> [Point; 2] {
        let half = OVERLAP / 2.0;
        let (start, way, length) = match self {
            Self::Left => (Vec2::new(half, 0.0), Vec2::new(0.0, 1.0), size.height),
            Self::Right => (Vec2::new(size.width - half, 0.0), Vec2::new(0.0, 1.0), size.height),
            Self::Top => (Vec2::new(0.0, half), Vec2::new(1.0, 0.0), size.width),
            Self::Bottom => (Vec2::new(0.0, size.height - half), Vec2::new(1.0, 0.0), size.width),
        };
        let at = |along: f64| from + start + way * along;
        let clear = |along: &f64| {
            let mark = Rect::from_center_size(at(*along), (2.0 * ARM, 2.0 * ARM));
            words.iter().all(|words| !words.overlaps(mark))
        };
        let find = |first: f64, step: f64| {
            let mut tries =
                (0..STEPS).map(|i| first + step * i as f64).filter(|t| *t > ARM && *t < length - ARM);
            tries.find(clear).unwrap_or(first)
        };
        [at(find(ASIDE, STEP)), at(find(length - ASIDE, -STEP))]
    }

    /// The neighbour's name with an arrow to it, beside a mark.
    fn name(self, mark: Point, neighbour: (usize, usize)) -> Item {
        let name = place_name(neighbour);
        let (words, align, by) = match self {
            Self::Left => (format!("← {name}"), Align::Start, (1.0 - OVERLAP / 2.0, ARM + 3.5)),
            Self::Right => (format!("{name} →"), Align::End, (OVERLAP / 2.0 - 1.0, ARM + 3.5)),
            Self::Top => (format!("↑ {name}"), Align::Start, (ARM + 1.5, 0.9)),
            Self::Bottom => (format!("↓ {name}"), Align::Start, (ARM + 1.5, 0.9)),
        };
        let at = mark + Vec2::from(by);
        let weight = Weight::Medium;
        Item::Text(Text { words, at, align, size: LETTERS, weight, colour: INK, turn: 0.0 })
    }
}

fn cross(at: Point) -> Item {
    let stroke = Stroke::solid(INK, THIN);
    let line = |arm: Vec2| Path::line(vec![at - arm, at + arm], stroke.clone());
    let ring = Circle { centre: at, radius: RING, fill: None, stroke: Some(stroke.clone()) };
    let lines = [line(Vec2::new(ARM, 0.0)), line(Vec2::new(0.0, ARM))].map(Item::Path);
    let items = lines.into_iter().chain([Item::Circle(ring)]).collect();
    Item::Group(Group { data: vec![("mark", String::new())], items })
}
