//! Answers of the solvers that are known already.
//!
//! A knob that is moved leaves most pieces as they were, and an order asks for the same class at several places; the
//! solvers give the same answer to the same question, so the last ones are kept. Nothing but time depends on it.

use super::{Bench, Sawing};
use crate::plan::pieces::Piece;
use crate::plan::stand::Stand;
use core::cell::RefCell;

/// All that an answer for a price depends on.
#[derive(Clone, Debug, PartialEq)]
struct Question {
    pieces: Vec<Wanted>,
    stands: Vec<Stand>,
    trims: [f64; 2],
    kerf: f64,
    worth: [f64; 2],
}

/// What a solver knows of a piece.
#[derive(Clone, Debug, PartialEq)]
struct Wanted {
    count: u32,
    size: [f64; 2],
    outline: Option<Vec<kurbo::Point>>,
}

impl Wanted {
    fn is(&self, piece: &Piece) -> bool {
        self.count == piece.count && self.size == [piece.length, piece.width] && self.outline == piece.outline
    }
}

impl Question {
    fn of(bench: &Bench<'_>) -> Self {
        let wanted =
            |p: &Piece| Wanted { count: p.count, size: [p.length, p.width], outline: p.outline.clone() };
        Self {
            pieces: bench.pieces.iter().map(wanted).collect(),
            stands: bench.stands.to_vec(),
            trims: bench.trims,
            kerf: bench.kerf,
            worth: bench.worth,
        }
    }

    fn is(&self, bench: &Bench<'_>) -> bool {
        self.pieces.len() == bench.pieces.len()
            && self.pieces.iter().zip(bench.pieces).all(|(wanted, piece)| wanted.is(piece))
            && self.stands == bench.stands
            && self.trims == bench.trims
            && self.kerf == bench.kerf
            && self.worth == bench.worth
    }
}

/// Answers kept: those of a chair and of its price breaks, some of them before and after a knob was moved.
const KEPT: usize = 48;

thread_local! {
    /// The last asked for first.
    static KNOWN: RefCell<Vec<(Question, Sawing)>> = const { RefCell::new(Vec::new()) };
}

/// The answer, if it was given before.
pub(super) fn recall(bench: &Bench<'_>) -> Option<Sawing> {
    KNOWN.with_borrow_mut(|known| {
        let at = known.iter().position(|(question, _)| question.is(bench))?;
        known[..=at].rotate_right(1);
        Some(known[0].1.clone())
    })
}

/// Keeps an answer.
pub(super) fn keep(bench: &Bench<'_>, sawing: &Sawing) {
    KNOWN.with_borrow_mut(|known| {
        known.truncate(KEPT - 1);
        known.insert(0, (Question::of(bench), sawing.clone()));
    });
}
