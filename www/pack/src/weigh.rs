//! What the core's bytes are made of: its functions by crate, read from the module before the bindings take the names away.

use anyhow::{Context, Result, ensure};
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// Functions printed one by one.
const LARGEST: usize = 25;

/// The standard library's sorts are made anew for each type; they are counted apart, as what grows unseen.
const APART: [&str; 2] = ["core::slice::sort", "alloc::collections"];

/// A table of crates, and one of the largest functions.
pub(crate) fn table(wasm: &[u8]) -> Result<String> {
    let module = Module::read(wasm)?;
    let mut crates: BTreeMap<String, (usize, usize)> = BTreeMap::new();
    let mut functions: Vec<(usize, String)> = Vec::new();
    for (name, bytes) in module.functions() {
        let row = crates.entry(home(&name)).or_default();
        *row = (row.0 + bytes, row.1 + 1);
        functions.push((bytes, name));
    }
    let mut rows: Vec<_> = crates.into_iter().collect();
    rows.sort_by_key(|(name, (bytes, _))| (core::cmp::Reverse(*bytes), name.clone()));
    functions.sort_by(|a, b| b.cmp(a));
    let mut out = format!("{:<28}{:>10}{:>11}\n", "code of", "bytes", "functions");
    for (name, (bytes, count)) in rows {
        writeln!(out, "{name:<28}{bytes:>10}{count:>11}")?;
    }
    writeln!(out, "{:<28}{:>10}", "(data: texts and tables)", module.data)?;
    writeln!(out, "\nthe largest functions")?;
    for (bytes, name) in functions.iter().take(LARGEST) {
        writeln!(out, "{bytes:>10}  {name}")?;
    }
    Ok(out)
}

/// The crate of a function, or the part of the standard library that is counted apart.
fn home(name: &str) -> String {
    if let Some(apart) = APART.into_iter().find(|path| name.contains(path)) {
        return apart.to_owned();
    }
    // `<crate::Type as …>::method`, `<&crate::Type as …>`: the first path counts.
    let path = name.trim_start_matches(|c: char| !c.is_alphanumeric() && c != '_');
    let path = path.trim_start_matches("mut ").trim_start_matches("dyn ");
    let end = path.find(|c: char| !c.is_alphanumeric() && c != '_').unwrap_or(path.len());
    if path[end..].starts_with("::") { path[..end].to_owned() } else { "(others)".to_owned() }
}

/// Sizes of bodies, and names of all functions by their numbers; imported ones come first and have no body.
struct Module {
    imported: usize,
    bodies: Vec<usize>,
    names: BTreeMap<usize, String>,
    data: usize,
}

impl Module {
    /// WebAssembly Core Specification 2.0, section 5.5, and its appendix on custom sections for the names.
    fn read(wasm: &[u8]) -> Result<Self> {
        ensure!(wasm.starts_with(b"\0asm\x01\0\0\0"), "this is no WebAssembly module");
        let mut made = Self { imported: 0, bodies: Vec::new(), names: BTreeMap::new(), data: 0 };
        let mut all = Reader { bytes: wasm, at: 8 };
        while all.at < wasm.len() {
            let kind = all.byte()?;
            let mut section = all.part()?;
            match kind {
                0 if section.text()? == "name" => made.read_names(&mut section)?,
                2 => made.imported = section.imported_functions()?,
                10 => {
                    for _ in 0..section.number()? {
                        made.bodies.push(section.part()?.bytes.len());
                    }
                }
                11 => made.data = section.bytes.len(),
                _ => {}
            }
        }
        Ok(made)
    }

    fn read_names(&mut self, section: &mut Reader<'_>) -> Result<()> {
        while section.at < section.bytes.len() {
            let kind = section.byte()?;
            let mut part = section.part()?;
            if kind != 1 {
                continue;
            }
            for _ in 0..part.number()? {
                let (function, name) = (part.number()?, part.text()?);
                self.names.insert(function, plain(&name));
            }
        }
        Ok(())
    }

    fn functions(&self) -> impl Iterator<Item = (String, usize)> {
        self.bodies
            .iter()
            .enumerate()
            .map(|(i, &bytes)| (self.names.get(&(self.imported + i)).cloned().unwrap_or_default(), bytes))
    }
}

