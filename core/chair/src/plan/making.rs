//! From the pieces of one species and thickness to their plan.

use super::Effort;
use super::class::{Board, ClassPlan, Laid, Missing, Offcut, Stack, Way};
use super::pieces::{Class, Piece};
use super::room::rim;
use super::saw::{self, Sawing};
use super::stand::{Origin, Stand, nearest};
use crate::money::{Money, Quantity};
use crate::part::Role;
use crate::refusal::Refusal;
use crate::shop::{Stock, Yard};
use core::ops::ControlFlow;
use crestrail_phrases::{say, word};
use crestrail_sorting::Order as _;

/// One mm² in m².
const SQUARE_METRE: f64 = 1e-6;

/// Told the share of the class's work that is done; the answer is to go on or to stop.
pub(super) type Told<'a> = &'a mut dyn FnMut(f64) -> ControlFlow<()>;

/// The plan of a class; `None` where the listener stopped it.
pub(super) fn planned(
    class: Class,
    designs: usize,
    yard: Yard<'_>,
    stock: &Stock,
    effort: Effort,
    told: Told<'_>,
) -> Result<Option<ClassPlan>, Refusal> {
    let plans = planned_at(class, designs, &[(yard, stock)], effort, told)?;
    Ok(plans.and_then(|plans| plans.into_iter().next()))
}

/// One plan of a class, told at the prices of each of these yards, which offer the same boards. The first decides what is
/// cheapest.
pub(super) fn planned_at(
    class: Class,
    designs: usize,
    yards: &[(Yard<'_>, &Stock)],
    effort: Effort,
    told: Told<'_>,
) -> Result<Option<Vec<ClassPlan>>, Refusal> {
    let mut plan = ClassPlan::empty(&class, designs);
    let Some(&(yard, stock)) = yards.first() else { return Ok(None) };
    let same = |plan: ClassPlan| Ok(Some(vec![plan; yards.len()]));
    let found = match class.trade {
        Some(trade) => nearest(yard, stock, class.species, trade)?,
        None => None,
    };
    let Some((thickness, stands)) = found else {
        plan.notes.push(plan.no_board(class.trade.is_some(), yard.name));
        class.pieces.iter().for_each(|piece| plan.lacks(piece, piece.count));
        return same(plan);
    };
    plan.thickness = Some(thickness.name);
    plan.thickness_mm = thickness.rough;
    if Some(thickness) != class.trade {
        plan.notes.push(say!(
            "No boards {:.1} mm thick are in the stock list; the next thicker ones, {}, are taken and planed down.",
            class.thickness, thickness.name
        ));
    }
    let rim = rim(&class.pieces);
    let pieces: Vec<Piece> =
        class.pieces.into_iter().filter_map(|piece| plan.fitted(piece, &stands, stock, rim)).collect();
    if pieces.is_empty() {
        return same(plan);
    }
    let Some(sawing) = saw::sawn(&pieces, &stands, stock, yard.kerf, effort, told)? else { return Ok(None) };
    let mut plans = Vec::new();
    for &(other, its) in &yards[1..] {
        let mut plan = plan.clone();
        let priced = super::stand::stands(other, its, class.species, thickness)?;
        plan.take(&pieces, &priced, its, sawing.at(&priced)?)?;
        plans.push(plan);
    }
    plan.take(&pieces, &stands, stock, sawing)?;
    plans.insert(0, plan);
    Ok(Some(plans))
}

impl ClassPlan {
    fn empty(class: &Class, designs: usize) -> Self {
        Self {
            timber: class.species,
            wanted_mm: class.thickness,
            species: word(class.species.name),
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
            say!(
                "{shop} lists no boards of {species} {thick} mm thick or thicker. Add them to the stock list, or order the pieces."
            )
        } else {
            say!(
                "No board of the trade is {thick} mm thick. Order the pieces, or glue them up from thinner boards."
            )
        }
    }

    pub(super) fn lacks(&mut self, piece: &Piece, count: u32) {
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
            self.notes.push(say!("The boards at hand do not give all pieces; see what is missing."));
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
                    word("The boards cost more than can be counted exactly. Check the shop's prices."),
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
        odd.order();
        odd.dedup();
        if !odd.is_empty() {
            self.notes.push(say!(
                "Not every pair of {} comes from one board: match the boards by colour and grain.",
                odd.join(", ")
            ));
        }
        let mut seen: Vec<&str> =
            pieces.iter().filter(|p| is_looked_at(p.role)).map(|p| p.letter.as_str()).collect();
        seen.order();
        seen.dedup();
        if !seen.is_empty() {
            self.notes.push(say!(
                "Keep the clearest wood for {}: it is seen most. Move pieces of one size about on the boards as the wood asks.",
                seen.join(", ")
            ));
        }
    }
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
