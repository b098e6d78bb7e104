//! The figures of a setting-out sheet: every line as its distance from the datum end, and across each face from the face
//! edge or the face side. Running figures, no chains: an error in one is not handed on to the next.

use super::marks::{Mark, Marked, What};
use crate::sheets::pens;
use crestrail_sorting::Order as _;
use kurbo::Point;

/// Which way a distance runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Way {
    /// From the datum end.
    Along,
    /// From the face edge or the face side.
    Across,
}

/// A distance.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// Which face of the blank.
    pub face: usize,
    /// Which way.
    pub way: Way,
    /// Distance, mm.
    pub value: f64,
    /// What begins, ends or lies there.
    pub what: Vec<String>,
    /// A point of the face that it tells of.
    pub at: Point,
}

/// Distances nearer than this are one, mm: half of the finest that is marked by hand.
pub(super) const SAME: f64 = 0.05;
/// An edge along the blank deviates by less than this from parallel, mm.
const PARALLEL: f64 = 0.01;
/// The shortest edge that is gauged, mm.
const LONG: f64 = 30.0;

/// All figures of a part, in order of face, way and distance; one for all that lies at one distance.
pub(super) fn figures(marked: &Marked) -> Vec<Figure> {
    let mut all = Figures { marked, found: Vec::new() };
    for mark in &marked.marks {
        all.mark(mark);
    }
    for shoulder in &marked.shoulders {
        for end in shoulder.ends {
            all.along(shoulder.face, end, "shoulder");
        }
    }
    for face in 0..4 {
        all.outline(face);
    }
    all.merged()
}

impl Figure {
    /// A tenon that is as wide at its end as at its root needs one word.
    fn shorten(&mut self) {
        self.what.order();
        let roots: Vec<String> =
            self.what.iter().filter_map(|what| what.strip_suffix(" root").map(str::to_owned)).collect();
        for letter in roots.into_iter().filter(|_| self.way == Way::Across) {
            if self.what.contains(&format!("{letter} end")) {
                self.what
                    .retain(|what| *what != format!("{letter} end") && *what != format!("{letter} root"));
                self.what.push(letter);
            }
        }
        self.what.order();
    }
}

struct Figures<'a> {
    marked: &'a Marked,
    found: Vec<Figure>,
}

