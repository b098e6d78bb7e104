//! Measures the core natively; one program, since the release profile's link is slow. `tests/bench` and `tests/counts` use it.
//!
//! - `stages`: each stage of a design's way, over many designs
//! - `growth`: how a step and an order grow with their size
//! - `laps`: the core's own machinery alone, for `tests/reference/ratios.py`
//! - `count SUBJECT STAGE`: one stage, for a machine that counts instructions; `count` lists the pairs

mod counts;
mod growth;
mod stages;

use std::io::{BufRead, Write};
use std::process::ExitCode;

fn main() -> ExitCode {
    let asked: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = asked.iter().map(String::as_str).collect();
    match words.as_slice() {
        ["stages"] => stages::print(),
        ["growth"] => growth::print(),
        ["count"] => counts::list(),
        ["count", subject, stage] => return counts::count(subject, stage),
        ["laps"] if laps().is_ok() => {}
        _ => {
            eprintln!("Give stages, growth, laps, or count with a subject and a stage.");
            return ExitCode::FAILURE;
        }
    }
    ExitCode::SUCCESS
}

/// One JSON request a line from standard input, one JSON answer a line to standard output.
fn laps() -> std::io::Result<()> {
    let mut out = std::io::stdout().lock();
    for line in std::io::stdin().lock().lines() {
        writeln!(out, "{}", crestrail_tests::lap(&line?))?;
        out.flush()?;
    }
    Ok(())
}
