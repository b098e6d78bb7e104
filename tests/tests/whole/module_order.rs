//! Inside `core/chair` a stage takes nothing from a later one. Cargo holds the arrows between crates;
//! this holds those between modules, by reading their `crate::…` paths.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Rows from earlier to later: a module may take from earlier rows, from its own row never.
const ORDER: &[&[&str]] = &[
    // What parts are made of, and the rules of seats: both know nothing of the others.
    &["material", "seating"],
    // Plain values that know nothing of the others.
    &["refusal", "unbuildable", "money", "knob", "settle", "climate"],
    &["service", "date", "length"],
    &["part"],
    // A finding names the part or the joint that it looks at.
    &["reading", "choices", "joint", "housing", "finding"],
    // They read parts, joints and solids; the chair holds the order of assembly.
    &["assembly", "meeting", "lettering"],
    // The table of knobs writes the methods of the design.
    &["knobs + design + family", "shop", "chair"],
    &["told", "rates"],
    // One direction: from a design to the resolved chair.
    &["profile", "link", "turning", "fastening"],
    &["skeleton"],
    &["parts"],
    &["joints"],
    &["solids"],
    &["resolve"],
    // The branches below the chair.
    &["nearest", "lists", "checks", "sketch"],
    // Its tints may tell what the checks found.
    &["labour", "plan"],
    &["work"],
    &["bill", "drawing"],
    // One of them holds the picture.
    &["sheets"],
    // What puts the branches together.
    &["report"],
    &["order", "swing", "fitting", "ranges", "showroom"],
    &["export", "checkin"],
];

/// They read the resolved chair, and nothing that comes before it from the knobs.
const BRANCHES: &[&str] = &["lists", "checks", "drawing", "sheets", "labour", "plan", "work", "bill"];
const BEFORE_THE_CHAIR: &[&str] = &["knobs", "design", "profile", "skeleton", "parts"];

fn sources() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../core/chair/src")
}

/// The row in which a module stands, and the entry of the row.
fn stand(module: &str) -> Option<(usize, &'static str)> {
    let holds = |entry: &&&str| entry.split(" + ").any(|name| name == module);
    ORDER.iter().enumerate().find_map(|(row, entries)| entries.iter().find(holds).map(|entry| (row, *entry)))
}

fn rust_files(under: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(under).expect("a folder of sources") {
        let path = entry.expect("readable").path();
        if path.is_dir() {
            rust_files(&path, found);
        } else if path.extension().is_some_and(|end| end == "rs") {
            found.push(path);
        }
    }
}

/// The source without comments and without what only tests use.
fn code(text: &str) -> String {
    let own = text.split("#[cfg(test)]\nmod tests {").next().unwrap_or_default();
    let bare = |line: &str| line.split("//").next().unwrap_or_default().to_owned();
    own.lines().map(bare).collect::<Vec<_>>().join("\n")
}

/// Whether the file is one that its parent compiles only for tests.
fn only_for_tests(path: &Path) -> bool {
    path.file_stem().is_some_and(|name| name == "tests" || name == "sample")
}

/// The modules named behind `crate::`, also within braces.
fn taken(code: &str) -> BTreeSet<String> {
    let name = |text: &str| -> String {
        text.trim_start().chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect()
    };
    let mut found = BTreeSet::new();
    for rest in code.split("crate::").skip(1) {
        let Some(inner) = rest.strip_prefix('{') else {
            found.insert(name(rest));
            continue;
        };
        let mut depth = 0;
        let mut item = String::new();
        for c in inner.chars() {
            match c {
                '{' => depth += 1,
                '}' if depth == 0 => break,
                '}' => depth -= 1,
                ',' if depth == 0 => drop(found.insert(name(&std::mem::take(&mut item)))),
                c => item.push(c),
            }
        }
        found.insert(name(&item));
    }
    found.remove("");
    found
}

/// Each module with all it takes from others.
fn arrows() -> Vec<(String, String, PathBuf)> {
    let root = sources();
    let mut files = Vec::new();
    rust_files(&root, &mut files);
    let mut found = Vec::new();
    for path in files.into_iter().filter(|path| !only_for_tests(path)) {
        let within = path.strip_prefix(&root).expect("below the root");
        let first = within.iter().next().expect("a name").to_string_lossy();
        let module = first.trim_end_matches(".rs").to_owned();
        let text = fs::read_to_string(&path).expect("text");
        if module != "lib" {
            found.extend(
                taken(&code(&text)).into_iter().map(|other| (module.clone(), other, within.to_owned())),
            );
        }
    }
    found
}

#[test]
fn no_stage_takes_from_a_later_one() {
    let mut wrong = Vec::new();
    for (module, other, path) in arrows() {
        let (Some((row, entry)), Some((other_row, other_entry))) = (stand(&module), stand(&other)) else {
            wrong.push(format!("{}: {module} or {other} stands in no row of the order", path.display()));
            continue;
        };
        if entry != other_entry && other_row >= row {
            wrong.push(format!("{}: {module} takes from {other}, which is not earlier", path.display()));
        }
        if BRANCHES.contains(&module.as_str()) && BEFORE_THE_CHAIR.contains(&other.as_str()) {
            wrong.push(format!("{}: {module} looks behind the chair at {other}", path.display()));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_order_names_the_modules_there_are() {
    let lib = fs::read_to_string(sources().join("lib.rs")).expect("text");
    let declared: BTreeSet<&str> = lib
        .lines()
        .filter_map(|line| line.trim_start_matches("pub ").strip_prefix("mod ")?.strip_suffix(';'))
        .collect();
    let ordered: BTreeSet<&str> = ORDER.concat().into_iter().flat_map(|entry| entry.split(" + ")).collect();
    assert_eq!(declared, ordered);
}

#[test]
fn paths_are_read_out_of_code() {
    let text = "use crate::{joint::{End, Joint}, part, lists::*};\n// crate::bill\nlet x = crate::shop::Shop::demo();\n#[cfg(test)]\nmod tests {\n use crate::report;\n}";
    let names: Vec<String> = taken(&code(text)).into_iter().collect();
    assert_eq!(names, ["joint", "lists", "part", "shop"]);
    assert!(arrows().iter().any(|(module, other, _)| module == "bill" && other == "lists"));
}
