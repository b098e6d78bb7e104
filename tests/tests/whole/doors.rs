//! Each way into the core with the files of the fuzz targets and mutations of them, and with files that are far too large:
//! taken or refused in words, and soon.

use crate::random::Random;
use crestrail_chair::design::NamedDesign;
use crestrail_chair::order::Order;
use crestrail_chair::shop::SHOP_FILE;
use crestrail_chair::{link, reading};
use crestrail_sheet::pdf;
use crestrail_tests::doors::{DOORS, Door};
use crestrail_tests::mutate::mutated;
use crestrail_tests::stopwatch::spent;
use std::fs;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::time::Duration;

const SEED: u64 = 7;

/// Mutations of each door's files; what is taken by the first two is priced, which takes longer.
const MUTATIONS: usize = 400;

/// Longest that one input may take of a processor, in a build without all optimisations. What is refused takes no thousandth
/// of it.
const SOON: Duration = Duration::from_secs(5);

fn corpus(door: &str) -> Vec<(String, Vec<u8>)> {
    let folder: PathBuf = Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz/corpus").join(door);
    let files = fs::read_dir(&folder).unwrap_or_else(|why| panic!("{}: {why}", folder.display()));
    let mut files: Vec<PathBuf> = files.map(|entry| entry.expect("readable").path()).collect();
    files.sort();
    let named = |path: PathBuf| (path.display().to_string(), fs::read(&path).expect("readable"));
    files.into_iter().map(named).collect()
}

/// Enters and says whether it was taken; what went wrong is told with the bytes that made it so.
fn enter(door: &Door, bytes: &[u8], told: &str) -> bool {
    let began = spent();
    let taken = catch_unwind(AssertUnwindSafe(|| (door.enter)(bytes)));
    let whole = || String::from_utf8_lossy(&bytes[..bytes.len().min(3000)]).into_owned();
    let taken = taken.unwrap_or_else(|_| panic!("door {}, {told}:\n{}", door.name, whole()));
    let took = spent().saturating_sub(began);
    assert!(took <= SOON, "door {}, {told} took {took:?}:\n{}", door.name, whole());
    taken
}

#[test]
fn each_file_of_the_fuzz_targets_is_taken_or_refused() {
    for door in &DOORS {
        let files = corpus(door.name);
        let taken = files.iter().filter(|(name, bytes)| enter(door, bytes, name)).count();
        assert!(taken >= 2, "door {}: of {} files only {taken} are taken", door.name, files.len());
    }
}

#[test]
fn no_mutation_makes_a_door_stumble() {
    for door in &DOORS {
        let (files, mut random, mut taken) = (corpus(door.name), Random::new(SEED), 0);
        for i in 0..MUTATIONS {
            let [one, other] = [0; 2].map(|_| &files[random.below(files.len())].1);
            let bytes = mutated(one, other, &mut random);
            taken += usize::from(enter(door, &bytes, &format!("mutation {i}")));
        }
        println!("{}: {taken} of {MUTATIONS} taken", door.name);
        assert!(taken > 0, "door {}: every mutation is refused, so nothing behind it was tried", door.name);
    }
}

/// Work that must be refused within this, also where nothing is optimised.
const AT_ONCE: Duration = Duration::from_secs(2);

fn at_once<T>(what: &str, work: impl FnOnce() -> T) -> T {
    let began = spent();
    let done = work();
    let took = spent().saturating_sub(began);
    assert!(took <= AT_ONCE, "{what} took {took:?}");
    done
}

#[test]
fn what_is_far_too_large_is_refused_at_once_in_words() {
    let long = format!("design/1;{};check=00000000", "seat_height=450;".repeat(700));
    let why = at_once("a link of 11 kB", || link::read(&long)).expect_err("too long").why;
    assert!(why.contains("too long"), "{why}");
    for huge in
        ["[".repeat(5_000_000), " ".repeat(5_000_000), format!("{{\"a\":\"{}\"}}", "x".repeat(5_000_000))]
    {
        for refused in [
            at_once("a shop", || reading::parse(SHOP_FILE.file, &huge).map(|_| ())),
            at_once("a design", || NamedDesign::read(&huge).map(|_| ())),
            at_once("an order", || Order::read(&huge).map(|_| ())),
        ] {
            assert!(refused.expect_err("too large").why.contains("bytes"));
        }
    }
}

/// A megabyte is still read; what is nested, repeated or listed without end in it is refused as soon.
#[test]
fn what_is_just_small_enough_to_be_read_is_refused_at_once_too() {
    let list = |item: &str| format!("[{}{item}]", format!("{item},").repeat(900_000 / (item.len() + 1)));
    let names: String = (0..60_000).map(|i| format!("\"name_{i}\":1,")).collect();
    for text in [
        list("0"),
        list("{}"),
        format!("{{\"crestrail\":\"design/1\",\"knobs\":{{{names}\"a\":1}}}}"),
        format!("{{\"crestrail\":\"order/2\",\"lines\":{}}}", list("{}")),
        format!("{{\"crestrail\":\"shop/1\",\"cutters\":{}}}", list("6")),
        "[".repeat(900_000),
    ] {
        for door in &DOORS {
            assert!(!at_once(door.name, || (door.enter)(text.as_bytes())), "{}", door.name);
        }
    }
}

/// A PDF file is looked through from end to end; one that makes every look a long one is given up.
#[test]
fn a_tangled_pdf_file_is_given_up_at_once() {
    for knot in [
        "1 0 obj<</Length 9 0 R>>stream\n",
        "obj(",
        "obj[",
        "obj<<",
        "obj<</A[",
        "9 0 obj ",
        "obj%",
        "obj/",
        "trailer(",
    ] {
        let file = format!("%PDF-1.7\n{}", knot.repeat(1_000_000 / knot.len()));
        let found = at_once(knot, || pdf::attached(file.as_bytes()));
        assert_eq!(found.unwrap_or_default(), Vec::<Vec<u8>>::new(), "{knot}");
    }
}
