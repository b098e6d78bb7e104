//! Quick plans: what two milliseconds or so give, beside what a second gives.

use super::clock::Clock;
use super::{middle_and_worst, orders, planks};
use crestrail_packing::Budget;
use std::ops::ControlFlow;

const QUICK: u64 = 2_000_000;
const LONG: u64 = 1_000_000_000;

pub(crate) fn run() {
    let solve_bars = |seed: u64, work: u64| {
        let plan = crestrail_packing::bars::solve(&orders::bars(seed), Budget::of(work), &mut |_| {
            ControlFlow::Continue(())
        });
        (plan.cost, plan.bound)
    };
    let solve_boards = |seed: u64, work: u64| {
        let plan = crestrail_packing::boards::solve(&orders::boards(seed), Budget::of(work), &mut |_| {
            ControlFlow::Continue(())
        });
        (plan.cost, plan.bound)
    };
    let solve_planks = |seed: u64, work: u64| {
        let chairs = [1, 2, 4, 6, 12, 24][seed as usize % 6];
        let plan = crestrail_packing::planks::solve(&planks::order(chairs), Budget::of(work), &mut |_| {
            ControlFlow::Continue(())
        });
        (plan.cost, plan.bound)
    };
    report("bars", 12, &solve_bars);
    report("boards", 12, &solve_boards);
    report("planks", 6, &solve_planks);
}

fn report(name: &str, orders: u64, solve: &dyn Fn(u64, u64) -> (i64, i64)) {
    let (mut seconds, mut dearer, mut above) = (Vec::new(), Vec::new(), Vec::new());
    for seed in 0..orders {
        let began = Clock::start();
        let (cost, bound) = solve(seed, QUICK);
        seconds.push(began.seconds() * 1e3);
        let (best, _) = solve(seed, LONG);
        dearer.push(100.0 * (cost - best) as f64 / best as f64);
        above.push(100.0 * (cost - bound) as f64 / bound as f64);
    }
    let mean = |v: &[f64]| v.iter().sum::<f64>() / v.len() as f64;
    let (dear, over) = (mean(&dearer), mean(&above));
    let (median, worst) = middle_and_worst(seconds);
    println!(
        "quick {name}: median {median:.1} ms, worst {worst:.1} ms; {dear:.1} % dearer than a long search, {over:.1} % above its own bound"
    );
}
