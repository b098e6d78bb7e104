//! The lines of timber: the boards that the plan takes, or, for a workshop without a stock list, volume by its yield.

use super::ledger::{Entry, Ledger};
use crate::lists::{Bought, CUBIC_METRE, Timber, TimberLine, thickness_words};
use crate::money::Money;
use crate::plan::{ClassPlan, Missing, Stack, TimberPlan, class_of};
use crate::rates::PriceSheet;
use crate::refusal::Refusal;
use crate::shop::{Measure, Shop, Yard};
use crestrail_phrases::{phrase, say};

/// From what timber is priced.
#[derive(Clone, Copy, Debug)]
pub enum TimberUsed<'a> {
    /// Rough volume over the yield: the workshop has no stock list.
    ByYield,
    /// The boards of a plan: the part of one chair of the design at this place among `count` of it.
    Planned {
        /// The plan.
        plan: &'a TimberPlan,
        /// Which of its designs.
        design: usize,
        /// How many chairs of that design it holds.
        count: u32,
    },
}

impl<'a> TimberUsed<'a> {
    /// What one of `count` chairs of a design takes of a plan; by yield without one.
    pub fn of(plan: Option<&'a TimberPlan>, design: usize, count: u32) -> Self {
        plan.map_or(Self::ByYield, |plan| Self::Planned { plan, design, count })
    }
}

/// The timber of one chair.
#[derive(Clone, Debug)]
pub(crate) struct Sawn {
    /// What it costs.
    pub(super) ledger: Ledger,
    /// What it is sold at, where the shop has selling rates.
    pub(super) sold: Option<Money>,
}

/// The timber of one chair. A refusal where the shop has no price for a species.
pub(crate) fn timber_ledger(timber: &Timber, used: TimberUsed<'_>, shop: &Shop) -> Result<Sawn, Refusal> {
    let planned = match used {
        TimberUsed::ByYield => None,
        TimberUsed::Planned { plan, design, count } => Some((plan, design, count)),
    };
    let of = |list: fn(&TimberPlan) -> &[ClassPlan]| planned.map(|(plan, d, n)| (list(plan), d, n));
    let chairs = planned.map_or(1, |(plan, ..)| plan.chairs);
    let sold = |sheet: PriceSheet| sold_timber(timber, of(|plan| &plan.sold), sheet.yard(&shop.name));
    Ok(Sawn {
        ledger: lines(timber, of(|plan| &plan.classes), chairs, shop.yard())?,
        sold: PriceSheet::of(shop).map(sold).transpose()?,
    })
}

/// The classes of a plan, which of its designs, and how many chairs of that.
type Share<'a> = (&'a [ClassPlan], usize, u32);

/// What the timber of one chair is sold at.
pub(super) fn sold_timber(
    timber: &Timber,
    share: Option<Share<'_>>,
    yard: Yard<'_>,
) -> Result<Money, Refusal> {
    lines(timber, share, 1, yard).map(|ledger| ledger.total())
}

fn lines(timber: &Timber, share: Option<Share<'_>>, chairs: u32, yard: Yard<'_>) -> Result<Ledger, Refusal> {
    let mut ledger = Ledger::new(yard.currency);
    for line in &timber.lines {
        let class = share.and_then(|(classes, design, count)| {
            Some((class_of(classes, line.timber.id, line.thickness_mm)?, design, count))
        });
        match class {
            Some(class) => planned(&mut ledger, line, class, chairs, yard)?,
            None => ledger.add(by_yield(line, yard)?)?,
        }
    }
    Ok(ledger)
}

fn id(line: &TimberLine) -> String {
    format!("timber.{}.{}", line.timber.id, line.thickness_mm)
}

fn what(line: &TimberLine) -> String {
    format!("{}, {}", line.species, thickness_words(line.thickness, line.thickness_mm))
}

