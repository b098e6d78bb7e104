//! Safe ranges: how far each knob can be turned from where it stands before something fails.
//!
//! For a knob with figures the values on its own grid are tried outwards from the present one; for a choice each of
//! the others is tried. A value *holds* where the chair can be built and no check fails. What fails at the present
//! design already does not count: a range then says where nothing *more* goes wrong, and stays of use
//! while something else is being mended.
//!
//! What is assumed: between two values that hold and lie next to each other among those tried, all hold. Outwards
//! an eighth of the way to the knob's limit, a half, and the limit itself are tried; from the first that does not hold
//! the search closes in by halves on two neighbours of which one holds. A pocket between two tried values is missed.
//!
//! Each trial is a sketch of the chair with all checks but the order of assembly (see `sketch`); a knob that does not shape the
//! chair is tried on the chair as it is. The search is cut into
//! trials, so that whoever runs it may stop between any two.

mod seek;
mod trial;

use crate::chair::Chair;
use crate::design::Design;
use crate::finding::{Topic, Verdict};
use crate::joints::Bench;
use crate::knob::{Kind, Knob};
use crate::unbuildable::Unbuildable;
use seek::Seek;
use serde::Serialize;
use trial::Trial;

/// How far one knob can be turned.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SafeRange {
    /// Its name.
    pub knob: &'static str,
    /// The values.
    #[serde(flatten)]
    pub holds: Holds,
}

/// Values of a knob at which nothing more goes wrong.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Holds {
    /// From one value to another.
    Span {
        /// The lowest.
        low: End,
        /// The highest.
        high: End,
    },
    /// The possibilities of a choice that is not the present one.
    Picks(Vec<PickHolds>),
}

/// An end of a range.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct End {
    /// The last value that holds.
    pub value: f64,
    /// What ends it; none where the knob itself goes no further.
    pub stop: Option<Stop>,
}

/// Whether a possibility of a choice holds.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PickHolds {
    /// Its name.
    pub name: &'static str,
    /// Why it does not; none where it does.
    pub stop: Option<Stop>,
}

/// Why a value does not hold.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stop {
    /// The nearest value that does not hold; none for a choice.
    pub value: Option<f64>,
    /// What the check that fails looked at; none where the chair cannot be built at all.
    pub subject: Option<String>,
    /// What that check is about.
    pub topic: Option<Topic>,
    /// The same in a sentence for a customer.
    pub say: String,
}

/// The search for the safe ranges of all knobs that apply, in trials.
#[derive(Debug)]
pub struct RangeSearch {
    trial: Trial,
    /// Knobs still to come, the next one last.
    knobs: Vec<&'static Knob>,
    now: Option<Seek>,
    tried: usize,
}

impl RangeSearch {
    /// Around a design; a design that cannot be built has no ranges.
    pub fn new(design: &Design, bench: &Bench) -> Result<Self, Unbuildable> {
        let chair = Chair::resolve(design, bench)?;
        Ok(Self {
            trial: Trial::new(design, bench, chair)?,
            knobs: knobs(design).into_iter().rev().collect(),
            now: None,
            tried: 0,
        })
    }

    /// Makes at most so many trials and gives the ranges that are finished by them.
    pub fn step(&mut self, trials: usize) -> Vec<SafeRange> {
        let mut found = Vec::new();
        for _ in 0..trials {
            let Some(mut seek) = self.now.take().or_else(|| self.next()) else { break };
            self.try_next(&mut seek);
            if seek.wanted().is_none() {
                found.push(seek.finish());
            } else {
                self.now = Some(seek);
            }
        }
        found
    }

    /// Whether every knob has its range.
    pub fn is_done(&self) -> bool {
        self.now.is_none() && self.knobs.is_empty()
    }

    /// Trials made so far.
    pub fn tried(&self) -> usize {
        self.tried
    }

    /// How many checks fail at the design itself.
    pub fn failing(&self) -> usize {
        self.trial.failing()
    }

    fn next(&mut self) -> Option<Seek> {
        self.knobs.pop().map(|knob| Seek::new(knob, self.trial.design()))
    }

    fn try_next(&mut self, seek: &mut Seek) {
        if let Some(value) = seek.wanted() {
            self.tried += 1;
            let stop = self.trial.stop(seek.knob(), &value);
            seek.learn(stop);
        }
    }
}

/// The knobs that have an effect in this design, but for the kind of chair; those with figures first.
fn knobs(design: &Design) -> Vec<&'static Knob> {
    let values = design.to_map();
    let is_choice = |knob: &Knob| matches!(knob.kind, Kind::Choice { .. });
    let wanted = |knob: &&Knob| {
        knob.name != "family" && knob.applies_in(&values) && (!is_choice(knob) || knob.picks().len() > 1)
    };
    let (choices, figures): (Vec<_>, Vec<_>) =
        design.knobs().iter().filter(wanted).partition(|knob| is_choice(knob));
    figures.into_iter().chain(choices).collect()
}

/// Whether a check fails.
fn fails(verdict: Verdict) -> bool {
    verdict == Verdict::Fails
}

#[cfg(test)]
mod tests;
