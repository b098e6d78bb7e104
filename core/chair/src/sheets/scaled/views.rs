//! Front, side and plan, each beside the other as their projection asks (ISO 128-3, ISO 5456-2; from memory).

use super::super::pens::{self, Pen};
use super::cut::Cut;
use super::figures::{LANE, Out, Placed, between, lean, running, stacked};
use super::ink::{Ink, Words};
use super::lines::drawn;
use super::measure::{self, Measure};
use crate::chair::Chair;
use crate::length::Lengths;
use crestrail_geometry::Vec3;
use crestrail_geometry::view::{Camera, Stretch, Subject, draft};
use crestrail_sheet::{Align, Item, Path, Stroke};
use kurbo::{Point, Rect, Size, Vec2};

/// Where views stand beside the one from the front.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Projection {
    /// What is seen from the left stands on the right, what is seen from above below.
    FirstAngle,
    /// What is seen from the right stands on the right, what is seen from above above.
    ThirdAngle,
}

/// From a view to its first dimension line, mm.
const FIRST: f64 = 6.0;
/// From the plan to the dimension of the seat's depth, mm.
const SEAT: f64 = 6.0;
/// Between the rooms of two views, mm.
const BETWEEN: f64 = 4.0;
/// How far the line of symmetry goes on past the chair, mm.
const PAST: f64 = 2.0;

/// A chair as seen one way: the lines, and the rectangle around them, up positive, mm of the model.
pub(super) struct View {
    pub(super) camera: Camera,
    pub(super) stretches: Vec<Stretch>,
    pub(super) whole: Rect,
}

impl View {
    fn of(chair: &Chair, right: Vec3, up: Vec3) -> Self {
        let camera = Camera::square(right, up);
        let subjects: Vec<Subject<'_>> = (chair.pieces().enumerate())
            .map(|(owner, (part, body))| Subject { owner, solid: &body.solid, place: part.place })
            .collect();
        let stretches = draft(&subjects, &camera);
        let ends = stretches.iter().flat_map(|s| [s.line.p0, s.line.p1]);
        let whole = ends.map(|p| Rect::from_points(p, p)).reduce(|a, b| a.union(b)).unwrap_or_default();
        Self { camera, stretches, whole }
    }

    /// Where a point of the model lies on paper before the view is moved to its place.
    fn flat(&self, p: Vec3, scale: u32) -> Point {
        laid(self.camera.flat(p), scale)
    }

    fn rect(&self, scale: u32) -> Rect {
        Rect::from_points(
            laid(self.whole.origin(), scale),
            laid(Point::new(self.whole.x1, self.whole.y1), scale),
        )
    }

    fn placed<'a>(&self, measures: &'a [Measure], scale: u32, lengths: Lengths) -> Vec<Placed<'a>> {
        let place = |measure: &'a Measure| Placed {
            measure,
            text: lengths.write(measure.value),
            from: self.flat(measure.from, scale),
            to: self.flat(measure.to, scale),
        };
        measures.iter().map(place).collect()
    }
}

pub(super) fn laid(p: Point, scale: u32) -> Point {
    Point::new(p.x / f64::from(scale), -p.y / f64::from(scale))
}

/// The three views, and what is measured in each.
pub(super) struct Views<'a> {
    chair: &'a Chair,
    projection: Projection,
    pub(super) all: [View; 3],
    pub(super) widths: Vec<Measure>,
    pub(super) heights: [Vec<Measure>; 2],
    pub(super) depths: Vec<Measure>,
    pub(super) rake: Option<Measure>,
    pub(super) seat_depth: Option<Measure>,
    cuts: &'a [Cut<'a>],
    lengths: Lengths,
}

/// Where the views have come to stand on paper.
pub(super) struct Stood {
    scale: u32,
    /// Dimensions, marks of sections, names of views: of each view, moved to its place.
    around: [Ink; 3],
    moves: [Vec2; 3],
    room: Rect,
}

impl Stood {
    pub(super) fn size(&self) -> Size {
        self.room.size()
    }
}

