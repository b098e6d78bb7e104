//! One stage of a knob's step again and again, for counting its work: `valgrind --tool=callgrind step_work bench checks 5`.
//!
//! Arguments: `chair` or `bench` (the largest: three seats, arms and laths), `resolve`, `checks`, `report` (all that the page
//! shows, with the timber plan and the price), `doubts` (the report of a page's step), `drawing` (the picture as data), `picture` (the same as SVG) or `none`, and rounds;
//! each round has another height of the seat. The difference to `none` is the stage alone. `resolve` is part of all but `none`.
//! With a fourth argument each picture is also written into the folder that it names, for comparing.

use crestrail_chair::chair::Chair;
use crestrail_chair::checks::findings;
use crestrail_chair::design::Design;
use crestrail_chair::drawing::{View, exploded};
use crestrail_chair::report::{report, report_of_doubts, service};
use crestrail_chair::shop::Shop;
use crestrail_sheet::svg;
use serde_json::json;
use std::hint::black_box;
use std::time::Instant;

fn main() {
    let args: Vec<String> = std::env::args().collect();
    let [_, chair, stage, rounds, out @ ..] = args.as_slice() else {
        panic!("step_work chair|bench resolve|checks|report|doubts|drawing|picture|none rounds [folder]")
    };
    let rounds: u32 = rounds.parse().expect("a number of rounds");
    let values = match chair.as_str() {
        "bench" => json!({"family": "bench_three", "arms": "posts", "back": "laths", "stretchers": "box"}),
        _ => json!({}),
    };
    let design = Design::from_value(&values).expect("values within the limits");
    let (shop, view) = (Shop::demo(), View { spread: 0.5, ..View::default() });
    let bench = shop.bench();
    let mut times = [Vec::new(), Vec::new()];
    for round in 0..rounds {
        let height = 400.0 + f64::from(round % 100);
        let design = design.with("seat_height", &json!(height)).expect("a height within the limits");
        let service = service(&design);
        if stage == "none" {
            continue;
        }
        let start = Instant::now();
        let chair = black_box(Chair::resolve(&design, &bench).expect("a design that can be built"));
        times[0].push(milliseconds(start));
        let start = Instant::now();
        match stage.as_str() {
            "checks" => drop(black_box(findings(&chair, &service))),
            "report" => drop(black_box(report(&design, &chair, &shop))),
            "doubts" => drop(black_box(report_of_doubts(&design, &chair, &shop))),
            "drawing" => drop(black_box(exploded(&chair, &view, &service))),
            "picture" => {
                let text = black_box(svg::write(&exploded(&chair, &view, &service)));
                if let [folder, ..] = out {
                    let file = format!("{folder}/{round}.svg");
                    std::fs::write(&file, text).expect("a folder to write into");
                }
            }
            _ => continue,
        }
        times[1].push(milliseconds(start));
    }
    for (name, times) in ["resolve", stage].iter().zip(&mut times) {
        times.sort_by(f64::total_cmp);
        if let Some(median) = times.get(times.len() / 2) {
            println!("{name} {median:.3} ms");
        }
    }
}

fn milliseconds(start: Instant) -> f64 {
    start.elapsed().as_secs_f64() * 1e3
}
