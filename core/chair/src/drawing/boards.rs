//! Boards drawn to scale, as they go to the saw: pieces with their letters, cuts in their order, offcuts with their sizes.

use super::Scheme;
use super::palette::Palette;
use crate::lists::tenths;
use crate::material::Material;
use crate::plan::{Board, ClassPlan, Laid, Offcut, Origin, SawCut, TimberPlan};
use crestrail_phrases::{say, word};
use crestrail_sheet::{
    Align, Circle, Colour, Fill, Group, Item, Path, Sheet, Stroke, Text, Trace, Unit, Weight,
};
use kurbo::{Point, Rect, Vec2};

/// Pixels to the millimetre: a board of three metres fills a desk’s screen, and a stretcher’s letter can be read.
const SCALE: f64 = 0.4;
/// Room round a board for the numbers of cuts and the ruler below, px.
const MARGIN: f64 = 12.0;
const ABOVE: f64 = 20.0;
const BELOW: f64 = 24.0;
/// Size of letters, of sizes and of numbers, px.
const LETTER: f64 = 12.0;
const SIZE: f64 = 10.0;
/// Radius of the circle round a cut's number, px.
const BADGE: f64 = 6.0;
/// A digit's width as a share of its size: tabular figures of the page's face.
const DIGIT: f64 = 0.6;
/// Distance of the ruler's marks, mm.
const MARKS: f64 = 500.0;
/// How far the tint of the timber goes towards the paper: on the board and on its pieces.
const GROUND: f64 = 0.84;
const PIECE: f64 = 0.5;

/// One board of a class; lengths in pixels.
pub fn board(class: &ClassPlan, board: &Board, kerf: f64, scheme: Scheme) -> Sheet {
    let pen = Pen::new(class, board, kerf, scheme);
    let (width, height) = pen.size();
    let (title, description) = (title(class, board), description(board));
    Sheet { width, height, unit: Unit::Pixel, decimals: 1, title, description, items: vec![pen.draw(0.0)] }
}

/// All boards of a plan below each other, each with a line of words above it.
pub fn boards(plan: &TimberPlan, scheme: Scheme) -> Sheet {
    let all = || plan.classes.iter().flat_map(|c| c.boards.iter().map(move |b| (c, b)));
    let (mut items, mut y, mut width) = (Vec::new(), MARGIN, 0.0_f64);
    for (class, board) in all() {
        let pen = Pen::new(class, board, plan.kerf, scheme);
        let caption = pen.text(title(class, board), Point::new(MARGIN, y + LETTER), Align::Start, LETTER);
        items.push(caption);
        y += LETTER + 6.0;
        items.push(pen.draw(y));
        width = width.max(pen.size().0);
        y += pen.size().1 + MARGIN;
    }
    let palette = Palette::of(scheme);
    let paper = closed(&[(0.0, 0.0), (width, 0.0), (width, y), (0.0, y)].map(Point::from));
    items.insert(
        0,
        Item::Path(Path { traces: vec![paper], fill: Some(Fill::solid(palette.paper)), stroke: None }),
    );
    let title = if plan.chairs == 1 {
        say!("Sawing plan for 1 chair")
    } else {
        say!("Sawing plan for {} chairs", plan.chairs)
    };
    let count: u32 = all().map(|(_, b)| b.times).sum();
    let description = say!("{count} boards, each with its pieces, cuts and offcuts to scale.");
    Sheet { width, height: y, unit: Unit::Pixel, decimals: 1, title, description, items }
}

/// What a board is, in a line.
fn title(class: &ClassPlan, board: &Board) -> String {
    let from = match board.origin {
        Origin::Rack => word("from the rack"),
        Origin::Yard => word("from the yard"),
    };
    let times = if board.times == 1 { String::new() } else { format!("{} × ", board.times) };
    let thickness = class.thickness_mm;
    say!("{times}{}, {} × {} × {thickness} mm, {from}", class.species, board.length, board.width)
}

/// What lies on it, for those who cannot see it.
fn description(board: &Board) -> String {
    let mut counted: Vec<(&Laid, u32)> = Vec::new();
    for piece in &board.pieces {
        match counted.iter_mut().find(|(p, _)| p.letter == piece.letter) {
            Some((_, n)) => *n += 1,
            None => counted.push((piece, 1)),
        }
    }
    let pieces: Vec<String> =
        counted.iter().map(|(p, n)| format!("{n} × {} ({})", p.letter, p.part)).collect();
    let mut say = say!("On it: {}.", pieces.join(", "));
    if !board.cuts.is_empty() {
        say.push_str(&say!(" {} cuts after the trims.", board.cuts.len()));
    }
    let left: Vec<String> =
        board.offcuts.iter().map(|o| format!("{:.0} × {:.0} mm", o.length, o.width)).collect();
    if !left.is_empty() {
        say.push_str(&say!(" Kept: {}.", left.join(", ")));
    }
    say
}

