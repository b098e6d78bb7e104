//! One stage of a knob's step again and again, for counting its work: `valgrind --tool=callgrind step_work bench checks 5`.
//!
//! Arguments: `chair` or `bench` (the largest: three seats, arms and laths), `resolve`, `checks`, `report`, `doubts` (the report of a page's step) or `none`,
//! and rounds; each
//! round has another height of the seat. The difference to `none` is the stage alone. `resolve` is part of all but `none`.

use crestrail_chair::chair::Chair;
use crestrail_chair::checks::findings;
use crestrail_chair::design::Design;
use crestrail_chair::report::{report, report_of_doubts, service};
use crestrail_chair::shop::Shop;
use serde_json::json;
use std::time::Instant;

fn main() {
    let args: Vec<String> = std::env::args().collect();
    let [_, chair, stage, rounds] = args.as_slice() else {
        panic!("step_work chair|bench resolve|checks|report|doubts|none rounds")
    };
    let rounds: u32 = rounds.parse().expect("a number of rounds");
    let values = match chair.as_str() {
        "bench" => json!({"family": "bench_three", "arms": "posts", "back": "laths", "stretchers": "box"}),
        _ => json!({}),
    };
    let design = Design::from_value(&values).expect("values within the limits");
    let shop = Shop::demo();
    let bench = shop.bench();
    let mut times = [Vec::new(), Vec::new(), Vec::new()];
    for round in 0..rounds {
        let height = 400.0 + f64::from(round % 100);
        let design = design.with("seat_height", &json!(height)).expect("a height within the limits");
        let service = service(&design);
        if stage == "none" {
            continue;
        }
        let start = Instant::now();
        let chair =
            std::hint::black_box(Chair::resolve(&design, &bench).expect("a design that can be built"));
        times[0].push(start.elapsed().as_secs_f64() * 1e3);
        if stage == "checks" {
            let start = Instant::now();
            std::hint::black_box(findings(&chair, &service));
            times[1].push(start.elapsed().as_secs_f64() * 1e3);
        }
        if stage == "report" || stage == "doubts" {
            let told = if stage == "report" { report } else { report_of_doubts };
            let start = Instant::now();
            std::hint::black_box(told(&design, &chair, &shop));
            times[2].push(start.elapsed().as_secs_f64() * 1e3);
        }
    }
    for (name, times) in ["resolve", "checks", "report"].iter().zip(&mut times) {
        times.sort_by(f64::total_cmp);
        if let Some(median) = times.get(times.len() / 2) {
            println!("{name} {median:.3} ms");
        }
    }
}
