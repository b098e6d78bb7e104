//! The parts list of a drawing (ISO 7573; from memory): one row a letter, in columns under a heading.

use super::super::pens::{self, Pen};
use super::ink::{Ink, Words};
use crate::chair::Chair;
use crestrail_sheet::Align;
use kurbo::Point;

/// A row: letter, how many, name, what it is made of, size with its tenons.
#[derive(Clone, Debug, PartialEq)]
pub struct PartRow {
    /// The part's letter.
    pub letter: String,
    /// How many of it.
    pub count: usize,
    /// What a maker calls it.
    pub name: String,
    /// Timber or other material.
    pub material: &'static str,
    /// Length, width and thickness over all, tenons in, mm.
    pub size: [f64; 3],
}

/// Height of a row, mm.
const ROW: f64 = 5.0;
/// Widths of the columns, mm.
const COLUMNS: [(&str, f64); 5] =
    [("Item", 14.0), ("No.", 12.0), ("Name", 48.0), ("Material", 46.0), ("Length × width × thickness", 60.0)];

/// All letters in order; parts alike share a row.
pub fn rows(chair: &Chair) -> Vec<PartRow> {
    let mut rows: Vec<PartRow> = Vec::new();
    for (part, body) in chair.pieces() {
        if let Some(row) = rows.iter_mut().find(|row| row.letter == part.letter) {
            row.count += 1;
            continue;
        }
        let size = body.solid.bounds().size();
        rows.push(PartRow {
            letter: part.letter.clone(),
            count: 1,
            name: part.id.role.name().to_owned(),
            material: part.material.name(),
            size: [size.x, size.y, size.z],
        });
    }
    let key = |row: &PartRow| {
        let letters: String = row.letter.chars().filter(|c| c.is_alphabetic()).collect();
        let number: usize =
            row.letter.chars().filter(char::is_ascii_digit).collect::<String>().parse().unwrap_or(0);
        (letters, number)
    };
    rows.sort_by_key(key);
    rows
}

/// Width of the list, mm.
pub(super) fn width() -> f64 {
    COLUMNS.iter().map(|column| column.1).sum()
}

/// The list, its upper left corner in the origin.
pub(super) fn list(chair: &Chair) -> Ink {
    let mut ink = Ink::default();
    let rows = rows(chair);
    let (width, high) = (width(), ROW * (rows.len() + 1) as f64);
    let heads = COLUMNS.map(|column| column.0.to_owned());
    line(&mut ink, 0.0, &heads, true);
    for (i, row) in rows.iter().enumerate() {
        let [length, width, thickness] = row.size.map(pens::mm);
        let cells = [
            row.letter.clone(),
            row.count.to_string(),
            row.name.clone(),
            row.material.to_owned(),
            format!("{length} × {width} × {thickness}"),
        ];
        line(&mut ink, ROW * (i + 1) as f64, &cells, false);
    }
    for row in 0..=rows.len() + 1 {
        let y = ROW * row as f64;
        let pen = if row < 2 || row > rows.len() { Pen::Outline } else { Pen::Thin };
        ink.line(Point::new(0.0, y), Point::new(width, y), pen);
    }
    let mut x = 0.0;
    for step in COLUMNS.map(|column| column.1).into_iter().chain([0.0]) {
        ink.line(Point::new(x, 0.0), Point::new(x, high), Pen::Thin);
        x += step;
    }
    ink.named(vec![("layer", "parts".to_owned())])
}

fn line(ink: &mut Ink, y: f64, cells: &[String; 5], strong: bool) {
    let mut x = 0.0;
    for (cell, (_, width)) in cells.iter().zip(COLUMNS) {
        let words = Words::new(cell, Point::new(x + 1.5, y + 3.6), Align::Start).sized(3.0);
        ink.words(&if strong { words.strong() } else { words });
        x += width;
    }
}
