//! Paper, frame and scale of a drawing.

use super::super::pens::{self, Pen};
use super::ink::Ink;
use crate::length::Lengths;
use crestrail_sheet::paper::Paper;
use crestrail_sheet::{Item, Path, Stroke};
use kurbo::{Point, Rect, Size};

/// Scales of reduction, the largest first, as how many mm one mm on paper stands for (ISO 5455).
const METRIC: [u32; 8] = [1, 2, 5, 10, 20, 50, 100, 200];
/// The same of drawings in inches: 6, 3, 1 1/2, 1, 3/4, 1/2, 1/4 and 1/8 inch to the foot, as rules for such drawings have
/// them (common practice, no source).
const INCHES: [u32; 9] = [1, 2, 4, 8, 12, 16, 24, 48, 96];

/// The scales that are tried for figures in these lengths.
pub(super) fn scales(lengths: Lengths) -> &'static [u32] {
    match lengths {
        Lengths::Inches(_) => &INCHES,
        _ => &METRIC,
    }
}

/// From the edge of the paper to the frame, mm: 20 on the left for filing, 10 elsewhere (ISO 5457; from memory).
const FILING: f64 = 20.0;
const EDGE: f64 = 10.0;
/// Width of the frame's line, mm (ISO 5457; from memory).
const FRAME: f64 = 0.7;
/// How far centring marks reach into the frame, mm (ISO 5457: 5 mm past the frame's line; from memory).
const MARK: f64 = 5.0;
/// From the frame to what is drawn, mm.
const INSIDE: f64 = 3.0;
/// Width of a roll's largest sheet, A0 (ISO 216), mm.
const A0: (f64, f64) = (841.0, 1189.0);

/// A sheet of paper as it lies before the reader.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Format {
    pub(super) width: f64,
    pub(super) height: f64,
    /// Named on the sheet.
    pub(super) paper: &'static Paper,
}

impl Format {
    /// Both ways of laying the paper, upright and level. From a roll a sheet of A0 is cut.
    pub(super) fn both(paper: &'static Paper) -> [Self; 2] {
        let (short, long) = paper.long.map_or(A0, |long| (paper.short, long));
        [Self { width: short, height: long, paper }, Self { width: long, height: short, paper }]
    }

    pub(super) fn name(&self) -> &'static str {
        if self.paper.long.is_none() { "A0" } else { self.paper.label }
    }

    pub(super) fn frame(&self) -> Rect {
        Rect::new(FILING, EDGE, self.width - EDGE, self.height - EDGE)
    }

    /// Where the drawing may stand above a strip of `below` mm.
    pub(super) fn field(&self, below: f64) -> Rect {
        let frame = self.frame();
        Rect::new(frame.x0 + INSIDE, frame.y0 + INSIDE, frame.x1 - INSIDE, frame.y1 - below - INSIDE)
    }

    /// The frame with its four centring marks.
    pub(super) fn border(&self) -> Ink {
        let frame = self.frame();
        let mut ink = Ink::default();
        let corners =
            [(frame.x0, frame.y0), (frame.x1, frame.y0), (frame.x1, frame.y1), (frame.x0, frame.y1)];
        ink.take(frame);
        ink.items.push(wide(vec![pens::closed(&corners.map(Point::from))], FRAME));
        let (x, y) = (self.width / 2.0, self.height / 2.0);
        let marks = [
            [Point::new(x, EDGE / 2.0), Point::new(x, frame.y0 + MARK)],
            [Point::new(x, self.height - EDGE / 2.0), Point::new(x, frame.y1)],
            [Point::new(EDGE / 2.0, y), Point::new(frame.x0 + MARK, y)],
            [Point::new(self.width - EDGE / 2.0, y), Point::new(frame.x1 - MARK, y)],
        ];
        ink.items.push(wide(marks.iter().map(|ends| pens::open(ends)).collect(), FRAME));
        ink.named(vec![("layer", "frame".to_owned())])
    }
}

fn wide(traces: Vec<crestrail_sheet::Trace>, width: f64) -> Item {
    let stroke = Stroke { width, ..Pen::Outline.stroke() };
    Item::Path(Path { traces, fill: None, stroke: Some(stroke) })
}

/// The largest scale at which what is drawn finds room on the paper, how the paper then lies, and which larger scale that
/// was tried found none. At the same scale paper lies level before it stands upright. Where no scale serves, the smallest
/// is taken and the second value is false.
pub(super) fn chosen<T>(
    paper: &'static Paper,
    scales: &[u32],
    below: f64,
    make: impl Fn(u32) -> (T, Size),
) -> (T, u32, Format, bool) {
    let [upright, level] = Format::both(paper);
    let mut last = None;
    for &scale in scales {
        let (made, size) = make(scale);
        for format in [level, upright] {
            let field = format.field(below);
            if size.width <= field.width() && size.height <= field.height() {
                return (made, scale, format, true);
            }
        }
        last = Some((made, scale));
    }
    let (made, scale) = last.unwrap_or_else(|| (make(1).0, 1));
    (made, scale, level, false)
}
