//! The four faces of a part, unrolled below each other, with their figures.

use super::axis::{Axis, LEFT_OVER};
use super::figures::{Figure, Way};
use super::marks::{Mark, What};
use super::signs;
use super::subject::Subject;
use super::table::{Block, LINE, SMALL, long};
use crate::length::Lengths;
use crate::sheets::hatch;
use crate::sheets::pens::{self, Pen};
use crate::sheets::spread::{Wish, spread_within};
use crestrail_sheet::{Align, Item, Weight};
use crestrail_sorting::Order as _;
use kurbo::{Point, Vec2};

/// Left of the faces for their names, mm.
const LEFT: f64 = 25.0;
/// Scales that are tried, the largest first: those of ISO 5455 and the steps between them that workshops use.
const SCALES: [f64; 8] =
    [1.0 / 2.0, 1.0 / 2.5, 1.0 / 3.0, 1.0 / 4.0, 1.0 / 5.0, 1.0 / 8.0, 1.0 / 10.0, 1.0 / 20.0];
/// Room that a figure takes along its row, mm.
const ROOM: f64 = 3.3;
/// From a face up to the knee of its leaders, and to the figures, mm.
const TICK: f64 = 1.5;
const KNEE: f64 = 4.5;
/// Between the faces, mm.
const GAP: f64 = 3.0;
/// From a face to the figures beside it: tick, and words, mm.
const BESIDE: f64 = 3.0;
const ASIDE: f64 = 8.0;
/// Between lines of waste, mm on paper.
const HATCH: f64 = 1.6;

/// The drawing: a block for each face, in the order in which they stand below each other.
pub(super) struct Faces {
    pub(super) blocks: Vec<Block>,
    /// Part over paper.
    pub(super) times: f64,
    /// Whether plain lengths are left out.
    pub(super) broken: bool,
}

/// At the largest scale that fits into one of the `rooms`, and which of them; `parted`, two faces on each of two sheets
/// will do.
pub(super) fn faces(
    subject: &Subject<'_>,
    lengths: Lengths,
    rooms: &[kurbo::Size],
    parted: bool,
) -> (Faces, usize) {
    let mut drawing =
        Drawing { subject, lengths, axis: Axis::whole(subject.marked.blank.length, 1.0), broken: false };
    let broken = |scale: f64| LEFT_OVER.map(|beside| (scale, Some(beside)));
    let smaller = SCALES.into_iter().flat_map(|scale| core::iter::once((scale, None)).chain(broken(scale)));
    for (scale, beside) in core::iter::once((1.0, None)).chain(smaller) {
        drawing.axis = drawing.axis(scale, beside);
        drawing.broken = drawing.axis.breaks().next().is_some();
        let size = drawing.size(parted);
        let fits = |room: &kurbo::Size| size.width <= room.width && size.height <= room.height;
        if let Some(room) = rooms.iter().position(fits) {
            return (drawing.made(), room);
        }
    }
    (drawing.made(), 0)
}

struct Drawing<'a> {
    subject: &'a Subject<'a>,
    lengths: Lengths,
    axis: Axis,
    broken: bool,
}

