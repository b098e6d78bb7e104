//! Gauge settings of the whole chair, so that each gauge is set once; and the cutters and bits it takes.

use super::figures::{SAME, middle};
use super::marks::{Mark, What};
use super::subject::Subject;
use crate::chair::Chair;
use crate::joint::{Kind, PegShape};
use crate::part::Side;
use crestrail_sorting::Order as _;
use kurbo::Point;

/// One setting of a gauge.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// From the fence to the pin, or to both pins of a mortise gauge, mm.
    pub pins: Vec<f64>,
    /// The face against which the fence runs.
    pub from: String,
    /// What is marked with it, such as `A mortise for D`.
    pub uses: Vec<String>,
}

/// The settings, and what cannot be gauged because it does not run along the face.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Gauges {
    /// Mortise gauges first, then marking gauges, the smallest first.
    pub settings: Vec<Setting>,
    /// What is drawn by the figures instead.
    pub drawn: Vec<String>,
}

/// A cutter or bit, and what it cuts.
#[derive(Clone, Debug, PartialEq)]
pub struct Cutter {
    /// Width or diameter, mm.
    pub size: f64,
    /// What sort.
    pub tool: &'static str,
    /// The deepest cut, mm.
    pub deepest: f64,
    /// Such as `A for D`.
    pub uses: Vec<String>,
}

