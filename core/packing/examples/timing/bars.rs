//! Bars: open problems of bin packing, and orders of 6 to 48 chairs from priced bars.

use super::clock::Clock;
use super::orders;
use super::{data, middle_and_worst};
use crestrail_packing::Budget;
use crestrail_packing::bars::{Bar, Piece, Plan, Problem, solve};
use std::ops::ControlFlow;

/// Work at most: a second or two natively.
const BUDGET: u64 = 3_000_000_000;

pub(crate) fn run() {
    for name in ["falkenauer_u120", "falkenauer_t60", "scholl1_sample", "schwerin1"] {
        let problems: Vec<(Problem, Option<i64>)> =
            data(&format!("{name}.json")).iter().map(open_problem).collect();
        report(name, &problems);
    }
    let orders: Vec<(Problem, Option<i64>)> = (0..many()).map(|seed| (orders::bars(seed), None)).collect();
    report("workshop orders", &orders);
}

/// Orders at random: 40, or as many as the variable `ORDERS` says.
fn many() -> u64 {
    std::env::var("ORDERS").ok().and_then(|n| n.parse().ok()).unwrap_or(40)
}

fn open_problem(row: &serde_json::Value) -> (Problem, Option<i64>) {
    let number = |v: &serde_json::Value| v.as_f64().expect("a number");
    let pieces: Vec<Piece> = (row["items"].as_array().expect("items").iter())
        .map(|i| Piece { length: number(&i[0]), count: number(&i[1]) as u32 })
        .collect();
    let bars = [Bar { length: number(&row["cap"]), price: 1, count: None }];
    (Problem::new(&bars, &pieces, 0.0, 0.0).expect("a sound problem"), row["best"].as_i64())
}

fn report(name: &str, problems: &[(Problem, Option<i64>)]) {
    let mut seconds = Vec::new();
    let (mut proven, mut best, mut quick, mut gap) = (0, 0, 0, 0.0_f64);
    for (problem, known) in problems {
        let began = Clock::start();
        let plan: Plan = solve(problem, Budget::of(BUDGET), &mut |_| ControlFlow::Continue(()));
        let took = began.seconds();
        let done = plan.cost == plan.bound;
        proven += usize::from(done);
        quick += usize::from(done && took <= 1.0);
        best += usize::from(known.map_or(done, |k| k == plan.cost));
        gap = gap.max((plan.cost - plan.bound) as f64 / plan.bound.max(1) as f64);
        if std::env::var("EACH").is_ok() {
            println!(
                "  {took:.3} s, cost {} bound {} known {known:?} cuts {} work {}",
                plan.cost,
                plan.bound,
                plan.cuts.len(),
                plan.work
            );
        }
        seconds.push(took);
    }
    let (median, worst) = middle_and_worst(seconds);
    println!(
        "bars {name}: {} problems, {best} at the best known, {proven} proven, {quick} of them within 1 s; median {:.1} ms, worst {:.1} ms; largest gap {:.2} %",
        problems.len(),
        median * 1e3,
        worst * 1e3,
        gap * 100.0
    );
}
