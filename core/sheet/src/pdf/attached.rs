//! The files inside a PDF file, also where another program has written it anew.
//!
//! Streams are never packed into others (ISO 32000-1, 7.5.7), so a file inside stands open among the objects, whatever
//! else was packed or moved. So objects are looked at one after the other, without the table that tells where they are.

use super::object::{Object, Reader, is_space};
use core::fmt;
use miniz_oxide::inflate::decompress_to_vec_zlib_with_limit;

/// Why nothing can be got out of a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unread {
    /// It is no PDF file.
    NoPdf,
    /// It is locked with a password, or made unreadable to programs that do not know one.
    Locked,
}

impl fmt::Display for Unread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NoPdf => "it is no PDF file",
            Self::Locked => "it is locked",
        })
    }
}

impl core::error::Error for Unread {}

/// How far from its start a file may begin (ISO 32000-1, annex H, note 13).
const START: usize = 1024;

/// Bytes that are looked at for each byte of a file before it is given up. A sane one is looked through a few times; one that is made
/// so that each object leads through the whole file would take hours.
const LOOKS: usize = 50;

/// Largest file that is unpacked, bytes: a hundred times an order of forty designs.
const LARGEST: usize = 8_000_000;

/// The bytes of all files inside, in the order in which they stand; one that is squeezed in a way this does not know, or is
/// damaged, is left out, and so is what stands behind a tangle.
pub fn attached(file: &[u8]) -> Result<Vec<Vec<u8>>, Unread> {
    if position(&file[..file.len().min(START)], b"%PDF-").is_none() {
        return Err(Unread::NoPdf);
    }
    let mut found = Vec::new();
    let (mut at, mut looks) = (0, LOOKS * file.len());
    while let Some(next) = position(&file[at..], b"obj").map(|i| at + i + 3) {
        let mut reader = Reader { bytes: file, at: next };
        at = next;
        let object = reader.object();
        looks = looks.saturating_sub(reader.at - next);
        if looks == 0 {
            break;
        }
        let Some(object) = object else { continue };
        if object.get("Encrypt").is_some() {
            return Err(Unread::Locked);
        }
        reader.space();
        if let Some((bytes, end)) = stream(file, &mut reader, &object, &mut looks) {
            at = end;
            if object.get("Type").is_some_and(|kind| kind.is_name("EmbeddedFile")) {
                found.extend(unpacked(bytes, &object));
            }
        }
    }
    if locked(file) { Err(Unread::Locked) } else { Ok(found) }
}

/// Whether a trailer says that what stands in the file is not to be read as it stands.
fn locked(file: &[u8]) -> bool {
    let (mut at, mut looks) = (0, LOOKS * file.len());
    while let Some(next) = position(&file[at..], b"trailer").map(|i| at + i + 7) {
        at = next;
        let mut reader = Reader { bytes: file, at };
        if reader.object().is_some_and(|trailer| trailer.get("Encrypt").is_some()) {
            return true;
        }
        looks = looks.saturating_sub(reader.at - next);
        if looks == 0 {
            break;
        }
    }
    false
}

fn position(bytes: &[u8], what: &[u8]) -> Option<usize> {
    bytes.windows(what.len()).position(|at| at == what)
}

/// The bytes of the stream that begins here, and where they end.
fn stream<'a>(
    file: &'a [u8],
    reader: &mut Reader<'_>,
    object: &Object,
    looks: &mut usize,
) -> Option<(&'a [u8], usize)> {
    if !reader.word("stream") {
        return None;
    }
    // A line break ends the word: CR LF or LF (ISO 32000-1, 7.3.8.1).
    reader.word("\r");
    if !reader.word("\n") {
        return None;
    }
    let length = length(file, object.get("Length")?, reader.at, looks)?;
    let end = reader.at.checked_add(length).filter(|&end| end <= file.len())?;
    let mut after = Reader { bytes: file, at: end };
    after.space();
    after.word("endstream").then(|| (&file[reader.at..end], end))
}

/// A length as it stands, or in an object of its own, which is looked for behind its stream first: there most programs put it.
fn length(file: &[u8], object: &Object, behind: usize, looks: &mut usize) -> Option<usize> {
    match *object {
        Object::Number(length) if length >= 0.0 => Some(length as usize),
        Object::Elsewhere(number) => {
            let head = format!("{number} 0 obj");
            let found =
                number_behind(file, &head, behind, looks).or_else(|| number_behind(file, &head, 0, looks));
            found.filter(|&length| length >= 0.0).map(|length| length as usize)
        }
        _ => None,
    }
}

