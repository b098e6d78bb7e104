//! Fonts inside a file: only the glyphs that are used, with the characters they stand for, so that text can be searched.

use super::frame::stream;
use super::ids::Ids;
use super::{Unwritten, outlines};
use crate::{Face, Faces, Weight};
use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Finish, Name, Pdf, Rect, Ref, Str};
use std::collections::BTreeSet;

/// Glyphs are told by two bytes that are their place in the font itself (ISO 32000-1, 9.7.5.2).
const ENCODING: Name<'static> = Name(b"Identity-H");
const SYSTEM: SystemInfo<'static> =
    SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"Identity"), supplement: 0 };

/// What stands for a character that the font does not have (Unicode's "replacement character").
const UNKNOWN: char = '\u{fffd}';

/// The fonts of a document, with what of them was used so far.
pub(super) struct Typefaces<'a> {
    faces: &'a Faces,
    used: [Used; 2],
    missing: BTreeSet<char>,
}

/// The fonts of a file.
pub(super) struct Embedded {
    /// Names and objects for the pages' resources.
    pub(super) fonts: Vec<(Name<'static>, Ref)>,
    /// The characters that no font has.
    pub(super) missing: Vec<char>,
}

/// Glyphs of one font in the order in which they were first used, each with its character; the first stands for
/// characters that it does not have.
struct Used {
    letters: Vec<(u16, char)>,
}

impl Used {
    fn new() -> Self {
        Self { letters: vec![(0, UNKNOWN)] }
    }

    /// Where the glyph stands among them.
    fn note(&mut self, glyph: u16, letter: char) -> u16 {
        let place = self.letters.iter().position(|row| row.0 == glyph).unwrap_or_else(|| {
            self.letters.push((glyph, letter));
            self.letters.len() - 1
        });
        // A font has no more glyphs than such a number counts.
        place as u16
    }
}

/// Names of the fonts in the pages' resources.
const NAMES: [(Weight, Name<'static>); 2] = [(Weight::Regular, Name(b"R")), (Weight::Medium, Name(b"M"))];

fn place_of(weight: Weight) -> usize {
    match weight {
        Weight::Regular => 0,
        Weight::Medium => 1,
    }
}

impl<'a> Typefaces<'a> {
    pub(super) fn new(faces: &'a Faces) -> Self {
        Self { faces, used: [Used::new(), Used::new()], missing: BTreeSet::new() }
    }

    pub(super) fn name(weight: Weight) -> Name<'static> {
        NAMES[place_of(weight)].1
    }

    /// The line of text as bytes for the font's encoding; what the font does not have is noted.
    pub(super) fn encode(&mut self, words: &str, weight: Weight) -> Vec<u8> {
        let face = self.faces.of(weight);
        let used = &mut self.used[place_of(weight)];
        let mut bytes = Vec::with_capacity(2 * words.len());
        for letter in words.chars() {
            let place = match face.glyph(letter) {
                Some(glyph) => used.note(glyph, letter),
                None => {
                    self.missing.insert(letter);
                    0
                }
            };
            bytes.extend(place.to_be_bytes());
        }
        bytes
    }

    /// Length of a line in the font's size.
    pub(super) fn length(&self, words: &str, weight: Weight) -> f64 {
        self.faces.of(weight).length(words)
    }

    /// Writes the fonts.
    pub(super) fn write(self, pdf: &mut Pdf, ids: &mut Ids) -> Result<Embedded, Unwritten> {
        let mut fonts = Vec::new();
        for ((weight, name), used) in NAMES.into_iter().zip(&self.used) {
            // Even a page of boxes alone needs the font that draws them.
            fonts.push((name, font(pdf, ids, self.faces.of(weight), used)?));
        }
        Ok(Embedded { fonts, missing: self.missing.into_iter().collect() })
    }
}

fn font(pdf: &mut Pdf, ids: &mut Ids, face: &Face, used: &Used) -> Result<Ref, Unwritten> {
    let glyphs: Vec<u16> = used.letters.iter().map(|row| row.0).collect();
    let file = outlines::subset(&face.file, &glyphs)?;
    let [font, descendant, descriptor, to_unicode, embedded] =
        [ids.next(), ids.next(), ids.next(), ids.next(), ids.next()];
    let name = format!("{}+{}", tag(used), face.name);
    let name = Name(name.as_bytes());
    pdf.type0_font(font)
        .base_font(name)
        .encoding_predefined(ENCODING)
        .descendant_font(descendant)
        .to_unicode(to_unicode);
    let mut cid = pdf.cid_font(descendant);
    cid.subtype(CidFontType::Type2).base_font(name).system_info(SYSTEM).font_descriptor(descriptor);
    cid.cid_to_gid_map_predefined(Name(b"Identity"));
    cid.widths().consecutive(0, used.letters.iter().map(|&(glyph, _)| face.width(glyph) as f32));
    cid.finish();
    described(pdf, descriptor, name, face, embedded);
    let mut cmap = UnicodeCmap::new(Name(b"Custom"), SYSTEM);
    for (place, &(_, letter)) in (0_u16..).zip(&used.letters) {
        cmap.pair(place, letter);
    }
    stream(pdf, to_unicode, cmap.finish().as_slice(), |_| ());
    let length = i32::try_from(file.len()).unwrap_or(i32::MAX);
    stream(pdf, embedded, &file, |dict| {
        dict.pair(Name(b"Length1"), length);
    });
    Ok(font)
}

fn described(pdf: &mut Pdf, id: Ref, name: Name<'_>, face: &Face, file: Ref) {
    let [x0, y0, x1, y1] = face.bounds.map(|length| length as f32);
    let mut descriptor = pdf.font_descriptor(id);
    // What readers may draw with where they cannot use the font; its stems are a guess that they must live with.
    descriptor
        .name(name)
        .flags(FontFlags::NON_SYMBOLIC)
        .bbox(Rect::new(x0, y0, x1, y1))
        .italic_angle(0.0)
        .ascent(face.ascent as f32)
        .descent(face.descent as f32)
        .cap_height(face.capitals as f32)
        .stem_v(80.0)
        .font_file2(file);
}

/// Six capitals that differ for fonts cut down differently (ISO 32000-1, 9.6.4): a sum over the glyphs after Fowler, Noll
/// and Vo (FNV-1a, 32 bits; RFC 9923), written with 26 letters.
fn tag(used: &Used) -> String {
    let step = |sum: u32, byte: u8| (sum ^ u32::from(byte)).wrapping_mul(0x0100_0193);
    let bytes = used.letters.iter().flat_map(|(glyph, _)| glyph.to_be_bytes());
    let mut sum = bytes.fold(0x811c_9dc5, step);
    let letter = |_| {
        let letter = b'A' + (sum % 26) as u8;
        sum /= 26;
        char::from(letter)
    };
    (0..6).map(letter).collect()
}
