//! Boards: orders of 2 to 48 chairs beside their bound, and strips that are full at a height of 200, though not
//! always by cuts that go right through.

use super::clock::Clock;
use super::orders;
use super::{data, data_of, middle_and_worst};
use crestrail_packing::Budget;
use crestrail_packing::boards::{Board, Piece, Problem, Trim, best_fit, solve};
use std::ops::ControlFlow;

/// About a second natively.
const BUDGET: u64 = 1_200_000_000;

pub(crate) fn run() {
    let (mut gaps, mut gains, mut seconds, mut worse) = (Vec::new(), Vec::new(), Vec::new(), 0);
    for seed in 0..30 {
        let problem = orders::boards(seed);
        let began = Clock::start();
        let plan = solve(&problem, Budget::of(BUDGET), &mut |_| ControlFlow::Continue(()));
        seconds.push(began.seconds());
        let greedy = best_fit(&problem);
        worse += usize::from(greedy < plan.cost);
        gaps.push(100.0 * (plan.cost - plan.bound) as f64 / plan.bound as f64);
        gains.push(100.0 * (greedy - plan.cost) as f64 / plan.cost as f64);
        if std::env::var("EACH").is_ok() {
            println!(
                "  seed {seed}: {:.2} s, cost {} bound {} greedy {greedy} boards {} work {}",
                seconds[seconds.len() - 1],
                plan.cost,
                plan.bound,
                plan.boards.iter().map(|b| b.times).sum::<u32>(),
                plan.work
            );
        }
    }
    let mean = |v: &[f64]| v.iter().sum::<f64>() / v.len() as f64;
    let (median, worst) = middle_and_worst(seconds);
    println!(
        "boards workshop orders: {} problems, above the bound {:.2} % on average, {:.2} % at most; best fit {:.2} % dearer, better {worse} times; median {median:.2} s, worst {worst:.2} s",
        gaps.len(),
        mean(&gaps),
        middle_and_worst(gaps.clone()).1,
        mean(&gains)
    );
}

/// The shortest strip, in steps of one, into which all pieces of a full square of 200 go.
pub(crate) fn strips() {
    let (mut met, mut total) = (0, 0);
    for row in data("hopper_T_sample.json") {
        let number = |v: &serde_json::Value| v.as_f64().expect("a number");
        let pieces: Vec<Piece> = (data_of(&row["items"]).iter())
            .map(|i| Piece { length: number(&i[1]), width: number(&i[0]), count: 1, grain: false })
            .collect();
        let began = Clock::start();
        let fits = |length: f64| {
            let boards = [Board { length, width: 200.0, price: 1, count: Some(1) }];
            let problem = Problem::new(&boards, &pieces, 0.0, Trim::default()).expect("a sound problem");
            let plan = solve(&problem, Budget::of(BUDGET / 2), &mut |_| ControlFlow::Continue(()));
            plan.missing.iter().all(|&n| n == 0)
        };
        let (mut short, mut long) = (199.0, 300.0);
        while long - short > 1.0 {
            let middle = ((short + long) / 2.0_f64).floor();
            if fits(middle) { long = middle } else { short = middle }
        }
        println!(
            "boards strip {}: {long} high (200 is full, wanted 205), {:.2} s",
            row["name"],
            began.seconds()
        );
        met += u32::from(long <= 205.0);
        total += 1;
    }
    println!("boards strips: {met} of {total} within 205");
}
