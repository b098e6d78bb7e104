//! Mutations of each door's files without a fuzzer, on the stable compiler:
//! `cargo run --profile hunt -p crestrail-tests --bin hunt -- FIRST COUNT [DOOR…]`. What makes a door stumble, or takes it more
//! than a second, is told with its seed and kept in `tests/fuzz/found`.

use crestrail_tests::doors::{DOORS, Door};
use crestrail_tests::mutate::mutated;
use crestrail_tests::random::Random;
use crestrail_tests::stopwatch::spent;
use std::fs;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::Duration;

/// What takes a processor longer than this is told.
const LONG: Duration = Duration::from_secs(1);

fn main() -> ExitCode {
    let mut words = std::env::args().skip(1);
    let numbers: Vec<u64> = words.by_ref().take(2).filter_map(|word| word.parse().ok()).collect();
    let [first, count] = numbers[..] else {
        eprintln!("Say the first seed and how many: hunt 0 100000 shop.");
        return ExitCode::FAILURE;
    };
    let named: Vec<String> = words.collect();
    let wanted = |door: &&Door| named.is_empty() || named.iter().any(|name| name == door.name);
    let wrong: usize = DOORS.iter().filter(wanted).map(|door| hunt(door, first, count)).sum();
    if wrong == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

fn here(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz").join(name)
}

/// How many seeds made the door stumble.
fn hunt(door: &Door, first: u64, count: u64) -> usize {
    let folder = fs::read_dir(here("corpus").join(door.name)).expect("the door has files");
    let mut paths: Vec<PathBuf> = folder.map(|entry| entry.expect("readable").path()).collect();
    paths.sort();
    let files: Vec<Vec<u8>> = paths.iter().map(|path| fs::read(path).expect("readable")).collect();
    let (began, mut taken, mut wrong, mut longest) = (spent(), 0_u64, 0, Duration::ZERO);
    for seed in first..first + count {
        let mut random = Random::new(seed);
        let [one, other] = [0; 2].map(|_| &files[random.below(files.len())]);
        let bytes = mutated(one, other, &mut random);
        let at = spent();
        let entered = catch_unwind(AssertUnwindSafe(|| (door.enter)(&bytes)));
        let took = spent().saturating_sub(at);
        longest = longest.max(took);
        taken += u64::from(*entered.as_ref().unwrap_or(&false));
        if entered.is_err() || took > LONG {
            wrong += usize::from(entered.is_err());
            let kept = here("found").join(door.name);
            fs::create_dir_all(&kept).expect("the folder can be made");
            fs::write(kept.join(seed.to_string()), &bytes).expect("the file can be written");
            println!(
                "{} seed {seed}: {} after {took:?}",
                door.name,
                if entered.is_err() { "STUMBLED" } else { "LONG" }
            );
        }
    }
    println!(
        "{} {first}..{}: {taken} taken, {wrong} wrong, longest {longest:?}, {:.0} s",
        door.name,
        first + count,
        spent().saturating_sub(began).as_secs_f64()
    );
    wrong
}
