//! Times each stage of a design's way natively, over many designs: `stage median_ms p95_ms` a line; the safe ranges of all
//! knobs with the number of trials behind.
//!
//! `tests/bench` sets these beside the same stages in wasm.

use crestrail_chair::chair::Chair;
use crestrail_chair::checks::{findings, shares};
use crestrail_chair::design::Design;
use crestrail_chair::drawing::{View, exploded};
use crestrail_chair::length::Lengths;
use crestrail_chair::ranges::RangeSearch;
use crestrail_chair::report::{report_of_doubts, service};
use crestrail_chair::service::Service;
use crestrail_chair::sheets::{Label, Order, drawing, paper};
use crestrail_chair::shop::Shop;
use crestrail_sheet::svg;
use serde_json::{Value, json};
use std::time::Instant;

/// Rounds over the seat heights; the first tenth warms up and is not counted.
const ROUNDS: u32 = 300;
/// Searches for the safe ranges of one design, after one that warms up.
const SEARCHES: u32 = 5;

const STAGES: [&str; 5] = ["resolve", "report", "picture", "checks", "frame"];
/// Rounds of the sheets of the drawing to a scale, after one that warms up.
const SHEETS: u32 = 20;

/// The default chair, and the largest: a bench for three with arms and laths.
fn designs() -> [(&'static str, Value); 2] {
    let largest = json!({"family": "bench_three", "arms": "posts", "back": "laths", "stretchers": "box"});
    [("", json!({})), ("bench:", largest)]
}

/// Prints them.
pub(crate) fn print() {
    for (prefix, values) in designs() {
        let design = Design::from_value(&values).expect("values within the limits");
        for (name, times) in STAGES.iter().zip(&mut times(&design)) {
            println!("{prefix}{name} {}", summary(times));
        }
        for (name, mut times) in sheets(&design) {
            println!("{prefix}{name} {}", summary(&mut times));
        }
        let (mut times, tried) = ranges(&design);
        println!("{prefix}ranges {} {tried}", summary(&mut times));
    }
}

/// Median and the value that 95 in 100 do not pass.
fn summary(times: &mut [f64]) -> String {
    times.sort_by(f64::total_cmp);
    format!("{:.4} {:.4}", times[times.len() / 2], times[times.len() * 95 / 100])
}

fn times(design: &Design) -> [Vec<f64>; 5] {
    let shop = Shop::demo();
    let bench = shop.bench();
    let view = View { spread: 0.5, ..View::default() };
    let mut stages = [const { Vec::<f64>::new() }; 5];
    for round in 0..ROUNDS {
        let height = 400.0 + f64::from(round % 100);
        let Ok(design) = design.with("seat_height", &json!(height)) else { continue };
        let service = service(&design);
        let mut clock = Clock(Instant::now(), Vec::new());
        let Ok(chair) = clock.lap(|| Chair::resolve(&design, &bench)) else { continue };
        clock.lap(|| report_of_doubts(&design, &chair, &shop));
        clock.lap(|| svg::write(&exploded(&chair, &view, &service)));
        // Other users, so that nothing is recalled of the frame.
        let user = |more: f64| Service { user: service.user + more, ..service };
        clock.lap(|| findings(&chair, &user(1.0)));
        clock.lap(|| shares(&chair, &user(2.0)));
        if round >= ROUNDS / 10 {
            stages.iter_mut().zip(clock.1).for_each(|(stage, ms)| stage.push(ms));
        }
    }
    stages
}

/// The time since the last lap, and all laps in ms.
struct Clock(Instant, Vec<f64>);

impl Clock {
    fn lap<T>(&mut self, stage: impl FnOnce() -> T) -> T {
        self.0 = Instant::now();
        let made = std::hint::black_box(stage());
        self.1.push(self.0.elapsed().as_secs_f64() * 1e3);
        made
    }
}

/// Times of each sheet of the drawing on A3, as SVG.
fn sheets(design: &Design) -> Vec<(&'static str, Vec<f64>)> {
    let chair = Chair::resolve(design, &Shop::demo().bench()).expect("a design that can be built");
    let service = service(design);
    let paper = paper("a3").expect("a paper");
    let order = Order {
        chair: &chair,
        service: &service,
        paper,
        lengths: Lengths::Millimetres,
        label: Label::default(),
    };
    let timed = |name: &'static str| {
        let mut clock = Clock(Instant::now(), Vec::new());
        for _ in 0..=SHEETS {
            clock.lap(|| svg::write(&drawing(&order, name).expect("a sheet")[0].sheet));
        }
        (name, clock.1.split_off(1))
    };
    ["drawing-views", "drawing-sections", "drawing-parts"].map(timed).into()
}

/// Times of whole searches for the ranges of all knobs, and the trials of one.
fn ranges(design: &Design) -> (Vec<f64>, usize) {
    let bench = Shop::demo().bench();
    let mut clock = Clock(Instant::now(), Vec::new());
    let mut tried = 0;
    for _ in 0..=SEARCHES {
        let search = clock.lap(|| {
            let mut search = RangeSearch::new(design, &bench).expect("a design that can be built");
            search.step(usize::MAX);
            search
        });
        tried = search.tried();
    }
    (clock.1.split_off(1), tried)
}
