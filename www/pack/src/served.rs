//! The scripts and style sheets of a served page, put together: each page asks for one of each, not for a hundred.

use crate::files::{Files, resolve};
use crate::html::{self, Tag};
use crate::{bundle, css, lean};
use anyhow::{Context, Result, ensure};
use std::collections::BTreeMap;

/// The worker, which imports the core's bindings at run time: they are modules of their own that no bundle takes in.
const WORKER: &str = "worker.js";
/// What it imports besides, and how.
const WORKER_CORE: (&str, &str) = ("worker-core.js", "import { serve } from './worker-core.js';");

/// The pages with what their scripts and style sheets have become, by name. In `stand_ins`, a module's name leads to the one
/// that takes its place.
pub(crate) fn pages(page: &Files, names: &[&str], stand_ins: &BTreeMap<&str, &str>) -> Result<Files> {
    let mut out = Files::default();
    let mut entries = Vec::new();
    for name in names {
        let html = page.text(name)?;
        for tag in html::tags(html) {
            match part(&tag) {
                Part::Entry(entry) => entries.push(entry.to_owned()),
                // Before anything is painted, so a classic script.
                Part::Early(script) => out.put(script, lean::script(page.text(script)?)),
                Part::Style(sheet) if tag.get("media").is_some() => {
                    out.put(sheet, lean::style(page.text(sheet)?));
                }
                Part::Style(_) | Part::Preload | Part::Other => {}
            }
        }
    }
    let entry_names: Vec<&str> = entries.iter().map(String::as_str).collect();
    let scripts = bundle::served(page, &entry_names, stand_ins)?;
    for (name, script) in &scripts {
        out.put(name, lean::script(script));
    }
    out.put(WORKER, lean::script(&worker(page)?));
    for name in names {
        let (html, styles) = gathered(name, page)?;
        out.put(name, html);
        styles.into_iter().for_each(|(name, text)| out.put(&name, text));
    }
    Ok(out)
}

/// The worker as one module.
fn worker(page: &Files) -> Result<String> {
    let (core, import) = WORKER_CORE;
    let text = page.text(WORKER)?;
    ensure!(text.matches(import).count() == 1, "{WORKER} must hold the line `{import}` once");
    let exports = bundle::exports(page, core)?;
    Ok(text.replace(import, &format!("const {{ serve }} = {exports};")))
}

/// What a tag of the head brings, by the name that it tells.
enum Part<'a> {
    Entry(&'a str),
    Early(&'a str),
    Style(&'a str),
    Preload,
    Other,
}

fn part(tag: &Tag) -> Part<'_> {
    let link = tag.get("href").unwrap_or_default();
    match (tag.name.as_str(), tag.get("src"), tag.get("rel")) {
        ("script", Some(entry), _) if tag.get("type") == Some("module") => Part::Entry(entry),
        ("script", Some(script), _) => Part::Early(script),
        ("link", _, Some("stylesheet")) => Part::Style(link),
        ("link", _, Some("modulepreload")) => Part::Preload,
        _ => Part::Other,
    }
}

/// The page with one link in the place of its style sheets' links, and that sheet; what only goes to paper stays apart.
fn gathered(name: &str, page: &Files) -> Result<(String, Vec<(String, String)>)> {
    let html = page.text(name)?;
    let own = format!("{}.css", name.trim_end_matches(".html"));
    let (mut text, mut out, mut at) = (String::new(), String::new(), 0);
    for tag in html::tags(html) {
        let replacement = match part(&tag) {
            Part::Style(sheet) if tag.get("media").is_none() => {
                let sheet = resolve(name, sheet)
                    .with_context(|| format!("{name} links to {sheet}, which leaves the page"))?;
                ensure!(
                    !sheet.contains('/'),
                    "{sheet} must lie beside {name}, for its addresses are told from there"
                );
                let is_first = text.is_empty();
                text.push_str(&lean::style(&css::with_urls(page.text(&sheet)?, |address| {
                    Ok(address.to_owned())
                })?));
                if is_first { format!("<link rel=\"stylesheet\" href=\"{own}\">") } else { String::new() }
            }
            // It has become part of the entry's script.
            Part::Preload => String::new(),
            _ => continue,
        };
        let before = &html[at..tag.range.start];
        // Where nothing is put, its line goes too.
        out.push_str(if replacement.is_empty() { before.trim_end() } else { before });
        out.push_str(&replacement);
        at = tag.range.end;
    }
    out.push_str(&html[at..]);
    let styles = if text.is_empty() { Vec::new() } else { vec![(own, text)] };
    Ok((out, styles))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_asks_for_one_script_and_one_style_sheet() {
        let page = crate::page::read().unwrap();
        let out = pages(&page, &["index.html"], &BTreeMap::new()).unwrap();
        let index = out.text("index.html").unwrap();
        let links: Vec<String> = html::tags(index)
            .iter()
            .filter_map(|tag| match part(tag) {
                Part::Entry(name) | Part::Early(name) | Part::Style(name) => Some(name.to_owned()),
                Part::Preload | Part::Other => None,
            })
            .collect();
        assert_eq!(links, ["early.js", "index.css", "print.css", "boot.js", "main.js"]);
        assert!(links.iter().all(|name| out.get(name).is_some()));
        let style = out.text("index.css").unwrap();
        assert!(style.contains(".title-block {") && style.contains("url(\"fonts/crestrail-sans.woff2\")"));
        assert!(!style.contains("/*"));
    }

    #[test]
    fn what_is_asked_for_later_is_not_in_the_entry() {
        let page = crate::page::read().unwrap();
        let out = pages(&page, &["index.html", "showroom.html"], &BTreeMap::new()).unwrap();
        assert!(
            out.get("shelf-view.js").is_some()
                && !out.text("main.js").unwrap().contains("made[\"shelf-view.js\"]")
        );
        let worker = out.text("worker.js").unwrap();
        assert!(
            worker.contains("made[\"range-work.js\"]") && worker.contains("import('./crestrail.js')"),
            "{worker}"
        );
        assert!(out.get("worker-core.js").is_none() && out.get("dom.js").is_none());
    }
}
