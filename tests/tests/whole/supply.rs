//! What the program is made of besides its own code: licences, sources, versions, and a reason for each. Cargo tells; nothing is fetched.

use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Licences that ask for no more than their notice (identifiers of the SPDX list).
const ALLOWED: [&str; 10] = [
    "MIT",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "ISC",
    "Zlib",
    "0BSD",
    "Unlicense",
    "BSL-1.0",
    "Unicode-3.0",
];

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn text(name: &str) -> String {
    fs::read_to_string(root().join(name)).unwrap_or_else(|why| panic!("{name}: {why}"))
}

/// What cargo knows of all packages that a build for this target takes.
fn metadata(target: &str) -> Value {
    let mut cargo = Command::new(std::env::var("CARGO").unwrap_or_else(|_| "cargo".to_owned()));
    cargo.current_dir(root()).args(["metadata", "--format-version", "1", "--locked", "--offline"]);
    let out = cargo.args(["--filter-platform", target]).output().expect("cargo runs");
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    serde_json::from_slice(&out.stdout).expect("cargo writes JSON")
}

/// The target of the page.
const WASM: &str = "wasm32-unknown-unknown";

/// All packages of the page, the packer and the tests; those for other machines only are not even fetched.
fn metadata_here() -> Value {
    let told = Command::new("rustc").arg("-vV").output().expect("rustc runs").stdout;
    let told = String::from_utf8(told).expect("a text");
    metadata(told.lines().find_map(|line| line.strip_prefix("host: ")).expect("this machine's target"))
}

fn rows<'a>(value: &'a Value, field: &str) -> &'a [Value] {
    value[field].as_array().map(Vec::as_slice).unwrap_or_default()
}

fn said<'a>(value: &'a Value, field: &str) -> &'a str {
    value[field].as_str().unwrap_or_default()
}

/// Whether an SPDX expression can be met with the allowed licences: `AND` binds closer than `OR`; an older way writes `/` for `OR`.
fn is_allowed(expression: &str) -> bool {
    let plain = expression.replace('/', " OR ").replace('(', " ( ").replace(')', " ) ");
    let words: Vec<&str> = plain.split_whitespace().collect();
    let (good, rest) = any_of(&words);
    good && rest.is_empty()
}

