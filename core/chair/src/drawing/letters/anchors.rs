//! Where on the parts the letters' lines end: at places that are seen, well inside what is seen of
//! the part, and near the side on which the letter stands.

use super::Side;
use crate::drawing::Scene;
use crestrail_geometry::view::Samples;
use kurbo::{Point, Rect};
use std::collections::BTreeMap;

/// Grid on which the picture is searched, pixels at weight 1.
const CELL: f64 = 5.0;
/// A place this many cells inside what is seen of the part is as good as one further in.
const DEEP: u16 = 2;
/// How much each cell less counts against a place, in pixels towards the side.
const SHALLOW: f64 = 40.0;
/// How much a pixel away from the middle height of a part counts against one towards the side.
const MIDDLE: f64 = 0.2;

/// A letter and the places that its line may end at, on the sheet.
#[derive(Clone, Debug)]
pub(super) struct Anchor {
    pub(super) letter: String,
    /// Index of one part that carries it.
    pub(super) part: usize,
    /// How many parts carry it.
    pub(super) count: usize,
    left: Point,
    right: Point,
    /// So little of it is seen that a dot would cover it.
    pub(super) tiny: bool,
}

impl Anchor {
    pub(super) fn at(&self, side: Side) -> Point {
        match side {
            Side::Left => self.left,
            Side::Right => self.right,
        }
    }
}

/// The places of a letter that are nearest to the sides of the sheet.
#[derive(Clone, Copy)]
struct Ends {
    left: (f64, Point),
    right: (f64, Point),
}

/// What is seen of a letter's parts on the grid.
#[derive(Clone, Copy, Default)]
struct Sight {
    cells: f64,
    heights: f64,
}

/// The anchors of all letters that can be seen, in the order of the letters.
pub(super) fn find(scene: &Scene<'_>) -> Vec<Anchor> {
    let mut letters: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    for (index, part) in scene.chair.parts.iter().enumerate() {
        letters.entry(&part.letter).or_insert((index, 0)).1 += 1;
    }
    let wide = search(scene);
    let found = letters.into_iter().filter_map(|(letter, (part, count))| {
        let (ends, tiny) = match wide.get(letter) {
            Some(ends) => (*ends, false),
            None => (small(scene, letter)?, true),
        };
        Some(Anchor { letter: letter.to_owned(), part, count, left: ends.left.1, right: ends.right.1, tiny })
    });
    found.collect()
}

/// For each letter of which more is seen than specks of the grid, its best places.
fn search<'a>(scene: &'a Scene<'_>) -> BTreeMap<&'a str, Ends> {
    let samples = sampled(scene);
    let depths = depths(scene, &samples);
    let cells = || {
        (0..depths.len()).filter_map(|i| Some((i, samples.face(i % samples.columns, i / samples.columns)?)))
    };
    let at = |i: usize| scene.frame.pixel(samples.point(i % samples.columns, i / samples.columns));
    let mut sights = vec![Sight::default(); scene.chair.parts.len()];
    for (i, face) in cells() {
        let sight = &mut sights[scene.picture.faces[face].owner];
        sight.cells += 1.0;
        sight.heights += at(i).y;
    }
    let mut ends: BTreeMap<&str, Ends> = BTreeMap::new();
    for (i, face) in cells() {
        let owner = scene.picture.faces[face].owner;
        let sight = sights[owner];
        if depths[i] > 0 {
            let shallow = SHALLOW * f64::from(DEEP - depths[i].min(DEEP));
            let astray = shallow + MIDDLE * (at(i).y - sight.heights / sight.cells).abs();
            Ends::offer(&mut ends, &scene.chair.parts[owner].letter, at(i), astray);
        }
    }
    ends
}

impl Ends {
    /// Takes a place in if it is better for one side than the last; `astray` speaks against it.
    fn offer<'a>(ends: &mut BTreeMap<&'a str, Self>, letter: &'a str, at: Point, astray: f64) {
        let (left, right) = ((at.x + astray, at), (astray - at.x, at));
        let entry = ends.entry(letter).or_insert(Self { left, right });
        if left.0 < entry.left.0 {
            entry.left = left;
        }
        if right.0 < entry.right.0 {
            entry.right = right;
        }
    }
}

fn sampled(scene: &Scene<'_>) -> Samples {
    let (a, b) = (Point::ORIGIN, Point::new(scene.view.width, scene.view.height));
    let area = Rect::from_points(scene.frame.millimetre(a), scene.frame.millimetre(b));
    Samples::of(&scene.picture, area, CELL * scene.frame.weight / scene.frame.scale)
}

/// For each cell, how many steps it is to the nearest cell that shows another part, or nothing.
fn depths(scene: &Scene<'_>, samples: &Samples) -> Vec<u16> {
    let (columns, rows) = (samples.columns, samples.rows);
    let owner = |i: usize| samples.face(i % columns, i / columns).map(|f| scene.picture.faces[f].owner);
    let owners: Vec<Option<usize>> = (0..columns * rows).map(owner).collect();
    let mut depths = vec![0_u16; owners.len()];
    let step = |depths: &[u16], at: usize, other: usize| {
        if owners[at] == owners[other] { depths[other].saturating_add(1) } else { 0 }
    };
    for at in columns..owners.len() {
        depths[at] = if at % columns == 0 {
            0
        } else {
            step(&depths, at, at - 1).min(step(&depths, at, at - columns))
        };
    }
    for at in (0..owners.len().saturating_sub(columns)).rev() {
        let back = if at % columns + 1 == columns { 0 } else { step(&depths, at, at + 1) };
        depths[at] = depths[at].min(back).min(step(&depths, at, at + columns));
    }
    depths
}

/// Seen places on parts too small for the grid: the middles of their faces.
fn small(scene: &Scene<'_>, letter: &str) -> Option<Ends> {
    let faces = &scene.picture.faces;
    let mut ends = BTreeMap::new();
    for (i, face) in faces.iter().enumerate().filter(|(_, f)| scene.chair.parts[f.owner].letter == letter) {
        let points = &face.rings[0].points;
        let sum = points.iter().fold(kurbo::Vec2::ZERO, |s, p| s + p.to_vec2());
        let middle = (sum / points.len() as f64).to_point();
        if face.covers(middle) && !faces[i + 1..].iter().any(|f| f.covers(middle)) {
            Ends::offer(&mut ends, letter, scene.frame.pixel(middle), 0.0);
        }
    }
    ends.remove(letter)
}
