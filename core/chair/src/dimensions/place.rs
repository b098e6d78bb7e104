//! Lays dimension lines and figures round the picture, so that nothing meets.

use super::boxes::{about, crosses, length, meet, strip};
use super::measures::{Lay, Measure, Shape, Span, Turn};
use super::{Dimension, Kind, Spot};
use crate::drawing::{DimensionRoom, Look, View};
use crestrail_geometry::Vec3;
use crestrail_sorting::Order as _;
use kurbo::{Line, Point, Rect, Vec2};

/// From the chair to the first dimension line, px.
const OFF: f64 = 20.0;
/// An extension line goes on this far past the dimension line, px (2 mm on paper, ISO 129-1; from memory).
const PAST: f64 = 5.0;
/// A side of the square that a finger finds; 24 px by WCAG 2.2, 2.5.8.
const GRIP: f64 = 28.0;
/// A side is the nearer one by more than this, px.
const NEARER: f64 = 20.0;
/// Room that an arrow takes of its line, px.
const ARROW: f64 = 14.0;
/// From a line to a figure beside it, px.
const BESIDE: f64 = 8.0;
/// How wide the figure of an angle is beside its height: five characters such as `11.5°`.
const ANGLE: f64 = 1.9;
/// How wide and high the control of a count is, px.
const STEPPER: [f64; 2] = [90.0, 30.0];
/// Between what takes room and the rim, px.
const RIM: f64 = 2.0;
/// Arcs are drawn with a corner for each so many degrees, or more.
const ARC_STEP: f64 = 1.0;

/// What has been laid on the picture so far.
pub(super) struct Placing<'a> {
    look: &'a Look,
    paper: Rect,
    figure: [f64; 2],
    /// Boxes of figures, and of all else that nothing may cover.
    figures: Vec<Rect>,
    grips: Vec<Rect>,
    lines: Vec<Line>,
    aids: Vec<Line>,
}

/// A dimension as it could be laid.
struct Draft {
    line: Vec<Point>,
    aids: Vec<[Point; 2]>,
    tracks: Vec<Vec<(f64, Point)>>,
    grips: Vec<Point>,
}

impl<'a> Placing<'a> {
    pub(super) fn new(look: &'a Look, view: &View, room: &DimensionRoom) -> Self {
        let clear = room.clear.iter().map(|&[left, top, right, bottom]| Rect::new(left, top, right, bottom));
        Self {
            look,
            paper: Rect::new(0.0, 0.0, view.width, view.height),
            figure: room.figure,
            figures: clear.collect(),
            grips: Vec::new(),
            lines: Vec::new(),
            aids: Vec::new(),
        }
    }

    /// Lays one where it has room; nothing if it has none.
    pub(super) fn place(&mut self, measure: &Measure) -> Option<Dimension> {
        match &measure.shape {
            Shape::Length(span) => self.place_length(measure, span),
            Shape::Angle(turn) => self.place_angle(measure, turn),
            Shape::Count(corners) => self.place_count(measure, corners),
        }
    }

    fn place_length(&mut self, measure: &Measure, span: &Span) -> Option<Dimension> {
        let drafts = self.length_drafts(measure, span);
        let free = |labels: fn(&Self, &Draft) -> Vec<Point>| {
            drafts.iter().enumerate().find_map(|(i, draft)| {
                let at = labels(self, draft).into_iter().find(|&at| self.has_room(draft, at))?;
                Some((i, at))
            })
        };
        let (i, label) = free(Self::labels_within).or_else(|| free(Self::labels_beside))?;
        let draft = drafts.into_iter().nth(i)?;
        Some(self.take(measure, Kind::Length, draft, label))
    }

