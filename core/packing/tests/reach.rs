//! What the solvers reach on whole sets of problems, each with a budget of work, so that it holds on every machine.

#[path = "../examples/timing/orders.rs"]
mod orders;

use crestrail_packing::{Budget, bars, boards};
use serde_json::Value;
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

/// Hopper's T within 205 of a strip 200 wide. By cuts right through T1c and T1e have no such layout (worked out; see
/// DEVELOPERS.md).
#[test]
fn strips_that_are_all_but_full() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/data/packing/hopper_T_sample.json");
    let rows: Value = serde_json::from_str(&std::fs::read_to_string(path).expect("problems")).expect("JSON");
    let number = |v: &Value| v.as_f64().expect("a number");
    let mut above = Vec::new();
    for row in rows.as_array().expect("a list") {
        let pieces: Vec<boards::Piece> = (row["items"].as_array().expect("a list").iter())
            .map(|i| boards::Piece { length: number(&i[1]), width: number(&i[0]), count: 1, grain: false })
            .collect();
        let board = boards::Board { length: 205.0, width: 200.0, price: 1, count: Some(1) };
        let problem = boards::Problem::new(&[board], &pieces, 0.0, boards::Trim::default()).expect("sound");
        let plan = boards::solve(&problem, Budget::of(1_000_000_000), &mut |_| ControlFlow::Continue(()));
        if plan.missing.iter().any(|&n| n > 0) {
            above.push(row["name"].as_str().expect("a name").to_owned());
        }
    }
    assert_eq!(above, ["T1c", "T1e", "T2b"]);
}

/// A little work is enough for a plan that is not dearer than best fit.
#[test]
fn workshop_orders_from_priced_boards_keep_their_measure() {
    for seed in 0..12 {
        let problem = orders::boards(seed);
        let plan = boards::solve(&problem, Budget::of(2_000_000), &mut |_| ControlFlow::Continue(()));
        assert!(plan.bound <= plan.cost && plan.cost <= boards::best_fit(&problem), "order {seed}");
    }
}
