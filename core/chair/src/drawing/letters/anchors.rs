//! Where on the parts the letters' lines end: at places that are seen, well inside what is seen of
//! the part, and near the side on which the letter stands.

use super::Side;
use crate::drawing::Scene;
use core::ops::Range;
use crestrail_geometry::view::{NOBODY, Samples, depths};
use kurbo::{Point, Rect};
use std::collections::BTreeMap;

/// Grid on which the picture is searched, pixels at weight 1.
const CELL: f64 = 5.0;
/// A place this many cells inside what is seen of the part is as good as one further in.
const DEEP: u8 = 2;
/// How much each cell less counts against a place, in pixels towards the side.
const SHALLOW: f64 = 40.0;
/// How much a pixel away from the middle height of a part counts against one towards the side.
const MIDDLE: f64 = 0.2;

/// A letter and the places that its line may end at, on the sheet.
#[derive(Clone, Copy, Debug)]
pub(super) struct Anchor<'a> {
    pub(super) letter: &'a str,
    /// Index of one part that carries it.
    pub(super) part: usize,
    /// How many parts carry it.
    pub(super) count: usize,
    left: Point,
    right: Point,
    /// So little of it is seen that a dot would cover it.
    pub(super) tiny: bool,
}

impl Anchor<'_> {
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

/// A letter, and what is known of the parts that carry it.
struct Lettered<'a> {
    letter: &'a str,
    /// Index of the first of them.
    part: usize,
    count: usize,
    /// Its best places, if more is seen of it than specks of the grid.
    ends: Option<Ends>,
}

/// The anchors of all letters that can be seen, in the order of the letters.
pub(super) fn find<'a>(scene: &'a Scene<'_>) -> Vec<Anchor<'a>> {
    let (mut letters, of_part) = letters(scene);
    search(scene, &mut letters, &of_part);
    let found = letters.into_iter().enumerate().filter_map(|(index, lettered)| {
        let Lettered { letter, part, count, ends } = lettered;
        let tiny = ends.is_none();
        let ends = ends.or_else(|| small(scene, |part| of_part[part] == index))?;
        Some(Anchor { letter, part, count, left: ends.left.1, right: ends.right.1, tiny })
    });
    found.collect()
}

/// All letters in order, without places; and for each part its letter's index.
fn letters<'a>(scene: &'a Scene<'_>) -> (Vec<Lettered<'a>>, Vec<usize>) {
    let parts = &scene.chair.parts;
    let mut firsts: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    for (index, part) in parts.iter().enumerate() {
        firsts.entry(&part.letter).or_insert((index, 0)).1 += usize::from(scene.stage.holds_place(index));
    }
    let of_part = parts.iter().map(|part| firsts.range(..part.letter.as_str()).count()).collect();
    let letters = firsts.into_iter();
    (letters.map(|(letter, (part, count))| Lettered { letter, part, count, ends: None }).collect(), of_part)
}

/// Finds the best places of letters of which more is seen than specks of the grid.
fn search(scene: &Scene<'_>, letters: &mut [Lettered<'_>], of_part: &[usize]) {
    let samples = sampled(scene);
    let owners = samples.owners(&scene.picture);
    let depths = depths(&owners, samples.columns);
    let at = |column: usize, row: usize| scene.frame.pixel(samples.point(column, row));
    let mut sights = vec![Sight::default(); scene.chair.parts.len()];
    for Run { row, owner, columns } in runs(&owners, samples.columns) {
        let cells = columns.len() as f64;
        sights[owner].cells += cells;
        sights[owner].heights += at(columns.start, row).y * cells;
    }
    for Run { row, owner, columns } in runs(&owners, samples.columns) {
        let depths = &depths[row * samples.columns..(row + 1) * samples.columns];
        let within = |depth: u8| move |column: &usize| depths[*column] >= depth;
        let (first, last) = (columns.clone().find(within(1)), columns.clone().rfind(within(1)));
        let (Some(first), Some(last)) = (first, last) else { continue };
        // Of those as deep as each other only the ends can be best.
        let deep = (first..=last).find(within(DEEP)).zip((first..=last).rfind(within(DEEP)));
        let (left, right) = deep.unwrap_or((first, last));
        let sight = sights[owner];
        for column in [first, left, right, last] {
            let at = at(column, row);
            let shallow = SHALLOW * f64::from(DEEP - depths[column].min(DEEP));
            let astray = shallow + MIDDLE * (at.y - sight.heights / sight.cells).abs();
            Ends::offer(&mut letters[of_part[owner]].ends, at, astray);
        }
    }
}

/// Cells of a row beside each other that show one part.
struct Run {
    row: usize,
    owner: usize,
    columns: Range<usize>,
}

/// All runs of a grid that show a part, row by row.
fn runs(owners: &[u32], columns: usize) -> impl Iterator<Item = Run> {
    owners.chunks_exact(columns).enumerate().flat_map(move |(row, owners)| {
        let mut end = 0;
        owners.chunk_by(|a, b| a == b).filter_map(move |run| {
            let start = end;
            end += run.len();
            (run[0] != NOBODY).then_some(Run { row, owner: run[0] as usize, columns: start..end })
        })
    })
}

impl Ends {
    /// Takes a place in if it is better for one side than the last; `astray` speaks against it.
    fn offer(ends: &mut Option<Self>, at: Point, astray: f64) {
        let (left, right) = ((at.x + astray, at), (astray - at.x, at));
        let best = ends.get_or_insert(Self { left, right });
        if left.0 < best.left.0 {
            best.left = left;
        }
        if right.0 < best.right.0 {
            best.right = right;
        }
    }
}

fn sampled(scene: &Scene<'_>) -> Samples {
    let (a, b) = (Point::ORIGIN, Point::new(scene.view.width, scene.view.height));
    let area = Rect::from_points(scene.frame.millimetre(a), scene.frame.millimetre(b));
    Samples::of(&scene.picture, area, CELL * scene.frame.weight / scene.frame.scale)
}

/// Seen places on parts too small for the grid: the middles of their faces; `is_own` tells which parts carry the letter.
fn small(scene: &Scene<'_>, is_own: impl Fn(usize) -> bool) -> Option<Ends> {
    let mut ends = None;
    for (i, face) in scene.picture.faces.iter().enumerate().filter(|(_, face)| is_own(face.owner)) {
        let points = &face.rings[0].points;
        let sum = points.iter().fold(kurbo::Vec2::ZERO, |s, p| s + p.to_vec2());
        let middle = (sum / points.len() as f64).to_point();
        if scene.picture.seen_at(middle) == Some(i) {
            Ends::offer(&mut ends, scene.frame.pixel(middle), 0.0);
        }
    }
    ends
}