/// The chair's share of the boards, and by volume what no board gives.
fn planned(
    ledger: &mut Ledger,
    line: &TimberLine,
    (class, design, count): (&ClassPlan, usize, u32),
    chairs: u32,
    yard: Yard<'_>,
) -> Result<(), Refusal> {
    let share = class.shares.get(design).copied().unwrap_or_default() / f64::from(count.max(1));
    ledger.add(Entry {
        id: id(line),
        what: what(line),
        quantity: share,
        decimals: 6,
        unit: "share",
        rate: Money(class.cost_minor.0 - class.credit_minor.0),
        why: boards_reason(class, chairs, yard),
        parts: line.parts.clone(),
    })?;
    let missing: Vec<&Missing> = class.missing.iter().filter(|m| m.design == design).collect();
    if missing.is_empty() { Ok(()) } else { ledger.add(to_order(line, &missing, count, yard)?) }
}

fn boards_reason(class: &ClassPlan, chairs: u32, yard: Yard<'_>) -> String {
    let money = |m: Money| say!("{} {}", yard.currency.code, m.decimal(yard.currency.minor_digits));
    let sizes = |list: &[Stack]| {
        let size = |s: &Stack| say!("{} of {} × {} mm", s.count, s.length, s.width);
        list.iter().map(size).collect::<Vec<_>>().join(", ")
    };
    let chairs = if chairs == 1 { say!("one chair") } else { say!("{chairs} chairs") };
    let mut why = match class.buy.as_slice() {
        [] => say!("Nothing is bought for {chairs}"),
        buy => say!("Boards for {chairs}: {}, {}", sizes(buy), money(class.cost_minor)),
    };
    if !class.rack.is_empty() {
        why.push_str(&say!("; from the rack {}", sizes(&class.rack)));
    }
    if class.credit_minor > Money(0) {
        why.push_str(&say!("; offcuts worth keeping count for {}", money(class.credit_minor)));
    }
    say!(
        "{why}. Rough pieces take {:.0} % of their area.",
        100.0 * class.pieces_m2 / class.boards_m2.max(1e-12)
    )
}

/// Quantity, decimals and unit of what is bought by volume.
fn volume(bought: Bought, measure: Measure) -> (f64, u8, &'static str) {
    match measure {
        Measure::CubicMetre => (bought.bought_m3, 6, "m³"),
        Measure::BoardFoot => (bought.board_feet, 3, phrase("board ft")),
    }
}

/// Pieces for which there is no board, by volume.
fn to_order(line: &TimberLine, missing: &[&Missing], count: u32, yard: Yard<'_>) -> Result<Entry, Refusal> {
    let face = |m: &&Missing| f64::from(m.count) * m.length * m.width;
    let rough_m3 =
        missing.iter().map(face).sum::<f64>() * line.thickness_mm * CUBIC_METRE / f64::from(count.max(1));
    let bought = line.bought_for(rough_m3, yard.timber.yield_share);
    let (quantity, decimals, unit) = volume(bought, yard.timber.measure);
    let parts: Vec<String> = missing.iter().map(|m| m.letter.clone()).collect();
    Ok(Entry {
        id: format!("{}.to_order", id(line)),
        what: say!("{}, not in the stock list", what(line)),
        quantity,
        decimals,
        unit,
        rate: yard.timber(line.timber)?.at(line.trade),
        why: say!(
            "No board at hand gives {}: reckoned by volume, {rough_m3:.6} m³ of rough pieces of which {:.0} % of what is bought ends in them.",
            parts.join(", "),
            100.0 * yard.timber.yield_share
        ),
        parts,
    })
}

fn by_yield(line: &TimberLine, yard: Yard<'_>) -> Result<Entry, Refusal> {
    let bought = line.bought_for(line.rough_m3, yard.timber.yield_share);
    let (quantity, decimals, unit) = volume(bought, yard.timber.measure);
    let Bought { bought_m3, board_feet } = bought;
    let percent = 100.0 * yard.timber.yield_share;
    Ok(Entry {
        id: id(line),
        what: what(line),
        quantity,
        decimals,
        unit,
        rate: yard.timber(line.timber)?.at(line.trade),
        why: say!(
            "Finished parts are {:.6} m³; sawn rough at {:.1} mm they are {:.6} m³; of what is bought {percent:.0} % end \
             as rough parts, so {bought_m3:.6} m³ ({board_feet:.2} board ft) are bought.",
            line.volume_m3,
            line.thickness_mm,
            line.rough_m3
        ),
        parts: line.parts.clone(),
    })
}
