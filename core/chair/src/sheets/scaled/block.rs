//! The title block with the fields of ISO 7200 (from memory): who owns the drawing, its number, day, title, who made and
//! approved it, what kind of document it is, which sheet of how many; beside them scale, paper and projection.

use super::super::pens::{self, Pen};
use super::format::Format;
use super::ink::{Ink, Words};
use super::views::Projection;
use crestrail_sheet::Align;
use kurbo::{Point, Rect, Vec2};

/// ISO 7200 asks for 180 mm, which also fills the frame of an upright A4.
pub(super) const WIDTH: f64 = 180.0;
const ROW: f64 = 10.0;
pub(super) const HEIGHT: f64 = 3.0 * ROW;

/// Letters of captions, and the least for what stands under them, mm.
const CAPTION: f64 = 2.5;
const LEAST: f64 = 2.6;

/// What is written in the block; what is empty is left free for the pen.
#[derive(Clone, Copy, Debug, Default)]
pub struct Label<'a> {
    /// The design's name.
    pub title: &'a str,
    /// Whose drawing it is.
    pub owner: &'a str,
    /// By which it is told from others.
    pub number: &'a str,
    /// The day of issue.
    pub date: &'a str,
}

/// One sheet's own entries.
pub(super) struct Entries<'a> {
    pub(super) label: &'a Label<'a>,
    pub(super) subject: &'a str,
    pub(super) kind: &'a str,
    pub(super) lengths: String,
    pub(super) scale: String,
    pub(super) sheet: (usize, usize),
    pub(super) projection: Projection,
}

pub(super) fn block(format: &Format, entries: &Entries<'_>) -> Ink {
    let frame = format.frame();
    let corner = Point::new(frame.x1 - WIDTH, frame.y1 - HEIGHT);
    let (label, (sheet, sheets)) = (entries.label, entries.sheet);
    let title = if label.title.is_empty() { "Chair" } else { label.title };
    let of = format!("{sheet} of {sheets}");
    let rows: [&[(&str, f64, &str)]; 3] = [
        &[("Legal owner", 60.0, label.owner), ("Title", 80.0, title), ("Number", 40.0, label.number)],
        &[
            ("Made by", 40.0, ""),
            ("Approved by", 40.0, ""),
            ("Supplementary title", 60.0, entries.subject),
            ("Date of issue", 40.0, label.date),
        ],
        &[
            ("Document type", 50.0, entries.kind),
            ("Scale", 24.0, &entries.scale),
            ("Projection", 26.0, ""),
            ("Lengths", 20.0, &entries.lengths),
            ("Paper", 20.0, format.name()),
            ("Sheet", 20.0, &of),
            ("Rev.", 20.0, ""),
        ],
    ];
    let mut ink = Ink::default();
    let outside = Rect::new(corner.x, corner.y, frame.x1, frame.y1);
    ink.lines(
        vec![pens::closed(
            &[
                (outside.x0, outside.y0),
                (outside.x1, outside.y0),
                (outside.x1, outside.y1),
                (outside.x0, outside.y1),
            ]
            .map(Point::from),
        )],
        Pen::Outline,
    );
    for (row, fields) in rows.iter().enumerate() {
        let y = corner.y + ROW * row as f64;
        if row > 0 {
            ink.line(Point::new(corner.x, y), Point::new(frame.x1, y), Pen::Thin);
        }
        let mut x = corner.x;
        for (i, (caption, width, value)) in fields.iter().enumerate() {
            if i > 0 {
                ink.line(Point::new(x, y), Point::new(x, y + ROW), Pen::Thin);
            }
            let at = Point::new(x, y);
            field(&mut ink, at, *width, caption, value);
            if *caption == "Projection" {
                symbol(&mut ink, at + Vec2::new(width / 2.0 + 2.0, 6.9), entries.projection);
            }
            x += width;
        }
    }
    ink.named(vec![("layer", "title".to_owned())])
}

fn field(ink: &mut Ink, at: Point, width: f64, caption: &str, value: &str) {
    ink.words(&Words::new(caption, at + Vec2::new(1.5, 3.0), Align::Start).sized(CAPTION));
    let room = width - 3.0;
    let (text, size) = fitted(value, room);
    if !text.is_empty() {
        ink.words(&Words::new(&text, at + Vec2::new(1.5, 7.8), Align::Start).sized(size));
    }
}

/// The text in letters small enough for the room; cut off with a sign where even the least are too large.
fn fitted(text: &str, room: f64) -> (String, f64) {
    let long = pens::length(text, 1.0).max(1e-9);
    let size = (room / long).min(pens::LETTERS);
    if size >= LEAST {
        return (text.to_owned(), size);
    }
    let mut short = text.to_owned();
    while !short.is_empty() && pens::length(&short, LEAST) + pens::length("…", LEAST) > room {
        short.pop();
    }
    short.push('…');
    (short, LEAST)
}

/// The sign of the projection: a cone's frustum from the side, and its two circles on that side which the projection
/// gives to what is seen from the left (ISO 5456-2).
fn symbol(ink: &mut Ink, at: Point, projection: Projection) {
    const LONG: f64 = 5.0;
    const SMALL: f64 = 1.1;
    const LARGE: f64 = 2.2;
    // How far axes go on past the circles.
    const PAST: f64 = 0.6;
    let side = if projection == Projection::FirstAngle { 1.0 } else { -1.0 };
    let (cone, circles) = (at - Vec2::new(side * 4.2, 0.0), at + Vec2::new(side * 4.2, 0.0));
    let corner = |x: f64, y: f64| cone + Vec2::new(x, y);
    let half = LONG / 2.0;
    let frustum = [corner(-half, -SMALL), corner(half, -LARGE), corner(half, LARGE), corner(-half, SMALL)];
    ink.lines(vec![pens::closed(&frustum)], Pen::Outline);
    ink.ring(circles, SMALL, Pen::Outline);
    ink.ring(circles, LARGE, Pen::Outline);
    let across = Vec2::new(LARGE + PAST, 0.0);
    ink.line(cone - across * 1.1, cone + across * 1.1, Pen::Axis);
    ink.line(circles - across, circles + across, Pen::Axis);
    ink.line(circles - Vec2::new(0.0, LARGE + PAST), circles + Vec2::new(0.0, LARGE + PAST), Pen::Axis);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_names_are_written_small_and_then_cut() {
        assert_eq!(fitted("Chair", 60.0), ("Chair".to_owned(), pens::LETTERS));
        let (text, size) = fitted(&"x".repeat(30), 50.0);
        assert!(text.len() == 30 && size < pens::LETTERS && pens::length(&text, size) <= 50.0 + 1e-9);
        let (text, size) = fitted(&"x".repeat(60), 50.0);
        assert!(text.ends_with('…') && pens::length(&text, size) <= 50.0);
    }
}
