//! Make it fit: the values of knobs that suit the sitter best, within what the kind of chair allows and what can be built.
//!
//! Each size of the chair follows one knob, nearly one for one. So the chair is measured, each knob is set by what its
//! size lacks, and the chair is measured again, until nothing moves.

mod aims;

use crate::chair::Chair;
use crate::checks::findings;
use crate::checks::fit::{Fit, FitRow, fit};
use crate::design::Design;
use crate::finding::{Finding, Topic, Verdict};
use crate::joints::Bench;
use crate::knob::{Kind, Knob};
use crate::report::service;
use crate::unbuildable::Unbuildable;
use aims::Move;
use serde::{Serialize, Serializer};
use serde_json::Value;

/// Rounds after which sizes that push each other to and fro are left as they are.
const ROUNDS: usize = 6;
/// Halvings of a move that cannot be built.
const HALVINGS: u32 = 4;

/// A design made to fit.
#[derive(Clone, Debug, Serialize)]
pub struct Fitted {
    /// The design, which can be built.
    #[serde(serialize_with = "by_name")]
    pub design: Design,
    /// The knobs that were set, in the order of the page.
    pub changed: Vec<Change>,
    /// What could not be met.
    pub unmet: Vec<FitRow>,
    /// What failed no check before and does now, of strength, tipping or joints: the knobs of fit do not know them.
    pub worse: Vec<Finding>,
}

/// A design as its values by the names of the knobs.
fn by_name<S: Serializer>(design: &Design, serializer: S) -> Result<S::Ok, S::Error> {
    design.to_map().serialize(serializer)
}

/// A knob that was set.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Change {
    /// The knob.
    pub knob: &'static str,
    /// Its value before.
    pub was: Value,
    /// Its value now.
    pub now: Value,
}

/// The design that suits its sitter best, near the one given; an error only where that one cannot be built.
pub fn make_it_fit(design: &Design, bench: &Bench) -> Result<Fitted, Unbuildable> {
    let mut work = Work { bench, chair: Chair::resolve(design, bench)?, design: design.clone() };
    let failed = work.failing();
    for _ in 0..ROUNDS {
        if !work.round() {
            break;
        }
    }
    let unmet = work.fit().map(|fit| fit.rows).unwrap_or_default();
    let unmet = unmet.into_iter().filter(|row| row.verdict != Verdict::Sound).collect();
    let mut worse = work.failing();
    worse.retain(|now| failed.iter().all(|before| before.subject != now.subject));
    Ok(Fitted { changed: changes(design, &work.design), design: work.design, unmet, worse })
}

struct Work<'a> {
    bench: &'a Bench,
    design: Design,
    chair: Chair,
}

impl Work<'_> {
    fn fit(&self) -> Option<Fit> {
        fit(&self.chair, &service(&self.design))
    }

    /// The checks that fail, but for those of fit.
    fn failing(&self) -> Vec<Finding> {
        let mut found = findings(&self.chair, &service(&self.design));
        found.retain(|finding| finding.topic != Topic::Fit && finding.verdict == Verdict::Fails);
        found
    }

    /// Looks at each size once; whether any knob was set.
    fn round(&mut self) -> bool {
        let mut moved = false;
        for step in 0..aims::STEPS {
            let Some(fit) = self.fit() else { return false };
            if let Some(wish) = aims::wish(step, &fit.rows, &self.design) {
                moved |= self.turn(wish);
            }
        }
        moved
    }

    /// Sets a knob as far as it goes; whether it was set at all.
    fn turn(&mut self, Move { knob, by }: Move) -> bool {
        (0..=HALVINGS).any(|halved| self.set(knob, by / f64::from(1_u32 << halved)))
    }

    /// Sets a knob if the chair can then be built.
    fn set(&mut self, name: &str, by: f64) -> bool {
        let Some(knob) = self.design.knobs().iter().find(|knob| knob.name == name) else { return false };
        let Some((now, then)) = self.values(knob, by).filter(|(now, then)| now != then) else { return false };
        debug_assert!((then - now) * by > 0.0, "a knob goes the way it is asked to");
        let Ok(design) = self.design.with(name, &then.into()) else { return false };
        let Ok(chair) = Chair::resolve(&design, self.bench) else { return false };
        (self.design, self.chair) = (design, chair);
        true
    }

    /// The value of a knob now, and moved by so much to the nearest step within its limits.
    fn values(&self, knob: &Knob, by: f64) -> Option<(f64, f64)> {
        let Kind::Range { min, max, step, .. } = knob.kind else { return None };
        let now = self.design.to_map().get(knob.name)?.as_f64()?;
        let steps = (by / step).round();
        Some((now, (now + steps * step).clamp(min, max)))
    }
}

fn changes(before: &Design, after: &Design) -> Vec<Change> {
    let (was, now) = (before.to_map(), after.to_map());
    let differs = |knob: &Knob| was.get(knob.name).zip(now.get(knob.name)).filter(|(a, b)| a != b);
    let change = |knob: &Knob| {
        let (was, now) = differs(knob)?;
        Some(Change { knob: knob.name, was: was.clone(), now: now.clone() })
    };
    after.knobs().iter().filter_map(change).collect()
}

#[cfg(test)]
mod tests;