    fn length_drafts(&self, measure: &Measure, span: &Span) -> Vec<Draft> {
        let around = self.look.silhouette();
        let spots = span.ends.map(|end| self.look.spot(end));
        let [wide, high] = self.figure;
        let rows = [0.0, 1.0];
        let steps: Vec<[Vec2; 2]> = match span.lay {
            Lay::Beside => return self.beside(measure, span),
            Lay::Below => {
                let least = spots[0].y.min(spots[1].y);
                let lines = rows.into_iter().map(|row| around.y1 + OFF + row * (high + BESIDE));
                lines.map(|y| [Vec2::new(0.0, y - least); 2]).collect()
            }
            Lay::Out(way) => {
                let step = self.look.step(way);
                let unit = step / length(step).max(1e-6);
                let upright = self.look.step(span.ends[1] - span.ends[0]);
                // The figure on an upright line keeps clear of the chair.
                let clear = if upright.x.abs() < upright.y.abs() { wide / 2.0 + BESIDE } else { OFF + 6.0 };
                let offs = [clear, OFF + 6.0, OFF + 14.0 + high];
                offs.into_iter().map(|off| [unit * off; 2]).collect()
            }
        };
        steps.into_iter().map(|steps| self.length_draft(measure, span, steps)).collect()
    }

    /// Lines left and right of the chair, the side first on which the length lies: a chair is the same on both.
    fn beside(&self, measure: &Measure, span: &Span) -> Vec<Draft> {
        let around = self.look.silhouette();
        let [wide, _] = self.figure;
        let twin = Span { ends: span.ends.map(Vec3::mirrored_x), ..*span };
        let offs = [wide / 2.0 + BESIDE, OFF, 1.5 * wide + 2.0 * BESIDE];
        let lines = offs.into_iter().flat_map(|off| {
            let sides = [around.x0 - off, around.x1 + off].map(|x| {
                let far = |span: &Span| (self.look.spot(span.ends[1]).x - x).abs();
                let own = if far(&twin) < far(span) - 1.0 { &twin } else { span };
                (far(own), own, x)
            });
            let swap = sides[1].0 < sides[0].0 - NEARER;
            if swap { [sides[1], sides[0]] } else { sides }
        });
        let step = |own: &Span, x: f64| own.ends.map(|end| Vec2::new(x - self.look.spot(end).x, 0.0));
        lines.map(|(_, own, x)| self.length_draft(measure, own, step(own, x))).collect()
    }

    fn length_draft(&self, measure: &Measure, span: &Span, steps: [Vec2; 2]) -> Draft {
        let at = |i: usize, value: f64| {
            self.look.spot(span.ends[i] + span.moves[i] * (value - measure.value)) + steps[i]
        };
        let ends = [0, 1].map(|i| at(i, measure.value));
        let aids = [0, 1].map(|i| {
            let way = steps[i] / length(steps[i]).max(1e-6);
            let from = ends[i] - steps[i];
            [from + way * PAST.min(length(steps[i]) / 2.0), ends[i] + way * PAST]
        });
        let moved = [0, 1].into_iter().filter(|&i| span.moves[i] != Vec3::ZERO);
        let (least, most) = measure.limits;
        let tracks: Vec<Vec<(f64, Point)>> =
            moved.clone().map(|i| vec![(least, at(i, least)), (most, at(i, most))]).collect();
        Draft { line: ends.to_vec(), aids: aids.to_vec(), tracks, grips: moved.map(|i| ends[i]).collect() }
    }

    /// Where the figure of a length may stand in its line.
    fn labels_within(&self, draft: &Draft) -> Vec<Point> {
        let (from, way) = (draft.line[0], draft.line[1] - draft.line[0]);
        let far = length(way).max(1e-6);
        let [wide, high] = self.figure;
        let along = (wide * way.x.abs() / far).max(high * way.y.abs() / far);
        let slack = (far - along - 2.0 * ARROW) / 2.0 / far;
        let shares = [0.5, 0.5 + slack * 0.6, 0.5 - slack * 0.6];
        if slack > 0.0 { shares.map(|share| from + way * share).to_vec() } else { Vec::new() }
    }