impl Drawing<'_> {
    fn axis(&self, scale: f64, beside: Option<f64>) -> Axis {
        let length = self.subject.marked.blank.length;
        let Some(beside) = beside else { return Axis::whole(length, scale) };
        let mut places: Vec<f64> = self.figures(None, Way::Along).map(|figure| figure.value).collect();
        places.extend(self.subject.marked.marks.iter().flat_map(|mark| mark.corners.iter().map(|p| p.x)));
        places.sort_by(f64::total_cmp);
        Axis::broken(length, scale, &places, beside)
    }

    fn figures(&self, face: Option<usize>, way: Way) -> impl Iterator<Item = &Figure> {
        self.subject.figures.iter().filter(move |f| f.way == way && face.is_none_or(|face| f.face == face))
    }

    fn words(&self, figure: &Figure) -> String {
        format!("{}  {}", self.lengths.write(figure.value), figure.what.join(", "))
    }

    /// Room above a face for its figures.
    fn above(&self, face: usize) -> f64 {
        let words = self.figures(Some(face), Way::Along).map(|f| long(&self.words(f)));
        words.reduce(f64::max).map_or(LINE, |longest| longest + KNEE + 2.0)
    }

    fn high(&self, face: usize) -> f64 {
        self.subject.marked.blank.faces[face].height * self.axis.scale
    }

    /// Height that a face and the figures beside it take.
    fn block(&self, face: usize) -> f64 {
        let levels = self.figures(Some(face), Way::Across).count();
        self.high(face).max((levels + 1) as f64 * ROOM)
    }

    fn size(&self, parted: bool) -> kurbo::Size {
        let faces = self.subject.shown();
        let high = |faces: &[usize]| {
            faces.iter().map(|&face| self.above(face) + self.block(face) + GAP).sum::<f64>()
        };
        let height = if parted { faces.chunks(2).map(high).fold(0.0, f64::max) } else { high(&faces) };
        kurbo::Size::new(self.end() + self.aside(), height)
    }

    /// Where the faces, or the row of figures above one, end.
    fn end(&self) -> f64 {
        let rows = (0..4).map(|face| self.figures(Some(face), Way::Along).count() as f64 * ROOM);
        LEFT + rows.fold(self.axis.width(), f64::max)
    }

    /// Room for the figures across.
    fn aside(&self) -> f64 {
        let words = self.figures(None, Way::Across).map(|f| long(&self.words(f)));
        words.fold(long("0  face edge"), f64::max) + ASIDE
    }

    fn made(&self) -> Faces {
        let block = |face: usize| {
            let above = self.above(face);
            let top = above + (self.block(face) - self.high(face)) / 2.0;
            let name = self.subject.marked.blank.faces[face].name;
            Block {
                width: self.end() + self.aside(),
                height: above + self.block(face) + GAP,
                items: vec![pens::group("face", name, self.face(face, top))],
            }
        };
        let blocks = self.subject.shown().into_iter().map(block).collect();
        Faces { blocks, times: 1.0 / self.axis.scale, broken: self.broken }
    }

    fn on(&self, p: Point, top: f64) -> Point {
        Point::new(LEFT + self.axis.at(p.x), top + p.y * self.axis.scale)
    }

    fn drawn(&self, points: &[Point], closed: bool, top: f64, pen: Pen) -> Item {
        let traces = self.axis.trace(points, closed, top);
        pens::lines(traces, pen).moved(Vec2::new(LEFT, 0.0))
    }

    fn face(&self, face: usize, top: f64) -> Vec<Item> {
        let marked = &self.subject.marked;
        let (side, drawn) = (&marked.blank.faces[face], &marked.drawn[face]);
        let mut items = vec![self.waste(face, top)];
        let blank =
            [(0.0, 0.0), (marked.blank.length, 0.0), (marked.blank.length, side.height), (0.0, side.height)];
        items.push(self.drawn(&blank.map(Point::from), true, top, Pen::Hidden));
        items.extend(drawn.edges.iter().map(|edge| self.drawn(edge, false, top, Pen::Thin)));
        items.extend(drawn.outline.iter().map(|outline| self.drawn(outline, true, top, Pen::Outline)));
        for mark in marked.marks.iter().filter(|mark| mark.face == face) {
            items.extend(self.mark(mark, top));
        }
        items.extend(self.breaks(face, top));
        items.extend(self.sign(face, top));
        items.extend(self.name(face, top));
        items.extend(self.row(face, top));
        items.extend(self.levels(face, top));
        items
    }

    /// Waste of the blank: what is neither timber nor tenon.
    fn waste(&self, face: usize, top: f64) -> Item {
        let marked = &self.subject.marked;
        let mut covered = marked.drawn[face].outline.clone();
        let tenons = marked.marks.iter().filter(|mark| mark.face == face && mark.what == What::Tenon);
        covered.extend(tenons.map(|mark| mark.corners.clone()));
        let (long, high) = (marked.blank.length, marked.blank.faces[face].height);
        let blank = [(0.0, 0.0), (long, 0.0), (long, high), (0.0, high)].map(Point::from).to_vec();
        let all = hatch::within(&[blank], 1.0, HATCH / self.axis.scale);
        let lines = hatch::beside(&all, &covered);
        let traces = lines.iter().flat_map(|line| self.axis.trace(line, false, top)).collect();
        pens::lines(traces, Pen::Thin).moved(Vec2::new(LEFT, 0.0))
    }

    fn mark(&self, mark: &Mark, top: f64) -> Vec<Item> {
        let data = format!("{:?} {}", mark.what, mark.letter);
        let items = match mark.what {
            What::Peg => {
                let (at, half) = (self.on(mark.corners[0], top), mark.size * self.axis.scale / 2.0);
                vec![pens::ring(at, half, Pen::Outline), pens::cross(at, half + 0.8)]
            }
            What::Tenon => vec![self.drawn(&mark.corners, true, top, Pen::Outline)],
            What::Exit | What::Mortise | What::Haunch | What::Hole | What::Recess => {
                let n = mark.corners.len();
                // Crossed out: this goes.
                let crossed = if n == 4 { [[0, 2], [1, 3]] } else { [[0, n / 2], [n / 4, n / 4 + n / 2]] };
                let crossed = crossed.map(|[i, k]| [mark.corners[i], mark.corners[k % n]]);
                let mut items = vec![self.drawn(&mark.corners, true, top, Pen::Outline)];
                items.extend(crossed.iter().map(|line| self.drawn(line, false, top, Pen::Thin)));
                items
            }
        };
        vec![pens::group("mark", data, items)]
    }

    /// Where a plain length is left out.
    fn breaks(&self, face: usize, top: f64) -> Vec<Item> {
        let high = self.high(face);
        let line = |x: f64| {
            let (x, step) = (LEFT + x, high / 4.0);
            let zigzag = [
                (0.0, -1.0),
                (0.0, 1.7 * step),
                (1.2, 1.8 * step),
                (-1.2, 2.2 * step),
                (0.0, 2.3 * step),
                (0.0, high + 1.0),
            ];
            pens::lines(vec![pens::open(&zigzag.map(|(dx, dy)| Point::new(x + dx, top + dy)))], Pen::Thin)
        };
        self.axis.breaks().flat_map(|ends| ends.map(line)).collect()
    }

    /// The loop on the face side, the V on the face edge, where most of the face is free.
    fn sign(&self, face: usize, top: f64) -> Option<Item> {
        if face > 1 {
            return None;
        }
        let size = (self.high(face) / 9.0).min(1.0);
        let at = self.free(face)?;
        let x = LEFT + self.axis.at(at);
        let below = self.subject.marked.blank.faces[face].below;
        let arris = self.arris(face, at, top);
        let item = if face == 0 {
            signs::face_side(x, arris, !below, size)
        } else {
            signs::face_edge(x, arris, !below, size)
        };
        Some(pens::group("sign", self.subject.marked.blank.faces[face].name, vec![item]))
    }

    /// The middle of the widest stretch of a face without a mark on it, from the datum end.
    fn free(&self, face: usize) -> Option<f64> {
        let marked = &self.subject.marked;
        let timber = pens::around(marked.drawn[face].outline.iter().flatten())?;
        let own = marked.marks.iter().filter(|mark| mark.face == face);
        let mut taken: Vec<[f64; 2]> =
            own.filter_map(|mark| pens::around(&mark.corners)).map(|r| [r.x0, r.x1]).collect();
        taken.extend([[0.0, timber.x0], [timber.x1, marked.blank.length]]);
        let mut ends: Vec<f64> = taken.iter().flatten().copied().collect();
        ends.sort_by(f64::total_cmp);
        let is_free = |x: f64| !taken.iter().any(|[from, to]| *from <= x && x <= *to);
        let free = ends.windows(2).filter(|w| is_free((w[0] + w[1]) / 2.0));
        let pieces = free.flat_map(|w| self.axis.pieces(Point::new(w[0], 0.0), Point::new(w[1], 0.0)));
        pieces
            .map(|[a, b]| [a.x, b.x])
            .max_by(|a, b| (a[1] - a[0]).total_cmp(&(b[1] - b[0])))
            .map(|[a, b]| (a + b) / 2.0)
    }

    /// Where the timber ends towards the face that is measured from, on paper.
    fn arris(&self, face: usize, distance: f64, top: f64) -> f64 {
        let marked = &self.subject.marked;
        let below = marked.blank.faces[face].below;
        let outline: Vec<Point> = marked.drawn[face].outline.iter().flatten().copied().collect();
        let n = outline.len();
        let crossing = |i: usize| {
            let (a, b) = (outline[i], outline[(i + 1) % n]);
            ((a.x > distance) != (b.x > distance)).then(|| a.lerp(b, (distance - a.x) / (b.x - a.x)).y)
        };
        let end = (0..n).filter_map(crossing).reduce(if below { f64::max } else { f64::min });
        top + end.unwrap_or(if below { marked.blank.faces[face].height } else { 0.0 }) * self.axis.scale
    }

    fn name(&self, face: usize, top: f64) -> [Item; 1] {
        let name = self.subject.marked.blank.faces[face].name;
        let words = super::capital(name);
        let at = Point::new(0.0, top + self.high(face) / 2.0 + 0.9);
        [pens::words(&words, at, Align::Start, SMALL, Weight::Medium)]
    }

    /// The distances from the datum end, in a row above the face.
    fn row(&self, face: usize, top: f64) -> Vec<Item> {
        let figures: Vec<&Figure> = self.figures(Some(face), Way::Along).collect();
        let wishes: Vec<Wish> =
            figures.iter().map(|f| Wish { at: LEFT + self.axis.at(f.value), room: ROOM }).collect();
        let places = spread_within(&wishes, LEFT - ROOM, self.end() + ROOM / 2.0);
        let mut items = Vec::new();
        for (figure, x) in figures.iter().zip(places) {
            let at = self.on(figure.at, top);
            let (tick, knee) = (Point::new(at.x, top - TICK), Point::new(x, top - KNEE));
            let leader = pens::lines(vec![pens::open(&[at, tick, knee])], Pen::Thin);
            let foot = Point::new(x + 0.35 * SMALL, top - KNEE - 0.8);
            let text = pens::turned(&self.words(figure), foot, Align::Start, SMALL, Weight::Regular, -90.0);
            items.push(pens::group("along", format!("{:.4}", figure.value), vec![leader, text]));
        }
        items
    }

    /// The distances across the face, beside it.
    fn levels(&self, face: usize, top: f64) -> Vec<Item> {
        let side = &self.subject.marked.blank.faces[face];
        let level = |value: f64| {
            let down = if side.below { side.height - value } else { value };
            top + down * self.axis.scale
        };
        let mut rows: Vec<(f64, f64, String)> =
            self.figures(Some(face), Way::Across).map(|f| (level(f.value), f.value, self.words(f))).collect();
        if rows.is_empty() {
            return Vec::new();
        }
        rows.push((level(0.0), 0.0, format!("0  {}", side.from)));
        rows.order_by(|a, b| a.0.total_cmp(&b.0));
        let wishes: Vec<Wish> = rows.iter().map(|row| Wish { at: row.0, room: ROOM }).collect();
        let (middle, half) = (top + self.high(face) / 2.0, self.block(face) / 2.0);
        let places = spread_within(&wishes, middle - half, middle + half);
        let end = self.end();
        let start = LEFT + self.axis.width();
        let mut items = Vec::new();
        for ((y, value, text), place) in rows.into_iter().zip(places) {
            let ends = [
                Point::new(start + 1.0, y),
                Point::new(end + BESIDE, y),
                Point::new(end + ASIDE - 2.0, place),
            ];
            let leader = pens::lines(vec![pens::open(&ends)], Pen::Thin);
            let at = Point::new(end + ASIDE - 1.0, place + 0.35 * SMALL);
            let text = pens::words(&text, at, Align::Start, SMALL, Weight::Regular);
            items.push(pens::group("across", format!("{value:.4}"), vec![leader, text]));
        }
        items
    }
}
