//! Puts values into patterns.

use core::fmt::{Display, Write};

/// A piece of a pattern.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Piece<'a> {
    /// Letters as they stand.
    Text(&'a str),
    /// The name of a hole.
    Hole(&'a str),
}

/// The pieces of a pattern whose holes are bare. A doubled brace is one brace.
pub(crate) fn pieces(pattern: &str) -> impl Iterator<Item = Piece<'_>> {
    let mut rest = pattern;
    core::iter::from_fn(move || {
        let first = *rest.as_bytes().first()?;
        let (piece, after) = match first {
            b'{' | b'}' if rest.as_bytes().get(1) == Some(&first) => (Piece::Text(&rest[..1]), &rest[2..]),
            b'{' => match rest.find('}') {
                Some(end) => (Piece::Hole(&rest[1..end]), &rest[end + 1..]),
                // The macro and the reader of catalogues refuse a brace that is left open.
                None => (Piece::Text(rest), ""),
            },
            _ => {
                let brace = |byte: &u8| matches!(byte, b'{' | b'}');
                let end = rest.as_bytes().iter().position(brace).unwrap_or(rest.len());
                let end = end.max(1);
                (Piece::Text(&rest[..end]), &rest[end..])
            }
        };
        rest = after;
        Some(piece)
    })
}

/// Whether a brace of the pattern is left open, or closes what none opened.
pub(crate) fn is_open(pattern: &str) -> bool {
    let mut rest = pattern;
    while let Some(at) = rest.find(['{', '}']) {
        rest = &rest[at..];
        let closed = match rest {
            _ if rest.starts_with("{{") || rest.starts_with("}}") => Some(1),
            _ => rest.find('}').filter(|_| rest.starts_with('{')),
        };
        let Some(end) = closed else { return true };
        rest = &rest[end + 1..];
    }
    false
}

/// The names of a pattern's holes in their order, each once.
pub(crate) fn holes(pattern: &str) -> Vec<&str> {
    let mut names = Vec::new();
    for piece in pieces(pattern) {
        if let Piece::Hole(name) = piece
            && !names.contains(&name)
        {
            names.push(name);
        }
    }
    names
}

/// The English pattern itself, filled.
pub(crate) fn english(pattern: &str, values: &[&dyn Display]) -> String {
    let mut text = String::with_capacity(pattern.len() + 16);
    // Names matter only where one comes twice, so most patterns need none.
    let mut seen: Vec<&str> = Vec::new();
    for piece in pieces(pattern) {
        match piece {
            Piece::Text(letters) => text.push_str(letters),
            Piece::Hole(name) => {
                let place = seen.iter().position(|known| *known == name).unwrap_or_else(|| {
                    seen.push(name);
                    seen.len() - 1
                });
                put(&mut text, values[place]);
            }
        }
    }
    text
}

pub(crate) fn put(text: &mut String, value: &dyn Display) {
    // Writing to a string does not fail, and a value that refuses to be shown leaves nothing.
    let _ = write!(text, "{value}");
}
