//! The English phrases of the core, found in its sources, and the catalogues that put them into other languages.

use crestrail_phrases::Catalogue;
use crestrail_phrases::pattern::{Pattern, text_of};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// The folders of sources in which phrases are looked for.
const SOURCES: [&str; 3] = ["core/chair/src", "core/sitter/src", "wasm/src"];
/// What begins a phrase in the sources.
const MARKS: [&str; 3] = ["say!(", "word(", "phrase("];
/// Files of rows that a macro of their own marks: every text in quotes that begins with a capital is a phrase.
const TABLES: [&str; 2] = ["knobs.rs", "choices.rs"];

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// Every phrase of the core with the file in which it stands first. Patterns of holes and signs alone are left out:
/// a catalogue may have them (see [`bare`]), and need not.
pub fn phrases() -> BTreeMap<String, String> {
    let mut found = patterns();
    found.retain(|key, _| has_letters(key));
    found
}

/// Patterns without letters, such as that of a date.
pub fn bare() -> BTreeMap<String, String> {
    let mut found = patterns();
    found.retain(|key, _| !has_letters(key));
    found
}

fn patterns() -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    for folder in SOURCES {
        for file in sources(&root().join(folder)) {
            let text = fs::read_to_string(&file).expect("a source is text");
            let text = text.split("#[cfg(test)]\nmod tests {").next().unwrap_or_default();
            let name = file.strip_prefix(root()).unwrap_or(&file).display().to_string();
            let is_table = TABLES.iter().any(|table| name.ends_with(table));
            let literals = if is_table { rows(text) } else { marked(text) };
            for literal in literals {
                let pattern = Pattern::read(&literal).unwrap_or_else(|why| panic!("{name}: {why}"));
                found.entry(pattern.key).or_insert_with(|| name.clone());
            }
        }
    }
    for species in crestrail_timber::all() {
        found.insert(species.name.to_owned(), "core/timber".to_owned());
    }
    found
}

/// The files of a folder that are no tests, in the order of their names.
fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut entries: Vec<PathBuf> = fs::read_dir(folder)
        .expect("the folder is there")
        .map(|entry| entry.expect("readable").path())
        .collect();
    entries.sort();
    let is_test = |path: &PathBuf| {
        let stem = path.file_stem().unwrap_or_default().to_string_lossy();
        stem == "tests" || stem == "testing"
    };
    let mut files = Vec::new();
    for path in entries.into_iter().filter(|path| !is_test(path)) {
        if path.is_dir() {
            files.extend(sources(&path));
        } else if path.extension().is_some_and(|ext| ext == "rs") {
            files.push(path);
        }
    }
    files
}

/// The texts behind the marks.
fn marked(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    for mark in MARKS {
        for (at, _) in text.match_indices(mark) {
            let before = text[..at].chars().next_back();
            if before.is_some_and(|c| c.is_alphanumeric() || c == '_') || in_comment(text, at) {
                continue;
            }
            found.extend(literal(text[at + mark.len()..].trim_start()));
        }
    }
    found
}

/// All texts that begin with a capital, each in its quotes.
fn rows(text: &str) -> Vec<String> {
    let (mut found, mut at) = (Vec::new(), 0);
    while let Some(next) = text[at..].find('"') {
        let from = at + next;
        if in_comment(text, from) {
            at = from + 1;
            continue;
        }
        let length = length_of(&text[from..]);
        found.extend(text_of(&text[from..from + length]));
        at = from + length;
    }
    found.retain(|text| text.starts_with(|c: char| c.is_uppercase()));
    found
}

fn in_comment(text: &str, at: usize) -> bool {
    let line = text[..at].rfind('\n').map_or(0, |end| end + 1);
    text[line..at].trim_start().starts_with("//")
}

/// The text of the literal that begins here; nothing where none does.
fn literal(text: &str) -> Option<String> {
    text.starts_with('"').then(|| text_of(&text[..length_of(text)])).flatten()
}

/// The bytes of a literal with its quotes.
fn length_of(literal: &str) -> usize {
    let mut escaped = false;
    let end = literal.char_indices().skip(1).find(|&(_, c)| {
        let ends = c == '"' && !escaped;
        escaped = c == '\\' && !escaped;
        ends
    });
    end.map_or(literal.len(), |(at, _)| at + 1)
}

/// Whether letters stand outside the holes.
fn has_letters(key: &str) -> bool {
    let mut within = false;
    key.chars().any(|c| {
        match c {
            '{' => within = true,
            '}' => within = false,
            _ => {}
        }
        !within && c.is_alphabetic()
    })
}

/// The languages that there are catalogues for.
pub const LANGUAGES: [&str; 5] = ["ar", "de", "es", "fr", "sw"];

/// The catalogue of a language as it stands in `core/phrases/data`.
pub fn catalogue(language: &str) -> Catalogue {
    let file = root().join(format!("core/phrases/data/{language}.json"));
    let text = fs::read_to_string(&file).unwrap_or_else(|why| panic!("{}: {why}", file.display()));
    Catalogue::read(&text).unwrap_or_else(|why| panic!("{}: {why}", file.display()))
}

thread_local! {
    /// Catalogues that were read on this thread: what is spoken lasts as long as the program.
    static KEPT: RefCell<BTreeMap<String, &'static Catalogue>> = const { RefCell::new(BTreeMap::new()) };
}

/// The same, read once, as [`crestrail_phrases::speak`] wants it.
pub fn kept(language: &str) -> &'static Catalogue {
    KEPT.with_borrow_mut(|all| *all.entry(language.to_owned()).or_insert_with(|| catalogue(language).kept()))
}
