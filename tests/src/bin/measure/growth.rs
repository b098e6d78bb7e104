//! How a step and an order grow with their size, natively, for the rows of `tests/data/growth.json`: `name median_ms p95_ms` a
//! line. Without `chairs` a row is the step of a knob: chair, report and picture; with it the bill of an order of so many.
//!
//! `tests/bench` sets these beside the same rows in wasm.

use crestrail_chair::chair::Chair;
use crestrail_chair::design::Design;
use crestrail_chair::drawing::{View, exploded};
use crestrail_chair::order::{Order, OrderLine};
use crestrail_chair::report::{report, service};
use crestrail_chair::shop::Shop;
use crestrail_sheet::svg;
use serde_json::{Value, json};
use std::hint::black_box;
use std::time::Instant;

const ROWS: &str = include_str!("../../../data/growth.json");
/// Rounds over the seat heights; the first tenth warms up and is not counted.
const ROUNDS: u32 = 60;
/// Rounds of an order, after one that warms up.
const ORDERS: u32 = 3;

/// Prints them.
pub(crate) fn print() {
    let rows: Vec<Value> = serde_json::from_str(ROWS).expect("the rows");
    let shop = Shop::demo();
    for row in rows {
        let design = Design::from_value(&row["knobs"]).expect("values within the limits");
        let chairs = row["chairs"].as_u64().and_then(|count| u32::try_from(count).ok());
        let mut times = match chairs {
            Some(chairs) => orders(&design, chairs, &shop),
            None => steps(&design, &shop),
        };
        times.sort_by(f64::total_cmp);
        let (median, late) = (times[times.len() / 2], times[times.len() * 95 / 100]);
        println!("{} {median:.4} {late:.4}", row["name"].as_str().expect("a name"));
    }
}

fn timed<T>(work: impl FnOnce() -> T) -> f64 {
    let began = Instant::now();
    black_box(work());
    began.elapsed().as_secs_f64() * 1e3
}

/// Whole steps over the seat heights that can be built.
fn steps(design: &Design, shop: &Shop) -> Vec<f64> {
    let (bench, view) = (shop.bench(), View { spread: 0.5, ..View::default() });
    let step = |design: &Design| {
        let chair = Chair::resolve(design, &bench).ok()?;
        let told = report(design, &chair, shop);
        Some((told, svg::write(&exploded(&chair, &view, &service(design)))))
    };
    let mut times = Vec::new();
    for round in 0..ROUNDS {
        let height = 400.0 + f64::from(round);
        let Ok(design) = design.with("seat_height", &json!(height)) else { continue };
        let mut built = false;
        let ms = timed(|| built = step(&design).is_some());
        if built && round >= ROUNDS / 10 {
            times.push(ms);
        }
    }
    times
}

/// Bills of orders of so many chairs.
fn orders(design: &Design, chairs: u32, shop: &Shop) -> Vec<f64> {
    let bill = |height: f64| {
        let design = design.with("seat_height", &json!(height)).expect("a seat height within the limits");
        let line = OrderLine { name: String::new(), quantity: chairs, design, told: None };
        let order = Order { name: String::new(), customer: String::new(), lines: vec![line] };
        timed(|| order.bare_report(&order.made(shop).expect("chairs"), shop).expect("a bill"))
    };
    // Other seat heights each time, so that no plan is recalled whole.
    (0..=ORDERS).map(|round| bill(430.0 + f64::from(round))).skip(1).collect()
}
