//! The plan behind a price where the shop has selling rates.
//!
//! Which boards a price stands for is decided by the selling rates alone, and without the rack, so that a published page,
//! which knows neither buying prices nor the rack, decides the same.

use super::making::{planned, planned_at};
use super::stand::nearest;
use super::{ClassPlan, Effort, Origin, TimberPlan, Wanted, pieces};
use crate::rates::PriceSheet;
use crate::refusal::Refusal;
use crate::shop::{Shop, Stock, Yard};
use core::ops::ControlFlow;

/// The boards of each class at the yard's selling rates; `None` where it has no stock list.
pub(crate) fn sold(wanted: &[Wanted<'_>], yard: Yard<'_>) -> Result<Option<Vec<ClassPlan>>, Refusal> {
    let Some(stock) = yard.stock else { return Ok(None) };
    let class = |class| planned(class, wanted.len(), yard, stock, Effort::PRICE, &mut on);
    pieces::by_class(wanted)
        .into_iter()
        .filter_map(|c| class(c).transpose())
        .collect::<Result<_, _>>()
        .map(Some)
}

/// The plan at buying prices, and beside it that at selling rates. They are one and the same where nothing in the rack
/// can serve; what the rack saves is the workshop's.
pub(super) fn both(
    wanted: &[Wanted<'_>],
    shop: &Shop,
    sheet: &PriceSheet,
) -> Result<Option<TimberPlan>, Refusal> {
    let (Some(stock), Some(selling)) = (&shop.stock, &sheet.stock) else { return Ok(None) };
    let (buying, selling) = ((shop.yard(), stock), (sheet.yard(&shop.name), selling));
    let (mut bought, mut sold) = (Vec::new(), Vec::new());
    for class in pieces::by_class(wanted) {
        let in_rack = stands_in_rack(&class, buying.0, stock)?;
        if in_rack {
            bought.extend(planned(class.clone(), wanted.len(), buying.0, stock, Effort::PRICE, &mut on)?);
        }
        let yards = if in_rack { vec![selling] } else { vec![selling, buying] };
        let plans = planned_at(class, wanted.len(), &yards, Effort::PRICE, &mut on)?;
        for (place, plan) in plans.into_iter().flatten().enumerate() {
            if place == 0 { sold.push(plan) } else { bought.push(plan) }
        }
    }
    let chairs = wanted.iter().map(|w| w.count).sum();
    Ok(Some(TimberPlan { sold, ..TimberPlan::of(bought, chairs, shop) }))
}

/// Whether the rack has a board of the thickness that the class is sawn from.
fn stands_in_rack(class: &pieces::Class, yard: Yard<'_>, stock: &Stock) -> Result<bool, Refusal> {
    let Some(trade) = class.trade.filter(|_| stock.rack.iter().any(|kept| kept.species == class.species))
    else {
        return Ok(false);
    };
    let found = nearest(yard, stock, class.species, trade)?;
    Ok(found.is_some_and(|(_, stands)| stands.iter().any(|stand| stand.origin == Origin::Rack)))
}

fn on(_: f64) -> ControlFlow<()> {
    ControlFlow::Continue(())
}