/// A name as the compiler writes it, as people do: `_ZN4core5slice4sort17h0123456789abcdefE` is `core::slice::sort`.
fn plain(name: &str) -> String {
    let Some(mut rest) = name.strip_prefix("_ZN") else { return name.to_owned() };
    let mut parts = Vec::new();
    while let Some(end) = rest.find(|c: char| !c.is_ascii_digit()).filter(|&end| end > 0) {
        let Ok(length) = rest[..end].parse::<usize>() else { break };
        let Some(part) = rest.get(end..end + length) else { break };
        let is_hash = part.len() == 17 && part.starts_with('h');
        parts.extend((!is_hash).then_some(part));
        rest = &rest[end + length..];
    }
    let mut text = parts.join("::");
    for (code, sign) in [
        ("$LT$", "<"),
        ("$GT$", ">"),
        ("$RF$", "&"),
        ("$u20$", " "),
        ("$C$", ","),
        ("$BP$", "*"),
        ("$LP$", "("),
        ("$RP$", ")"),
        ("$u7b$", "{"),
        ("$u7d$", "}"),
        ("$u5b$", "["),
        ("$u5d$", "]"),
        ("$u3b$", ";"),
        ("$u27$", "'"),
        ("..", "::"),
    ] {
        text = text.replace(code, sign);
    }
    text.trim_start_matches('_').to_owned()
}

struct Reader<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl<'a> Reader<'a> {
    fn byte(&mut self) -> Result<u8> {
        let byte = *self.bytes.get(self.at).context("the module ends too soon")?;
        self.at += 1;
        Ok(byte)
    }

    /// An unsigned number in LEB128.
    fn number(&mut self) -> Result<usize> {
        let (mut value, mut shift) = (0, 0);
        loop {
            let byte = self.byte()?;
            value |= usize::from(byte & 0x7f) << shift;
            shift += 7;
            if byte < 0x80 {
                return Ok(value);
            }
            ensure!(shift < 35, "a number of the module is too long");
        }
    }

    /// So many bytes as a number says that stands before them.
    fn part(&mut self) -> Result<Reader<'a>> {
        let length = self.number()?;
        let bytes = self.bytes.get(self.at..self.at + length).context("the module ends too soon")?;
        self.at += length;
        Ok(Reader { bytes, at: 0 })
    }

    fn text(&mut self) -> Result<String> {
        Ok(String::from_utf8_lossy(self.part()?.bytes).into_owned())
    }

    fn imported_functions(&mut self) -> Result<usize> {
        let mut count = 0;
        for _ in 0..self.number()? {
            self.text()?;
            self.text()?;
            let kind = self.byte()?;
            self.number()?;
            match kind {
                0 => count += 1,
                // A table or memory has limits, a global says whether it can change.
                1 => {
                    if self.number()? == 1 {
                        self.number()?;
                    }
                    self.number()?;
                }
                2 => drop(self.number()?),
                _ => {}
            }
        }
        Ok(count)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_as_people_write_them() {
        assert_eq!(plain("_ZN4core5slice4sort17h0123456789abcdefE"), "core::slice::sort");
        let method =
            "_ZN61_$LT$crestrail_chair..link..A$u20$as$u20$core..fmt..Debug$GT$3fmt17h0123456789abcdefE";
        assert_eq!(plain(method), "<crestrail_chair::link::A as core::fmt::Debug>::fmt");
        assert_eq!(plain("memcpy"), "memcpy");
    }

    #[test]
    fn functions_belong_to_their_crate() {
        assert_eq!(home("<crestrail_chair::link::A as core::fmt::Debug>::fmt"), "crestrail_chair");
        assert_eq!(home("core::slice::sort::stable::drift::sort"), "core::slice::sort");
        assert_eq!(home("core::fmt::write"), "core");
        assert_eq!(home("memcpy"), "(others)");
    }

    /// One imported function, one of our own with a body of two bytes, called `a::b`, and five bytes of data.
    #[test]
    fn a_module_is_taken_apart() {
        let mut wasm = b"\0asm\x01\0\0\0".to_vec();
        wasm.extend([1, 4, 1, 0x60, 0, 0]);
        wasm.extend([2, 7, 1, 1, b'm', 1, b'f', 0, 0]);
        wasm.extend([3, 2, 1, 0]);
        wasm.extend([10, 4, 1, 2, 0, 0x0b]);
        wasm.extend([11, 5, 0, 0, 0, 0, 0]);
        wasm.extend([0, 14, 4, b'n', b'a', b'm', b'e', 1, 7, 1, 1, 4, b'a', b':', b':', b'b']);
        let text = table(&wasm).unwrap();
        let row = |name: &str| {
            text.lines().find(|line| line.starts_with(name)).unwrap().split_whitespace().collect::<Vec<_>>()
        };
        assert_eq!(row("a "), ["a", "2", "1"]);
        assert!(row("(data").ends_with(&["5"]));
        assert!(table(b"text").is_err());
    }
}