/// Draws one board.
struct Pen<'a> {
    board: &'a Board,
    kerf: f64,
    ink: Colour,
    paper: Colour,
    tint: Colour,
}

impl<'a> Pen<'a> {
    fn new(class: &ClassPlan, board: &'a Board, kerf: f64, scheme: Scheme) -> Self {
        let palette = Palette::of(scheme);
        let tint = palette.tint(Material::Timber(class.timber));
        Self { board, kerf, ink: palette.ink, paper: palette.paper, tint }
    }

    fn size(&self) -> (f64, f64) {
        (self.board.length * SCALE + 2.0 * MARGIN, self.board.width * SCALE + ABOVE + BELOW)
    }

    /// From the board's lower left corner, mm, to the sheet, where it begins at `top`.
    fn at(&self, top: f64, x: f64, y: f64) -> Point {
        Point::new(MARGIN + x * SCALE, top + ABOVE + (self.board.width - y) * SCALE)
    }

    fn draw(&self, top: f64) -> Item {
        let mut items = vec![self.ground(top)];
        items.extend(self.ruler(top));
        items.extend(self.board.offcuts.iter().flat_map(|o| self.offcut(top, o)));
        items.extend(self.board.pieces.iter().map(|p| self.piece(top, p)));
        items.extend(self.board.cuts.iter().map(|cut| self.line(top, cut)));
        items.extend(self.board.cuts.iter().flat_map(|cut| self.number(top, cut)));
        Item::Group(Group { data: vec![("layer", "board".to_owned())], items })
    }

    fn rectangle(&self, top: f64, [x, y]: [f64; 2], [length, width]: [f64; 2]) -> Trace {
        closed(
            &[(x, y), (x + length, y), (x + length, y + width), (x, y + width)]
                .map(|(x, y)| self.at(top, x, y)),
        )
    }

    fn ground(&self, top: f64) -> Item {
        Item::Path(Path {
            traces: vec![self.rectangle(top, [0.0, 0.0], [self.board.length, self.board.width])],
            fill: Some(Fill::solid(self.tint.toward(self.paper, GROUND))),
            stroke: Some(Stroke::solid(self.ink, 1.0)),
        })
    }

    /// Marks below the board, from its left end.
    fn ruler(&self, top: f64) -> Vec<Item> {
        let marks = (self.board.length / MARKS).floor() as u32;
        let mut items = Vec::new();
        for mark in 0..=marks {
            let x = f64::from(mark) * MARKS;
            let foot = self.at(top, x, 0.0);
            let line = vec![foot + Vec2::new(0.0, 2.0), foot + Vec2::new(0.0, 7.0)];
            items.push(Item::Path(Path::line(line, Stroke::solid(self.ink, 0.75))));
            let (align, words) = match mark {
                0 => (Align::Start, "0".to_owned()),
                _ if self.board.length - x < 60.0 => (Align::End, format!("{x}")),
                _ => (Align::Middle, format!("{x}")),
            };
            items.push(self.text(words, foot + Vec2::new(0.0, 8.0 + SIZE), align, SIZE));
        }
        items
    }

    fn piece(&self, top: f64, piece: &Laid) -> Item {
        let points: Vec<Point> = piece.outline.iter().map(|p| self.at(top, p[0], p[1])).collect();
        let shape = Path {
            traces: vec![closed(&points)],
            fill: Some(Fill::solid(self.tint.toward(self.paper, PIECE))),
            stroke: Some(Stroke::solid(self.ink, 1.0)),
        };
        let data = vec![("letter", piece.letter.clone()), ("part", piece.part.to_owned())];
        let mut items = vec![Item::Path(shape)];
        items.extend(self.label(&points, piece));
        Item::Group(Group { data, items })
    }

    /// The letter in the middle, with the size where it has room.
    fn label(&self, points: &[Point], piece: &Laid) -> Option<Item> {
        let room = inner(points)?;
        let middle = room.center();
        let [length, width] = piece.size().map(tenths);
        let sized = format!("{}  {length} × {width}", piece.letter);
        let size = LETTER.min(0.8 * room.height()).max(7.0);
        let fits =
            |words: &str| words.chars().count() as f64 * DIGIT * size + 2.0 * BADGE + 6.0 < room.width();
        let words = if piece.outline.len() == 4 && fits(&sized) { sized } else { piece.letter.clone() };
        // Figures stand on the line; their middle is about 0.36 of the size above it.
        Some(self.text(words, middle + Vec2::new(0.0, 0.36 * size), Align::Middle, size))
    }

