//! The workshop's colour, and whether words in it can be read.

use crate::reading::Fields;
use crate::refusal::Refusal;
use crestrail_geometry::math::pow;
use crestrail_phrases::say;

/// A colour of sRGB, written `#rrggbb`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour([u8; 3]);

/// The workshop's colour on light and on dark paper: of buttons, pointers and what is marked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colours {
    /// On light paper.
    pub light: Colour,
    /// On dark paper.
    pub dark: Colour,
}

/// The page's papers, against which the colours are read (`www/page/tokens.css`; a test compares them).
pub(super) const PAPERS: [Colour; 2] = [Colour([0xee, 0xf0, 0xec]), Colour([0x1a, 0x21, 0x25])];

/// Contrast that words need to be read (WCAG 2.2, success criterion 1.4.3).
const READABLE: f64 = 4.5;

impl Colour {
    /// Reads `#rrggbb`.
    pub fn parse(text: &str) -> Option<Self> {
        let digits = text.strip_prefix('#').filter(|d| d.len() == 6 && d.is_ascii())?;
        let byte = |at: usize| u8::from_str_radix(&digits[at..at + 2], 16).ok();
        let plain = digits.chars().all(|c| c.is_ascii_hexdigit());
        plain.then_some(())?;
        Some(Self([byte(0)?, byte(2)?, byte(4)?]))
    }

    /// As it is written in a file or a style.
    pub fn hex(self) -> String {
        let [r, g, b] = self.0;
        format!("#{r:02x}{g:02x}{b:02x}")
    }

    /// Contrast with another colour, from 1 to 21 (WCAG 2.2, definition of contrast ratio).
    pub fn contrast(self, other: Self) -> f64 {
        let (a, b) = (self.luminance(), other.luminance());
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    /// Relative luminance (WCAG 2.2, definition; its threshold of 0.04045 is that of IEC 61966-2-1).
    fn luminance(self) -> f64 {
        let linear = |byte: u8| match f64::from(byte) / 255.0 {
            c if c <= 0.04045 => c / 12.92,
            c => pow((c + 0.055) / 1.055, 2.4),
        };
        let [r, g, b] = self.0.map(linear);
        0.2126 * r + 0.7152 * g + 0.0722 * b
    }

    /// Black or white, whichever is read better on it.
    pub fn words_on_it(self) -> Self {
        let [black, white] = [Self([0; 3]), Self([255; 3])];
        if self.contrast(white) >= self.contrast(black) { white } else { black }
    }
}

pub(super) fn colours(f: &Fields<'_>) -> Result<Colours, Refusal> {
    f.only(&["light", "dark"])?;
    let [paper, dark_paper] = PAPERS;
    Ok(Colours { light: readable(f, "light", paper)?, dark: readable(f, "dark", dark_paper)? })
}

fn readable(f: &Fields<'_>, name: &str, paper: Colour) -> Result<Colour, Refusal> {
    let text = f.text(name, 20)?;
    let colour = Colour::parse(&text).ok_or_else(|| {
        let why = say!("\"{text}\" is not a colour. Write it as # and six figures, such as #1f5f5b.");
        Refusal::new(f.path(name), why)
    })?;
    let contrast = colour.contrast(paper);
    if contrast >= READABLE {
        return Ok(colour);
    }
    let why = match name {
        "light" => say!(
            "{text} cannot be read well on light paper: its contrast is {contrast:.1}, and words need {READABLE}. Choose a darker one."
        ),
        _ => say!(
            "{text} cannot be read well on dark paper: its contrast is {contrast:.1}, and words need {READABLE}. Choose a lighter one."
        ),
    };
    Err(Refusal::new(f.path(name), why))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn colour(text: &str) -> Colour {
        Colour::parse(text).expect(text)
    }

    /// Pairs whose contrast is well known: black on white is 21, and #767676 is the palest grey on white that passes 4.5
    /// (WebAIM's and W3C's own examples).
    #[test]
    fn contrast_is_that_of_the_guidelines() {
        let white = colour("#ffffff");
        assert!((white.contrast(colour("#000000")) - 21.0).abs() < 1e-9);
        assert!((white.contrast(colour("#767676")) - 4.54).abs() < 0.005);
        assert!((white.contrast(colour("#777777")) - 4.48).abs() < 0.005);
        assert_eq!(colour("#1f5f5b").words_on_it(), white);
        assert_eq!(colour("#ffdd55").words_on_it(), colour("#000000"));
    }

    #[test]
    fn only_six_figures_are_a_colour() {
        for wrong in ["", "#fff", "1f5f5b", "#1f5f5g", "#1f5f5b00", "#+1+2+3", "red", "#1f5fé"] {
            assert_eq!(Colour::parse(wrong), None, "{wrong}");
        }
        assert_eq!(colour("#1F5F5B").hex(), "#1f5f5b");
    }

    #[test]
    fn the_papers_are_those_of_the_page() {
        let tokens = include_str!("../../../../www/page/tokens.css");
        let (light, dark) = tokens.split_once("[data-scheme=\"dark\"]").expect("both schemes");
        assert!(light.contains(&format!("--paper: {};", PAPERS[0].hex())));
        assert!(dark.contains(&format!("--sheet: {};", PAPERS[1].hex())));
    }
}
