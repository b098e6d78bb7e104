//! Whether a size of a seat suits somebody.

use crate::rule::{Asks, Limit, Side};
use crate::school::{self, SchoolSize};
use crate::{
    Prediction, Range, Rule, Sex, Share, Sitter, Source, Unmeasured, ansur, predicted, predicted_by_weight,
};

/// Where a room for one person's hips, thighs or knees is aimed: the 95th percentile of people like this, as seats for all are as
/// wide as the 95th percentile of hips asks. Standard deviations above the mean.
const ROOMY: f64 = 1.644_853_626_951_473;
/// The heights of school seats may be so much off, mm (EN 1729-1). No tolerance is known of a seat worked out from stature, of a
/// lumbar point and of the table above the seat: they get the same.
const SCHOOL_TOLERANCE: f64 = 10.0;

/// How a size suits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Suits {
    /// The share of grown-ups it suits.
    Shares {
        /// Of women.
        women: Share,
        /// Of men.
        men: Share,
    },
    /// One person, of whom only stature and perhaps weight are known.
    Person {
        /// The sizes to aim at. Height, depth and arms are aimed at the likeliest body; room for hips, thighs and knees at
        /// one larger than 95 % of people like this.
        aim: Range,
        /// The share of people like this for whom the size is no higher or deeper, or no narrower, than the rule says. A seat
        /// below the range to aim at still counts here: the feet stand flat.
        chance: Share,
        /// What the measure of the body likely is.
        body: Prediction,
    },
    /// A range that is the same for all such sitters.
    Size {
        /// The sizes that suit.
        range: Range,
        /// Whether this one does.
        holds: bool,
    },
}

/// How a size suits, and who says so.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Answer {
    /// How it suits.
    pub suits: Suits,
    /// Who says what is asked of the seat.
    pub rule: Source,
    /// Where the figures of bodies come from, if any were used.
    pub figures: Option<Source>,
}

/// How `value`, mm, suits the sitter by this rule.
pub fn suits(rule: Rule, value: f64, sitter: Sitter) -> Result<Answer, Unmeasured> {
    if !value.is_finite() {
        return Err(Unmeasured::NotANumber);
    }
    sitter.check()?;
    match (sitter, rule.asks()) {
        (Sitter::Adults, Asks::Body(limit)) => adults(limit, value).map(|suits| by_figures(rule, suits)),
        (Sitter::Stature { mm, sex, weight_kg }, Asks::Body(limit)) => {
            let body = match weight_kg {
                Some(kg) => predicted_by_weight(limit.measure, mm, kg, sex),
                None => predicted(limit.measure, mm, sex),
            };
            person(limit, body?, value).map(|suits| by_figures(rule, suits))
        }
        (Sitter::Adults | Sitter::Stature { .. }, Asks::Size(range)) => {
            Ok(by_size(range, value, rule.source()))
        }
        (Sitter::School { mark }, _) => school_size(rule, value, mark),
        (Sitter::Child { stature_mm }, _) => child(rule, value, stature_mm),
    }
}

fn by_figures(rule: Rule, suits: Suits) -> Answer {
    Answer { suits, rule: rule.source(), figures: Some(ansur::SOURCE) }
}

fn by_size(range: Range, value: f64, rule: Source) -> Answer {
    Answer { suits: Suits::Size { range, holds: range.holds(value) }, rule, figures: None }
}

fn adults(limit: Limit, value: f64) -> Result<Suits, Unmeasured> {
    let share = |sex| {
        let below = ansur::share_below(sex, limit.measure, value - limit.plus)?;
        Ok(limit.suited(below))
    };
    Ok(Suits::Shares { women: share(Sex::Female)?, men: share(Sex::Male)? })
}

fn person(limit: Limit, body: Prediction, value: f64) -> Result<Suits, Unmeasured> {
    let chance = limit.suited(body.share_below(value - limit.plus)?);
    Ok(Suits::Person { aim: limit.aim(body), chance, body })
}

impl Limit {
    /// The share it suits, of those below and those above the size.
    fn suited(self, below: Share) -> Share {
        match self.side {
            Side::AtMost { .. } => below.others(),
            Side::AtLeast => below,
        }
    }

    fn aim(self, body: Prediction) -> Range {
        let likely = body.mean + self.plus;
        match self.side {
            Side::AtMost { under: Some(under) } => Range::between(likely - under, likely),
            Side::AtMost { under: None } => Range::up_to(likely),
            Side::AtLeast => Range::from(body.at(ROOMY) + self.plus),
        }
    }
}

fn school_size(rule: Rule, value: f64, mark: u8) -> Result<Answer, Unmeasured> {
    let size = school::size(mark)?;
    match rule {
        Rule::SeatHeight => Ok(by_size(around(size.seat, size.seat_tolerance), value, school::HEIGHTS)),
        Rule::SeatToTable => {
            Ok(by_size(around(size.table - size.seat, SCHOOL_TOLERANCE), value, school::HEIGHTS))
        }
        _ => Ok(by_size(recalled(rule, size)?, value, school::OTHERS)),
    }
}

/// Height of seat and table by the lines; the rest has to suit all size marks meant for the stature, but for the small of the
/// back, which lies where either mark has it.
fn child(rule: Rule, value: f64, stature_mm: f64) -> Result<Answer, Unmeasured> {
    let seat = school::seat_for(stature_mm)?;
    match rule {
        Rule::SeatHeight => Ok(by_size(around(seat, SCHOOL_TOLERANCE), value, school::BY_STATURE)),
        Rule::SeatToTable => {
            let gap = school::table_for(stature_mm)? - seat;
            Ok(by_size(around(gap, SCHOOL_TOLERANCE), value, school::BY_STATURE))
        }
        _ => {
            let any = Range { at_least: None, at_most: None };
            let range = school::sizes_for(stature_mm).try_fold(any, |all, size| {
                let one = recalled(rule, size)?;
                Ok(if rule == Rule::LumbarHeight { all.span(one) } else { all.and(one) })
            })?;
            Ok(by_size(range, value, school::OTHERS))
        }
    }
}

/// The columns of the school sizes that are known from memory only.
fn recalled(rule: Rule, size: SchoolSize) -> Result<Range, Unmeasured> {
    match rule {
        Rule::SeatDepth => Ok(Range::up_to(size.depth)),
        Rule::SeatWidth => Ok(Range::from(size.width)),
        Rule::LumbarHeight => Ok(around(size.lumbar, SCHOOL_TOLERANCE)),
        _ => Err(Unmeasured::NotForChildren(rule)),
    }
}

fn around(middle: f64, tolerance: f64) -> Range {
    Range::between(middle - tolerance, middle + tolerance)
}
