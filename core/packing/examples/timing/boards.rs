//! Boards: orders of 2 to 48 chairs beside their bound, and strips that are full at a height of 200, though not
//! always by cuts that go right through.

use super::clock::Clock;
use super::orders::Dice;
use super::{data, data_of, middle_and_worst};
use crestrail_packing::Budget;
use crestrail_packing::boards::{Board, Piece, Problem, Trim, best_fit, solve};
use std::ops::ControlFlow;

/// About a second natively.
const BUDGET: u64 = 1_200_000_000;

pub(crate) fn run() {
    let (mut gaps, mut gains, mut seconds, mut worse) = (Vec::new(), Vec::new(), Vec::new(), 0);
    for seed in 0..30 {
        let problem = order(seed);
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

/// Chairs of one design: 4 to 12 sizes of rails, slats, panels, two or four of each a chair.
pub(crate) fn order(seed: u64) -> Problem {
    let mut dice = Dice(seed * 733 + 11);
    let chairs = [2, 4, 6, 8, 12, 24, 48][dice.below(7) as usize];
    let pieces: Vec<Piece> = (0..4 + dice.below(9))
        .map(|_| Piece {
            length: dice.between(200, 950),
            width: dice.between(35, 130),
            count: chairs * [1, 2, 2, 4][dice.below(4) as usize],
            grain: dice.below(5) > 0,
        })
        .collect();
    let boards: Vec<Board> = (0..2 + dice.below(4))
        .map(|_| {
            let (length, width) =
                (1800.0 + 300.0 * dice.below(6) as f64, 150.0 + 25.0 * dice.below(7) as f64);
            let price = (length * width * (0.008 + 0.00001 * dice.below(300) as f64)) as i64;
            Board { length, width, price, count: None }
        })
        .collect();
    Problem::new(&boards, &pieces, 3.0, Trim { end: 25.0, edge: 8.0 }).expect("a sound problem")
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
