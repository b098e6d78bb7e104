//! Tables.

use super::{Piece, Type, length, paragraph, rule};
use crate::{Align, Colour, Faces};
use kurbo::Vec2;
use std::rc::Rc;

/// A column.
#[derive(Clone, Debug)]
pub struct Column {
    /// What stands above it.
    pub head: String,
    /// Numbers stand at its right end and are never broken; words stand at its left end.
    pub numbers: bool,
}

/// A cell: words, and perhaps a line of small print below them.
#[derive(Clone, Debug, Default)]
pub struct Cell {
    /// Its words.
    pub words: String,
    /// The small print; may be empty.
    pub note: String,
}

impl Cell {
    /// Words alone.
    pub fn of(words: impl Into<String>) -> Self {
        Self { words: words.into(), note: String::new() }
    }
}

/// How a table looks.
#[derive(Clone, Copy, Debug)]
pub struct Rows {
    /// All of it, mm.
    pub width: f64,
    /// The columns' heads.
    pub head: Type,
    /// The cells.
    pub cell: Type,
    /// Small print.
    pub note: Type,
    /// The lines between rows.
    pub line: Colour,
}

/// Between columns, mm.
const GAP: f64 = 4.0;
/// Above and below the words of a row, mm.
const PAD: f64 = 0.9;
/// Thickness of the lines between rows, and of the one below the heads, mm.
const HAIR: f64 = 0.1;
const THIN: f64 = 0.25;

/// A table; its head comes again on each page on which it goes on. The last `foot` rows are sums: bold, without a line
/// below, on one page with the row above them.
pub fn table(columns: &[Column], rows: &[Vec<Cell>], foot: usize, looks: &Rows, faces: &Faces) -> Vec<Piece> {
    let set = Set { columns, looks, faces, widths: widths(columns, rows, foot, looks, faces) };
    let heads: Vec<Cell> = columns.iter().map(|column| Cell::of(&column.head)).collect();
    let ink = looks.cell.colour;
    let head = Rc::new(set.row(&heads, &looks.head, Some((THIN, ink))).kept());
    let body = rows.len() - foot.min(rows.len());
    let mut pieces = vec![Piece::clone(&head)];
    for (i, row) in rows.iter().enumerate() {
        let kind = if i < body { looks.cell } else { Type { weight: looks.head.weight, ..looks.cell } };
        let line = if i + 1 == body && foot > 0 { (THIN, ink) } else { (HAIR, looks.line) };
        let piece = Piece { head: Some(Rc::clone(&head)), ..set.row(row, &kind, (i < body).then_some(line)) };
        // Neither the first row nor the sums stand alone.
        let tied = i + 1 >= body && i + 1 < rows.len();
        pieces.push(if tied { piece.kept() } else { piece });
    }
    pieces
}

struct Set<'a> {
    columns: &'a [Column],
    looks: &'a Rows,
    faces: &'a Faces,
    widths: Vec<f64>,
}

impl Set<'_> {
    fn row(&self, cells: &[Cell], kind: &Type, line: Option<(f64, Colour)>) -> Piece {
        let mut whole = Piece::default();
        let mut x = 0.0;
        for ((cell, column), &width) in cells.iter().zip(self.columns).zip(&self.widths) {
            let piece = self.cell(cell, column, kind, width);
            whole.items.extend(piece.items.iter().map(|item| item.moved(Vec2::new(x, PAD))));
            whole.height = whole.height.max(piece.height + 2.0 * PAD);
            x += width + GAP;
        }
        if let Some((thickness, colour)) = line {
            let line = rule(self.looks.width, thickness, colour);
            let by = Vec2::new(0.0, whole.height);
            whole.items.extend(line.items.iter().map(|item| item.moved(by)));
            whole.height += thickness;
        }
        whole
    }

    fn cell(&self, cell: &Cell, column: &Column, kind: &Type, width: f64) -> Piece {
        if column.numbers {
            return Piece::of(kind.line(), vec![kind.words(&cell.words, width, 0.0, Align::End)]);
        }
        let mut set = paragraph(&cell.words, width, kind, self.faces);
        if !cell.note.is_empty() {
            set.extend(paragraph(&cell.note, width, &self.looks.note, self.faces));
        }
        Piece::joined(set)
    }
}

/// Numbers take what they need; words what they would like, and where there is too little they give way in proportion.
fn widths(columns: &[Column], rows: &[Vec<Cell>], foot: usize, looks: &Rows, faces: &Faces) -> Vec<f64> {
    let sums = Type { weight: looks.head.weight, ..looks.cell };
    let body = rows.len() - foot.min(rows.len());
    let wish = |(i, column): (usize, &Column)| {
        let head = length(&column.head, &looks.head, faces);
        let cell = |(row, cells): (usize, &Vec<Cell>)| {
            let kind = if row < body { &looks.cell } else { &sums };
            cells.get(i).map_or(0.0, |cell| length(&cell.words, kind, faces))
        };
        rows.iter().enumerate().map(cell).fold(head, f64::max)
    };
    let wishes: Vec<f64> = columns.iter().enumerate().map(wish).collect();
    let sum = |numbers: bool| -> f64 {
        wishes.iter().zip(columns).filter(|(_, column)| column.numbers == numbers).map(|(wish, _)| wish).sum()
    };
    let gaps = GAP * columns.len().saturating_sub(1) as f64;
    let (room, words) = (looks.width - gaps - sum(true), sum(false));
    let share = (room / words.max(f64::MIN_POSITIVE)).min(1.0);
    let mut widths: Vec<f64> = wishes
        .iter()
        .zip(columns)
        .map(|(wish, column)| if column.numbers { *wish } else { wish * share })
        .collect();
    // Room that nobody needs goes to the widest column of words.
    let words_only = (0..columns.len()).filter(|&i| !columns[i].numbers);
    if let Some(widest) = words_only.reduce(|best, i| if wishes[i] > wishes[best] { i } else { best }) {
        widths[widest] += (room - words).max(0.0);
    }
    widths
}
