//! How long the order of assembly takes to find: `cargo run --release --example assembly_time`.

use crestrail_chair::assembly::Assembly;
use crestrail_chair::chair::Chair;
use crestrail_chair::design::Design;
use crestrail_chair::joints::Bench;
use crestrail_chair::part::Part;
use crestrail_geometry::Solid;
use std::time::Instant;

const ROUNDS: usize = 200;

fn main() {
    let designs = [
        ("default", "{}"),
        ("plain", r#"{"stretchers": "none", "pegs": "none", "back_slats": 2}"#),
        (
            "many parts",
            r#"{"back_slats": 6, "seat_slat_width": 30, "seat_slat_gap": 2, "pegs": "round", "rake": 18, "kick": 14}"#,
        ),
    ];
    for (name, values) in designs {
        let design = serde_json::from_str(values).ok().and_then(|values| Design::from_value(&values).ok());
        let Some(chair) = design.and_then(|design| Chair::resolve(&design, &Bench::default()).ok()) else {
            println!("{name}: cannot be built");
            continue;
        };
        let pieces: Vec<(&Part, &Solid)> = chair.pieces().map(|(part, body)| (part, &*body.solid)).collect();
        let mut times: Vec<f64> = (0..ROUNDS)
            .map(|_| {
                let start = Instant::now();
                std::hint::black_box(Assembly::of(&pieces, &chair.joints));
                start.elapsed().as_secs_f64() * 1e3
            })
            .collect();
        times.sort_by(f64::total_cmp);
        let steps = chair.assembly.steps.len();
        println!("{name}: {steps} steps, median {:.3} ms, least {:.3} ms", times[ROUNDS / 2], times[0]);
    }
}
