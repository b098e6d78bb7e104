//! What a visitor's browser has to load.

use crate::files::{Files, WASM, resolve};
use crate::page::INDEX;
use crate::{css, html};
use anyhow::Result;
use crestrail_chair::showroom::SHOWROOM_FILE;
use std::collections::BTreeSet;
use std::fmt::Write as _;

/// Brotli's best, as hosts that compress ahead of time use it.
const QUALITY: i32 = 11;
/// Brotli's largest ordinary window, 4 MiB: larger than any file here.
const WINDOW: i32 = 22;

/// The worker and the core that it loads, and what a published Showroom has of its maker.
const CORE: [&str; 4] = ["worker.js", "crestrail.js", WASM, SHOWROOM_FILE.file];

/// A table `file | bytes | brotli`, with a star at what comes before the first chair is on screen, a plus at what else is needed
/// until a first change of it is answered, and both totals.
pub(crate) fn table(dist: &Files) -> Result<String> {
    let (chair, change) = (first_chair(dist)?, first_change(dist)?);
    let mut out = format!("{:<34}{:>10}{:>10}\n", "file (* first chair, + first change)", "bytes", "brotli");
    let mut totals = [(0, 0); 2];
    for (name, bytes) in dist.iter() {
        let small = compressed(bytes)?;
        let mark = match (chair.contains(name), change.contains(name)) {
            (true, _) => '*',
            (false, true) => '+',
            _ => ' ',
        };
        for (total, among) in totals.iter_mut().zip([&chair, &change]) {
            if among.contains(name) {
                *total = (total.0 + bytes.len(), total.1 + small);
            }
        }
        writeln!(out, "{mark} {name:<32}{:>10}{small:>10}", bytes.len())?;
    }
    for (name, total) in
        ["* first chair, price and verdict", "*+ until a first change is answered"].iter().zip(totals)
    {
        writeln!(out, "{name:<36}{:>8}{:>10}", total.0, total.1)?;
    }
    Ok(out)
}

fn compressed(bytes: &[u8]) -> Result<usize> {
    let mut small = Vec::new();
    let params = brotli::enc::BrotliEncoderParams { quality: QUALITY, lgwin: WINDOW, ..Default::default() };
    brotli::BrotliCompress(&mut &bytes[..], &mut small, &params)?;
    Ok(small.len())
}

/// What `index.html` links and a browser waits for before it paints: style sheets with their fonts, and the early script.
fn first_chair(dist: &Files) -> Result<BTreeSet<String>> {
    let mut names = BTreeSet::from([INDEX.to_owned()]);
    for tag in html::tags(dist.text(INDEX)?) {
        let Some(name) = tag.get("href").or(tag.get("src")).and_then(|link| resolve(INDEX, link)) else {
            continue;
        };
        match tag.name.as_str() {
            "script" if tag.get("type") != Some("module") => drop(names.insert(name)),
            "link" if tag.get("rel") == Some("stylesheet") && tag.get("media").is_none() => {
                names.extend(fonts(dist, &name)?);
                names.insert(name);
            }
            _ => {}
        }
    }
    Ok(names)
}

/// All that the page asks for by itself: besides, its script, the worker with the core, and what else the page links.
fn first_change(dist: &Files) -> Result<BTreeSet<String>> {
    let mut names = first_chair(dist)?;
    names.extend(CORE.map(str::to_owned).into_iter().filter(|name| dist.get(name).is_some()));
    for tag in html::tags(dist.text(INDEX)?) {
        let link = tag.get("href").or(tag.get("src")).and_then(|link| resolve(INDEX, link));
        // Asked for when the page is put on a home screen.
        let is_for_home = tag.get("rel") == Some("apple-touch-icon");
        names.extend(link.filter(|_| ["link", "script"].contains(&tag.name.as_str()) && !is_for_home));
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
    use crate::page::{packed, tests::sample};

    #[test]
    fn the_first_change_needs_all_but_what_is_kept_for_later() {
        let (page, bindings) = sample();
        let dist = packed(&page, &bindings).unwrap();
        let first = first_change(&dist).unwrap();
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
        let chair = first_chair(&dist).unwrap();
        assert_eq!(chair.iter().collect::<Vec<_>>(), ["fonts/f.woff2", "index.css", "index.html"]);
    }

    #[test]
    fn the_totals_add_the_marked_rows() {
        let (page, bindings) = sample();
        let text = table(&packed(&page, &bindings).unwrap()).unwrap();
        let bytes = |line: &str| line.split_whitespace().rev().nth(1).unwrap().parse::<usize>().unwrap();
        let rows: Vec<&str> = text.lines().skip(1).collect();
        let (files, totals) = rows.split_at(rows.len() - 2);
        let sum = |marks: &[char]| -> usize {
            files.iter().filter(|line| line.starts_with(marks)).map(|line| bytes(line)).sum()
        };
        assert_eq!(bytes(totals[0]), sum(&['*']));
        assert_eq!(bytes(totals[1]), sum(&['*', '+']));
        assert!(0 < sum(&['*']) && sum(&['*']) < sum(&['*', '+']));
    }
}