    /// Where it may stand beside a short one.
    fn labels_beside(&self, draft: &Draft) -> Vec<Point> {
        let (from, way) = (draft.line[0], draft.line[1] - draft.line[0]);
        let unit = way / length(way).max(1e-6);
        let [wide, high] = self.figure;
        let aside = Vec2::new(-unit.y, unit.x);
        let off = aside * (BESIDE + (wide * aside.x.abs() + high * aside.y.abs()) / 2.0);
        let spots = [0.5, 0.25, 0.75].map(|share| from + way * share);
        spots.into_iter().flat_map(|spot| [spot + off, spot - off]).collect()
    }

    fn place_angle(&mut self, measure: &Measure, turn: &Turn) -> Option<Dimension> {
        let draft = self.angle_draft(measure, turn);
        let figure = angle_figure(self.figure);
        let mut labels = self.angle_labels(turn, measure.value, figure).into_iter();
        let label = labels.find(|&at| self.is_free(&draft, about(at, figure)))?;
        Some(self.take(measure, Kind::Angle, draft, label))
    }

    fn angle_draft(&self, measure: &Measure, turn: &Turn) -> Draft {
        let at = |degrees: f64| self.look.spot(turn.at(degrees));
        let vertex = self.look.spot(turn.vertex);
        let line = steps(0.0, measure.value).into_iter().map(at).collect();
        let (least, most) = measure.limits;
        let track = steps(least, most).into_iter().map(|degrees| (degrees, at(degrees))).collect();
        let past = |p: Point| p + (p - vertex) * (PAST / length(p - vertex).max(1e-6));
        let grip = at(measure.value);
        let aids = vec![[vertex, past(at(0.0))], [vertex, past(grip)]];
        Draft { line, aids, tracks: vec![track], grips: vec![grip] }
    }

    /// Beyond the arc, beside it on either hand, or before it.
    fn angle_labels(&self, turn: &Turn, degrees: f64, [wide, high]: [f64; 2]) -> Vec<Point> {
        let spot = |degrees: f64| self.look.spot(turn.at(degrees));
        let (vertex, grip, zero) = (self.look.spot(turn.vertex), spot(degrees), spot(0.0));
        let middle = spot(degrees / 2.0);
        let out = (middle - vertex) / length(middle - vertex).max(1e-6);
        let aside = Vec2::new(-out.y, out.x);
        let reach = |way: Vec2| (wide * way.x.abs() + high * way.y.abs()) / 2.0;
        let beyond = out * (reach(out) + GRIP / 2.0 + 4.0);
        let beside = aside * (reach(aside) + GRIP / 2.0 + 2.0);
        let further = aside * (reach(aside) + GRIP / 2.0 + 30.0);
        let chair = self.look.silhouette().center();
        // Away from the chair there is more room.
        let outward = |mut spots: Vec<Point>| {
            spots.order_by(|a, b| (*b - chair).hypot2().total_cmp(&(*a - chair).hypot2()));
            spots
        };
        let near = outward(vec![middle + beyond, grip + beside, grip - beside, zero + beside, zero - beside]);
        let far = outward(vec![grip + further, grip - further, middle - beyond]);
        near.into_iter().chain(far).collect()
    }

    fn place_count(&mut self, measure: &Measure, corners: &[Vec3]) -> Option<Dimension> {
        let spots: Vec<Point> = corners.iter().map(|&p| self.look.spot(p)).collect();
        let parts = spots.iter().skip(1).fold(Rect::from_points(spots[0], spots[0]), |r, &p| r.union_pt(p));
        let around = self.look.silhouette();
        let [wide, high] = STEPPER;
        let middle = parts.center();
        let right = around.x1 + 8.0 + wide / 2.0;
        let left = around.x0 - 8.0 - wide / 2.0;
        let spots = [
            (Point::new(right, middle.y), Point::new(parts.x1, middle.y)),
            (Point::new(left, middle.y), Point::new(parts.x0, middle.y)),
            (Point::new(middle.x, around.y0 - 8.0 - high / 2.0), Point::new(middle.x, parts.y0)),
        ];
        let drafts = spots.into_iter().map(|(at, part)| {
            let step = part - at;
            let edge = if step.x.abs() > step.y.abs() { wide / 2.0 } else { high / 2.0 };
            let aids = vec![[at + step / length(step).max(1e-6) * edge, part]];
            (Draft { line: Vec::new(), aids, tracks: Vec::new(), grips: Vec::new() }, at)
        });
        let free = drafts.into_iter().find(|(draft, at)| self.is_free(draft, about(*at, STEPPER)))?;
        self.figures.push(about(free.1, STEPPER));
        Some(self.keep(measure, Kind::Count, free.0, free.1))
    }