fn any_of<'a>(words: &'a [&'a str]) -> (bool, &'a [&'a str]) {
    let (mut good, mut rest) = all_of(words);
    while let ["OR", more @ ..] = rest {
        let (other, left) = all_of(more);
        (good, rest) = (good || other, left);
    }
    (good, rest)
}

fn all_of<'a>(words: &'a [&'a str]) -> (bool, &'a [&'a str]) {
    let (mut good, mut rest) = one(words);
    while let ["AND", more @ ..] = rest {
        let (other, left) = one(more);
        (good, rest) = (good && other, left);
    }
    (good, rest)
}

fn one<'a>(words: &'a [&'a str]) -> (bool, &'a [&'a str]) {
    match words {
        ["(", inner @ ..] => match any_of(inner) {
            (good, [")", rest @ ..]) => (good, rest),
            _ => (false, &[]),
        },
        // An exception only gives more leave than the licence itself.
        [name, "WITH", _, rest @ ..] | [name, rest @ ..] => (ALLOWED.contains(name), rest),
        [] => (false, &[]),
    }
}

#[test]
fn expressions_of_licences_are_read() {
    for good in ["MIT", "MIT/GPL-3.0", "GPL-2.0 OR (MIT AND Zlib)", "Apache-2.0 WITH LLVM-exception"] {
        assert!(is_allowed(good), "{good}");
    }
    for bad in ["", "GPL-3.0-only", "MIT AND MPL-2.0", "(MIT OR Zlib) AND AGPL-3.0", "(MIT", "MIT)"] {
        assert!(!is_allowed(bad), "{bad}");
    }
}

#[test]
fn every_package_has_a_licence_that_is_allowed() {
    let all = metadata_here();
    let wrong = rows(&all, "packages").iter().filter(|package| !is_allowed(said(package, "license")));
    let wrong: Vec<String> =
        wrong.map(|p| format!("{} {}: {}", said(p, "name"), said(p, "version"), p["license"])).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// All comes from one registry, and each file's checksum stands in the lock.
#[test]
fn every_package_comes_from_the_registry_with_its_checksum() {
    let all = metadata_here();
    let sources: BTreeSet<&str> =
        rows(&all, "packages").iter().filter_map(|p| p["source"].as_str()).collect();
    assert_eq!(sources.len(), 1, "{sources:?}");
    assert!(sources.iter().all(|source| source.starts_with("registry+")), "{sources:?}");
    let lock = text("Cargo.lock");
    let bare: Vec<&str> = lock
        .split("[[package]]")
        .filter(|part| part.contains("\nsource = ") && !part.contains("\nchecksum = "))
        .collect();
    assert!(bare.is_empty(), "{bare:#?}");
}

/// What ends up in the page holds nothing twice. Macros and build scripts run while it is built and stay out of it.
#[test]
fn the_wasm_holds_one_version_of_each_package() {
    let all = metadata(WASM);
    let packages: BTreeMap<&str, &Value> =
        rows(&all, "packages").iter().map(|p| (said(p, "id"), p)).collect();
    let nodes: BTreeMap<&str, &Value> =
        rows(&all["resolve"], "nodes").iter().map(|node| (said(node, "id"), node)).collect();
    let is_macro = |id: &str| {
        rows(packages[id], "targets").iter().any(|target| target["kind"].to_string().contains("proc-macro"))
    };
    let first = packages.values().find(|p| said(p, "name") == "crestrail-wasm").expect("the binding");
    let (mut found, mut open) = (BTreeSet::new(), vec![said(first, "id")]);
    while let Some(id) = open.pop() {
        if is_macro(id) || !found.insert(id) {
            continue;
        }
        let normal = |dep: &&Value| rows(dep, "dep_kinds").iter().any(|kind| kind["kind"].is_null());
        open.extend(rows(nodes[id], "deps").iter().filter(normal).map(|dep| said(dep, "pkg")));
    }
    let mut versions: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for id in &found {
        versions.entry(said(packages[id], "name")).or_default().push(said(packages[id], "version"));
    }
    assert!(versions.len() > 20, "{versions:?}");
    versions.retain(|_, all| all.len() > 1);
    assert!(versions.is_empty(), "more than one version: {versions:?}");
}

#[test]
fn every_direct_dependency_stands_in_the_developers_page() {
    let page = text("DEVELOPERS.md");
    let begins = page.find("\n## Dependencies").expect("its section") + 1;
    let section = &page[begins..];
    let section = &section[..section[3..].find("\n## ").map_or(section.len(), |end| end + 3)];
    let words: BTreeSet<&str> =
        section.split(|c: char| !c.is_ascii_alphanumeric() && c != '-' && c != '_').collect();
    let all = metadata_here();
    let own = rows(&all, "packages").iter().filter(|package| package["source"].is_null());
    let direct: BTreeSet<&str> =
        own.flat_map(|package| rows(package, "dependencies")).map(|d| said(d, "name")).collect();
    let silent = direct.iter().filter(|name| !name.starts_with("crestrail-") && !words.contains(*name));
    let silent: Vec<&&str> = silent.collect();
    assert!(silent.is_empty(), "DEVELOPERS.md, “Dependencies”, gives no reason for {silent:?}");
}

/// `forbid` cannot be taken back by a line in the code, so every crate under the workspace's lints is without unsafe code.
#[test]
fn no_crate_may_hold_unsafe_code() {
    assert!(text("Cargo.toml").contains("\nunsafe_code = \"forbid\"\n"));
    let all = metadata_here();
    let own = rows(&all, "packages").iter().filter(|package| package["source"].is_null());
    for package in own {
        let manifest = fs::read_to_string(said(package, "manifest_path")).expect("a manifest");
        assert!(
            manifest.contains("\n[lints]\nworkspace = true\n"),
            "{} has lints of its own",
            said(package, "name")
        );
    }
}

/// Packages of npm and PyPI test the program and are no part of it; each is pinned.
#[test]
fn packages_for_tests_are_pinned_and_for_tests_alone() {
    let package: Value = serde_json::from_str(&text("tests/browser/package.json")).expect("JSON");
    assert!(package["dependencies"].is_null(), "all are for development");
    for (name, version) in package["devDependencies"].as_object().expect("its packages") {
        let version = version.as_str().unwrap_or_default();
        assert!(version.starts_with(|c: char| c.is_ascii_digit()), "{name} {version} is no one version");
    }
    let lock: Value = serde_json::from_str(&text("tests/browser/package-lock.json")).expect("JSON");
    for (name, package) in
        lock["packages"].as_object().expect("its packages").iter().filter(|(name, _)| !name.is_empty())
    {
        assert!(package["dev"] == true && package["integrity"].is_string(), "{name}: {package}");
    }
    for line in text("tests/requirements.txt")
        .lines()
        .filter(|line| !line.trim().is_empty() && !line.starts_with('#'))
    {
        assert!(line.contains("=="), "{line}");
    }
}