impl<'a> Views<'a> {
    pub(super) fn of(
        chair: &'a Chair,
        projection: Projection,
        cuts: &'a [Cut<'a>],
        lengths: Lengths,
    ) -> Self {
        let side = match projection {
            Projection::FirstAngle => -Vec3::Y,
            Projection::ThirdAngle => Vec3::Y,
        };
        let front_heights = measure::front_heights(chair, -Vec3::X);
        let side_heights = measure::side_heights(chair, side, &front_heights);
        Self {
            chair,
            projection,
            all: [
                View::of(chair, Vec3::X, Vec3::Z),
                View::of(chair, side, Vec3::Z),
                View::of(chair, Vec3::X, Vec3::Y),
            ],
            widths: measure::widths(chair),
            heights: [front_heights, side_heights],
            depths: measure::depths(chair),
            rake: measure::rake(chair),
            seat_depth: measure::seat_depth(chair),
            cuts,
            lengths,
        }
    }

    /// All measures that are drawn.
    pub(super) fn measures(&self) -> impl Iterator<Item = &Measure> {
        let [front, side] = &self.heights;
        self.widths
            .iter()
            .chain(front)
            .chain(side)
            .chain(&self.depths)
            .chain(&self.rake)
            .chain(&self.seat_depth)
    }

    /// Views, dimensions and names at a scale, each where it belongs, and the room they take.
    pub(super) fn stood(&self, scale: u32) -> (Stood, Size) {
        let around = [self.front(scale), self.side(scale), self.plan(scale)];
        let rooms = [0, 1, 2].map(|i| {
            let rect = self.all[i].rect(scale);
            around[i].room.map_or(rect, |room| room.union(rect))
        });
        let aside = rooms[0].x1 + BETWEEN - rooms[1].x0;
        let row = rooms[0].union(rooms[1] + Vec2::new(aside, 0.0));
        let down = match self.projection {
            Projection::FirstAngle => row.y1 + BETWEEN - rooms[2].y0,
            Projection::ThirdAngle => row.y0 - BETWEEN - rooms[2].y1,
        };
        let room = row.union(rooms[2] + Vec2::new(0.0, down));
        let moves = [Vec2::ZERO, Vec2::new(aside, 0.0), Vec2::new(0.0, down)];
        (Stood { scale, around, moves, room }, room.size())
    }

    fn front(&self, scale: u32) -> Ink {
        let view = &self.all[0];
        let rect = view.rect(scale);
        let mut ink = stacked(&view.placed(&self.widths, scale, self.lengths), rect.y1 + FIRST + PAST);
        ink.add(running(&view.placed(&self.heights[0], scale, self.lengths), rect.x0 - FIRST, Out::Left));
        ink.add(symmetry(rect));
        titled(ink, rect, "Front")
    }

    fn side(&self, scale: u32) -> Ink {
        let view = &self.all[1];
        let rect = view.rect(scale);
        let mut ink =
            running(&view.placed(&self.heights[1], scale, self.lengths), rect.x1 + FIRST, Out::Right);
        ink.add(running(&view.placed(&self.depths, scale, self.lengths), rect.y1 + FIRST, Out::Below));
        if let Some(rake) = &self.rake {
            let top = view.flat(rake.to, scale);
            let way = view.flat(rake.to, scale) - view.flat(rake.from, scale);
            ink.add(lean(rake, top, way.x.signum()));
        }
        let name = match self.projection {
            Projection::FirstAngle => "From the left",
            Projection::ThirdAngle => "From the right",
        };
        titled(ink, rect, name)
    }

    fn plan(&self, scale: u32) -> Ink {
        let view = &self.all[2];
        let rect = view.rect(scale);
        let mut ink = symmetry(rect);
        if let Some(depth) = &self.seat_depth {
            let placed = &view.placed(std::slice::from_ref(depth), scale, self.lengths)[0];
            let x = rect.x0 - SEAT;
            ink.add(between(placed, Point::new(x, placed.from.y), Point::new(x, placed.to.y)));
        }
        // Marks of sections stand clear of the figure on the left.
        let clear = Rect { x0: rect.x0 - SEAT - LANE / 2.0, ..rect };
        for cut in self.cuts {
            ink.add(cut.trace(clear, |p| view.flat(p, scale)));
        }
        titled(ink, rect, "From above")
    }

    /// All of it on paper, its room's upper left corner at `at`.
    pub(super) fn ink(&self, stood: &Stood, at: Point) -> Ink {
        let mut ink = Ink::default();
        for (i, view) in self.all.iter().enumerate() {
            let by = stood.moves[i] + (at - stood.room.origin());
            let lines = drawn(&view.stretches, |p| laid(p, stood.scale) + by);
            let hidden = lines.hidden.iter().map(|run| pens::open(run)).collect();
            let seen = lines.seen.iter().map(|run| pens::open(run)).collect();
            let mut own = Ink::default();
            own.lines(hidden, Pen::Hidden);
            own.add(self.pegs(view, stood.scale).moved(by));
            own.lines(seen, Pen::Outline);
            ink.add(own.named(vec![("view", ["front", "side", "plan"][i].to_owned())]));
            ink.add(stood.around[i].moved(by));
        }
        ink
    }

    /// The axes of pegs: a chain line along, or a cross where one is seen end on.
    fn pegs(&self, view: &View, scale: u32) -> Ink {
        let mut ink = Ink::default();
        for peg in self.chair.joints.iter().flat_map(|joint| &joint.pegs) {
            let ends = [peg.place.origin, peg.place.origin + peg.place.x * peg.length];
            let [a, b] = ends.map(|p| view.flat(p, scale));
            let past = f64::from(scale).recip() * 2.0 + 0.6;
            let way = b - a;
            let long = way.hypot2().sqrt();
            if long < peg.size / f64::from(scale) {
                let arm = peg.size / 2.0 / f64::from(scale) + past;
                ink.items.push(pens::cross(a, arm));
            } else {
                ink.line(a - way / long * past, b + way / long * past, Pen::Axis);
            }
        }
        ink
    }
}

/// The line about which a view is the same on both sides.
fn symmetry(rect: Rect) -> Ink {
    let mut ink = Ink::default();
    ink.line(Point::new(0.0, rect.y0 - PAST), Point::new(0.0, rect.y1 + PAST), Pen::Axis);
    ink
}

/// The view's name above all of it.
fn titled(mut ink: Ink, rect: Rect, name: &str) -> Ink {
    let top = ink.room.map_or(rect.y0, |room| room.y0.min(rect.y0));
    ink.words(&Words::new(name, Point::new(rect.x0, top - 2.5), Align::Start).strong());
    ink
}

/// A wide stretch, as at the ends of a cutting plane.
pub(super) fn wide(ink: &mut Ink, from: Point, to: Point) {
    ink.take(Rect::from_points(from, to));
    let stroke = Stroke { dashes: Vec::new(), width: 0.5, ..Pen::Outline.stroke() };
    ink.items.push(Item::Path(Path::line(vec![from, to], stroke)));
}