    fn has_room(&self, draft: &Draft, at: Point) -> bool {
        self.is_free(draft, about(at, self.figure))
    }

    /// Whether neither figure nor grips nor lines meet what is there already.
    fn is_free(&self, draft: &Draft, figure: Rect) -> bool {
        let inside = |area: Rect| {
            let paper = self.paper.inflate(-RIM, -RIM);
            area.x0 >= paper.x0 && area.x1 <= paper.x1 && area.y0 >= paper.y0 && area.y1 <= paper.y1
        };
        let grips: Vec<Rect> = draft.grips.iter().map(|&at| about(at, [GRIP; 2])).collect();
        let lines: Vec<Line> = draft.line.windows(2).map(|pair| Line::new(pair[0], pair[1])).collect();
        let aids: Vec<Line> = draft.aids.iter().map(|&[a, b]| Line::new(a, b)).collect();
        let figure_free = inside(figure)
            && self.figures.iter().chain(&self.grips).chain(&grips).all(|&other| !meet(figure, other))
            && self.lines.iter().chain(&self.aids).chain(&aids).all(|&line| !crosses(line, figure));
        let grips_free = grips.iter().all(|&grip| {
            inside(grip) && self.figures.iter().chain(&self.grips).all(|&other| !meet(grip, other))
        });
        let lines_free =
            lines.iter().chain(&aids).all(|&line| self.figures.iter().all(|&other| !crosses(line, other)));
        figure_free && grips_free && lines_free && self.lines_apart(&lines)
    }

    /// No line lies along another; arcs may.
    fn lines_apart(&self, lines: &[Line]) -> bool {
        let [own] = lines else { return true };
        self.lines.iter().all(|&other| !meet(strip(*own, 4.0, 2.0), strip(other, 4.0, 2.0)))
    }

    fn take(&mut self, measure: &Measure, kind: Kind, draft: Draft, label: Point) -> Dimension {
        let figure = if kind == Kind::Angle { angle_figure(self.figure) } else { self.figure };
        self.figures.push(about(label, figure));
        self.grips.extend(draft.grips.iter().map(|&at| about(at, [GRIP; 2])));
        self.lines.extend(draft.line.windows(2).map(|pair| Line::new(pair[0], pair[1])));
        self.keep(measure, kind, draft, label)
    }

    fn keep(&mut self, measure: &Measure, kind: Kind, draft: Draft, label: Point) -> Dimension {
        self.aids.extend(draft.aids.iter().map(|&[a, b]| Line::new(a, b)));
        let track =
            |track: Vec<(f64, Point)>| track.into_iter().map(|(value, p)| [value, p.x, p.y]).collect();
        Dimension {
            knob: measure.knob,
            kind,
            value: measure.value,
            line: draft.line.into_iter().map(spot).collect(),
            aids: draft.aids.into_iter().map(|aid| aid.map(spot)).collect(),
            tracks: draft.tracks.into_iter().map(track).collect(),
            label: spot(label),
        }
    }
}

/// The size of an angle's figure, where the widest is `figure`.
pub(super) fn angle_figure([wide, high]: [f64; 2]) -> [f64; 2] {
    [wide.min(ANGLE * high), high]
}

fn spot(p: Point) -> Spot {
    [p.x, p.y]
}

/// From one angle to another in steps, both ends among them.
fn steps(from: f64, to: f64) -> Vec<f64> {
    let count = ((to - from).abs() / ARC_STEP).ceil().max(1.0) as usize;
    (0..=count).map(|i| from + (to - from) * i as f64 / count as f64).collect()
}
