//! Lists of points, and of names with their values.

use super::{Piece, Type, length, paragraph};
use crate::{Align, Faces};
use kurbo::Vec2;

/// From the dot to its words, as a share of the size of the letters.
const INDENT: f64 = 1.2;
/// Between points, as a share of the size of the letters.
const BETWEEN: f64 = 0.35;
/// From a name to its value, mm.
const GAP: f64 = 4.0;

/// A list with a dot before each point.
pub fn points(lines: &[String], width: f64, kind: &Type, faces: &Faces) -> Vec<Piece> {
    let indent = INDENT * kind.size;
    let point = |line: &String| {
        let mut set = paragraph(line, width - indent, kind, faces);
        for piece in &mut set {
            piece.items = piece.items.iter().map(|item| item.moved(Vec2::new(indent, 0.0))).collect();
        }
        if let Some(first) = set.first_mut() {
            first.above = BETWEEN * kind.size;
            first.items.insert(0, kind.words("•", 0.0, 0.0, Align::Start));
        }
        set
    };
    lines.iter().flat_map(point).collect()
}

/// Names in a column, their values beside them.
pub fn pairs(rows: &[(String, String)], width: f64, [name, value]: [&Type; 2], faces: &Faces) -> Piece {
    let longest = rows.iter().map(|row| length(&row.0, name, faces)).fold(0.0, f64::max);
    let at = (longest + GAP).min(width / 2.0);
    let row = |(what, much): &(String, String)| {
        let what = Piece::joined(paragraph(what, at - GAP / 2.0, name, faces));
        let much = Piece::joined(paragraph(much, width - at, value, faces));
        super::beside(what, &much, at, Align::Start).below(0.1 * value.size)
    };
    Piece::joined(rows.iter().map(row))
}
