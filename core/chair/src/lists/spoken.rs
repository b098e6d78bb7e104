//! Parts named in a sentence.

use crate::part::Part;
use crestrail_phrases::say;
use crestrail_sorting::Order as _;

/// Such as `the front rail (C), the back rail (E) and 3 back slats (H)`.
pub(super) fn some_of(parts: &[&Part]) -> String {
    let mut names: Vec<&str> = Vec::new();
    for part in parts {
        if !names.contains(&part.id.role.name()) {
            names.push(part.id.role.name());
        }
    }
    let told = names.into_iter().map(|name| {
        let alike = || parts.iter().copied().filter(|part| part.id.role.name() == name);
        let letters = span(&letters(alike()));
        match alike().count() {
            1 => say!("the {name} ({letters})"),
            count => say!("the {count} {name}s ({letters})"),
        }
    });
    and(&told.collect::<Vec<_>>())
}

/// The letters of parts, each once, in their order.
pub(crate) fn letters<'a>(parts: impl Iterator<Item = &'a Part>) -> Vec<String> {
    let mut letters: Vec<&str> = Vec::new();
    for part in parts {
        if !letters.contains(&part.letter.as_str()) {
            letters.push(&part.letter);
        }
    }
    // J2 before J10.
    letters.order_by(|a, b| (of_role(a), a.len(), *a).cmp(&(of_role(b), b.len(), *b)));
    letters.into_iter().map(str::to_owned).collect()
}

/// A letter without the number that follows it.
fn of_role(letter: &str) -> &str {
    letter.trim_end_matches(|c: char| c.is_ascii_digit())
}

/// Many letters as the first and the last.
fn span(letters: &[String]) -> String {
    match letters {
        [first, _, .., last] => say!("{first} to {last}"),
        _ => letters.join(", "),
    }
}

/// Such as `a, b and c`.
pub(crate) fn and(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [all @ .., last] => say!("{all} and {last}", all = all.join(", ")),
    }
}
