//! The data section of a STEP file (ISO 10303-21:2016, clear text encoding): numbered instances, numbers and texts.

use crestrail_geometry::Vec3;
use std::fmt::{self, Write};

/// The number of an instance; written `#12`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Id(u32);

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "#{}", self.0)
    }
}

/// The instances written so far.
#[derive(Default)]
pub(super) struct Data {
    text: String,
    count: u32,
}

impl Data {
    /// Writes an instance: its entity and parameters, `POINT('',…)`.
    pub(super) fn add(&mut self, instance: fmt::Arguments<'_>) -> Id {
        self.count += 1;
        let id = Id(self.count);
        // Writing to a text cannot fail.
        let _ = writeln!(self.text, "{id}={instance};");
        id
    }

    pub(super) fn point(&mut self, p: Vec3) -> Id {
        let [x, y, z] = [p.x, p.y, p.z].map(length);
        self.add(format_args!("CARTESIAN_POINT('',({x},{y},{z}))"))
    }

    pub(super) fn direction(&mut self, d: Vec3) -> Id {
        let [x, y, z] = [d.x, d.y, d.z].map(real);
        self.add(format_args!("DIRECTION('',({x},{y},{z}))"))
    }

    /// A right-handed frame by its origin, its z and its x.
    pub(super) fn placement(&mut self, origin: Vec3, z: Vec3, x: Vec3) -> Id {
        let (origin, z, x) = (self.point(origin), self.direction(z), self.direction(x));
        self.add(format_args!("AXIS2_PLACEMENT_3D('',{origin},{z},{x})"))
    }

    pub(super) fn into_text(self) -> String {
        self.text
    }
}

/// Instances as a list: `#1,#2`.
pub(super) fn list(ids: &[Id]) -> String {
    ids.iter().map(Id::to_string).collect::<Vec<_>>().join(",")
}

/// A length, mm, to ten-millionths: a hundredth of what corners are welded within.
pub(super) fn length(v: f64) -> String {
    let text = format!("{v:.7}");
    let short = text.trim_end_matches('0');
    if short == "-0." { "0.".to_owned() } else { short.to_owned() }
}

/// A number with all its digits: it must have a point, and `E` before an exponent (section 6.4.2).
pub(super) fn real(v: f64) -> String {
    let text = format!("{:?}", v + 0.0).replace('e', "E");
    match text.split_once('E') {
        Some((digits, exponent)) if !digits.contains('.') => format!("{digits}.E{exponent}"),
        _ => text.strip_suffix(".0").map_or(text.clone(), |whole| format!("{whole}.")),
    }
}

/// A text between apostrophes: those within are doubled, and what is not ASCII is written by its code (section 6.4.3).
pub(super) fn text(words: &str) -> String {
    let mut out = String::from("'");
    for c in words.chars() {
        match c {
            '\'' => out.push_str("''"),
            '\\' => out.push_str("\\\\"),
            ' '..='~' => out.push(c),
            c if u32::from(c) < 0x20 || c == '\u{7f}' => out.push(' '),
            c if u32::from(c) <= 0xffff => out.push_str(&format!("\\X2\\{:04X}\\X0\\", u32::from(c))),
            c => out.push_str(&format!("\\X4\\{:08X}\\X0\\", u32::from(c))),
        }
    }
    out.push('\'');
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_have_a_point() {
        assert_eq!([1.0, -0.0, 0.5, 1e-7, 1.5e-9].map(real), ["1.", "0.", "0.5", "1.E-7", "1.5E-9"]);
        assert_eq!([1.0, -1e-9, 12.345_678_91].map(length), ["1.", "0.", "12.3456789"]);
    }

    #[test]
    fn texts_are_ascii() {
        assert_eq!(text("a'b\\c\n"), r"'a''b\\c '");
        assert_eq!(text("é𝄞"), r"'\X2\00E9\X0\\X4\0001D11E\X0\'");
    }
}
