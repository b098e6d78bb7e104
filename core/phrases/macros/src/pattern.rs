//! An English pattern as it stands in the source, and the key under which catalogues know it.
//!
//! This file is read by two crates: by the macro, and by whoever looks for patterns in the sources.

/// A hole of a pattern.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hole {
    /// Its name, or its number where it has none.
    pub name: String,
    /// How its value is written, such as `.1`: what follows the colon.
    pub spec: String,
}

/// A pattern, read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pattern {
    /// The pattern with bare holes: `{0}`, `{1}`, `{name}`; how a value is written is the program's affair.
    pub key: String,
    /// The holes in their order; a name comes once.
    pub holes: Vec<Hole>,
}

impl Pattern {
    /// Reads a pattern; refuses a brace that is left open, and a hole that is written in two ways.
    pub fn read(text: &str) -> Result<Self, String> {
        let (mut key, mut holes, mut next) = (String::new(), Vec::<Hole>::new(), 0);
        let mut rest = text;
        while let Some(at) = rest.find(['{', '}']) {
            let (before, from) = rest.split_at(at);
            key.push_str(before);
            if from.starts_with("{{") || from.starts_with("}}") {
                key.push_str(&from[..2]);
                rest = &from[2..];
                continue;
            }
            let end = from.find('}').filter(|_| from.starts_with('{'));
            let end = end.ok_or_else(|| format!("a brace is left open in {text:?}"))?;
            let (name, spec) = from[1..end].split_once(':').unwrap_or((&from[1..end], ""));
            let name = if name.is_empty() {
                next += 1;
                (next - 1).to_string()
            } else {
                name.to_owned()
            };
            key.push_str(&format!("{{{name}}}"));
            match holes.iter().find(|hole| hole.name == name) {
                Some(hole) if hole.spec != spec => {
                    return Err(format!("the hole {name:?} is written in two ways in {text:?}"));
                }
                Some(_) => {}
                None => holes.push(Hole { name, spec: spec.to_owned() }),
            }
            rest = &from[end + 1..];
        }
        key.push_str(rest);
        Ok(Self { key, holes })
    }
}

/// The text that a string literal stands for, its quotes and escapes taken off; nothing for what is no literal of a string.
pub fn text_of(literal: &str) -> Option<String> {
    let inner = literal.strip_prefix('"')?.strip_suffix('"')?;
    let (mut text, mut rest) = (String::new(), inner.chars());
    while let Some(next) = rest.next() {
        if next != '\\' {
            text.push(next);
            continue;
        }
        match rest.next()? {
            'n' => text.push('\n'),
            't' => text.push('\t'),
            // A line that goes on: the break and the room before the next word are left out.
            '\n' => rest = rest.as_str().trim_start().chars(),
            'u' => {
                let (code, after) = rest.as_str().strip_prefix('{')?.split_once('}')?;
                text.push(char::from_u32(u32::from_str_radix(code, 16).ok()?)?);
                rest = after.chars();
            }
            other => text.push(other),
        }
    }
    Some(text)
}
