//! Labels to print, cut out and tie or stick to the parts: letter, name, size, and where the marked faces look.

use super::blank::Blank;
use super::signs;
use super::subject::Subject;
use super::table::{Block, SMALL};
use crate::chair::Chair;
use crate::length::Lengths;
use crate::part::Part;
use crate::sheets::pens::{self, Pen};
use crate::sheets::template::may_have_one;
use crestrail_geometry::Vec3;
use crestrail_sheet::{Align, Item, Weight};
use kurbo::{Point, Rect, Vec2};

/// A label, mm, and how many stand beside each other.
const SIZE: (f64, f64) = (63.0, 27.0);
const BESIDE: usize = 3;
/// Size of the letter, mm (ISO 3098-1, nominal size).
const LETTER: f64 = 7.0;

/// Rows of labels, one label for each part.
pub(super) fn rows(chair: &Chair, lengths: Lengths) -> Vec<Block> {
    let own: Vec<(&Part, Blank)> = chair
        .pieces()
        .filter(|(part, _)| may_have_one(part))
        .map(|(part, body)| (part, Blank::of(chair, part, body)))
        .collect();
    own.chunks(BESIDE).map(|row| block(row, lengths)).collect()
}

fn block(row: &[(&Part, Blank)], lengths: Lengths) -> Block {
    let mut items = Vec::new();
    for (i, (part, blank)) in row.iter().enumerate() {
        let by = Vec2::new(i as f64 * SIZE.0, 0.0);
        items.extend(label(part, blank, lengths).iter().map(|item| item.moved(by)));
    }
    Block { width: row.len() as f64 * SIZE.0, height: SIZE.1, items }
}

fn label(part: &Part, blank: &Blank, lengths: Lengths) -> Vec<Item> {
    let frame = Rect::new(0.0, 0.0, SIZE.0, SIZE.1);
    let corners = [(frame.x0, frame.y0), (frame.x1, frame.y0), (frame.x1, frame.y1), (frame.x0, frame.y1)];
    let size = [blank.length, part.size.width, part.size.thickness].map(|v| lengths.write(v)).join(" × ");
    let line =
        |text: &str, y: f64, weight| pens::words(text, Point::new(3.0, y), Align::Start, SMALL, weight);
    let items = vec![
        pens::lines(vec![pens::closed(&corners.map(Point::from))], Pen::Hidden),
        pens::words(&part.letter, Point::new(3.0, 8.5), Align::Start, LETTER, Weight::Medium),
        pens::words(
            &super::capital(&part.id.to_string()),
            Point::new(3.0, 13.2),
            Align::Start,
            3.5,
            Weight::Medium,
        ),
        line(&format!("{size} {}", lengths.unit()), 17.2, Weight::Regular),
        signs::face_side(5.0, 21.2, false, 0.45),
        pens::words(
            &format!("face side {}", looks(blank.faces[0].normal)),
            Point::new(9.0, 21.2),
            Align::Start,
            SMALL,
            Weight::Regular,
        ),
        signs::face_edge(5.0, 22.6, true, 0.6),
        pens::words(
            &format!("face edge {}", looks(blank.faces[1].normal)),
            Point::new(9.0, 25.0),
            Align::Start,
            SMALL,
            Weight::Regular,
        ),
    ];
    vec![pens::group("label", part.id.to_string(), items)]
}

/// Where a direction points in the chair, as its sitter says it.
fn looks(direction: Vec3) -> &'static str {
    let ways = [
        (direction.x, "to the right"),
        (-direction.x, "to the left"),
        (-direction.y, "to the front"),
        (direction.y, "to the back"),
        (direction.z, "up"),
        (-direction.z, "down"),
    ];
    ways.into_iter().fold(ways[0], |best, way| if way.0 > best.0 { way } else { best }).1
}

/// Where the face side and the face edge of a part look, as a sentence.
pub(super) fn faces(subject: &Subject<'_>) -> String {
    let faces = &subject.marked.blank.faces;
    format!(
        "In the chair the face side looks {}, the face edge {}.",
        looks(faces[0].normal),
        looks(faces[1].normal)
    )
}
