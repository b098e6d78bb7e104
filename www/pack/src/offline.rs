//! The service worker with the list of files that it keeps.

use crate::digest;
use crate::files::Files;
use crate::page::INDEX;
use anyhow::{Result, ensure};
use std::collections::BTreeMap;

/// The service worker's file.
pub(crate) const WORKER: &str = "sw.js";

/// The line of `sw.js` that the packed list takes the place of.
const PLACE: &str = "const packed = null;";

/// `sw.js` with the version and the names of all packed files. The version changes when a byte of any
/// file does, so a browser that holds an older page takes the new one whole.
pub(crate) fn worker(dist: &Files) -> Result<String> {
    let template = dist.text(WORKER)?;
    ensure!(template.matches(PLACE).count() == 1, "sw.js must hold the line `{PLACE}` once");
    let list =
        serde_json::json!({ "version": version(dist), "files": names(dist), "digests": digests(dist) });
    Ok(template.replace(PLACE, &format!("const packed = {list};")))
}

/// The page's address first, as people open it, then each file by its name.
fn names(dist: &Files) -> Vec<&str> {
    let files = dist.iter().map(|(name, _)| name).filter(|name| *name != WORKER && *name != INDEX);
    ["./", INDEX].into_iter().chain(files).collect()
}

/// What must be of one version. Pages and texts are left to their hosts, who may add lines to them, as statistics are.
fn digests(dist: &Files) -> BTreeMap<&str, String> {
    let is_code = |name: &str| [".js", ".css", ".wasm"].iter().any(|ending| name.ends_with(ending));
    dist.iter()
        .filter(|(name, _)| *name != WORKER && is_code(name))
        .map(|(name, bytes)| (name, digest::short(bytes)))
        .collect()
}

/// A hash over names and contents, the template's own included: a change of it is a change too.
fn version(dist: &Files) -> String {
    let lines: String =
        dist.iter().map(|(name, bytes)| format!("{} {name}\n", digest::short(bytes))).collect();
    digest::short(lines.as_bytes())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn dist(changed: &str) -> Files {
        let mut files = Files::default();
        files.put(WORKER, "const packed = null;\nrest(packed);\n");
        files.put(INDEX, "<p>");
        files.put("main.js", changed);
        files
    }

    #[test]
    fn the_list_names_every_file_but_the_worker_itself() {
        let text = worker(&dist("1")).unwrap();
        let list =
            text.strip_prefix("const packed = ").and_then(|t| t.strip_suffix(";\nrest(packed);\n")).unwrap();
        let list: serde_json::Value = serde_json::from_str(list).unwrap();
        assert_eq!(list["files"], serde_json::json!(["./", "index.html", "main.js"]));
        assert_eq!(list["version"].as_str().unwrap().len(), 16);
        assert_eq!(list["digests"], serde_json::json!({ "main.js": digest::short(b"1") }));
    }

    #[test]
    fn the_version_follows_the_contents() {
        assert_eq!(worker(&dist("1")).unwrap(), worker(&dist("1")).unwrap());
        assert_ne!(worker(&dist("1")).unwrap(), worker(&dist("2")).unwrap());
    }

    #[test]
    fn a_template_without_the_place_is_refused() {
        let mut files = dist("1");
        files.put(WORKER, "const packed = [];");
        assert!(worker(&files).is_err());
    }
}
