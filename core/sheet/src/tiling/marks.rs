//! The marks in the strip that two neighbours both show.

use super::{INK, Layout, OVERLAP, THIN, place_name};
use crate::{Align, Circle, Group, Item, Path, Stroke, Text, Weight};
use kurbo::{Point, Size, Vec2};

/// From the ends of the strip to its marks, mm.
const ASIDE: f64 = 22.0;
/// Half the length of a mark's lines, and the radius of its ring, mm.
const ARM: f64 = 5.0;
const RING: f64 = 2.5;
/// Size of the neighbour's name, mm.
const LETTERS: f64 = 2.5;

/// The marks and the neighbours' names at all edges of a sheet that have a neighbour, in the drawing's coordinates.
pub(super) fn items(layout: &Layout, (row, column): (usize, usize)) -> Vec<Item> {
    let size = layout.window().size();
    let from = layout.from((row, column));
    let edges = [
        (column > 0).then(|| (Edge::Left, (row, column - 1))),
        (column + 1 < layout.columns).then(|| (Edge::Right, (row, column + 1))),
        (row > 0).then(|| (Edge::Top, (row - 1, column))),
        (row + 1 < layout.rows).then(|| (Edge::Bottom, (row + 1, column))),
    ];
    let drawn = |(edge, neighbour): (Edge, (usize, usize))| {
        let [one, other] = edge.marks(from, size);
        [cross(one), cross(other), edge.name(from, size, neighbour)]
    };
    let items: Vec<Item> = edges.into_iter().flatten().flat_map(drawn).collect();
    vec![Item::Group(Group { data: vec![("layer", "marks".to_owned())], items })]
}

#[derive(Clone, Copy)]
enum Edge {
    Left,
    Right,
    Top,
    Bottom,
}

impl Edge {
    /// In the middle of the strip, near both its ends; the neighbour draws them at the same points.
    fn marks(self, from: Point, size: Size) -> [Point; 2] {
        let half = OVERLAP / 2.0;
        let at = |x: f64, y: f64| from + Vec2::new(x, y);
        let (low, right, bottom) = (ASIDE, size.width - half, size.height - half);
        match self {
            Self::Left => [at(half, low), at(half, size.height - low)],
            Self::Right => [at(right, low), at(right, size.height - low)],
            Self::Top => [at(low, half), at(size.width - low, half)],
            Self::Bottom => [at(low, bottom), at(size.width - low, bottom)],
        }
    }

    /// The neighbour's name with an arrow to it, beside the first mark and in the corner of the window.
    fn name(self, from: Point, size: Size, neighbour: (usize, usize)) -> Item {
        let name = place_name(neighbour);
        let (words, align, at) = match self {
            Self::Left => (format!("← {name}"), Align::Start, (1.0, ASIDE + ARM + 4.0)),
            Self::Right => (format!("{name} →"), Align::End, (size.width - 1.0, ASIDE + ARM + 4.0)),
            Self::Top => (format!("↑ {name}"), Align::Start, (ASIDE + ARM + 2.0, 3.2)),
            Self::Bottom => (format!("↓ {name}"), Align::Start, (ASIDE + ARM + 2.0, size.height - 1.0)),
        };
        let at = from + Vec2::from(at);
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
