//! Packing alone, for the bench: nothing of it goes into the page.
//!
//! All lengths in mm. An answer is `[cost, bound, missing, work]`.

#[path = "../../core/packing/examples/timing/orders.rs"]
mod orders;

use crestrail_packing::{Budget, Progress, bars, boards};
use std::ops::ControlFlow;
use wasm_bindgen::JsError;
use wasm_bindgen::prelude::wasm_bindgen;

fn go_on(_: &Progress) -> ControlFlow<()> {
    ControlFlow::Continue(())
}

fn told(cost: i64, bound: i64, missing: &[u32], work: u64) -> Vec<f64> {
    vec![cost as f64, bound as f64, f64::from(missing.iter().sum::<u32>()), work as f64]
}

fn solved_bars(problem: &bars::Problem, work: f64) -> Vec<f64> {
    let plan = bars::solve(problem, Budget::of(work as u64), &mut go_on);
    told(plan.cost, plan.bound, &plan.missing, plan.work)
}

fn solved_boards(problem: &boards::Problem, work: f64) -> Vec<f64> {
    let plan = boards::solve(problem, Budget::of(work as u64), &mut go_on);
    told(plan.cost, plan.bound, &plan.missing, plan.work)
}

/// An order of a workshop from priced bars, by its number.
#[wasm_bindgen(js_name = barsOrder)]
pub fn bars_order(seed: u32, work: f64) -> Vec<f64> {
    solved_bars(&orders::bars(u64::from(seed)), work)
}

/// An order of a workshop from priced boards, by its number.
#[wasm_bindgen(js_name = boardsOrder)]
pub fn boards_order(seed: u32, work: f64) -> Vec<f64> {
    solved_boards(&orders::boards(u64::from(seed)), work)
}

/// Pieces from bars of one length, as many bars as wanted at a price of 1.
#[wasm_bindgen(js_name = barsAlike)]
pub fn bars_alike(length: f64, lengths: &[f64], counts: &[u32], work: f64) -> Result<Vec<f64>, JsError> {
    let pieces: Vec<bars::Piece> =
        lengths.iter().zip(counts).map(|(&length, &count)| bars::Piece { length, count }).collect();
    let problem = bars::Problem::new(&[bars::Bar { length, price: 1, count: None }], &pieces, 0.0, 0.0)?;
    Ok(solved_bars(&problem, work))
}

/// Rectangles that may be turned, from one board.
#[wasm_bindgen(js_name = oneBoard)]
pub fn one_board(
    length: f64,
    width: f64,
    lengths: &[f64],
    widths: &[f64],
    work: f64,
) -> Result<Vec<f64>, JsError> {
    let pieces: Vec<boards::Piece> = (lengths.iter().zip(widths))
        .map(|(&length, &width)| boards::Piece { length, width, count: 1, grain: false })
        .collect();
    let board = boards::Board { length, width, price: 1, count: Some(1) };
    let problem = boards::Problem::new(&[board], &pieces, 0.0, boards::Trim::default())?;
    Ok(solved_boards(&problem, work))
}
