//! The plan for one species and thickness.

use super::pieces::{Class, Piece};
use super::saw::{self, Sawing};
use super::stand::{Origin, Stand, nearest};
use super::{Effort, trims};
use crate::money::{Money, Quantity};
use crate::part::Role;
use crate::refusal::Refusal;
use crate::shop::{Shop, Stock};
use core::ops::ControlFlow;
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
    /// The part's letter.
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
    /// The part's letter.
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

/// Width planed away where two strips are glued together, both edges, mm. Common practice, no source.
const JOINTING: f64 = 5.0;

/// One mm² in m².
const SQUARE_METRE: f64 = 1e-6;

/// Told the share of the class's work that is done; the answer is to go on or to stop.
pub(super) type Told<'a> = &'a mut dyn FnMut(f64) -> ControlFlow<()>;

/// The plan of a class; `None` where the listener stopped it.
pub(super) fn planned(
    class: Class,
    designs: usize,
    shop: &Shop,
    stock: &Stock,
    effort: Effort,
    told: Told<'_>,
) -> Result<Option<ClassPlan>, Refusal> {
    let mut plan = ClassPlan::empty(&class, designs);
    let found = match class.trade {
        Some(trade) => nearest(shop, stock, class.species, trade)?,
        None => None,
    };
    let Some((thickness, stands)) = found else {
        plan.notes.push(plan.no_board(class.trade.is_some(), &shop.name));
        class.pieces.iter().for_each(|piece| plan.lacks(piece, piece.count));
        return Ok(Some(plan));
    };
    plan.thickness = Some(thickness.name);
    plan.thickness_mm = thickness.rough;
    if Some(thickness) != class.trade {
        plan.notes.push(format!(
            "No boards {:.1} mm thick are in the stock list; the next thicker ones, {}, are taken and planed down.",
            class.thickness, thickness.name
        ));
    }
    let pieces: Vec<Piece> =
        class.pieces.into_iter().filter_map(|piece| plan.fitted(piece, &stands, stock)).collect();
    if pieces.is_empty() {
        return Ok(Some(plan));
    }
    let Some(sawing) = saw::sawn(&pieces, &stands, stock, shop.kerf, effort, told)? else { return Ok(None) };
    plan.take(&pieces, &stands, stock, sawing)?;
    Ok(Some(plan))
}

impl ClassPlan {
    fn empty(class: &Class, designs: usize) -> Self {
        Self {
            timber: class.species,
            wanted_mm: class.thickness,
            species: class.species.name,
            thickness: None,
            thickness_mm: class.thickness,
            way: Way::Rectangles,
            buy: Vec::new(),
            rack: Vec::new(),
            cost_minor: Money(0),
            bound_minor: Money(0),
            credit_minor: Money(0),
            pieces_m2: 0.0,
            boards_m2: 0.0,
            boards: Vec::new(),
            missing: Vec::new(),
            notes: Vec::new(),
            shares: vec![0.0; designs],
        }
    }

    fn no_board(&self, trade: bool, shop: &str) -> String {
        let (species, thick) = (self.species, self.wanted_mm);
        if trade {
            format!(
                "{shop} lists no boards of {species} {thick} mm thick or thicker. Add them to the stock list, or order the pieces."
            )
        } else {
            format!(
                "No board of the trade is {thick} mm thick. Order the pieces, or glue them up from thinner boards."
            )
        }
    }

    fn lacks(&mut self, piece: &Piece, count: u32) {
        let Piece { design, letter, part, length, width, .. } = piece;
        self.missing.push(Missing {
            design: *design,
            letter: letter.clone(),
            part,
            count,
            length: *length,
            width: *width,
        });
    }

    /// The piece as it can be sawn from these boards: whole, or in strips. One that is too large is missing, and it is
    /// said by how much.
    fn fitted(&mut self, piece: Piece, stands: &[Stand], stock: &Stock) -> Option<Piece> {
        let [ends, edges] = trims(stock);
        let room = |s: &Stand| [s.length - 2.0 * ends, s.width - 2.0 * edges];
        let [length, width] = needs(&piece);
        let over = |s: &Stand| [length - room(s)[0], width - room(s)[1]];
        if stands.iter().any(|s| over(s).iter().all(|o| *o <= 0.0)) {
            return Some(piece);
        }
        let widest = stands.iter().filter(|s| over(s)[0] <= 0.0).map(|s| room(s)[1]).fold(0.0, f64::max);
        if piece.outline.is_none() && widest > JOINTING + 1.0 {
            let strips = glued(piece, widest);
            self.notes.push(format!(
                "{} ({}) is wider than any board: glue it up from {} strips {} mm wide. Turn and shift the strips until the grain suits.",
                strips.letter, strips.part, strips.strips, strips.width
            ));
            return Some(strips);
        }
        let least = stands.iter().map(over).min_by(|a, b| a[0].max(a[1]).total_cmp(&b[0].max(b[1])))?;
        let side = |by: f64, what: &str| (by > 0.0).then(|| format!("{by:.1} mm {what}"));
        let by: Vec<String> =
            [side(least[0], "longer"), side(least[1], "wider")].into_iter().flatten().collect();
        self.notes.push(format!(
            "{} ({}) is {} than the board that suits it best gives without its trims. Add a larger board to the stock list, or order the piece.",
            piece.letter,
            piece.part,
            by.join(" and ")
        ));
        self.lacks(&piece, piece.count);
        None
    }

