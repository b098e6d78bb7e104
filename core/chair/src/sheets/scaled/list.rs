//! The parts list of a drawing (ISO 7573; from memory): one row a letter, in columns under a heading.

use super::super::pens::{self, Pen};
use super::ink::{Ink, Words};
use crate::chair::Chair;
use crate::length::Lengths;
use crestrail_sheet::Align;
use crestrail_sorting::Order as _;
use kurbo::Point;

/// A row: letter, how many, name, what it is made of, size with its tenons.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct PartRow {
    /// The part's letter.
    pub(super) letter: String,
    /// How many of it.
    pub(super) count: usize,
    /// What a maker calls it.
    pub(super) name: String,
    /// Timber or other material.
    pub(super) material: &'static str,
    /// Length, width and thickness over all, tenons in, mm.
    pub(super) size: [f64; 3],
}

/// Size of letters where all cells of a column have room, mm.
const LETTERS: f64 = 3.0;
/// Height of a row, mm.
const ROW: f64 = 5.0;
/// Widths of the columns, mm.
const COLUMNS: [(&str, f64); 5] =
    [("Item", 16.0), ("No.", 10.0), ("Name", 40.0), ("Material", 40.0), ("Length × width × thickness", 66.0)];
/// More rows leave no room for the picture on a small paper: what is alike but for its sizes is then one row.
const MOST: usize = 24;

/// All letters in order; parts alike share a row.
fn rows(chair: &Chair) -> Vec<PartRow> {
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
    rows.order_by_key(key);
    rows
}

/// The rows as they are written: letter, how many, name, material, size.
fn written(rows: &[PartRow], lengths: Lengths) -> Vec<[String; 5]> {
    let alike = |a: &PartRow, b: &PartRow| rows.len() > MOST && a.name == b.name && a.material == b.material;
    rows.chunk_by(alike).map(|run| cells(run, lengths)).collect()
}

fn cells(run: &[PartRow], lengths: Lengths) -> [String; 5] {
    let (first, last) = (&run[0], &run[run.len() - 1]);
    let letter =
        if run.len() > 1 { format!("{}–{}", first.letter, last.letter) } else { first.letter.clone() };
    let count: usize = run.iter().map(|row| row.count).sum();
    let size = [0, 1, 2].map(|axis| {
        let all = || run.iter().map(|row| row.size[axis]);
        let [low, high] =
            [all().fold(f64::INFINITY, f64::min), all().fold(0.0, f64::max)].map(|v| lengths.write(v));
        if low == high { low } else { format!("{low} to {high}") }
    });
    [letter, count.to_string(), first.name.clone(), first.material.to_owned(), size.join(" × ")]
}

/// Width of the list, mm.
pub(super) fn width() -> f64 {
    COLUMNS.iter().map(|column| column.1).sum()
}

/// The list, its upper left corner in the origin.
pub(super) fn list(chair: &Chair, lengths: Lengths) -> Ink {
    let mut ink = Ink::default();
    let rows = written(&rows(chair), lengths);
    let (width, high) = (width(), ROW * (rows.len() + 1) as f64);
    let heads = COLUMNS.map(|column| column.0.to_owned());
    let sizes = [0, 1, 2, 3, 4].map(|column| {
        let cells = rows.iter().chain([&heads]).map(|row| fitted(&row[column], COLUMNS[column].1));
        cells.fold(LETTERS, f64::min)
    });
    line(&mut ink, 0.0, &heads, sizes, true);
    for (i, row) in rows.iter().enumerate() {
        line(&mut ink, ROW * (i + 1) as f64, row, sizes, false);
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

/// The size of letters with which a cell has room in its column, mm.
fn fitted(cell: &str, width: f64) -> f64 {
    (width - 2.5) / pens::length(cell, 1.0).max(1e-9)
}

/// A row; letters of one column are alike from the head to the foot.
fn line(ink: &mut Ink, y: f64, cells: &[String; 5], sizes: [f64; 5], strong: bool) {
    let mut x = 0.0;
    for ((cell, (_, width)), size) in cells.iter().zip(COLUMNS).zip(sizes) {
        let words = Words::new(cell, Point::new(x + 1.5, y + 3.6), Align::Start).sized(size);
        ink.words(&if strong { words.strong() } else { words });
        x += width;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(letter: &str, length: f64) -> PartRow {
        let name = if letter.starts_with('J') { "seat slat" } else { "leg" }.to_owned();
        PartRow { letter: letter.to_owned(), count: 2, name, material: "ash", size: [length, 40.0, 16.0] }
    }

    #[test]
    fn long_lists_put_together_what_is_alike_but_for_its_sizes() {
        let mut rows = vec![row("A", 400.0)];
        rows.extend((1..=30).map(|i| row(&format!("J{i}"), 300.0 + f64::from(i))));
        let cells = written(&rows, Lengths::Millimetres);
        assert_eq!(cells[0], ["A", "2", "leg", "ash", "400 × 40 × 16"]);
        assert_eq!(cells[1], ["J1–J30", "60", "seat slat", "ash", "301 to 330 × 40 × 16"]);
        assert_eq!(written(&rows[..5], Lengths::Millimetres).len(), 5);
    }
}
