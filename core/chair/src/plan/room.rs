//! Whether a piece finds room on the boards at hand: whole, in strips, or not at all.

use super::class::ClassPlan;
use super::pieces::{Piece, TOLERANCE};
use super::stand::Stand;
use super::trims;
use crate::shop::Stock;
use crestrail_phrases::{say, word};

/// Width planed away where two strips are glued together, both edges, mm. Common practice, no source.
const JOINTING: f64 = 5.0;

impl ClassPlan {
    /// The piece as it can be sawn from these boards: whole, or in strips. One that is too large is missing, and it is
    /// said by how much. `rim` is kept clear of both edges and both ends together, mm.
    pub(super) fn fitted(
        &mut self,
        piece: Piece,
        stands: &[Stand],
        stock: &Stock,
        rim: f64,
    ) -> Option<Piece> {
        let room = |s: &Stand| s.room(trims(stock)).map(|side| side - rim);
        let [length, width] = needs(&piece);
        let over = |s: &Stand| [length - room(s)[0], width - room(s)[1]];
        if stands.iter().any(|s| over(s).iter().all(|o| *o <= 0.0)) {
            return Some(piece);
        }
        let widest = stands.iter().filter(|s| over(s)[0] <= 0.0).map(|s| room(s)[1]).fold(0.0, f64::max);
        if piece.outline.is_none() && widest > JOINTING + 1.0 {
            let strips = glued(piece, widest);
            self.notes.push(say!(
                "{} ({}) is wider than any board: glue it up from {} strips {} mm wide. Turn and shift the strips until the grain suits.",
                strips.letter, strips.part, strips.strips, strips.width
            ));
            return Some(strips);
        }
        let least = stands.iter().map(over).min_by(|a, b| a[0].max(a[1]).total_cmp(&b[0].max(b[1])))?;
        let [long, wide] = least;
        let longer = (long > 0.0).then(|| say!("{long:.1} mm longer"));
        let wider = (wide > 0.0).then(|| say!("{wide:.1} mm wider"));
        let by: Vec<String> = longer.into_iter().chain(wider).collect();
        self.notes.push(say!(
            "{} ({}) is {} than the board that suits it best gives without its trims. Add a larger board to the stock list, or order the piece.",
            piece.letter,
            piece.part,
            by.join(word(" and "))
        ));
        self.lacks(&piece, piece.count);
        None
    }
}

/// What pieces keep clear of the edges of a board and, likewise, of its ends, both sides together, mm: where one of them is sawn to
/// an outline all lie among outlines, and the planks' solver keeps its tolerance off the rims.
pub(super) fn rim(pieces: &[Piece]) -> f64 {
    if pieces.iter().any(|piece| piece.outline.is_some()) { 2.0 * TOLERANCE } else { 0.0 }
}

/// The room that a piece takes without its kerf.
fn needs(piece: &Piece) -> [f64; 2] {
    match &piece.outline {
        Some(outline) => {
            let high = |of: fn(&kurbo::Point) -> f64| outline.iter().map(of).fold(0.0, f64::max);
            [high(|p| p.x), high(|p| p.y)]
        }
        None => [piece.length, piece.width],
    }
}

/// The piece in the fewest strips of one width that boards `widest` wide give.
fn glued(piece: Piece, widest: f64) -> Piece {
    let strips = ((piece.width - JOINTING) / (widest - JOINTING)).ceil().max(2.0);
    let width = (piece.width + (strips - 1.0) * JOINTING) / strips;
    let width = ((width * 10.0 - 1e-6).ceil() / 10.0).min(widest);
    let strips = strips as u32;
    Piece { width, strips, count: piece.count * strips, ..piece }
}
