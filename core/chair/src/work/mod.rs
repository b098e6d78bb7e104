//! The order of work: from the board to the last coat, step by step.
//!
//! The steps follow the stages of the labour and, within them, the order of assembly that was proven. Each says what is
//! done, with which tools and clamps, what must be equal when it is square, what to check before going on, what can hurt
//! somebody, how long it takes and how long it waits. Everything is read from the resolved chair; minutes and waits are the
//! workshop's.

mod cautions;
mod clamps;
mod fitting;
mod preparing;
mod seat;
mod square;
mod tools;

#[cfg(test)]
mod tests;

use crate::chair::Chair;
use crate::labour::{Labour, LabourRow};
use crate::length::Lengths;
use crate::part::PartId;
use crate::shop::{Labour as Rates, Operation, Shop, Stage};
use serde::Serialize;

pub use clamps::Clamp;
pub use square::{Corner, Tape};

/// One step.
#[derive(Clone, Debug, Serialize)]
pub struct WorkStep {
    /// Counted from 1.
    pub number: usize,
    /// Of which stage of the work.
    pub stage: Stage,
    /// What is made or done.
    pub title: String,
    /// What to do, as sentences in their order.
    pub say: Vec<String>,
    /// Letters of the parts in hand.
    pub letters: Vec<String>,
    /// What lies ready.
    pub tools: Vec<String>,
    /// Clamps and their openings.
    pub clamps: Vec<Clamp>,
    /// What the tape must say when it is square.
    pub tapes: Vec<Tape>,
    /// What to check before going on.
    pub checks: Vec<String>,
    /// What can hurt somebody here, each with its source.
    pub cautions: Vec<Caution>,
    /// Minutes at the bench for one chair; nothing where the workshop's file has no times.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub minutes: Option<f64>,
    /// Hours of the clock before the next step; nothing where there is no wait, or none is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wait_hours: Option<f64>,
    /// The step of the assembly that it does, counted from 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub assembly: Option<usize>,
    /// What its picture shows; nothing where it has none.
    #[serde(skip)]
    pub shows: Option<Shows>,
}

/// What the picture of a step shows.
#[derive(Clone, Debug, PartialEq)]
pub enum Shows {
    /// These parts as squared timber, apart.
    Blanks(Vec<PartId>),
    /// These parts sawn to their outline, without joints, apart.
    Shaped(Vec<PartId>),
    /// These parts with their joints cut, apart.
    Jointed(Vec<PartId>),
    /// These parts together.
    Together(Vec<PartId>),
    /// The step of the assembly with this number.
    Assembly(usize),
}

/// A caution, and who says so.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Caution {
    /// As a sentence.
    pub say: &'static str,
    /// The source, or `common practice, no source`.
    pub source: &'static str,
}

/// What no book proves.
pub(crate) const PRACTICE: &str = "common practice, no source";

/// What the steps are made from.
pub(crate) struct Bench<'a> {
    pub(crate) lengths: Lengths,
    pub(crate) chair: &'a Chair,
    pub(crate) shop: &'a Shop,
    pub(crate) labour: Option<&'a Labour>,
}

/// All steps of a chair, made alone: `labour` as the report tells it, lengths in sentences written as `lengths` says.
pub fn order_of_work(chair: &Chair, shop: &Shop, labour: Option<&Labour>, lengths: Lengths) -> Vec<WorkStep> {
    let bench = Bench { lengths, chair, shop, labour };
    let mut steps = preparing::steps(&bench);
    steps.extend(fitting::frame(&bench));
    steps.push(preparing::finish(&bench));
    steps.extend(fitting::seat(&bench));
    for (i, step) in steps.iter_mut().enumerate() {
        step.number = i + 1;
    }
    steps
}

impl WorkStep {
    /// A step of which nothing but the name is known.
    pub(crate) fn new(stage: Stage, title: impl Into<String>) -> Self {
        Self {
            number: 0,
            stage,
            title: title.into(),
            say: Vec::new(),
            letters: Vec::new(),
            tools: Vec::new(),
            clamps: Vec::new(),
            tapes: Vec::new(),
            checks: Vec::new(),
            cautions: Vec::new(),
            minutes: None,
            wait_hours: None,
            assembly: None,
            shows: None,
        }
    }
}

impl Bench<'_> {
    /// Rows of the labour in a stage.
    pub(crate) fn rows(&self, stage: Stage) -> impl Iterator<Item = &LabourRow> {
        self.labour.into_iter().flat_map(|labour| &labour.rows).filter(move |row| row.stage == stage)
    }

    /// Minutes of a stage for one chair, to whole minutes.
    pub(crate) fn minutes(&self, stage: Stage) -> Option<f64> {
        self.labour.map(|_| (self.rows(stage).map(|row| row.hours).sum::<f64>() * 60.0).round())
    }

    /// Minutes of a share of an operation.
    pub(crate) fn minutes_of(&self, operation: Operation, share: f64) -> Option<f64> {
        let rows = || self.labour.into_iter().flat_map(|labour| &labour.rows);
        let hours: f64 = rows().filter(|row| row.operation == operation).map(|row| row.hours).sum();
        self.labour.map(|_| (hours * share * 60.0).round())
    }

    pub(crate) fn rates(&self) -> Option<&Rates> {
        self.shop.labour.as_ref()
    }

    /// Letters of some parts, each once.
    pub(crate) fn letters(&self, ids: impl Iterator<Item = PartId>) -> Vec<String> {
        crate::lists::letters(ids.filter_map(|id| self.chair.part(id)))
    }
}
