//! A sheet as drawing operators.

use super::typeface::Typefaces;
use crate::{Align, Circle, Colour, Fill, Group, Item, Path, Rule, Stroke, Text, Trace, Window};
use crestrail_geometry::math::{cos, radians, sin};
use kurbo::{Point, Vec2};
use pdf_writer::types::{LineCapStyle, LineJoinStyle};
use pdf_writer::{Content, Str};

/// Control points of a quarter of a circle lie this share of the radius along the tangents; the curve then leaves the
/// circle by less than 0.03 % of the radius (4/3 · (√2 − 1)).
const QUARTER: f64 = 0.552_284_749_8;

/// Opacities that were used, of inside and line: each a set of graphics parameters of its own.
#[derive(Default)]
pub(super) struct Opacities(pub(super) Vec<(f64, f64)>);

impl Opacities {
    fn place(&mut self, pair: (f64, f64)) -> usize {
        self.0.iter().position(|known| *known == pair).unwrap_or_else(|| {
            self.0.push(pair);
            self.0.len() - 1
        })
    }

    /// What the parameters at a place are called in the pages' resources.
    pub(super) fn name(place: usize) -> String {
        format!("G{place}")
    }
}

/// Writes one page.
pub(super) struct Pen<'p, 'f> {
    pub(super) content: Content,
    pub(super) faces: &'p mut Typefaces<'f>,
    pub(super) opacities: &'p mut Opacities,
    /// Opacities in force.
    pub(super) opaque: (f64, f64),
}

impl<'p, 'f> Pen<'p, 'f> {
    /// A pen for a page `height` units high, `points` printer's points to a unit: from here on lengths are units, and y
    /// runs down.
    pub(super) fn new(
        faces: &'p mut Typefaces<'f>,
        opacities: &'p mut Opacities,
        height: f64,
        points: f64,
    ) -> Self {
        let mut content = Content::new();
        content.transform([points, 0.0, 0.0, -points, 0.0, height * points].map(|v| v as f32));
        content.set_line_cap(LineCapStyle::RoundCap).set_line_join(LineJoinStyle::RoundJoin);
        Self { content, faces, opacities, opaque: (1.0, 1.0) }
    }

    pub(super) fn items(&mut self, items: &[Item]) {
        items.iter().for_each(|item| self.item(item));
    }

    fn item(&mut self, item: &Item) {
        match item {
            Item::Group(Group { items, .. }) => self.items(items),
            Item::Path(path) => self.path(path),
            Item::Circle(circle) => self.circle(circle),
            Item::Text(text) => self.text(text),
            Item::Window(window) => self.window(window),
        }
    }

    fn window(&mut self, window: &Window) {
        let Window { frame, from, items } = window;
        let opaque = self.opaque;
        self.content.save_state();
        self.content.rect(unit(frame.x0), unit(frame.y0), unit(frame.width()), unit(frame.height()));
        self.content.clip_nonzero().end_path();
        let shift = frame.origin() - *from;
        self.content.transform([1.0, 0.0, 0.0, 1.0, unit(shift.x), unit(shift.y)]);
        self.items(items);
        self.content.restore_state();
        self.opaque = opaque;
    }

    fn path(&mut self, path: &Path) {
        self.looks(path.fill.as_ref(), path.stroke.as_ref());
        path.traces.iter().for_each(|trace| self.trace(trace));
        self.paint(path.fill.as_ref(), path.stroke.as_ref());
    }

    fn trace(&mut self, trace: &Trace) {
        for (i, point) in trace.points.iter().enumerate() {
            let (x, y) = (unit(point.x), unit(point.y));
            if i == 0 {
                self.content.move_to(x, y)
            } else {
                self.content.line_to(x, y)
            };
        }
        if trace.closed && !trace.points.is_empty() {
            self.content.close_path();
        }
    }

