//! Whether the chair fits whoever sits on it.

mod item;
mod measured;
mod row;
#[cfg(test)]
mod tests;
mod want;
mod words;

pub use item::Item;
pub use row::FitRow;

use super::sitting::Sitting;
use crate::chair::Chair;
use crate::finding::Finding;
use crate::service::Service;
use crestrail_phrases::say;
use crestrail_sitter::{Measure, Sex, Sitter, ansur, nhanes};
use measured::Measured;
use serde::Serialize;

/// The table of fit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Fit {
    /// Who sits here, in words.
    pub who: String,
    /// Whom the figures come from and how far to trust them.
    pub caveat: String,
    /// Each size of the chair beside what is wanted.
    pub rows: Vec<FitRow>,
}

/// The table of fit; nothing for a chair without seat or legs.
pub fn fit(chair: &Chair, service: &Service) -> Option<Fit> {
    Some(Fit::of(chair, &Sitting::of(chair)?, service))
}

impl Fit {
    pub(super) fn of(chair: &Chair, sitting: &Sitting, service: &Service) -> Self {
        let rows = rows(chair, sitting, service);
        Self { who: who(service.sitter), caveat: caveat(service.sitter), rows }
    }

    /// Its rows as findings.
    pub(super) fn findings(&self) -> impl Iterator<Item = Finding> {
        self.rows.iter().map(FitRow::finding)
    }
}

fn rows(chair: &Chair, sitting: &Sitting, service: &Service) -> Vec<FitRow> {
    let measured = Measured::of(chair, sitting);
    Item::ALL.into_iter().filter_map(|item| FitRow::of(item, &measured, service)).collect()
}

/// What is found about fit, without the words of the table.
pub(super) fn findings(chair: &Chair, sitting: &Sitting, service: &Service) -> Vec<Finding> {
    rows(chair, sitting, service).iter().map(FitRow::finding).collect()
}

fn who(sitter: Sitter) -> String {
    match sitter {
        Sitter::Adults => say!("Adults in general"),
        Sitter::Stature { mm, weight_kg: None, .. } => say!("An adult {mm:.0} mm tall"),
        Sitter::Stature { mm, weight_kg: Some(kg), .. } => {
            say!("An adult {mm:.0} mm tall, {kg:.0} kg heavy")
        }
        Sitter::Child { stature_mm } => say!("A child {stature_mm:.0} mm tall"),
        Sitter::School { mark } => say!("Pupils of school size mark {mark}"),
    }
}

/// Half of the women measured weigh less than this, kg, and half of all women.
fn medians() -> Option<(f64, f64)> {
    let all = nhanes::weight(nhanes::Group::Adult(Sex::Female)).ok()?;
    Some((ansur::value_at(Sex::Female, Measure::Weight, 50.0).ok()?, all.value_at(50.0).ok()?))
}

fn caveat(sitter: Sitter) -> String {
    if matches!(sitter, Sitter::Child { .. } | Sitter::School { .. }) {
        return say!(
            "Heights of seat and table follow ISO 5970 and EN 1729-1 as reprinted; depth, width and the small of the back are from memory, a hint and no more. Nothing is known here of children's arms, thighs and knees."
        );
    }
    let leaner = medians().map_or(String::new(), |(soldiers, all)| {
        say!(" (half of the women among them weigh under {soldiers:.0} kg, of all women in the United States under {all:.0} kg)")
    });
    say!(
        "Shares are of US soldiers measured in 2012 (ANSUR II), leaner than most people{leaner}, with 25 mm of shoe; so hips, thighs and bellies are often wider than told here. Best is to try a seat of the same height and depth."
    )
}
