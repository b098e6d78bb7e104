//! A step on a page: its picture, what is done, and what must be known.

use super::{BODY, HEAD, STRONG, WorkSheets};
use crate::drawing::{self, View};
use crate::sheets::pens::{self, Pen};
use crate::work::{Caution, Clamp, WorkStep};
use crestrail_sheet::setting::{Piece, beside};
use crestrail_sheet::{Align, Item};
use kurbo::Point;

/// Side of a step's picture on paper, mm, and in the pixels it is drawn with.
const PICTURE: f64 = 62.0;
const PIXELS: f64 = 215.0;
/// The highest picture, as a share of its width.
const HIGHEST: f64 = 2.5;
/// Between picture and words, mm.
const GUTTER: f64 = 5.0;
/// Between two steps, with the line in the middle, mm.
const BETWEEN: f64 = 5.0;
/// Room of the word in front of what is told, mm.
const HANG: f64 = 17.0;
/// Between what is done and what is told of it, mm.
const GAP: f64 = 1.2;

impl WorkSheets<'_> {
    /// A step as one strip, which is never parted; a line above it.
    pub(super) fn step(&self, step: &WorkStep, width: f64) -> Piece {
        let picture = self.picture(step);
        let left = if picture.is_some() { PICTURE + GUTTER } else { 0.0 };
        let words = Piece::joined(self.words(step, width - left));
        let body = match picture {
            Some(picture) => beside(picture, &words, left, Align::Start),
            None => words,
        };
        let heading = heading(step);
        let line = pens::line(Point::ZERO, Point::new(width, 0.0), Pen::Thin);
        let head = self.said(&heading, width, &HEAD);
        let ruled = Piece::of(BETWEEN / 2.0, vec![line]);
        let mut whole = Piece::joined([ruled, head, body.below(1.0)]).below(BETWEEN / 2.0);
        whole.bookmark = Some(format!("{}. {}", step.number, step.title));
        whole
    }

    fn words(&self, step: &WorkStep, width: f64) -> Vec<Piece> {
        let mut words: Vec<Piece> = step.say.iter().map(|say| self.said(say, width, &BODY)).collect();
        for (i, (what, say)) in lines(step).into_iter().enumerate() {
            let told = self.said(&say, width - HANG, &BODY);
            let named = beside(self.said(what, HANG, &STRONG), &told, HANG, Align::Start);
            words.push(named.below(if i == 0 { GAP } else { 0.0 }));
        }
        words
    }

    /// The step's picture in mm: square, or as high as the letters beside many parts ask for.
    fn picture(&self, step: &WorkStep) -> Option<Piece> {
        let mut view = View { width: PIXELS, height: PIXELS, ..View::default() };
        loop {
            let drawn = drawing::work_step(self.chair, step, &view, self.service)?;
            let ink = drawn.items.iter().filter_map(Item::extent).reduce(|a, b| a.union(b))?;
            let over = (ink.y1 - view.height).max(-ink.y0);
            if over <= 0.0 || view.height >= HIGHEST * PIXELS {
                let scale = PICTURE / PIXELS;
                let items = drawn.items.iter().map(|item| item.scaled(scale)).collect();
                return Some(Piece::of(scale * view.height, items));
            }
            view.height += 2.0 * over + 1.0;
        }
    }
}

/// Such as `4. Front frame (A, C), 12 min`.
pub(super) fn heading(step: &WorkStep) -> String {
    // Titles of what is laid on name their letters themselves.
    let told = step.letters.is_empty() || step.title.contains('(');
    let parts = if told { String::new() } else { format!(" ({})", runs(&step.letters)) };
    let time = step.minutes.map(|m| format!(", {}", spent(m))).unwrap_or_default();
    format!("{}. {}{parts}{time}", step.number, step.title)
}

/// Letters with the numbers that follow each other drawn together: `A, J1 to J8`.
fn runs(letters: &[String]) -> String {
    let parted = |letter: &str| {
        let stem = letter.trim_end_matches(|c: char| c.is_ascii_digit());
        (stem.to_owned(), letter[stem.len()..].parse::<u32>().ok())
    };
    let follows = |a: &String, b: &String| {
        let ((stem, number), (next_stem, next)) = (parted(a), parted(b));
        stem == next_stem && number.is_some() && number.map(|n| n + 1) == next
    };
    let runs = letters.chunk_by(follows).flat_map(|run| match run {
        [first, _, .., last] => vec![format!("{first} to {last}")],
        few => few.to_vec(),
    });
    runs.collect::<Vec<_>>().join(", ")
}

fn spent(minutes: f64) -> String {
    if minutes < 90.0 { format!("{minutes:.0} min") } else { format!("{:.1} h", minutes / 60.0) }
}

/// What is told below the sentences, each with the word in front of it.
fn lines(step: &WorkStep) -> Vec<(&'static str, String)> {
    let mut lines: Vec<(&'static str, String)> = Vec::new();
    if !step.tools.is_empty() {
        lines.push(("Ready", step.tools.join("; ")));
    }
    lines.extend(step.clamps.iter().map(|clamp| ("Clamps", clamped(clamp))));
    lines.extend(step.tapes.iter().map(|tape| ("Square", tape.say.clone())));
    lines.extend(step.checks.iter().map(|check| ("Check", check.clone())));
    lines
        .extend(step.cautions.iter().map(|Caution { say, source }| ("Caution", format!("{say} ({source})"))));
    if let Some(hours) = step.wait_hours {
        lines.push(("Wait", format!("{hours:.0} h before the next step; its maker's data sheet counts.")));
    }
    // The word stands once before lines of one kind.
    let mut before = "";
    for (what, _) in &mut lines {
        let own = *what;
        if own == before {
            *what = "";
        }
        before = own;
    }
    lines
}

fn clamped(clamp: &Clamp) -> String {
    let Clamp { along, letter, count, told, .. } = clamp;
    format!("{count} along the {along} ({letter}), opening {told} without pads")
}
