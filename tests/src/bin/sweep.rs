//! Takes the random designs of a range of seeds through the whole core:
//! `cargo run --profile hunt -p crestrail-tests --bin sweep -- FIRST COUNT`. It prints where it is after every thousand,
//! so that a run that was broken off goes on from there, and what went wrong with its seed, at once.

use crestrail_chair::shop::Shop;
use crestrail_tests::sweep::{Tally, sweep};
use std::io::Write;
use std::process::ExitCode;
use std::time::Instant;

/// Seeds between two lines of the log.
const STRIDE: u64 = 1000;

fn main() -> ExitCode {
    let numbers: Vec<u64> = std::env::args().skip(1).filter_map(|word| word.parse().ok()).collect();
    let [first, count] = numbers[..] else {
        eprintln!("Say the first seed and how many: sweep 0 1000000.");
        return ExitCode::FAILURE;
    };
    let (shop, began, end) = (Shop::demo(), Instant::now(), first + count);
    let mut all = Tally::default();
    for from in (first..end).step_by(STRIDE as usize) {
        let part = sweep(from, STRIDE.min(end - from), &shop);
        part.wrong.iter().for_each(|wrong| println!("WRONG {wrong}"));
        all.add(part);
        println!("{first}..{} {:.0} s: {}", first + all.tried, began.elapsed().as_secs_f64(), counted(&all));
        // Whoever watches sees it at once, and a run that is broken off loses nothing.
        std::io::stdout().flush().expect("the log can be written");
    }
    all.refused.iter().for_each(|(why, count)| println!("REFUSED {count} {why}"));
    if all.wrong.is_empty() { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

fn counted(all: &Tally) -> String {
    let Tally { tried, drawn, on_paper, wrong, .. } = all;
    format!(
        "{tried} tried, {} refused, {drawn} drawn, {on_paper} on paper, {} wrong",
        all.refusals(),
        wrong.len()
    )
}
