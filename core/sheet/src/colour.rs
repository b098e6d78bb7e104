//! Colours.

use core::fmt::{self, Write};
use crestrail_geometry::math::nearest;

/// An opaque sRGB colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour {
    /// Red.
    pub red: u8,
    /// Green.
    pub green: u8,
    /// Blue.
    pub blue: u8,
}

impl Colour {
    /// From a number such as `0xf7f3ea`.
    pub const fn hex(code: u32) -> Self {
        Self { red: (code >> 16) as u8, green: (code >> 8) as u8, blue: code as u8 }
    }

    /// A share `t` (0–1) of the way to `other`, channel by channel.
    pub fn toward(self, other: Self, t: f64) -> Self {
        let mix = |from: u8, to: u8| nearest(f64::from(from) + (f64::from(to) - f64::from(from)) * t) as u8;
        Self {
            red: mix(self.red, other.red),
            green: mix(self.green, other.green),
            blue: mix(self.blue, other.blue),
        }
    }

    /// As in CSS: `#f7f3ea`, or `#fff` where that says the same.
    pub(crate) fn css(self) -> Css {
        let digit = |value: u8| b"0123456789abcdef"[usize::from(value)];
        let channels = [self.red, self.green, self.blue];
        let mut css = Css { text: [b'#'; 7], length: 7 };
        if channels.iter().all(|c| c >> 4 == c & 15) {
            channels.iter().zip(&mut css.text[1..]).for_each(|(c, to)| *to = digit(c & 15));
            css.length = 4;
        } else {
            for (c, to) in channels.iter().zip(css.text[1..].chunks_exact_mut(2)) {
                to.copy_from_slice(&[digit(c >> 4), digit(c & 15)]);
            }
        }
        css
    }
}

/// A colour in words.
pub(crate) struct Css {
    text: [u8; 7],
    length: usize,
}

impl Css {
    pub(crate) fn as_bytes(&self) -> &[u8] {
        &self.text[..self.length]
    }
}

impl fmt::Display for Colour {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.css().as_bytes().iter().try_for_each(|&letter| f.write_char(char::from(letter)))
    }
}

#[cfg(test)]
mod tests {
    use super::Colour;

    #[test]
    fn colours_are_written_as_in_css() {
        assert_eq!(Colour::hex(0xf7f3ea).to_string(), "#f7f3ea");
        assert_eq!(Colour::hex(0xffcc00).to_string(), "#fc0");
        assert_eq!(Colour::hex(0x010203).to_string(), "#010203");
    }

    #[test]
    fn mixing_ends_at_the_other_colour() {
        let (a, b) = (Colour::hex(0x102030), Colour::hex(0xf0e0d0));
        assert_eq!(a.toward(b, 0.0), a);
        assert_eq!(a.toward(b, 1.0), b);
        assert_eq!(a.toward(b, 0.5), Colour::hex(0x808080));
    }
}
