//! Does one stage of one design's way a few times, for a machine that counts instructions.
//!
//! `tests/counts` runs it under valgrind, which counts inside [`within_the_count`] alone.

use crestrail_chair::chair::Chair;
use crestrail_chair::checks::findings;
use crestrail_chair::design::Design;
use crestrail_chair::drawing::{View, exploded};
use crestrail_chair::length::Lengths;
use crestrail_chair::order::{Order, OrderLine, OrderReport};
use crestrail_chair::ranges::RangeSearch;
use crestrail_chair::report::{report, report_of_doubts, service};
use crestrail_chair::sheets::{self, Label, drawing, paper};
use crestrail_chair::shop::Shop;
use crestrail_sheet::svg;
use serde_json::json;
use std::hint::black_box;
use std::process::ExitCode;

/// Seat heights that come before those that are counted, so that what is recalled between steps is there.
const BEFORE: [f64; 4] = [431.0, 432.0, 433.0, 434.0];
const COUNTED: [f64; 4] = [435.0, 436.0, 437.0, 438.0];

const SUBJECTS: [&str; 2] = ["chair", "bench"];
const STAGES: [&str; 8] = ["resolve", "report", "doubts", "picture", "checks", "views", "ranges", "order"];

/// The default chair, and the largest: a bench for three with arms and laths.
fn design(subject: &str) -> Option<Design> {
    let values = match subject {
        "chair" => json!({}),
        "bench" => {
            json!({"family": "bench_three", "arms": "posts", "back": "laths", "stretchers": "box"})
        }
        _ => return None,
    };
    Design::from_value(&values).ok()
}

/// Prints all subjects and stages, a pair a line.
pub(crate) fn list() {
    for subject in SUBJECTS {
        STAGES.iter().for_each(|stage| println!("{subject} {stage}"));
    }
}

/// Does a stage of a subject.
pub(crate) fn count(subject: &str, stage: &str) -> ExitCode {
    let Some(design) = design(subject).filter(|_| STAGES.contains(&stage)) else {
        eprintln!("Give one of {} and one of {}.", SUBJECTS.join(", "), STAGES.join(", "));
        return ExitCode::FAILURE;
    };
    run(&design, stage);
    ExitCode::SUCCESS
}

fn run(design: &Design, stage: &str) {
    let shop = Shop::demo();
    for height in BEFORE {
        work(&at(design, height), &shop, stage, outside);
    }
    for height in COUNTED {
        work(&at(design, height), &shop, stage, within_the_count);
    }
}

fn at(design: &Design, height: f64) -> Design {
    design.with("seat_height", &json!(height)).expect("a seat height within the limits")
}

/// How a stage is run: inside [`within_the_count`] or not.
type Runner = fn(&mut dyn FnMut());

/// All that is counted happens in here; the name is told to valgrind.
#[inline(never)]
fn within_the_count(work: &mut dyn FnMut()) {
    work();
}

fn outside(work: &mut dyn FnMut()) {
    work();
}

/// One stage; what comes before it on the design's way is done, but not counted.
fn work(design: &Design, shop: &Shop, stage: &str, runner: Runner) {
    let bench = shop.bench();
    let resolve = || Chair::resolve(design, &bench).expect("a design that can be built");
    if stage == "resolve" {
        return runner(&mut || drop(black_box(resolve())));
    }
    let (chair, service) = (resolve(), service(design));
    let view = View { spread: 0.5, ..View::default() };
    runner(&mut || match stage {
        "report" => drop(black_box(report(design, &chair, shop))),
        // The report of a page's step, which only counts what is sound.
        "doubts" => drop(black_box(report_of_doubts(design, &chair, shop))),
        "picture" => drop(black_box(svg::write(&exploded(&chair, &view, &service)))),
        "checks" => drop(black_box(findings(&chair, &service))),
        "views" => drop(black_box(views(&chair, design))),
        "ranges" => {
            let mut search = RangeSearch::new(design, &bench).expect("a design that can be built");
            search.step(40);
            black_box(search.tried());
        }
        _ => drop(black_box(order_of_six(design, shop))),
    });
}

/// Front, side and plan on A3.
fn views(chair: &Chair, design: &Design) -> String {
    let order = sheets::Order {
        chair,
        service: &service(design),
        paper: paper("a3").expect("a paper"),
        lengths: Lengths::Millimetres,
        label: Label::default(),
    };
    svg::write(&drawing(&order, "drawing-views").expect("a sheet")[0].sheet)
}

/// The bill of an order of six.
fn order_of_six(design: &Design, shop: &Shop) -> OrderReport {
    let line = OrderLine { name: String::new(), design: design.clone(), quantity: 6, told: None };
    let order = Order { name: String::new(), customer: String::new(), lines: vec![line] };
    order.bare_report(&order.made(shop).expect("chairs"), shop).expect("a bill")
}
