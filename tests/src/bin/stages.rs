//! Times each stage of a design's way natively, over many designs: `stage median_ms p95_ms` a line.
//!
//! `tests/bench` sets these beside the same stages in wasm.

use crestrail_chair::chair::Chair;
use crestrail_chair::design::Design;
use crestrail_chair::drawing::{View, exploded};
use crestrail_chair::report::report;
use crestrail_chair::shop::Shop;
use crestrail_sheet::svg;
use serde_json::{Value, json};
use std::time::Instant;

/// Rounds over the seat heights; the first tenth warms up and is not counted.
const ROUNDS: u32 = 300;

/// The default chair, and the largest: a bench for three with arms and laths.
fn designs() -> [(&'static str, Value); 2] {
    let largest = json!({"family": "bench_three", "arms": "posts", "back": "laths", "stretchers": "box"});
    [("", json!({})), ("bench:", largest)]
}

fn main() {
    for (prefix, values) in designs() {
        let design = Design::from_value(&values).expect("values within the limits");
        for (name, times) in ["resolve", "report", "picture"].iter().zip(&mut times(&design)) {
            times.sort_by(f64::total_cmp);
            println!("{prefix}{name} {:.4} {:.4}", times[times.len() / 2], times[times.len() * 95 / 100]);
        }
    }
}

fn times(design: &Design) -> [Vec<f64>; 3] {
    let shop = Shop::demo();
    let bench = shop.bench();
    let view = View { spread: 0.5, ..View::default() };
    let mut stages = [const { Vec::<f64>::new() }; 3];
    for round in 0..ROUNDS {
        let height = 400.0 + f64::from(round % 100);
        let Ok(design) = design.with("seat_height", &json!(height)) else { continue };
        let start = Instant::now();
        let Ok(chair) = Chair::resolve(&design, &bench) else { continue };
        let resolved = Instant::now();
        let report = report(&design, &chair, &shop);
        let reported = Instant::now();
        let picture = svg::write(&exploded(&chair, &view));
        let drawn = Instant::now();
        std::hint::black_box((report, picture));
        if round >= ROUNDS / 10 {
            let spans = [resolved - start, reported - resolved, drawn - reported];
            stages.iter_mut().zip(spans).for_each(|(stage, span)| stage.push(span.as_secs_f64() * 1e3));
        }
    }
    stages
}
