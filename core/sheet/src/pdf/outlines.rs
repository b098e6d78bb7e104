//! A TrueType font cut down to some of its glyphs, as PDF files take it in (ISO 32000-1, 9.9): outlines and widths, no
//! names and no characters. Tables and offsets after ISO/IEC 14496-22 (OpenType).
//!
//! A library for this would bring the other kind of outlines with it, several times as much code as this.

use super::Unwritten;
use ttf_parser::{GlyphId, RawFace, Tag, head, loca, maxp};

/// Bits of a component of a glyph that is put together from others.
const WORDS: u16 = 0x1;
const SCALE: u16 = 0x8;
const MORE: u16 = 0x20;
const TWO_SCALES: u16 = 0x40;
const FOUR_SCALES: u16 = 0x80;
/// Where the components begin: after the count of contours and the bounds.
const COMPONENTS: usize = 10;

/// The font with these glyphs in this order, and after them those that they are put together from.
pub(super) fn subset(file: &[u8], glyphs: &[u16]) -> Result<Vec<u8>, Unwritten> {
    cut(file, glyphs).ok_or_else(|| Unwritten::Font("its tables do not hold what they say".to_owned()))
}

fn cut(file: &[u8], glyphs: &[u16]) -> Option<Vec<u8>> {
    let font = Font::read(file)?;
    let mut kept = glyphs.to_vec();
    let (mut outlines, mut places) = (Vec::new(), vec![0_u32]);
    let mut i = 0;
    while let Some(&glyph) = kept.get(i) {
        let mut outline = font.outline(glyph)?.to_vec();
        renumber(&mut outline, &mut kept)?;
        outlines.extend(outline);
        // Outlines begin at even places; four bytes keep all tables in step.
        outlines.resize(outlines.len().next_multiple_of(4), 0);
        places.push(u32::try_from(outlines.len()).ok()?);
        i += 1;
    }
    let count = u16::try_from(kept.len()).ok()?.to_be_bytes();
    let mut metrics = Vec::new();
    for &glyph in &kept {
        metrics.extend(font.metrics(glyph)?);
    }
    let mut tables = vec![
        (*b"glyf", outlines),
        (*b"head", with(with(font.head.to_vec(), 8, &[0; 4])?, 50, &[0, 1])?),
        (*b"hhea", with(font.hhea.to_vec(), 34, &count)?),
        (*b"hmtx", metrics),
        (*b"loca", places.iter().flat_map(|place| place.to_be_bytes()).collect()),
        (*b"maxp", with(font.maxp.to_vec(), 4, &count)?),
    ];
    Some(assembled(&mut tables))
}

/// The tables that outlines and widths need.
struct Font<'a> {
    glyf: &'a [u8],
    loca: loca::Table<'a>,
    hmtx: &'a [u8],
    /// How many glyphs have a width of their own; the others have the last one's.
    wide: u16,
    head: &'a [u8],
    hhea: &'a [u8],
    maxp: &'a [u8],
}

impl<'a> Font<'a> {
    fn read(file: &'a [u8]) -> Option<Self> {
        let raw = RawFace::parse(file, 0).ok()?;
        let table = |name: &[u8; 4]| raw.table(Tag::from_bytes(name));
        let (head, hhea, maxp) = (table(b"head")?, table(b"hhea")?, table(b"maxp")?);
        let count = maxp::Table::parse(maxp)?.number_of_glyphs;
        let format = head::Table::parse(head)?.index_to_location_format;
        Some(Self {
            glyf: table(b"glyf")?,
            loca: loca::Table::parse(count, format, table(b"loca")?)?,
            hmtx: table(b"hmtx")?,
            wide: number(hhea, 34)?.max(1),
            head,
            hhea,
            maxp,
        })
    }

    /// Nothing for a glyph that paints nothing, such as a space.
    fn outline(&self, glyph: u16) -> Option<&'a [u8]> {
        match self.loca.glyph_range(GlyphId(glyph)) {
            Some(range) => self.glyf.get(range),
            None => Some(&[]),
        }
    }

    /// Width and left bearing, as they stand in the table.
    fn metrics(&self, glyph: u16) -> Option<[u8; 4]> {
        let (own, last) = (usize::from(glyph), usize::from(self.wide) - 1);
        let width = number(self.hmtx, 4 * own.min(last))?.to_be_bytes();
        let bearing = if own <= last { 4 * own + 2 } else { 4 * (last + 1) + 2 * (own - last - 1) };
        let bearing = number(self.hmtx, bearing)?.to_be_bytes();
        Some([width[0], width[1], bearing[0], bearing[1]])
    }
}

