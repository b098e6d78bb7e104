//! The cutting list and the list of joints as chapters.

use super::Content;
use super::chapter::Chapter;
use crate::export::sections::{cutting_words, joint_note, joints_words};
use crate::export::set::{AFTER, MUTED, Set, TITLE, columns};
use crate::export::table::tenths;
use crate::length::Lengths;
use crate::lists::{CuttingRow, JointRow};
use crate::refusal::Refusal;
use crestrail_sheet::setting::{Cell, Piece, table};

/// Angles smaller than this are square, degrees.
const SQUARE: f64 = 0.05;

/// What to saw.
pub(super) fn cutting(content: &Content<'_>) -> Result<Vec<Chapter>, Refusal> {
    let heads = ["", "Part", ">No.", ">Length", ">Width", ">Thick", ">Rough", "From", "Timber"];
    let rows: Vec<Vec<Cell>> = {
        let row = |row: &CuttingRow| cutting_row(row, content.book.lengths);
        content.report.cutting_list.iter().map(row).collect()
    };
    let holds = "Each part finished and rough, and the thickness it is sawn from.";
    Ok(vec![listed(content, "Cutting list", holds, &cutting_words(content.book.lengths), &heads, &rows)])
}

/// What to mark and cut the joints by.
pub(super) fn joints(content: &Content<'_>) -> Result<Vec<Chapter>, Refusal> {
    let rows: Vec<Vec<Cell>> = {
        let row = |row: &JointRow| joint_row(row, content.book.lengths);
        content.report.joints.iter().map(row).collect()
    };
    if rows.is_empty() {
        return Ok(vec![Chapter::left_out("Joints", "This chair has no joint with a tenon.")]);
    }
    let heads = ["Joint", ">No.", ">Tenon", ">Shoulders", ">Mortise"];
    let holds = "Each kind of joint once: tenon, shoulders, mortise, pegs, angles, and why it is so.";
    Ok(vec![listed(content, "Joints", holds, &joints_words(content.book.lengths), &heads, &rows)])
}

fn listed(
    content: &Content<'_>,
    title: &'static str,
    holds: &str,
    words: &str,
    heads: &[&str],
    rows: &[Vec<Cell>],
) -> Chapter {
    // Inches with their fractions take the length of the page.
    let frame = content.frame(matches!(content.book.lengths, Lengths::Inches(_)));
    let set = Set { width: frame.room().0, faces: content.faces };
    let mut pieces = set.opening(title, words);
    pieces.extend(table(&columns(heads), rows, 0, &set.rows(), set.faces));
    Chapter::set(title, holds, &pieces, &frame)
}

impl Set<'_> {
    /// The head of a chapter: its title, and what must be known to read it.
    pub(super) fn opening(&self, title: &str, words: &str) -> Vec<Piece> {
        let title = self.words(title, self.width, &TITLE).kept();
        let mut words = self.words(words, self.width, &MUTED).below(AFTER).kept();
        words.height += AFTER;
        vec![title, words]
    }
}

fn cutting_row(row: &CuttingRow, lengths: Lengths) -> Vec<Cell> {
    let CuttingRow { finished, rough, .. } = row;
    let numbers = [
        row.quantity.to_string(),
        lengths.write(finished.length),
        lengths.write(finished.width),
        lengths.write(finished.thickness),
        lengths.rough(&[rough.length, rough.width, rough.thickness]),
    ];
    let mut cells = vec![Cell::of(&row.letter), Cell { words: row.part.to_owned(), note: row.note.clone() }];
    cells.extend(numbers.map(Cell::of));
    cells.extend([row.trade.unwrap_or_default(), row.timber].map(Cell::of));
    cells
}

fn joint_row(row: &JointRow, lengths: Lengths) -> Vec<Cell> {
    let (tenon, around, mortise) = (&row.tenon, &row.shoulders, &row.mortise);
    let shoulders = [around.top, around.bottom, around.front, around.back].map(|v| lengths.write(v));
    let words = format!("{} ({} in {})", row.name, row.letter_guest, row.letter_host);
    vec![
        Cell { words, note: noted(row, lengths) },
        Cell::of(row.quantity.to_string()),
        Cell::of(lengths.by(&[tenon.length, tenon.width, tenon.thickness])),
        Cell::of(shoulders.join(", ")),
        Cell::of(lengths.by(&[mortise.depth, mortise.width, mortise.thickness])),
    ]
}

/// What else must be known of a joint: its particulars, what departs from square, and why it is so.
fn noted(row: &JointRow, lengths: Lengths) -> String {
    let angles = &row.angles;
    let angles = [
        (angles.shoulder_across_width, "shoulder off square across the width"),
        (angles.shoulder_across_thickness, "shoulder off square across the thickness"),
        (angles.tenon_to_grain, "tenon to its grain"),
        (angles.mortise_from_square, "mortise off square to the face"),
    ];
    let mut notes = vec![joint_note(row, lengths)];
    let leaning = angles.into_iter().filter(|(degrees, _)| degrees.abs() >= SQUARE);
    notes.extend(leaning.map(|(degrees, what)| format!("{what} {}°", tenths(degrees.abs()))));
    let why = core::iter::once(row.why.clone()).chain(row.given_way.clone()).filter(|why| !why.is_empty());
    let why: Vec<String> = why.collect();
    let stop = if why.is_empty() { "" } else { ". " };
    format!("{}{stop}{}", notes.join("; "), why.join(" "))
}
