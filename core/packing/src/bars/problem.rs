//! What is asked of the bars, checked.

use crate::refused::Refused;
use crate::units::{self, Hundredths, MOST, down, gcd, millimetres, up};

/// One kind of bar on offer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bar {
    /// Length, mm.
    pub length: f64,
    /// Price of one, minor units; zero for what is already there.
    pub price: i64,
    /// How many there are; nothing for as many as wanted.
    pub count: Option<u32>,
}

/// Pieces of one length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Length, mm.
    pub length: f64,
    /// How many.
    pub count: u32,
}

/// Pieces to cut from bars. Between neighbours a kerf is lost, off both ends of each bar a trim.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    pub(super) bars: Vec<Bar>,
    pub(super) pieces: Vec<Piece>,
    /// Kerf, hundredths of a millimetre.
    pub(super) kerf: Hundredths,
    /// What pieces and kerfs may take up on each bar: its length less trims, plus the kerf that the last
    /// piece does not need.
    pub(super) rooms: Vec<Hundredths>,
    /// Length and kerf of each piece.
    pub(super) weights: Vec<Hundredths>,
}

impl Problem {
    /// Checks the sizes. A piece longer than every bar is refused; more pieces than the stock gives are
    /// not, for a plan can say what is missing.
    pub fn new(bars: &[Bar], pieces: &[Piece], kerf: f64, trim: f64) -> Result<Self, Refused> {
        let kerf = up(units::allowance("kerf", kerf)?);
        let trim = up(units::allowance("trim", trim)?);
        for (i, bar) in bars.iter().enumerate() {
            units::size(&format!("bars[{i}].length"), bar.length)?;
            units::price(&format!("bars[{i}].price"), bar.price)?;
        }
        for (i, piece) in pieces.iter().enumerate() {
            units::size(&format!("pieces[{i}].length"), piece.length)?;
        }
        units::total(pieces.iter().map(|p| p.count))?;
        let rooms: Vec<Hundredths> = bars.iter().map(|b| down(b.length) - 2 * trim + kerf).collect();
        let weights: Vec<Hundredths> = pieces.iter().map(|p| up(p.length) + kerf).collect();
        let problem = Self { bars: bars.to_vec(), pieces: pieces.to_vec(), kerf, rooms, weights };
        problem.all_fit().map(|()| problem)
    }

    /// The bars on offer.
    pub fn bars(&self) -> &[Bar] {
        &self.bars
    }

    /// The pieces asked for.
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// Pieces and rooms in the largest unit in which all are whole.
    pub(super) fn in_units(&self) -> (Vec<i64>, Vec<i64>) {
        let unit = self.weights.iter().fold(0, |g, &w| gcd(g, w)).max(1);
        // A room may be rounded down to whole units, for fillings are whole.
        (
            self.weights.iter().map(|w| w / unit).collect(),
            self.rooms.iter().map(|r| r.max(&0) / unit).collect(),
        )
    }

    /// How many of each bar could be used at most.
    pub(super) fn limits(&self) -> Vec<u32> {
        let pieces: u32 = self.pieces.iter().map(|p| p.count).sum();
        self.bars.iter().map(|b| b.count.unwrap_or(MOST).min(pieces)).collect()
    }

    fn all_fit(&self) -> Result<(), Refused> {
        let Some(i) = (0..self.pieces.len()).find(|&i| self.rooms.iter().all(|&r| self.weights[i] > r))
        else {
            return Ok(());
        };
        let place = format!("pieces[{i}].length");
        let Some(longest) = self.rooms.iter().max() else {
            return Err(Refused::new(place, "There is no bar to cut it from."));
        };
        let (length, over) = (self.pieces[i].length, millimetres(self.weights[i] - longest));
        let usable = millimetres(longest - self.kerf);
        Err(Refused::new(
            place,
            format!(
                "The piece is {length} mm long, {over} mm longer than the longest bar gives ({usable} mm without its trims)."
            ),
        ))
    }
}
