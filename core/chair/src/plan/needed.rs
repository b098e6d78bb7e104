//! The boards of a class in short, for a list.

use super::class::{ClassPlan, Missing, Stack};
use crate::money::Money;
use crestrail_sorting::Order as _;
use serde::Serialize;

/// Which boards one species and thickness take.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BoardsNeeded {
    /// Name of the species.
    pub species: &'static str,
    /// The yard's name of the thickness; nothing where there are no boards.
    pub thickness: Option<&'static str>,
    /// Sawn thickness, mm.
    pub thickness_mm: f64,
    /// Letters of the parts.
    pub parts: Vec<String>,
    /// What to buy.
    pub buy: Vec<Stack>,
    /// What to take from the rack.
    pub rack: Vec<Stack>,
    /// What the bought boards cost.
    pub cost_minor: Money,
    /// What the offcuts worth keeping count for.
    pub credit_minor: Money,
    /// Share of the boards' area that ends as rough pieces.
    #[serde(rename = "yield")]
    pub yields: f64,
    /// Pieces for which there is no board.
    pub missing: Vec<Missing>,
}

impl BoardsNeeded {
    pub(super) fn of(class: &ClassPlan) -> Self {
        let laid = class.boards.iter().flat_map(|b| &b.pieces).map(|p| &p.letter);
        let mut parts: Vec<String> = laid.chain(class.missing.iter().map(|m| &m.letter)).cloned().collect();
        parts.order_by(|a, b| a.len().cmp(&b.len()).then(a.cmp(b)));
        parts.dedup();
        Self {
            species: class.species,
            thickness: class.thickness,
            thickness_mm: class.thickness_mm,
            parts,
            buy: class.buy.clone(),
            rack: class.rack.clone(),
            cost_minor: class.cost_minor,
            credit_minor: class.credit_minor,
            yields: if class.boards_m2 > 0.0 { class.pieces_m2 / class.boards_m2 } else { 0.0 },
            missing: class.missing.clone(),
        }
    }
}