    fn take(
        &mut self,
        pieces: &[Piece],
        stands: &[Stand],
        stock: &Stock,
        sawing: Sawing,
    ) -> Result<(), Refusal> {
        self.way = sawing.way;
        (self.cost_minor, self.bound_minor) = (Money(sawing.cost), Money(sawing.bound));
        for (piece, &lack) in pieces.iter().zip(&sawing.missing).filter(|(_, lack)| **lack > 0) {
            self.lacks(piece, lack.div_ceil(piece.strips));
        }
        if !self.missing.is_empty() {
            self.notes.push("The boards at hand do not give all pieces; see what is missing.".to_owned());
        }
        let mut odd: Vec<&str> = Vec::new();
        for sawn in sawing.boards {
            let (stand, times) = (&stands[sawn.stand], f64::from(sawn.times));
            let area: f64 = sawn.laid.iter().map(|(p, _)| pieces[*p].area()).sum();
            for (p, _) in &sawn.laid {
                self.shares[pieces[*p].design] += times * pieces[*p].area();
            }
            self.pieces_m2 += times * area * SQUARE_METRE;
            self.boards_m2 += times * stand.length * stand.width * SQUARE_METRE;
            let list = if stand.origin == Origin::Rack { &mut self.rack } else { &mut self.buy };
            stack(list, stand, sawn.times);
            let offcuts = kept(&sawn.offcuts, stock);
            let credit = credit(stand, &offcuts, stock).and_then(|c| c.times(Quantity::count(sawn.times)));
            let credit = credit.and_then(|credit| self.credit_minor.plus(credit));
            self.credit_minor = credit.ok_or_else(|| {
                Refusal::new(
                    "stock",
                    "The boards cost more than can be counted exactly. Check the shop's prices.",
                )
            })?;
            odd.extend(unpaired(pieces, &sawn.laid));
            self.boards.push(Board {
                origin: stand.origin,
                length: stand.length,
                width: stand.width,
                times: sawn.times,
                pieces: sawn.laid.into_iter().map(|(p, outline)| laid(&pieces[p], outline)).collect(),
                cuts: sawn.cuts,
                offcuts,
                yields: area / (stand.length * stand.width),
            });
        }
        let all: f64 = self.shares.iter().sum();
        self.shares.iter_mut().for_each(|share| *share /= all.max(f64::MIN_POSITIVE));
        self.note_on_looks(pieces, &mut odd);
        Ok(())
    }

    /// Which pieces should be matched or lie on the clearest wood.
    fn note_on_looks(&mut self, pieces: &[Piece], odd: &mut Vec<&str>) {
        odd.sort_unstable();
        odd.dedup();
        if !odd.is_empty() {
            self.notes.push(format!(
                "Not every pair of {} comes from one board: match the boards by colour and grain.",
                odd.join(", ")
            ));
        }
        let mut seen: Vec<&str> =
            pieces.iter().filter(|p| is_looked_at(p.role)).map(|p| p.letter.as_str()).collect();
        seen.sort_unstable();
        seen.dedup();
        if !seen.is_empty() {
            self.notes.push(format!(
                "Keep the clearest wood for {}: it is seen most. Move pieces of one size about on the boards as the wood asks.",
                seen.join(", ")
            ));
        }
    }
}

/// The room that a piece takes without its kerf.
fn needs(piece: &Piece) -> [f64; 2] {
    match &piece.outline {
        // The planks' solver keeps its tolerance clear at both rims, too.
        Some(outline) => {
            let high = |of: fn(&kurbo::Point) -> f64| outline.iter().map(of).fold(0.0, f64::max);
            [high(|p| p.x), high(|p| p.y)].map(|s| s + 2.0 * super::pieces::TOLERANCE)
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

fn laid(piece: &Piece, outline: Vec<[f64; 2]>) -> Laid {
    let hundredths = |v: f64| (v * 100.0).round() / 100.0;
    Laid {
        letter: piece.letter.clone(),
        part: piece.part,
        design: piece.design,
        strips: piece.strips,
        outline: outline.into_iter().map(|p| p.map(hundredths)).collect(),
    }
}

fn stack(list: &mut Vec<Stack>, stand: &Stand, times: u32) {
    let Stand { length, width, price, .. } = *stand;
    match list.iter_mut().find(|s| s.length == length && s.width == width && s.each_minor == price) {
        Some(stack) => stack.count += times,
        None => list.push(Stack { length, width, count: times, each_minor: price }),
    }
}

fn kept(offcuts: &[Offcut], stock: &Stock) -> Vec<Offcut> {
    let worth = |o: &&Offcut| o.length >= stock.offcuts.length && o.width >= stock.offcuts.width;
    offcuts.iter().filter(worth).copied().collect()
}

/// What the offcuts of a bought board count for: their part of its price, less what the shop takes off.
fn credit(stand: &Stand, offcuts: &[Offcut], stock: &Stock) -> Option<Money> {
    let area: f64 = offcuts.iter().map(|o| o.length * o.width).sum();
    let share = area / (stand.length * stand.width) * stock.offcuts.credit / 100.0;
    stand.price.times(Quantity::rounded(share, 6)?)
}

/// Letters of paired pieces of which an odd number lies on a board.
fn unpaired<'a>(pieces: &'a [Piece], laid: &[(usize, Vec<[f64; 2]>)]) -> Vec<&'a str> {
    let own = |p: usize| laid.iter().filter(|l| l.0 == p).count();
    let paired = pieces.iter().enumerate().filter(|(_, piece)| piece.paired);
    paired.filter(|(p, _)| own(*p) % 2 == 1).map(|(_, piece)| piece.letter.as_str()).collect()
}

/// Parts whose broad faces are looked at most. Common practice, no source.
fn is_looked_at(role: Role) -> bool {
    matches!(
        role,
        Role::SeatBoard
            | Role::Splat
            | Role::Panel
            | Role::CrestRail
            | Role::Arm
            | Role::BackSlat
            | Role::SeatSlat
    )
}
