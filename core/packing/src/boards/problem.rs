//! What is asked of the boards, checked.

use crate::refused::Refused;
use crate::units::{self, Hundredths, MOST, down, millimetres, up};

/// One kind of board on offer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Board {
    /// Length along the grain, mm.
    pub length: f64,
    /// Width, mm.
    pub width: f64,
    /// Price of one, minor units; zero for what is already there.
    pub price: i64,
    /// How many there are; nothing for as many as wanted.
    pub count: Option<u32>,
}

/// Pieces of one size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Length, mm; along the grain where that matters.
    pub length: f64,
    /// Width, mm.
    pub width: f64,
    /// How many.
    pub count: u32,
    /// Whether its length must lie along the board.
    pub grain: bool,
}

/// What is taken off every board, mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Trim {
    /// Off each end.
    pub end: f64,
    /// Off each edge.
    pub edge: f64,
}

/// Length and width in hundredths, a kerf added to both.
pub(super) type Size = [Hundredths; 2];

/// Rectangles to saw from boards by cuts that go right through.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    pub(super) boards: Vec<Board>,
    pub(super) pieces: Vec<Piece>,
    pub(super) kerf: Hundredths,
    pub(super) trim: Trim,
    /// What pieces with their kerfs may take up: the trimmed board and one kerf each way.
    pub(super) rooms: Vec<Size>,
    pub(super) sizes: Vec<Size>,
    /// A rest of this size is worth keeping.
    pub(super) worth: Size,
}

impl Problem {
    /// Checks the sizes. A piece that is too large for every board is refused.
    pub fn new(boards: &[Board], pieces: &[Piece], kerf: f64, trim: Trim) -> Result<Self, Refused> {
        let kerf = up(units::allowance("kerf", kerf)?);
        let end = up(units::allowance("trim.end", trim.end)?);
        let edge = up(units::allowance("trim.edge", trim.edge)?);
        for (i, board) in boards.iter().enumerate() {
            units::size(&format!("boards[{i}].length"), board.length)?;
            units::size(&format!("boards[{i}].width"), board.width)?;
            units::price(&format!("boards[{i}].price"), board.price)?;
        }
        for (i, piece) in pieces.iter().enumerate() {
            units::size(&format!("pieces[{i}].length"), piece.length)?;
            units::size(&format!("pieces[{i}].width"), piece.width)?;
        }
        units::total(pieces.iter().map(|p| p.count))?;
        let room = |b: &Board| [down(b.length) - 2 * end + kerf, down(b.width) - 2 * edge + kerf];
        let size = |p: &Piece| [up(p.length) + kerf, up(p.width) + kerf];
        let problem = Self {
            boards: boards.to_vec(),
            pieces: pieces.to_vec(),
            kerf,
            trim,
            rooms: boards.iter().map(room).collect(),
            sizes: pieces.iter().map(size).collect(),
            worth: [0, 0],
        };
        (0..pieces.len()).try_for_each(|p| problem.fits_somewhere(p)).map(|()| problem)
    }

    /// Among plans that cost the same, one is preferred that leaves most in parts of this length and width, mm.
    pub fn keeping(mut self, length: f64, width: f64) -> Result<Self, Refused> {
        let size = |place: &str, mm: f64| units::least(place, mm).map(|mm| up(mm) + self.kerf);
        self.worth = [size("keep.length", length)?, size("keep.width", width)?];
        Ok(self)
    }

    /// The boards on offer.
    pub fn boards(&self) -> &[Board] {
        &self.boards
    }

    /// The pieces asked for.
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// How many of each board could be used at most.
    pub(super) fn limits(&self) -> Vec<u32> {
        let pieces: u32 = self.pieces.iter().map(|p| p.count).sum();
        self.boards.iter().map(|b| b.count.unwrap_or(MOST).min(pieces)).collect()
    }

    fn fits_somewhere(&self, piece: usize) -> Result<(), Refused> {
        let place = format!("pieces[{piece}]");
        let ways = ways(self.sizes[piece], self.pieces[piece].grain);
        let over = ways.iter().flat_map(|s| self.rooms.iter().map(move |r| [s[0] - r[0], s[1] - r[1]]));
        let Some(least) = over.min_by_key(|o| o[0].max(o[1])) else {
            return Err(Refused::new(place, "There is no board to saw it from."));
        };
        if least[0] <= 0 && least[1] <= 0 {
            return Ok(());
        }
        let side = |v: Hundredths, what: &str| (v > 0).then(|| format!("{} mm too {what}", millimetres(v)));
        let why: Vec<String> =
            [side(least[0], "long"), side(least[1], "wide")].into_iter().flatten().collect();
        Err(Refused::new(
            place,
            format!("The piece is {} for the board that suits it best.", why.join(" and ")),
        ))
    }
}

/// The ways a piece may lie: as it is, and turned by a quarter where the grain allows.
pub(super) fn ways(size: Size, grain: bool) -> Vec<Size> {
    if grain || size[0] == size[1] { vec![size] } else { vec![size, [size[1], size[0]]] }
}
