//! What a visitor's browser has to load.

use crate::bundle;
use crate::files::{Files, WASM, resolve};
use crate::page::INDEX;
use crate::{css, html};
use anyhow::Result;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

/// Brotli's best, as hosts that compress ahead of time use it.
const QUALITY: i32 = 11;
/// Brotli's largest ordinary window, 4 MiB: larger than any file here.
const WINDOW: i32 = 22;

/// A table `file | bytes | brotli`, with a star at what the first view loads, and its total.
pub(crate) fn table(dist: &Files) -> Result<String> {
    let first = first_view(dist)?;
    let mut out = format!("{:<34}{:>10}{:>10}\n", "file (* first view)", "bytes", "brotli");
    let mut total = (0, 0);
    for (name, bytes) in dist.iter() {
        let small = compressed(bytes)?;
        let star = if first.contains(name) { '*' } else { ' ' };
        if first.contains(name) {
            total = (total.0 + bytes.len(), total.1 + small);
        }
        writeln!(out, "{star} {name:<32}{:>10}{small:>10}", bytes.len())?;
    }
    writeln!(out, "{:<34}{:>10}{:>10}", "first view", total.0, total.1)?;
    Ok(out)
}

fn compressed(bytes: &[u8]) -> Result<usize> {
    let mut small = Vec::new();
    let params = brotli::enc::BrotliEncoderParams { quality: QUALITY, lgwin: WINDOW, ..Default::default() };
    brotli::BrotliCompress(&mut &bytes[..], &mut small, &params)?;
    Ok(small.len())
}

/// The files that the page asks for before it shows a chair: what `index.html` links, all modules from
/// there on, the worker with the core, and the fonts of the style sheets.
fn first_view(dist: &Files) -> Result<BTreeSet<String>> {
    let mut names = BTreeSet::from([INDEX.to_owned(), "worker.js".to_owned(), "crestrail.js".to_owned()]);
    names.insert(WASM.to_owned());
    names.insert("worker-core.js".to_owned());
    for tag in html::tags(dist.text(INDEX)?) {
        let Some(name) = tag.get("href").or(tag.get("src")).and_then(|link| resolve(INDEX, link)) else {
            continue;
        };
        match tag.name.as_str() {
            "script" => names.extend(bundle::bundle(dist, &name, &BTreeMap::new())?.modules),
            "link" if tag.get("rel") == Some("stylesheet") => {
                names.extend(fonts(dist, &name)?);
                names.insert(name);
            }
            // Asked for when the page is put on a home screen.
            "link" if tag.get("rel") == Some("apple-touch-icon") => {}
            "link" => drop(names.insert(name)),
            _ => {}
        }
    }
    Ok(names)
}

fn fonts(dist: &Files, sheet: &str) -> Result<Vec<String>> {
    let urls = css::urls(dist.text(sheet)?);
    Ok(urls.into_iter().filter_map(|(_, address)| resolve(sheet, &address)).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::{pack, tests::sample};

    #[test]
    fn the_first_view_is_all_but_what_is_kept_for_later() {
        let (page, bindings) = sample();
        let dist = pack(&page, &bindings).unwrap();
        let first = first_view(&dist).unwrap();
        let later: Vec<&str> =
            dist.iter().map(|(name, _)| name).filter(|name| !first.contains(*name)).collect();
        assert_eq!(
            later,
            [
                "crestrail.html",
                "fonts/crestrail-sans-medium.ttf",
                "fonts/crestrail-sans-regular.ttf",
                "papers.js",
                "papers_bg.wasm",
                "sw.js"
            ]
        );
    }

    #[test]
    fn the_total_adds_the_starred_rows() {
        let (page, bindings) = sample();
        let text = table(&pack(&page, &bindings).unwrap()).unwrap();
        let bytes = |line: &str| line.split_whitespace().rev().nth(1).unwrap().parse::<usize>().unwrap();
        let sum: usize = text.lines().filter(|line| line.starts_with("* ")).map(bytes).sum();
        assert_eq!(bytes(text.lines().last().unwrap()), sum);
        assert!(sum > 0);
    }
}
