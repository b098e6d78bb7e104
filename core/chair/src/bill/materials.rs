//! The lines of the bill that are bought besides timber: pegs, the seat's own material, glue, finish.

use super::ledger::{Entry, Ledger};
use super::seat::seat;
use super::selling::{Selling, measured, to_do};
use crate::chair::Chair;
use crate::labour::Labour;
use crate::lists::{CuttingRow, exposed_area, glued_area, ledges};
use crate::part::Role;
use crate::rates::PriceSheet;
use crate::refusal::Refusal;
use crate::shop::{PegUnit, Shop};
use crestrail_phrases::{phrase, say, word};

/// One mm² in m².
pub(super) const SQUARE_METRE: f64 = 1e-6;

/// What goes into a chair besides its timber, the same for every number of chairs.
#[derive(Clone, Debug)]
pub(crate) struct Besides {
    /// What is bought.
    pub(super) ledger: Ledger,
    /// What it is sold by, where the shop has selling rates.
    pub(super) selling: Option<Selling>,
}

/// What is bought for a chair besides its timber, which does not depend on how many are made; its labour, where that is worked
/// out, tells what there is to do. A refusal where the shop has no price for what the seat is made of.
pub(crate) fn besides_timber(
    chair: &Chair,
    rows: &[CuttingRow],
    labour: Option<&Labour>,
    shop: &Shop,
) -> Result<Besides, Refusal> {
    let selling = PriceSheet::of(shop).map(|sheet| {
        let work = match labour {
            Some(labour) => {
                let done = labour.rows.iter().map(|row| (row.operation, row.quantity));
                measured(chair, rows, done, sheet.kerf)
            }
            None => measured(chair, rows, to_do(chair, rows).into_iter(), sheet.kerf),
        };
        Selling { work, sheet }
    });
    Ok(Besides { ledger: bought(chair, rows, shop)?, selling })
}

fn bought(chair: &Chair, rows: &[CuttingRow], shop: &Shop) -> Result<Ledger, Refusal> {
    let mut ledger = Ledger::new(shop.currency);
    ledger.add(pegs(rows, shop))?;
    ledger.add(dowels(rows, shop))?;
    seat(&mut ledger, rows, shop)?;
    ledger.add(glue(chair, rows, shop))?;
    ledger.add(finish(chair, rows, shop))?;
    Ok(ledger)
}

pub(super) fn letters(rows: &[CuttingRow], wanted: impl Fn(&CuttingRow) -> bool) -> Vec<String> {
    rows.iter().filter(|r| wanted(r)).map(|r| r.letter.clone()).collect()
}

pub(super) fn count(rows: &[CuttingRow], role: Role) -> f64 {
    rows.iter().filter(|r| r.role == role).map(|r| f64::from(r.quantity)).sum()
}

fn pegs(rows: &[CuttingRow], shop: &Shop) -> Entry {
    let is_peg = |r: &CuttingRow| r.role == Role::Peg;
    let pieces = count(rows, Role::Peg);
    let sawn = |r: &CuttingRow| f64::from(r.quantity) * (r.rough.length + shop.kerf);
    let metres: f64 = rows.iter().filter(|r| is_peg(r)).map(sawn).sum::<f64>() / 1000.0;
    let (quantity, decimals, unit, why) = match shop.pegs.by {
        PegUnit::Each => (pieces, 0, phrase("pieces"), say!("{pieces} pegs.")),
        PegUnit::Metre => {
            let why = say!(
                "{pieces} pegs cut over length, {} mm of saw kerf each: {metres:.3} m of rod.",
                shop.kerf
            );
            (metres, 3, "m", why)
        }
    };
    Entry {
        id: "pegs".to_owned(),
        what: word("pegs").to_owned(),
        quantity,
        decimals,
        unit,
        rate: shop.pegs.price,
        why,
        parts: letters(rows, is_peg),
    }
}

/// Dowels are cut from rod like pegs, at the same price.
fn dowels(rows: &[CuttingRow], shop: &Shop) -> Entry {
    let is_dowel = |r: &CuttingRow| r.role == Role::Dowel;
    let pieces = count(rows, Role::Dowel);
    let sawn = |r: &CuttingRow| f64::from(r.quantity) * (r.rough.length + shop.kerf);
    let metres: f64 = rows.iter().filter(|r| is_dowel(r)).map(sawn).sum::<f64>() / 1000.0;
    let (quantity, decimals, unit) = match shop.pegs.by {
        PegUnit::Each => (pieces, 0, phrase("pieces")),
        PegUnit::Metre => (metres, 3, "m"),
    };
    Entry {
        id: "dowels".to_owned(),
        what: word("dowels").to_owned(),
        quantity,
        decimals,
        unit,
        rate: shop.pegs.price,
        why: say!(
            "{pieces} dowels, {metres:.3} m of rod with {} mm of saw kerf each, at the price of pegs.",
            shop.kerf
        ),
        parts: letters(rows, is_dowel),
    }
}

fn glue(chair: &Chair, rows: &[CuttingRow], shop: &Shop) -> Entry {
    let area = glued_area(chair) * SQUARE_METRE;
    let spread = shop.glue.grams_per_m2;
    let guest = |r: &CuttingRow| {
        chair.joints.iter().any(|j| chair.part(j.guest).is_some_and(|p| p.letter == r.letter))
            || r.role == Role::Ledge
    };
    Entry {
        id: "glue".to_owned(),
        what: word("glue").to_owned(),
        quantity: area * spread / 1000.0,
        decimals: 4,
        unit: "kg",
        rate: shop.glue.price_per_kg,
        why: glue_reason(chair, area, spread),
        parts: letters(rows, guest),
    }
}

fn glue_reason(chair: &Chair, area: f64, spread: f64) -> String {
    let tenons = chair.joints.len();
    match ledges(chair) * SQUARE_METRE {
        0.0 => say!("{tenons} tenons have {area:.4} m² of cheeks, long grain on both sides; {spread} g/m²."),
        strips => say!(
            "{tenons} tenons have {area:.4} m² of cheeks and the backs of the ledges, {strips:.4} m², long grain on both sides; {spread} g/m²."
        ),
    }
}

fn finish(chair: &Chair, rows: &[CuttingRow], shop: &Shop) -> Entry {
    let area = exposed_area(chair) * SQUARE_METRE;
    let (coats, cover) = (shop.finish.coats, shop.finish.m2_per_litre);
    Entry {
        id: "finish".to_owned(),
        what: word("finish").to_owned(),
        quantity: area * f64::from(coats) / cover,
        decimals: 4,
        unit: phrase("L"),
        rate: shop.finish.price_per_litre,
        why: say!("{area:.3} m² of surface outside the joints, {coats} coats, {cover} m² to the litre."),
        parts: letters(rows, |r| r.material.species().is_some()),
    }
}
