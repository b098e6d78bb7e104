//! What the solvers reach on whole sets of problems, each with a budget of work, so that it holds on every machine.

#[path = "../examples/timing/orders.rs"]
mod orders;

use crestrail_packing::{Budget, bars};
use std::ops::ControlFlow;

/// Orders of 6 to 48 chairs from priced bars: all are proven, half of them at once.
#[test]
fn workshop_orders_from_priced_bars_are_proven() {
    let mut works = Vec::new();
    for seed in 0..120 {
        let problem = orders::bars(seed);
        let plan = bars::solve(&problem, Budget::of(100_000_000), &mut |_| ControlFlow::Continue(()));
        assert_eq!((plan.cost, plan.missing.iter().sum::<u32>()), (plan.bound, 0), "order {seed}");
        works.push(plan.work);
    }
    works.sort_unstable();
    assert!(works[60] < 4_000_000, "{}", works[60]);
}
