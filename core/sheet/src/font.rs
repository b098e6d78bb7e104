//! Typefaces of a document that carries its own.

use crate::Weight;
use core::fmt;
use crestrail_sorting::Order as _;
use ttf_parser::{GlyphId, RawFace, Tag, cmap, head, hhea, hmtx, maxp, name, name_id, os2};

/// The two typefaces of all text.
#[derive(Clone, Debug)]
pub struct Faces {
    /// For [`Weight::Regular`].
    pub regular: Face,
    /// For [`Weight::Medium`].
    pub medium: Face,
}

impl Faces {
    /// From two font files in the OpenType format with TrueType outlines.
    pub fn read(regular: Vec<u8>, medium: Vec<u8>) -> Result<Self, BadFont> {
        Ok(Self { regular: Face::read(regular)?, medium: Face::read(medium)? })
    }

    /// The typeface of a weight.
    pub fn of(&self, weight: Weight) -> &Face {
        match weight {
            Weight::Regular => &self.regular,
            Weight::Medium => &self.medium,
        }
    }
}

/// A typeface.
#[derive(Clone, Debug)]
pub struct Face {
    pub(crate) file: Vec<u8>,
    pub(crate) name: String,
    /// Lengths are told in thousandths of the font's size.
    pub(crate) ascent: f64,
    pub(crate) descent: f64,
    pub(crate) capitals: f64,
    pub(crate) bounds: [f64; 4],
    /// Widths of all glyphs.
    widths: Vec<f64>,
    /// Characters in order, each with its glyph.
    glyphs: Vec<(char, u16)>,
}

/// Why a font file cannot be used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BadFont {
    /// It is no OpenType font.
    Unreadable,
    /// Its outlines are not of the TrueType kind, or it has none.
    NoOutlines,
    /// It has no PostScript name, by which a PDF file calls it.
    Nameless,
}

impl fmt::Display for BadFont {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Unreadable => "the font file is no OpenType font",
            Self::NoOutlines => "the font file has no TrueType outlines",
            Self::Nameless => "the font file has no PostScript name",
        })
    }
}

impl core::error::Error for BadFont {}

impl Face {
    /// From a font file in the OpenType format with TrueType outlines.
    pub fn read(file: Vec<u8>) -> Result<Self, BadFont> {
        let raw = RawFace::parse(&file, 0).map_err(|_| BadFont::Unreadable)?;
        let table = |name: &[u8; 4]| raw.table(Tag::from_bytes(name));
        table(b"glyf").and(table(b"loca")).ok_or(BadFont::NoOutlines)?;
        let name = table(b"name").and_then(name::Table::parse).and_then(|names| {
            let mut own = names.names.into_iter().filter(|n| n.name_id == name_id::POST_SCRIPT_NAME);
            own.find_map(|n| n.to_string())
        });
        let mut face = Self::measured(table).ok_or(BadFont::Unreadable)?;
        face.name = name.ok_or(BadFont::Nameless)?;
        face.file = file;
        Ok(face)
    }

    /// What its tables tell of sizes and characters.
    fn measured<'a>(table: impl Fn(&[u8; 4]) -> Option<&'a [u8]>) -> Option<Self> {
        let head = head::Table::parse(table(b"head")?)?;
        let hhea = hhea::Table::parse(table(b"hhea")?)?;
        let count = maxp::Table::parse(table(b"maxp")?)?.number_of_glyphs;
        let metrics = hmtx::Table::parse(hhea.number_of_metrics, count, table(b"hmtx")?)?;
        let capitals = table(b"OS/2").and_then(os2::Table::parse).and_then(|t| t.capital_height());
        let share = 1000.0 / f64::from(head.units_per_em);
        let thousandths = |length: i16| f64::from(length) * share;
        let bounds = head.global_bbox;
        let width = |glyph| f64::from(metrics.advance(GlyphId(glyph)).unwrap_or(0)) * share;
        Some(Self {
            name: String::new(),
            file: Vec::new(),
            ascent: thousandths(hhea.ascender),
            descent: thousandths(hhea.descender),
            capitals: thousandths(capitals.unwrap_or(hhea.ascender)),
            bounds: [bounds.x_min, bounds.y_min, bounds.x_max, bounds.y_max].map(thousandths),
            widths: (0..count.get()).map(width).collect(),
            glyphs: characters(cmap::Table::parse(table(b"cmap")?)?),
        })
    }

    /// The glyph of a character; `None` where the font has none.
    pub(crate) fn glyph(&self, letter: char) -> Option<u16> {
        self.glyphs.binary_search_by_key(&letter, |row| row.0).ok().map(|at| self.glyphs[at].1)
    }

    /// Width of a glyph in thousandths of the font's size.
    pub(crate) fn width(&self, glyph: u16) -> f64 {
        self.widths.get(usize::from(glyph)).copied().unwrap_or(0.0)
    }

    /// Length of a line of text in the font's size, which is also its unit.
    pub fn length(&self, words: &str) -> f64 {
        words.chars().map(|c| self.width(self.glyph(c).unwrap_or(0))).sum::<f64>() / 1000.0
    }
}

fn characters(table: cmap::Table<'_>) -> Vec<(char, u16)> {
    let mut found = Vec::new();
    for subtable in table.subtables.into_iter().filter(ttf_parser::cmap::Subtable::is_unicode) {
        subtable.codepoints(|code| {
            if let (Some(letter), Some(glyph)) = (char::from_u32(code), subtable.glyph_index(code)) {
                found.push((letter, glyph.0));
            }
        });
    }
    found.order();
    found.dedup_by_key(|row| row.0);
    found
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;

    /// The typefaces of the page.
    pub(crate) fn faces() -> Faces {
        let regular = include_bytes!("../../../www/page/fonts/crestrail-sans-regular.ttf").to_vec();
        let medium = include_bytes!("../../../www/page/fonts/crestrail-sans-medium.ttf").to_vec();
        Faces::read(regular, medium).expect("the fonts of the page")
    }

    /// ISO 8859-1 and Unicode's block "Latin Extended-A", which hold the letters of most European languages, and
    /// the signs of measures.
    #[test]
    fn latin_letters_with_accents_and_the_signs_of_measures_are_there() {
        let faces = faces();
        let letters = ('\u{20}'..='\u{7e}').chain('\u{a0}'..='\u{17f}');
        let signs = "–—‘’‚“”„…′″€×÷±°·½¼¾⅛⅜⅝⅞−≈≠≤≥←↑→↓ØøȘșȚțẞ";
        for face in [&faces.regular, &faces.medium] {
            let missing: String =
                letters.clone().chain(signs.chars()).filter(|&c| face.glyph(c).is_none()).collect();
            assert_eq!(missing, "", "{}", face.name);
            assert_eq!(face.glyph('漢'), None);
        }
    }

    #[test]
    fn figures_are_all_of_one_width() {
        let face = faces().regular;
        assert!("0123456789".chars().all(|c| face.length(&c.to_string()) == face.length("0")));
        assert!((face.length("00") - 2.0 * face.length("0")).abs() < 1e-12);
    }

    #[test]
    fn other_files_are_refused() {
        assert_eq!(Face::read(Vec::new()).unwrap_err(), BadFont::Unreadable);
        assert_eq!(Face::read(b"wOF2 and more".to_vec()).unwrap_err(), BadFont::Unreadable);
    }
}