    fn circle(&mut self, circle: &Circle) {
        self.looks(circle.fill.as_ref(), circle.stroke.as_ref());
        let Circle { centre, radius, .. } = *circle;
        let start = centre + Vec2::new(radius, 0.0);
        self.content.move_to(unit(start.x), unit(start.y));
        self.quarters(centre, radius);
        self.content.close_path();
        self.paint(circle.fill.as_ref(), circle.stroke.as_ref());
    }

    fn quarters(&mut self, centre: Point, radius: f64) {
        let spokes =
            [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)].map(|(x, y)| Vec2::new(x, y) * radius);
        for i in 0..4 {
            let (from, to) = (spokes[i], spokes[(i + 1) % 4]);
            let points = [from + to * QUARTER, to + from * QUARTER, to].map(|v| centre + v);
            let [a, b, c] = points.map(|p| (unit(p.x), unit(p.y)));
            self.content.cubic_to(a.0, a.1, b.0, b.1, c.0, c.1);
        }
    }

    fn text(&mut self, text: &Text) {
        let length = self.faces.length(&text.words, text.weight) * text.size;
        let back = match text.align {
            Align::Start => 0.0,
            Align::Middle => length / 2.0,
            Align::End => length,
        };
        let (sin, cos) = match text.turn {
            0.0 => (0.0, 1.0),
            turn => (sin(radians(turn)), cos(radians(turn))),
        };
        let start = text.at - Vec2::new(cos, sin) * back;
        let glyphs = self.faces.encode(&text.words, text.weight);
        self.looks(Some(&Fill::solid(text.colour)), None);
        self.content.begin_text();
        self.content.set_font(Typefaces::name(text.weight), unit(text.size));
        // y runs down on the page, so the letters are turned over once more.
        let [right, down] = [cos, sin].map(direction);
        self.content.set_text_matrix([right, down, down, -right, unit(start.x), unit(start.y)]);
        self.content.show(Str(&glyphs)).end_text();
    }

    /// Sets what differs from page to page and from item to item.
    fn looks(&mut self, fill: Option<&Fill>, stroke: Option<&Stroke>) {
        let opaque = (fill.map_or(1.0, |f| f.opacity), stroke.map_or(1.0, |s| s.opacity));
        if opaque != self.opaque {
            let name = Opacities::name(self.opacities.place(opaque));
            self.content.set_parameters(pdf_writer::Name(name.as_bytes()));
            self.opaque = opaque;
        }
        if let Some(fill) = fill {
            let [r, g, b] = shares(fill.colour);
            self.content.set_fill_rgb(r, g, b);
        }
        if let Some(stroke) = stroke {
            let [r, g, b] = shares(stroke.colour);
            self.content.set_stroke_rgb(r, g, b).set_line_width(unit(stroke.width));
            self.content.set_dash_pattern(stroke.dashes.iter().map(|&dash| unit(dash)), 0.0);
        }
    }

    fn paint(&mut self, fill: Option<&Fill>, stroke: Option<&Stroke>) {
        match (fill.map(|f| f.rule), stroke.is_some()) {
            (None, false) => self.content.end_path(),
            (None, true) => self.content.stroke(),
            (Some(Rule::EvenOdd), false) => self.content.fill_even_odd(),
            (Some(Rule::EvenOdd), true) => self.content.fill_even_odd_and_stroke(),
            (Some(Rule::Union), false) => self.content.fill_nonzero(),
            (Some(Rule::Union), true) => self.content.fill_nonzero_and_stroke(),
        };
    }
}

fn shares(colour: Colour) -> [f32; 3] {
    [colour.red, colour.green, colour.blue].map(|c| (f64::from(c) / 255.0 * 1000.0).round() as f32 / 1000.0)
}

/// A share of a direction; a millionth turns a line of text a metre long by a thousandth of a millimetre.
fn direction(share: f64) -> f32 {
    ((share * 1e6).round() / 1e6) as f32
}

/// A length with three decimals: a thousandth of a millimetre on a page in millimetres.
fn unit(length: f64) -> f32 {
    ((length * 1000.0).round() / 1000.0) as f32
}