/// The number that is the first object with this head at or behind a place.
fn number_behind(file: &[u8], head: &str, mut at: usize, looks: &mut usize) -> Option<f64> {
    while *looks > 0 {
        let next = position(&file[at..], head.as_bytes()).map(|i| at + i);
        *looks = looks.saturating_sub(next.unwrap_or(file.len()) - at);
        at = next? + head.len();
        if next.is_some_and(|next| next > 0 && !is_space(file[next - 1])) {
            continue;
        }
        let mut reader = Reader { bytes: file, at };
        let object = reader.object();
        *looks = looks.saturating_sub(reader.at - at);
        if let Some(Object::Number(number)) = object {
            return Some(number);
        }
    }
    None
}

fn unpacked(bytes: &[u8], object: &Object) -> Option<Vec<u8>> {
    let names = match object.get("Filter") {
        None => &[],
        Some(Object::List(names)) => names.as_slice(),
        Some(name) => core::slice::from_ref(name),
    };
    match names {
        [] => (bytes.len() <= LARGEST).then(|| bytes.to_vec()),
        [one] if one.is_name("FlateDecode") => decompress_to_vec_zlib_with_limit(bytes, LARGEST).ok(),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ORDER: &[u8] = br#"{"crestrail":"order/2"}"#;

    fn file(dictionary: &str, bytes: &[u8], after: &str) -> Vec<u8> {
        let head = format!("%PDF-1.7\n1 0 obj\n{dictionary}\nstream\r\n");
        [head.as_bytes(), bytes, b"\nendstream\nendobj\n", after.as_bytes()].concat()
    }

    #[test]
    fn a_file_is_found_squeezed_or_not() {
        let squeezed = miniz_oxide::deflate::compress_to_vec_zlib(ORDER, 6);
        let kind = "/Type/EmbeddedFile";
        for (rest, bytes) in [
            (format!("/Filter/FlateDecode/Length {}", squeezed.len()), squeezed.as_slice()),
            (format!("/Filter[/FlateDecode]/Length {}", squeezed.len()), squeezed.as_slice()),
            (format!("/Length {}", ORDER.len()), ORDER),
            ("/Length 12 0 R".to_owned(), ORDER),
        ] {
            let after = format!("112 0 obj\n1\nendobj\n12 0 obj\n{}\nendobj\n", ORDER.len());
            let found = attached(&file(&format!("<<{kind}{rest}>>"), bytes, &after));
            assert_eq!(found, Ok(vec![ORDER.to_vec()]), "{rest}");
        }
        let page = format!("<</Length {}>>", ORDER.len());
        assert_eq!(attached(&file(&page, ORDER, "")), Ok(Vec::new()), "no file, only a stream");
    }

    #[test]
    fn what_cannot_be_read_is_told_or_left_out() {
        assert_eq!(attached(b"<html>"), Err(Unread::NoPdf));
        assert_eq!(attached(b""), Err(Unread::NoPdf));
        let good = format!("<</Type/EmbeddedFile/Length {}>>", ORDER.len());
        assert_eq!(attached(&file(&good, ORDER, "trailer <</Encrypt 3 0 R>>")), Err(Unread::Locked));
        assert_eq!(
            attached(&file(&good, ORDER, "9 0 obj <</Type/XRef/Encrypt 3 0 R>>")),
            Err(Unread::Locked)
        );
        for bad in [
            "/Length 9999",
            "/Length -1",
            "/Length 7 0 R",
            "",
            "/Length 23/Filter/LZWDecode",
            "/Length 23/Filter/FlateDecode",
        ] {
            assert_eq!(
                attached(&file(&format!("<</Type/EmbeddedFile{bad}>>"), ORDER, "")),
                Ok(Vec::new()),
                "{bad}"
            );
        }
    }

    #[test]
    fn no_damage_makes_it_stumble() {
        let squeezed = miniz_oxide::deflate::compress_to_vec_zlib(ORDER, 6);
        let whole = file(
            &format!("<</Type/EmbeddedFile/Filter/FlateDecode/Length {}>>", squeezed.len()),
            &squeezed,
            "trailer<</Root 1 0 R>>",
        );
        for i in 0..whole.len() {
            let _ = attached(&whole[..i]);
            for byte in [0, b'(', b')', b'<', b'>', b'[', b'/', b'9', 255] {
                let mut bent = whole.clone();
                bent[i] = byte;
                if let Ok(found) = attached(&bent) {
                    assert!(found.len() <= 1);
                }
            }
        }
    }
}
