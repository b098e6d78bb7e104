//! The addresses in a style sheet.

use anyhow::{Result, ensure};
use std::ops::Range;

/// Where each `url(…)` stands, and the address in it without quotes.
pub(crate) fn urls(css: &str) -> Vec<(Range<usize>, String)> {
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(open) = css[at..].find("url(").map(|i| at + i) {
        let Some(close) = css[open..].find(')').map(|i| open + i + 1) else { break };
        let inside = css[open + 4..close - 1].trim();
        found.push((open..close, inside.trim_matches(['"', '\'']).to_owned()));
        at = close;
    }
    found
}

/// The style sheet with each address replaced by what `swap` makes of it.
pub(crate) fn with_urls(css: &str, mut swap: impl FnMut(&str) -> Result<String>) -> Result<String> {
    ensure!(!css.contains("@import"), "a style sheet must not use @import: link it in index.html");
    let mut out = String::with_capacity(css.len());
    let mut at = 0;
    for (range, address) in urls(css) {
        out.push_str(&css[at..range.start]);
        out.push_str(&format!("url(\"{}\")", swap(&address)?));
        at = range.end;
    }
    out.push_str(&css[at..]);
    Ok(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn addresses_are_swapped_in_place() {
        let css = "a{src:url(\"f/a.woff2\") format('woff2')} b{background:url( x.svg )}";
        let swapped = with_urls(css, |address| Ok(format!("<{address}>"))).unwrap();
        assert_eq!(swapped, "a{src:url(\"<f/a.woff2>\") format('woff2')} b{background:url(\"<x.svg>\")}");
    }

    #[test]
    fn imports_are_refused() {
        assert!(with_urls("@import \"b.css\";", |a| Ok(a.to_owned())).is_err());
    }
}
