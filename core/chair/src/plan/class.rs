//! What a plan says of one species and thickness.

use super::stand::Origin;
use crate::money::Money;
use crestrail_timber::Species;
use serde::Serialize;

/// How the boards of one species and thickness are sawn.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ClassPlan {
    /// The species.
    #[serde(skip)]
    pub timber: &'static Species,
    /// Sawn thickness that the pieces want, mm.
    #[serde(skip)]
    pub wanted_mm: f64,
    /// Name of the species.
    pub species: &'static str,
    /// The yard's name of the thickness that is sawn; nothing where there are no boards.
    pub thickness: Option<&'static str>,
    /// Sawn thickness, mm.
    pub thickness_mm: f64,
    /// How the pieces are sawn out.
    pub way: Way,
    /// What to buy.
    pub buy: Vec<Stack>,
    /// What to take from the rack.
    pub rack: Vec<Stack>,
    /// What the bought boards cost.
    pub cost_minor: Money,
    /// No plan costs less that makes as many pieces.
    pub bound_minor: Money,
    /// What the offcuts worth keeping count for.
    pub credit_minor: Money,
    /// Area of the rough pieces on the boards, m².
    pub pieces_m2: f64,
    /// Area of all boards taken, m².
    pub boards_m2: f64,
    /// The boards, those sawn alike once.
    pub boards: Vec<Board>,
    /// Pieces for which there is no board.
    pub missing: Vec<Missing>,
    /// What the sawyer must know.
    pub notes: Vec<String>,
    /// For each of the wanted designs its share of the area of the pieces on the boards.
    #[serde(skip)]
    pub shares: Vec<f64>,
}

/// How pieces come out of a board.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// One beside the other by crosscuts alone.
    Lengths,
    /// By cuts that go right through, as a table saw makes them.
    Rectangles,
    /// By their outlines, on the bandsaw.
    Outlines,
}

/// Boards of one size.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Stack {
    /// Length, mm.
    pub length: f64,
    /// Width, mm.
    pub width: f64,
    /// How many.
    pub count: u32,
    /// Price of one.
    pub each_minor: Money,
}

/// Boards that are sawn alike.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Board {
    /// Where it comes from.
    pub origin: Origin,
    /// Length along the grain, mm.
    pub length: f64,
    /// Width, mm.
    pub width: f64,
    /// How many boards are sawn so.
    pub times: u32,
    /// What lies on it, from the left.
    pub pieces: Vec<Laid>,
    /// The cuts in the order of the saw, after the trims.
    pub cuts: Vec<SawCut>,
    /// What is worth keeping.
    pub offcuts: Vec<Offcut>,
    /// Share of its area that becomes rough pieces.
    #[serde(rename = "yield")]
    pub yields: f64,
}

/// A piece on a board.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Laid {
    /// The part's letter; in a plan of several designs the design's number from 1 stands before it.
    pub letter: String,
    /// What the part is called.
    pub part: &'static str,
    /// For which of the wanted designs, by its place.
    pub design: usize,
    /// Of how many strips the part is glued up; 1 where it is whole.
    pub strips: u32,
    /// Its rough outline on the board, mm from the board's lower left corner.
    pub outline: Vec<[f64; 2]>,
}

impl Laid {
    /// The lower left corner of the box around it, mm.
    pub fn corner(&self) -> [f64; 2] {
        [0, 1].map(|axis| self.outline.iter().map(|p| p[axis]).fold(f64::INFINITY, f64::min))
    }

    /// Length and width of the box around it, mm.
    pub fn size(&self) -> [f64; 2] {
        let far = |axis: usize| self.outline.iter().map(|p| p[axis]).fold(f64::NEG_INFINITY, f64::max);
        let corner = self.corner();
        [0, 1].map(|axis| far(axis) - corner[axis])
    }
}

/// One cut of the saw, mm from the board's lower left corner.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SawCut {
    /// Its place in the order.
    pub number: u32,
    /// Whether it runs along the board; else across.
    pub along: bool,
    /// Where the kept edge is: the kerf lies beyond it.
    pub at: f64,
    /// Where it begins.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
}

/// A rectangle that is left and worth keeping, mm from the board's lower left corner.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Offcut {
    /// Along the board.
    pub x: f64,
    /// Across it.
    pub y: f64,
    /// Along the grain.
    pub length: f64,
    /// Across it.
    pub width: f64,
}

/// Pieces for which there is no board.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Missing {
    /// For which of the wanted designs, by its place.
    pub design: usize,
    /// The part's letter; in a plan of several designs the design's number from 1 stands before it.
    pub letter: String,
    /// What the part is called.
    pub part: &'static str,
    /// How many.
    pub count: u32,
    /// Rough length, mm.
    pub length: f64,
    /// Rough width, mm.
    pub width: f64,
}