/// The gauge settings for all parts; a left part takes those of its right twin.
pub fn gauges(subjects: &[Subject<'_>]) -> Gauges {
    let mut gauges = Gauges::default();
    for subject in subjects.iter().filter(|subject| subject.part.id.side != Side::Left) {
        for mark in &subject.marked.marks {
            gauges.take(subject, mark);
        }
    }
    gauges.settings.order_by(|a, b| {
        let first = b.pins.len().cmp(&a.pins.len()).then(a.from.cmp(&b.from));
        first
            .then(a.pins[0].total_cmp(&b.pins[0]))
            .then(a.pins.last().unwrap_or(&0.0).total_cmp(b.pins.last().unwrap_or(&0.0)))
    });
    gauges
}

impl Gauges {
    fn take(&mut self, subject: &Subject<'_>, mark: &Mark) {
        // What a tenon shows on the back faces it shows in front too.
        if mark.what == What::Tenon && mark.face > 1 {
            return;
        }
        let use_ = used(subject, mark);
        let side = &subject.marked.blank.faces[mark.face];
        let lines = gauged(subject, mark);
        // A tenon's edges are two settings, its cheeks one of a mortise gauge.
        let pairs: Vec<Vec<f64>> = match (mark.what, lines.as_slice()) {
            (_, []) => return,
            (What::Tenon, _) if mark.size == 0.0 && lines.len() <= 2 => {
                lines.iter().filter(|v| **v > SAME && **v < side.height - SAME).map(|v| vec![*v]).collect()
            }
            (_, [_] | [_, _]) => vec![lines],
            _ => {
                if !self.drawn.contains(&use_) {
                    self.drawn.push(use_);
                }
                return;
            }
        };
        let sawn = subject.marked.is_curved(mark.face);
        let from = if sawn { format!("{} as sawn", side.from) } else { side.from.to_owned() };
        for pins in pairs {
            self.add(pins, &from, &use_);
        }
    }

    fn add(&mut self, pins: Vec<f64>, from: &str, use_: &str) {
        let same = |setting: &&mut Setting| {
            let near = setting.pins.iter().zip(&pins).all(|(a, b)| (a - b).abs() < SAME);
            setting.from == from && setting.pins.len() == pins.len() && near
        };
        let setting = match self.settings.iter_mut().find(same) {
            Some(setting) => setting,
            None => {
                self.settings.push(Setting { pins, from: from.to_owned(), uses: Vec::new() });
                let last = self.settings.len() - 1;
                &mut self.settings[last]
            }
        };
        if !setting.uses.iter().any(|known| known == use_) {
            setting.uses.push(use_.to_owned());
        }
    }
}

fn used(subject: &Subject<'_>, mark: &Mark) -> String {
    let (own, letter) = (&subject.part.letter, &mark.letter);
    match mark.what {
        What::Mortise => format!("{own} mortise for {letter}"),
        What::Haunch => format!("{own} haunch of {letter}"),
        What::Exit => format!("{own} far end of the mortise for {letter}"),
        What::Hole => format!("{own} dowels of {letter}"),
        What::Recess => format!("{own} groove for {letter}"),
        What::Peg => format!("{own} pegs"),
        What::Tenon => format!("{own} tenon into {letter}"),
    }
}

/// Distances of a mark's lines from the edge they are gauged from, each once, mm.
pub(super) fn gauged(subject: &Subject<'_>, mark: &Mark) -> Vec<f64> {
    let points = match mark.what {
        What::Hole => vec![middle(&mark.corners)],
        _ => mark.corners.clone(),
    };
    let marked = &subject.marked;
    let across = |p: &Point| {
        if marked.is_curved(mark.face) {
            from_sawn(subject, mark.face, *p)
        } else {
            marked.blank.across(mark.face, *p)
        }
    };
    let mut found: Vec<f64> = points.iter().map(across).collect();
    found.sort_by(f64::total_cmp);
    found.dedup_by(|a, b| (*a - *b).abs() < SAME);
    found
}

/// The shortest way from a point to the sawn edge of a face on the side that is measured from, mm.
pub fn from_sawn(subject: &Subject<'_>, face: usize, p: Point) -> f64 {
    let marked = &subject.marked;
    let below = marked.blank.faces[face].below;
    let outline: Vec<Point> = marked.drawn[face].outline.iter().flatten().copied().collect();
    let n = outline.len();
    let edges = (0..n).map(|i| (outline[i], outline[(i + 1) % n]));
    // An edge of the wanted side has the point above it, or below it.
    let beyond = edges.filter(|(a, b)| {
        let at = a.lerp(*b, ((p.x - a.x) / (b.x - a.x)).clamp(0.0, 1.0));
        (b.x - a.x).abs() > 1e-9 && (at.y > p.y) == below
    });
    beyond.map(|(a, b)| distance(p, a, b)).fold(f64::INFINITY, f64::min)
}

fn distance(p: Point, a: Point, b: Point) -> f64 {
    let way = b - a;
    let at = a + way * ((p - a).dot(way) / way.hypot2()).clamp(0.0, 1.0);
    (p - at).hypot2().sqrt()
}

/// The cutters and bits in the order of their sizes.
pub fn cutters(chair: &Chair) -> Vec<Cutter> {
    let mut found: Vec<Cutter> = Vec::new();
    let mut take = |size: f64, tool: &'static str, deep: f64, use_: String| {
        let same = |c: &&mut Cutter| (c.size - size).abs() < 1e-6 && c.tool == tool;
        match found.iter_mut().find(same) {
            Some(cutter) => {
                cutter.deepest = cutter.deepest.max(deep);
                if !cutter.uses.contains(&use_) {
                    cutter.uses.push(use_);
                }
            }
            None => found.push(Cutter { size, tool, deepest: deep, uses: vec![use_] }),
        }
    };
    for joint in chair.joints.iter().filter(|joint| joint.is_right()) {
        let (host, guest) = (chair.letter(joint.host), chair.letter(joint.guest));
        let tool = if joint.kind == Kind::Dowels { "drill, for dowels" } else { "mortise chisel or bit" };
        take(joint.mortise.thickness, tool, joint.mortise.depth, format!("{host} for {guest}"));
        if joint.kind.is_separate() {
            take(joint.mortise.thickness, tool, joint.mortise.depth, format!("{guest} into {host}"));
        }
        for peg in &joint.pegs {
            let tool = match peg.shape {
                PegShape::Round => "drill, for pegs",
                PegShape::Square => "drill and square chisel, for pegs",
            };
            take(peg.size, tool, peg.length, format!("{host} with {guest}"));
        }
    }
    for housing in chair.housings.iter().filter(|h| h.cut != crate::housing::Cut::Notch) {
        take(
            housing.width,
            "groove cutter",
            housing.depth,
            format!("{} for {}", chair.letter(housing.host), chair.letter(housing.guest)),
        );
    }
    found.order_by(|a, b| a.tool.cmp(b.tool).then(a.size.total_cmp(&b.size)));
    found
}
