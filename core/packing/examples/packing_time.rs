//! Prints what the solvers reach on the open problems of `tests/data/packing` and on orders of a workshop:
//! `cargo run --release -p crestrail-packing --example packing_time [quick|bars|boards|strips|planks]`.

mod timing;

fn main() {
    let only = std::env::args().nth(1);
    let wanted = |name: &str| only.as_deref().is_none_or(|o| o == name);
    println!("seconds are {}", timing::clock::Clock::name());
    if wanted("quick") {
        timing::quick::run();
    }
    if wanted("bars") {
        timing::bars::run();
    }
    if wanted("boards") {
        timing::boards::run();
    }
    if wanted("strips") {
        timing::boards::strips();
    }
    if wanted("planks") {
        timing::planks::run();
    }
}
