//! Breaking words into lines.

use super::Type;
use crate::Faces;

/// How long a line of words is, mm.
pub fn length(words: &str, kind: &Type, faces: &Faces) -> f64 {
    faces.of(kind.weight).length(words) * kind.size
}

/// The lines of a paragraph `width` mm wide: as many words on each as fit. A word longer than a line is parted where it
/// meets the edge. A line break in the words ends a line; no words are one empty line.
pub fn broken(words: &str, width: f64, kind: &Type, faces: &Faces) -> Vec<String> {
    let fits = |line: &str| length(line, kind, faces) <= width + SLACK;
    let mut lines = Vec::new();
    for given in words.split('\n') {
        let mut line = String::new();
        // A no-break space holds its words together.
        for word in given.split([' ', '\t', '\r']).filter(|word| !word.is_empty()) {
            let longer = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
            if fits(&longer) {
                line = longer;
                continue;
            }
            if !line.is_empty() {
                lines.push(core::mem::take(&mut line));
            }
            line = parted(word, &fits, &mut lines);
        }
        lines.push(line);
    }
    lines
}

/// A width that was measured from the same words must hold them.
const SLACK: f64 = 1e-6;

/// Puts full lines of a long word into `lines`; what is left of it.
fn parted(word: &str, fits: &impl Fn(&str) -> bool, lines: &mut Vec<String>) -> String {
    let mut line = String::new();
    for letter in word.chars() {
        line.push(letter);
        if !fits(&line) && line.chars().count() > 1 {
            line.pop();
            lines.push(core::mem::replace(&mut line, letter.to_string()));
        }
    }
    line
}
