//! Colours.

use core::fmt;

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
        let mix = |from: u8, to: u8| (f64::from(from) + (f64::from(to) - f64::from(from)) * t).round() as u8;
        Self {
            red: mix(self.red, other.red),
            green: mix(self.green, other.green),
            blue: mix(self.blue, other.blue),
        }
    }

    /// Appends it as in CSS: `#f7f3ea`, or `#fff` where that says the same.
    pub(crate) fn write(self, out: &mut String) {
        let digit = |value: u8| char::from(b"0123456789abcdef"[usize::from(value)]);
        let channels = [self.red, self.green, self.blue];
        let short = channels.iter().all(|c| c >> 4 == c & 15);
        out.push('#');
        for channel in channels {
            if !short {
                out.push(digit(channel >> 4));
            }
            out.push(digit(channel & 15));
        }
    }
}

impl fmt::Display for Colour {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut text = String::with_capacity(7);
        self.write(&mut text);
        f.write_str(&text)
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
