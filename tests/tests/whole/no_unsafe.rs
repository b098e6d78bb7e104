//! No crate may hold `unsafe`: the workspace forbids it, and each crate takes its lints from there.

use std::fs;
use std::path::Path;

#[test]
fn each_crate_forbids_unsafe() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let read = |name: &str| fs::read_to_string(root.join(name)).unwrap_or_else(|why| panic!("{name}: {why}"));
    let workspace = read("Cargo.toml");
    assert!(workspace.contains("unsafe_code = \"forbid\""), "a crate cannot allow what is forbidden");
    let members =
        workspace.lines().find_map(|line| line.strip_prefix("members = [")).expect("a list of crates");
    let members: Vec<&str> = members.split('"').skip(1).step_by(2).collect();
    assert!(members.len() >= 12, "{members:?}");
    for member in members {
        let manifest = read(&format!("{member}/Cargo.toml"));
        assert!(manifest.contains("[lints]\nworkspace = true"), "{member} takes no lints from the workspace");
    }
}
