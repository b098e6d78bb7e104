//! Planks: the raked leg of the facts, and irregular shapes in a strip beside the best known density.

use super::clock::Clock;
use super::{data_of, file};
use crestrail_packing::Budget;
use crestrail_packing::planks::{Plank, Problem, Shape, Trim, solve};
use std::ops::ControlFlow;

/// About two seconds natively.
const BUDGET: u64 = 2_700_000_000;

pub(crate) fn run() {
    for (length, width, wanted) in [(2400.0, 200.0, 6), (3000.0, 220.0, 12)] {
        legs(length, width, wanted);
    }
    orders();
    let known = file("irregular/BEST_KNOWN_from_memory.json");
    for name in ["albano", "jakobs1", "marques", "shapes1"] {
        let best = known[name]["best_known_density_pct_memory"].as_f64().expect("a density");
        strip(name, best, "best known from memory");
    }
    strip("dighe1", 100.0, "full: it is a jigsaw");
}

/// 900 long, limbs 40 wide, bent 12° in the middle, its chord along the grain.
fn leg() -> Vec<[f64; 2]> {
    let (sin, cos) = (0.104_528_463_267_653_47, 0.994_521_895_368_273_3);
    let (dx, dy, half, rise) = (20.0 * sin, 20.0 * cos, 450.0 * cos, 450.0 * sin);
    let mitre = 20.0 / cos;
    let right = 2.0 * half;
    vec![
        [dx, -dy],
        [half, rise - mitre],
        [right - dx, -dy],
        [right + dx, dy],
        [half, rise + mitre],
        [-dx, dy],
    ]
}

/// Legs, crest rails, arms and rails of some chairs.
pub(crate) fn order(chairs: u32) -> Problem {
    let along = vec![0.0, 180.0];
    let curved = |length: f64, width: f64, rise: f64, corners: u32| -> Vec<[f64; 2]> {
        let at = |i: u32| f64::from(i) / f64::from(corners);
        let lower = (0..=corners).map(|i| [length * at(i), 4.0 * rise * at(i) * (1.0 - at(i))]);
        let upper = (0..=corners).rev().map(|i| [length * at(i), width + 4.0 * rise * at(i) * (1.0 - at(i))]);
        lower.chain(upper).collect()
    };
    let arm = vec![
        [0.0, 0.0],
        [330.0, 0.0],
        [420.0, 20.0],
        [450.0, 55.0],
        [390.0, 85.0],
        [150.0, 60.0],
        [0.0, 55.0],
    ];
    let rail = vec![[0.0, 0.0], [410.0, 0.0], [410.0, 70.0], [0.0, 70.0]];
    let shapes = [(leg(), 2), (curved(440.0, 60.0, 35.0, 16), 2), (arm, 2), (rail, 4)]
        .map(|(outline, each)| Shape { outline, count: each * chairs, turns: along.clone(), tilt: 0.0 });
    let planks = [(2400.0, 200.0, 3900), (3000.0, 220.0, 5400)].map(|(length, width, price)| Plank {
        length,
        width,
        price,
        count: None,
    });
    Problem::new(&planks, &shapes, 3.0, Trim { end: 25.0, edge: 5.0 }, 0.1).expect("a sound problem")
}

/// Orders of chairs: how far above the bound.
pub(crate) fn orders() {
    for chairs in [1, 4, 12, 24] {
        let began = Clock::start();
        let plan = solve(&order(chairs), Budget::of(BUDGET / 2), &mut |_| ControlFlow::Continue(()));
        println!(
            "planks order of {chairs} chairs: cost {}, {:.1} % above the bound {}; {:.2} s",
            plan.cost,
            100.0 * (plan.cost - plan.bound) as f64 / plan.bound as f64,
            plan.bound,
            began.seconds()
        );
    }
}

/// How many legs go on a plank, and what is proven: no plank holds more than so many.
fn legs(length: f64, width: f64, wanted: u32) {
    let planks = [Plank { length, width, price: 1, count: None }];
    let began = Clock::start();
    let made = |count: u32| {
        let shapes = [Shape { outline: leg(), count, turns: vec![0.0, 180.0], tilt: 0.0 }];
        let problem = Problem::new(&planks, &shapes, 3.0, Trim::default(), 0.0).expect("a sound problem");
        solve(&problem, Budget::of(BUDGET), &mut |_| ControlFlow::Continue(()))
    };
    let on_one = (1..).take_while(|&n| made(n).cost == 1).last().unwrap_or(0);
    let proven = (1..).take_while(|&n| made(n).bound <= 1).last().unwrap_or(0);
    let many = made(48);
    println!(
        "planks leg on {length} x {width}: {on_one} (wanted {wanted}), no more than {proven} go on one; 48 legs take {} planks, {} at least; {:.0} ms for all",
        many.cost,
        many.bound,
        began.seconds() * 1e3
    );
}

fn strip(name: &str, known: f64, source: &str) {
    let row = file(&format!("irregular/{name}.json"));
    let number = |v: &serde_json::Value| v.as_f64().expect("a number");
    let shapes: Vec<Shape> = (row["items"].as_array().expect("items").iter())
        .map(|item| Shape {
            outline: data_of(&item["poly"]).iter().map(|p| [number(&p[0]), number(&p[1])]).collect(),
            count: number(&item["q"]) as u32,
            turns: data_of(&item["rot"]).iter().map(number).collect(),
            tilt: 0.0,
        })
        .collect();
    let (area, width) = (number(&row["total_area"]), number(&row["board_bbox"][1]));
    let planks = [Plank { length: 3.0 * area / width, width, price: 1, count: Some(1) }];
    let problem = Problem::new(&planks, &shapes, 0.0, Trim::default(), 0.0).expect("a sound problem");
    let began = Clock::start();
    let plan = solve(&problem, Budget::of(BUDGET), &mut |_| ControlFlow::Continue(()));
    let used = planks[0].length - plan.planks[0].offcut;
    let density = 100.0 * area / (used * width);
    let missing: u32 = plan.missing.iter().sum();
    println!(
        "planks {name}: density {density:.2} %, {known} % {source}, that is {:.1} % of it (wanted 85), {missing} missing; {:.2} s (wanted 2)",
        100.0 * density / known,
        began.seconds()
    );
}