impl Figures<'_> {
    fn along(&mut self, face: usize, at: Point, what: &str) {
        self.found.push(Figure { face, way: Way::Along, value: at.x, what: vec![what.to_owned()], at });
    }

    fn across(&mut self, face: usize, at: Point, what: &str) {
        // Across a face with a curved edge a gauge runs along the sawn edge: see `gauges`.
        if self.marked.is_curved(face) {
            return;
        }
        let value = self.marked.blank.across(face, at);
        // The arris that is measured from, and the other one, need no figure.
        if value > SAME && value < self.marked.blank.faces[face].height - SAME {
            self.found.push(Figure { face, way: Way::Across, value, what: vec![what.to_owned()], at });
        }
    }

    fn mark(&mut self, mark: &Mark) {
        let words = words(mark);
        match mark.what {
            What::Tenon if mark.face > 1 => {}
            What::Tenon => self.tenon(mark),
            What::Peg => {
                self.along(mark.face, mark.corners[0], &words);
                self.across(mark.face, mark.corners[0], &words);
            }
            What::Hole => {
                let centre = middle(&mark.corners);
                self.along(mark.face, centre, &words);
                self.across(mark.face, centre, &words);
            }
            What::Mortise | What::Haunch | What::Exit | What::Recess => {
                for corner in limits(&mark.corners) {
                    self.along(mark.face, corner, &words);
                    self.across(mark.face, corner, &words);
                }
            }
        }
    }

    /// Its end, and the gauge lines of its cheeks or edges.
    fn tenon(&mut self, mark: &Mark) {
        let out = |p: &Point| (p.x - mark.root).abs();
        let reach = mark.corners.iter().map(out).fold(0.0, f64::max);
        for &corner in &mark.corners {
            let at_end = out(&corner) > reach / 2.0;
            if at_end {
                self.along(mark.face, corner, &format!("{} end", mark.letter));
            }
            let place = if at_end { "end" } else { "root" };
            self.across(mark.face, corner, &format!("{} {place}", mark.letter));
        }
    }

    /// Corners of the timber that no shoulder tells: ends cut off, tapers, notches; and edges that run along it.
    fn outline(&mut self, face: usize) {
        let drawn = &self.marked.drawn[face];
        let corners: Vec<Point> = drawn.outline.iter().flatten().copied().collect();
        let Some(rect) = pens::around(&corners) else { return };
        let told = |p: &Point| self.marked.shoulders.iter().any(|s| between(p.x, s.ends[0].x, s.ends[1].x));
        let curved = self.marked.is_curved(face);
        let ends = |p: &Point| p.x < rect.x0 + SAME || p.x > rect.x1 - SAME;
        let cuts: Vec<Point> = corners.iter().copied().filter(|p| !told(p) && (!curved || ends(p))).collect();
        for corner in cuts {
            self.along(face, corner, if ends(&corner) { "end" } else { "cut" });
            if face < 2 && !curved {
                self.across(face, corner, "cut");
            }
        }
        for &[a, b] in &drawn.edges {
            if (a.y - b.y).abs() < PARALLEL && (a.x - b.x).abs() > LONG {
                self.across(face, a, "bevel");
            }
        }
    }

    fn merged(self) -> Vec<Figure> {
        let mut found = self.found;
        found.order_by(|a, b| (a.face, a.way).cmp(&(b.face, b.way)).then(a.value.total_cmp(&b.value)));
        let mut merged: Vec<Figure> = Vec::new();
        for figure in found {
            let is_last = |last: &&mut Figure| {
                (last.face, last.way) == (figure.face, figure.way) && figure.value - last.value < SAME
            };
            match merged.last_mut().filter(is_last) {
                Some(last) => {
                    let new = figure.what.into_iter().filter(|w| !last.what.contains(w)).collect::<Vec<_>>();
                    last.what.extend(new);
                }
                None => merged.push(figure),
            }
        }
        // What a back face only repeats of the face opposite it is carried round with the square.
        let told: Vec<Figure> = merged.iter().filter(|f| f.face < 2).cloned().collect();
        let repeats = |figure: &Figure| {
            let like = |other: &Figure| {
                (other.face + 2, other.way) == (figure.face, figure.way)
                    && (other.value - figure.value).abs() < SAME
                    && figure.what.iter().all(|what| other.what.contains(what))
            };
            told.iter().any(like)
        };
        merged.retain(|figure| !repeats(figure));
        merged.iter_mut().for_each(Figure::shorten);
        merged
    }
}

/// What a mark is called beside its figure.
pub(super) fn words(mark: &Mark) -> String {
    let letter = &mark.letter;
    match mark.what {
        What::Mortise | What::Hole | What::Peg => letter.clone(),
        What::Haunch => format!("{letter} haunch"),
        What::Exit => format!("{letter} out"),
        What::Recess => format!("{letter} groove"),
        What::Tenon => "tenon".to_owned(),
    }
}

/// The corners of a mouth of four corners; of another its extremes.
fn limits(corners: &[Point]) -> Vec<Point> {
    if corners.len() <= 4 {
        return corners.to_vec();
    }
    let least = |key: fn(&Point) -> f64| corners.iter().copied().min_by(|a, b| key(a).total_cmp(&key(b)));
    [least(|p| p.x), least(|p| -p.x), least(|p| p.y), least(|p| -p.y)].into_iter().flatten().collect()
}

pub(super) fn middle(corners: &[Point]) -> Point {
    pens::around(corners).unwrap_or_default().center()
}

fn between(x: f64, a: f64, b: f64) -> bool {
    x > a.min(b) - SAME && x < a.max(b) + SAME
}
