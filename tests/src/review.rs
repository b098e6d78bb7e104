//! A page that shows changed files: old, new and what differs; pictures as pictures, all else line by line.

use crate::diff;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use std::fmt::Write;

/// A file before and after.
#[derive(Clone, Debug)]
pub struct Changed {
    /// What it is called.
    pub name: String,
    /// As it was; empty where there was none.
    pub old: String,
    /// As it is now.
    pub new: String,
}

/// Lines that are shown before and behind one that changed.
const AROUND: usize = 3;

const STYLE: &str = "body{font:15px/1.4 system-ui;margin:1.5rem;max-width:110rem}h2{font-size:1.1rem;margin:2rem 0 .5rem}\
.trio{display:grid;grid-template-columns:repeat(auto-fit,minmax(18rem,1fr));gap:1rem}figure{margin:0}img{width:100%;display:block}\
.over{position:relative;background:#fff;isolation:isolate}.over img+img{position:absolute;inset:0;mix-blend-mode:difference}\
table{border-collapse:collapse;width:100%;table-layout:fixed;font:13px/1.35 ui-monospace,monospace}\
td{padding:0 .5rem;white-space:pre-wrap;vertical-align:top;overflow-wrap:anywhere}\
.n{width:3rem;text-align:right;color:#667}.old{background:#fbe3df}.new{background:#ddf2df}.gap td{color:#667;padding:.4rem .5rem}";

/// The page of all that changed.
pub fn page(all: &[Changed]) -> String {
    let changed: Vec<&Changed> = all.iter().filter(|one| one.old != one.new).collect();
    let told = format!("{} of {} changed", changed.len(), all.len());
    let shown: String = changed.iter().map(|one| shown(one)).collect();
    format!(
        "<!doctype html>\n<html lang=\"en\"><meta charset=\"utf-8\"><title>{told}</title>\n<style>{STYLE}</style>\n<h1>{told}</h1>\n{shown}</html>\n"
    )
}

fn shown(one: &Changed) -> String {
    let inner = if one.name.ends_with(".svg") { pictures(one) } else { lines(one) };
    format!("<section><h2>{}</h2>\n{inner}</section>\n", escaped(&one.name))
}

/// Old, new, and both over each other, where only what differs is not black.
fn pictures(one: &Changed) -> String {
    let image = |svg: &str, what: &str| {
        format!("<img alt=\"{what}\" src=\"data:image/svg+xml;base64,{}\">", STANDARD.encode(svg))
    };
    let (old, new) = (image(&one.old, "old"), image(&one.new, "new"));
    format!(
        "<div class=\"trio\"><figure>{old}<figcaption>old</figcaption></figure><figure>{new}<figcaption>new</figcaption></figure>\
         <figure><div class=\"over\">{old}{new}</div><figcaption>difference: what is not black</figcaption></figure></div>\n"
    )
}

/// Old and new beside each other, line by line; long stretches without a change are left out.
fn lines(one: &Changed) -> String {
    let rows = diff::rows(&one.old, &one.new);
    let near = |at: usize| {
        let (from, to) = (at.saturating_sub(AROUND), (at + AROUND + 1).min(rows.len()));
        rows[from..to].iter().any(|row| row.old.is_none() || row.new.is_none())
    };
    let (mut table, mut left_out) = (String::from("<table>"), 0_usize);
    for (at, row) in rows.iter().enumerate() {
        if !near(at) {
            left_out += 1;
            continue;
        }
        gap(&mut table, &mut left_out);
        let same = row.old.is_some() && row.new.is_some();
        let cell = |side: Option<(usize, &str)>, class: &str| match side {
            None => "<td class=\"n\"><td>".to_owned(),
            Some((n, text)) => {
                let class = if same { "" } else { class };
                format!("<td class=\"n\">{n}<td class=\"{class}\">{}", escaped(text))
            }
        };
        // Writing to a text does not fail.
        let _ = writeln!(table, "<tr>{}{}", cell(row.old, "old"), cell(row.new, "new"));
    }
    gap(&mut table, &mut left_out);
    table + "</table>\n"
}

fn gap(table: &mut String, left_out: &mut usize) {
    if *left_out > 0 {
        let _ = writeln!(table, "<tr class=\"gap\"><td colspan=\"4\">… {left_out} lines as they were …");
    }
    *left_out = 0;
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
