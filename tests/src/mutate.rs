//! Mutations of a file, always the same ones for one seed: what a fuzzer does without being asked, and figures and words
//! of JSON changed for others that are one.

use crate::random::Random;

/// What programs stumble over.
const WORDS: [&str; 40] = [
    "null",
    "true",
    "[]",
    "{}",
    "\"\"",
    "0",
    "-0",
    "-1",
    "1",
    "2",
    "0.1",
    "1e-9",
    "1e-320",
    "1e9",
    "1e308",
    "-1e308",
    "1e999",
    "NaN",
    "4294967295",
    "4294967296",
    "9007199254740993",
    "18446744073709551616",
    "1000000",
    "0.5",
    "[[[[[[[[",
    "{\"a\":",
    "\\u0000",
    "\u{0}",
    "\u{feff}",
    "é",
    "\u{1F600}",
    "\u{202e}",
    "%3B",
    ";",
    "=",
    "{",
    "}",
    "{{",
    "\"",
    "\n",
];

/// Longest file that comes out, bytes.
const LONGEST: usize = 200_000;

/// The file with one to four things changed; parts of `other` may come in.
pub fn mutated(file: &[u8], other: &[u8], random: &mut Random) -> Vec<u8> {
    let mut bytes = file.to_vec();
    // Mostly one thing, or nothing would be taken any more.
    for _ in 0..[1, 1, 1, 2, 4][random.below(5)] {
        change(&mut bytes, other, random);
    }
    bytes.truncate(LONGEST);
    bytes
}

fn change(bytes: &mut Vec<u8>, other: &[u8], random: &mut Random) {
    let at = random.below(bytes.len() + 1);
    let end = (at + 1 + random.below(8)).min(bytes.len());
    match random.below(10) {
        0 if at < bytes.len() => bytes[at] ^= 1 << random.below(8),
        1 => drop(bytes.drain(at..end)),
        2 => put(bytes, at..at, WORDS[random.below(WORDS.len())].as_bytes()),
        3 => bytes.truncate(at),
        4 => {
            let from = random.below(other.len() + 1);
            let to = (from + random.below(200)).min(other.len());
            put(bytes, at..at, &other[from..to]);
        }
        5 => {
            let piece = bytes[at..(at + random.below(120)).min(bytes.len())].to_vec();
            put(bytes, at..at, &piece.repeat(1 + random.below(3)));
        }
        _ => token(bytes, at, random),
    }
}

/// The figure or word that stands at or behind this place becomes another one.
fn token(bytes: &mut Vec<u8>, at: usize, random: &mut Random) {
    let part = |b: &u8| b.is_ascii_alphanumeric() || b"+-._".contains(b);
    let Some(from) = bytes[at..].iter().position(part).map(|i| at + i) else { return };
    let to = bytes[from..].iter().position(|b| !part(b)).map_or(bytes.len(), |i| from + i);
    let figure = str::from_utf8(&bytes[from..to]).ok().and_then(|text| text.parse::<f64>().ok());
    let new = match figure {
        Some(figure) if random.below(3) > 0 => {
            let other = [
                figure * 2.0,
                figure / 2.0,
                figure + 1.0,
                figure - 1.0,
                -figure,
                figure * 10.0,
                figure * random.share() * 2.0,
            ];
            other[random.below(other.len())].to_string()
        }
        _ => WORDS[random.below(WORDS.len())].to_owned(),
    };
    put(bytes, from..to, new.as_bytes());
}

fn put(bytes: &mut Vec<u8>, place: std::ops::Range<usize>, new: &[u8]) {
    bytes.splice(place, new.iter().copied());
}
