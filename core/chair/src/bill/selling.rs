//! What a chair is sold at by a workshop's selling rates, the same on its own page and on the one it publishes.

use super::ledger::{Entry, Ledger};
use super::materials::{SQUARE_METRE, count};
use super::price::sale;
use super::seat::{TURNED_UNDER, face, ledge_screws};
use super::timber::sold_timber;
use crate::chair::Chair;
use crate::labour::tasks;
use crate::lists::{CuttingRow, glued_area, timber_from};
use crate::material::Material;
use crate::money::{Money, Quantity};
use crate::part::Role;
use crate::plan::{RoughPieces, Wanted, sold};
use crate::rates::{PriceSheet, Work, coarse};
use crate::refusal::Refusal;
use crate::shop::Operation;
use crestrail_phrases::{say, word};

/// A chair's work measured, and the sheet it is sold by.
#[derive(Clone, Debug)]
pub(super) struct Selling {
    pub(super) sheet: PriceSheet,
    pub(super) work: Vec<(Work, f64)>,
}

/// The quantity of each operation at a chair. How often it is finished is no matter: that is charged with the surface.
pub(super) fn to_do(chair: &Chair, rows: &[CuttingRow]) -> Vec<(Operation, f64)> {
    tasks(chair, rows, 1).iter().map(|task| (task.operation, task.quantity)).collect()
}

/// How much of each work there is at a chair, of which all that is `done` is known; what there is none of is left out.
pub(super) fn measured(
    chair: &Chair,
    rows: &[CuttingRow],
    done: impl Iterator<Item = (Operation, f64)>,
    kerf: f64,
) -> Vec<(Work, f64)> {
    let mut found = vec![(Work::Chair, 1.0)];
    found.extend(done.filter_map(|(operation, quantity)| Some((charged(operation)?, quantity))));
    found.push((Work::Dowel, count(rows, Role::Dowel)));
    found.push((Work::Rod, rod(rows, kerf)));
    found.push((Work::Glued, glued_area(chair) * SQUARE_METRE));
    found.push((Work::LedgeScrew, rows.iter().filter(|r| r.role == Role::Ledge).map(ledge_screws).sum()));
    found.extend(rows.iter().flat_map(sheets));
    let mut each: Vec<(Work, f64)> = Vec::new();
    for (work, quantity) in found {
        match each.iter_mut().find(|(known, _)| *known == work) {
            Some((_, sum)) => *sum += quantity,
            None => each.push((work, quantity)),
        }
    }
    each.retain(|(_, quantity)| *quantity > 0.0);
    each
}

/// The work that an operation's quantity stands for; nothing where another operation already tells it.
fn charged(operation: Operation) -> Option<Work> {
    Some(match operation {
        Operation::ChooseAndMark => Work::Part,
        Operation::Rip => Work::Metre,
        Operation::SawCurve => Work::Curve,
        Operation::Joint(kind) => Work::Joint(kind),
        Operation::Groove => Work::Groove,
        Operation::Notch => Work::Notch,
        Operation::GlueUp => Work::GlueUp,
        Operation::Peg => Work::Peg,
        Operation::ScrapeAndSand => Work::Surface,
        Operation::SeatSlat => Work::SeatSlat,
        Operation::SeatBoard => Work::SeatBoard,
        Operation::Button => Work::Button,
        Operation::Ledge => Work::Ledge,
        Operation::Pad => Work::Pad,
        Operation::Weave => Work::Cord,
        Operation::Crosscut
        | Operation::Plane
        | Operation::ShapeCurve
        | Operation::DryFit
        | Operation::Finish => return None,
    })
}

/// Metres of rod for pegs and dowels.
fn rod(rows: &[CuttingRow], kerf: f64) -> f64 {
    let of_rod = rows.iter().filter(|r| matches!(r.role, Role::Peg | Role::Dowel));
    of_rod.map(|r| f64::from(r.quantity) * (r.rough.length + kerf) / 1000.0).sum()
}

/// What is cut from sheets for a row.
fn sheets(row: &CuttingRow) -> Vec<(Work, f64)> {
    match row.material {
        Material::Plywood => vec![(Work::Plywood, face(row, 0.0))],
        Material::Padding => {
            let turned = row.finished.thickness + TURNED_UNDER;
            vec![(Work::Foam, face(row, 0.0)), (Work::Cover, face(row, turned))]
        }
        Material::Timber(_) | Material::Cord { .. } => Vec::new(),
    }
}

impl Selling {
    /// The price of one chair before it is rounded, with timber at this price; `set_up` is the share of the sheet's set-up
    /// that it bears: 1 where it is made alone.
    pub(super) fn price(&self, timber: Money, set_up: f64) -> Result<Money, Refusal> {
        let mut ledger = Ledger::new(self.sheet.fine());
        for &(work, quantity) in &self.work {
            let rate = self.sheet.rate(work).ok_or_else(|| no_rate(work))?;
            for (kind, rate, quantity) in [("each", rate.each, quantity), ("once", rate.once, set_up)] {
                ledger.add(Entry {
                    id: format!("selling.{}.{kind}", work.name()),
                    what: work.name().to_owned(),
                    quantity,
                    decimals: 6,
                    unit: "",
                    rate,
                    why: String::new(),
                    parts: Vec::new(),
                })?;
            }
        }
        timber.plus(coarse(ledger.total())).ok_or_else(beyond)
    }
}

fn no_rate(work: Work) -> Refusal {
    let (knob, what) = match work {
        Work::Plywood => ("seat", word("plywood")),
        Work::Foam => ("seat", word("foam")),
        Work::Cover => ("seat", word("a cover")),
        Work::Cord => ("seat", word("cord")),
        other => ("prices.work", other.name()),
    };
    Refusal::new(knob, say!("There is no price for {what}. Choose another seat, or ask for a quote."))
}

fn beyond() -> Refusal {
    Refusal::new("prices", word("The price is too great to be counted exactly. Check the rates."))
}

/// What one chair costs with delivery and tax by a price sheet alone, made and ordered alone, as `name` sells it.
pub fn sold_alone(
    chair: &Chair,
    rows: &[CuttingRow],
    sheet: &PriceSheet,
    name: &str,
) -> Result<Money, Refusal> {
    let yard = sheet.yard(name);
    let pieces = RoughPieces::of(chair, rows);
    let classes = sold(&[Wanted { pieces: &pieces, count: 1 }], yard)?;
    let timber = sold_timber(&timber_from(rows, yard), classes.as_deref().map(|c| (c, 0, 1)), yard)?;
    let work = measured(chair, rows, to_do(chair, rows).into_iter(), sheet.kerf);
    let selling = Selling { work, sheet: sheet.clone() };
    let price = selling.price(timber, Quantity::count(1).value())?;
    let change = sheet.rounding.map_or(Some(Money(0)), |rounding| rounding.change(price));
    let price = change.and_then(|change| price.plus(change)).ok_or_else(beyond)?;
    let mut ledger = Ledger::new(sheet.currency);
    ledger.add(Entry {
        id: "chair".to_owned(),
        what: "chair".to_owned(),
        quantity: 1.0,
        decimals: 0,
        unit: "chair",
        rate: price,
        why: String::new(),
        parts: Vec::new(),
    })?;
    sale(&mut ledger, sheet.delivery.as_ref(), &sheet.tax, 1, &[])?;
    Ok(ledger.total())
}
