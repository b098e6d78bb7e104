//! What sets of chairs take: the same plan for several numbers of them.

use super::{Effort, Hear, Standing, TimberPlan, Wanted, plan};
use crate::money::Money;
use crate::refusal::Refusal;
use crate::shop::Shop;
use serde::Serialize;

/// The numbers of chairs that are planned side by side.
pub const SETS: [u32; 7] = [1, 2, 4, 6, 8, 12, 24];

/// What a set takes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SetRow {
    /// How many chairs.
    pub chairs: u32,
    /// How many boards are bought.
    pub boards: u32,
    /// What they cost.
    pub cost_minor: Money,
    /// No plan costs less.
    pub bound_minor: Money,
    /// What the offcuts count for.
    pub credit_minor: Money,
    /// Cost less credit, for one chair, rounded to the nearest minor unit.
    pub each_minor: Money,
    /// Share of the boards' area that ends as rough pieces.
    #[serde(rename = "yield")]
    pub yields: f64,
}

/// A row for each of [`SETS`], for chairs of one design. `None` where the shop has no stock list or the listener stopped it.
pub fn sets(
    one: Wanted<'_>,
    shop: &Shop,
    effort: Effort,
    hear: Hear<'_>,
) -> Result<Option<Vec<SetRow>>, Refusal> {
    let mut rows = Vec::new();
    for (i, count) in SETS.into_iter().enumerate() {
        let part = |done: f64| Standing { done: (i as f64 + done) / SETS.len() as f64 };
        let wanted = [Wanted { count, ..one }];
        match plan(&wanted, shop, effort, &mut |standing| hear(part(standing.done)))? {
            Some(plan) => rows.push(SetRow::of(&plan)),
            None => return Ok(None),
        }
    }
    Ok(Some(rows))
}

impl SetRow {
    fn of(plan: &TimberPlan) -> Self {
        let net = plan.cost_minor.0 - plan.credit_minor.0;
        let chairs = i64::from(plan.chairs.max(1));
        Self {
            chairs: plan.chairs,
            boards: plan.classes.iter().flat_map(|c| &c.buy).map(|s| s.count).sum(),
            cost_minor: plan.cost_minor,
            bound_minor: plan.bound_minor,
            credit_minor: plan.credit_minor,
            each_minor: Money((2 * net + chairs).div_euclid(2 * chairs)),
            yields: plan.yields,
        }
    }
}