/// Gives the components of an outline their new numbers; those not yet kept are added.
fn renumber(outline: &mut [u8], kept: &mut Vec<u16>) -> Option<()> {
    // A negative count of contours tells an outline that is put together.
    if outline.first().is_none_or(|byte| byte & 0x80 == 0) {
        return Some(());
    }
    let mut at = COMPONENTS;
    loop {
        let (flags, part) = (number(outline, at)?, number(outline, at + 2)?);
        let place = kept.iter().position(|&glyph| glyph == part).unwrap_or_else(|| {
            kept.push(part);
            kept.len() - 1
        });
        outline[at + 2..at + 4].copy_from_slice(&u16::try_from(place).ok()?.to_be_bytes());
        at += 4 + if flags & WORDS == 0 { 2 } else { 4 };
        at += match flags & (SCALE | TWO_SCALES | FOUR_SCALES) {
            SCALE => 2,
            TWO_SCALES => 4,
            FOUR_SCALES => 8,
            _ => 0,
        };
        if flags & MORE == 0 {
            return Some(());
        }
    }
}

fn number(bytes: &[u8], at: usize) -> Option<u16> {
    bytes.get(at..at + 2).map(|pair| u16::from_be_bytes([pair[0], pair[1]]))
}

/// The table with some of its bytes changed.
fn with(mut table: Vec<u8>, at: usize, bytes: &[u8]) -> Option<Vec<u8>> {
    table.get_mut(at..at + bytes.len())?.copy_from_slice(bytes);
    Some(table)
}

/// The file: its head, the directory of the tables with their sums, the tables.
fn assembled(tables: &mut [([u8; 4], Vec<u8>)]) -> Vec<u8> {
    let count = tables.len() as u16;
    // The largest power of two that is not above the count: readers of old searched by halves.
    let power = 15 - count.leading_zeros() as u16;
    let range = 16 << power;
    let mut file = 0x0001_0000_u32.to_be_bytes().to_vec();
    for value in [count, range, power, 16 * count - range] {
        file.extend(value.to_be_bytes());
    }
    let mut at = 12 + 16 * tables.len();
    for (name, table) in tables.iter_mut() {
        let length = table.len();
        table.resize(length.next_multiple_of(4), 0);
        file.extend(*name);
        for value in [sum(table), at as u32, length as u32] {
            file.extend(value.to_be_bytes());
        }
        at += table.len();
    }
    tables.iter().for_each(|(_, table)| file.extend(table));
    file
}

fn sum(table: &[u8]) -> u32 {
    let words = table.chunks_exact(4).map(|word| u32::from_be_bytes([word[0], word[1], word[2], word[3]]));
    words.fold(0, u32::wrapping_add)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::font::tests::faces;
    use ttf_parser::{Face, OutlineBuilder};

    /// Every point of an outline as text.
    #[derive(Default, PartialEq, Debug)]
    struct Drawn(String);

    impl OutlineBuilder for Drawn {
        fn move_to(&mut self, x: f32, y: f32) {
            self.0 += &format!("M{x} {y}");
        }
        fn line_to(&mut self, x: f32, y: f32) {
            self.0 += &format!("L{x} {y}");
        }
        fn quad_to(&mut self, a: f32, b: f32, x: f32, y: f32) {
            self.0 += &format!("Q{a} {b} {x} {y}");
        }
        fn curve_to(&mut self, a: f32, b: f32, c: f32, d: f32, x: f32, y: f32) {
            self.0 += &format!("C{a} {b} {c} {d} {x} {y}");
        }
        fn close(&mut self) {
            self.0 += "z";
        }
    }

    fn drawn(face: &Face<'_>, glyph: u16) -> String {
        let mut drawn = Drawn::default();
        face.outline_glyph(GlyphId(glyph), &mut drawn);
        drawn.0
    }

    /// Glyphs keep their outlines and widths, those with accents too, which are put together from others.
    #[test]
    fn glyphs_stay_as_they_were() {
        for own in [faces().regular, faces().medium] {
            let letters = "Zoë’s Čechý ½ ﬀ 10 Ǣ åçř";
            let mut glyphs = vec![0];
            glyphs.extend(letters.chars().filter_map(|letter| own.glyph(letter)));
            let cut = subset(&own.file, &glyphs).expect("a font");
            let (whole, part) = (Face::parse(&own.file, 0).unwrap(), Face::parse(&cut, 0).unwrap());
            assert!(cut.len() < own.file.len() / 2 && part.number_of_glyphs() < 60);
            for (place, &glyph) in (0..).zip(&glyphs) {
                assert_eq!(drawn(&part, place), drawn(&whole, glyph));
                let width = |face: &Face<'_>, glyph| face.glyph_hor_advance(GlyphId(glyph));
                assert_eq!(width(&part, place), width(&whole, glyph));
            }
        }
    }

    #[test]
    fn a_broken_font_is_refused() {
        let file = faces().regular.file;
        assert!(subset(&file[..file.len() / 2], &[0, 5]).is_err());
        assert!(subset(b"nothing", &[0]).is_err());
    }
}