    fn offcut(&self, top: f64, offcut: &Offcut) -> Vec<Item> {
        let stroke = Stroke { colour: self.ink, width: 0.75, opacity: 0.8, dashes: vec![4.0, 3.0] };
        let shape = Path {
            traces: vec![self.rectangle(top, [offcut.x, offcut.y], [offcut.length, offcut.width])],
            fill: Some(Fill::solid(self.paper)),
            stroke: Some(stroke),
        };
        let middle = self.at(top, offcut.x + offcut.length / 2.0, offcut.y + offcut.width / 2.0);
        let words = say!("keep {:.0} × {:.0}", offcut.length.floor(), offcut.width.floor());
        let text = self.text(words, middle + Vec2::new(0.0, 0.36 * SIZE), Align::Middle, SIZE);
        vec![Item::Path(shape), text]
    }

    /// The two ends of a cut, in the middle of its kerf.
    fn ends(&self, top: f64, cut: &SawCut) -> [Point; 2] {
        let at = cut.at + self.kerf / 2.0;
        if cut.along {
            [self.at(top, cut.from, at), self.at(top, cut.to, at)]
        } else {
            [self.at(top, at, cut.to), self.at(top, at, cut.from)]
        }
    }

    fn line(&self, top: f64, cut: &SawCut) -> Item {
        let stroke = Stroke::solid(self.ink, (self.kerf * SCALE).max(1.25));
        Item::Path(Path::line(self.ends(top, cut).to_vec(), stroke))
    }

    /// The cut's number at its beginning: above the board where it begins at the edge.
    fn number(&self, top: f64, cut: &SawCut) -> [Item; 2] {
        let [begin, _] = self.ends(top, cut);
        let edge = self.at(top, 0.0, self.board.width).y;
        let middle = match cut.along {
            // Clear of the number of a crosscut that begins in the same corner.
            true => begin + Vec2::new(3.0 * BADGE, 0.0),
            false if begin.y - edge < BADGE => Point::new(begin.x, edge - BADGE - 2.0),
            false => begin + Vec2::new(0.0, BADGE + 1.0),
        };
        let circle = Circle {
            centre: middle,
            radius: BADGE,
            fill: Some(Fill::solid(self.paper)),
            stroke: Some(Stroke::solid(self.ink, 0.75)),
        };
        let size = if cut.number > 9 { 7.0 } else { 8.0 };
        let text =
            self.text(cut.number.to_string(), middle + Vec2::new(0.0, 0.36 * size), Align::Middle, size);
        [Item::Circle(circle), text]
    }

    fn text(&self, words: String, at: Point, align: Align, size: f64) -> Item {
        Item::Text(Text { words, at, align, size, weight: Weight::Regular, colour: self.ink, turn: 0.0 })
    }
}

fn closed(points: &[Point]) -> Trace {
    Trace { points: points.to_vec(), closed: true }
}

/// A room within an outline for its letter: a box in the middle, as high as the outline is there.
fn inner(points: &[Point]) -> Option<Rect> {
    let xs = || points.iter().map(|p| p.x);
    let (low, high) = (xs().fold(f64::INFINITY, f64::min), xs().fold(f64::NEG_INFINITY, f64::max));
    let x = f64::midpoint(low, high);
    let mut crossings: Vec<f64> = Vec::new();
    for (i, a) in points.iter().enumerate() {
        let b = points[(i + 1) % points.len()];
        if (a.x <= x) != (b.x <= x) {
            crossings.push(a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x));
        }
    }
    crossings.sort_by(f64::total_cmp);
    let widest = crossings.chunks_exact(2).max_by(|a, b| (a[1] - a[0]).total_cmp(&(b[1] - b[0])))?;
    Some(Rect::new(low, widest[0], high, widest[1]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_letter_of_a_bent_piece_stands_within_it() {
        let bent = [(0.0, 0.0), (100.0, 0.0), (200.0, 60.0), (200.0, 80.0), (100.0, 20.0), (0.0, 20.0)];
        let room = inner(&bent.map(Point::from)).expect("a room");
        assert!(room.center().y > 0.0 && room.center().y < 20.0, "{room:?}");
        assert!((room.height() - 20.0).abs() < 1e-9);
    }

    #[test]
    fn boards_are_drawn_to_scale_with_all_that_is_on_them() {
        let class = crate::plan::tests::class_of_a_default_chair();
        let first = &class.boards[0];
        let sheet = board(&class, first, 3.0, Scheme::Light);
        assert!((sheet.width - 2.0 * MARGIN - first.length * SCALE).abs() < 1e-9);
        let svg = crestrail_sheet::svg::write(&sheet);
        assert_eq!(svg.matches("data-letter").count(), first.pieces.len());
        assert!(svg.matches("<circle").count() == first.cuts.len());
        assert!(first.offcuts.iter().all(|o| svg.contains(&format!("keep {:.0} × ", o.length.floor()))));
    }
}
