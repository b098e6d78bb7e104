//! Colours of the picture. All of them were chosen by eye for this page.

use super::Scheme;
use crate::finding::Verdict;
use crate::material::Material;
use crestrail_geometry::Vec3;
use crestrail_geometry::view::Camera;
use crestrail_sheet::Colour;

/// The colours of a scheme.
pub(super) struct Palette {
    pub(super) paper: Colour,
    /// Letters and the lines to them.
    pub(super) ink: Colour,
    /// Edges of the parts.
    pub(super) line: Colour,
    pub(super) shadow: Colour,
    pub(super) shadow_opacity: f64,
    /// Towards this goes a face turned to the light …
    light: Colour,
    light_share: f64,
    /// … and towards this one turned away.
    pub(super) shade: Colour,
    shade_share: f64,
    /// How much all timber is first dimmed towards the paper.
    dim: f64,
    /// Tints of parts that are sound, close, failing, and of those that are not reckoned.
    verdicts: [Colour; 4],
}

/// Where the light comes from, in the camera's right, up and toward: from the upper left in front.
const LIGHT: (f64, f64, f64) = (-0.64, 0.69, 0.34);
/// How much darker end grain is, as a share of the way to the shade.
const END_GRAIN: f64 = 0.22;

/// Tints by the beginning of the species' id; the first that fits is taken.
const TINTS: [(&str, u32); 34] = [
    ("ash", 0xe3cda3),
    ("robinia", 0xc9b06e),
    ("oak_northern_red", 0xd3a984),
    ("oak_southern_red", 0xd3a984),
    ("oak", 0xcfae7c),
    ("european_oak", 0xcfae7c),
    ("beech", 0xddb590),
    ("european_beech", 0xddb590),
    ("european_ash", 0xe3cda3),
    ("european_birch", 0xe6d2aa),
    ("birch", 0xe4cfa6),
    ("maple", 0xead7b4),
    ("sycamore", 0xebdcbd),
    ("cherry", 0xc48a5e),
    ("walnut_black", 0x7f5f49),
    ("walnut", 0x94765a),
    ("butternut", 0xc2a27c),
    ("mahogany", 0xa8623f),
    ("sapele", 0x9c5a3c),
    ("sipo", 0x9f6446),
    ("iroko", 0xb08347),
    ("teak", 0xb78a52),
    ("elm", 0xc09a6c),
    ("hickory", 0xd0aa7b),
    ("chestnut", 0xc9a878),
    ("alder", 0xd2a67c),
    ("locust", 0xc2a866),
    ("honeylocust", 0xc68f68),
    ("larch", 0xd9aa74),
    ("douglas", 0xd6a070),
    ("scots_pine", 0xe6c48d),
    ("pine", 0xe6c48d),
    ("redwood", 0xaf6a4c),
    ("yellow_poplar", 0xd4ca94),
];
/// Of all others: a pale timber without a character of its own.
const NEUTRAL: u32 = 0xdcc49c;
/// Plywood, a pad's cover and paper cord.
const PLYWOOD: u32 = 0xe2cfa6;
const COVER: u32 = 0x8a9aa3;
const CORD: u32 = 0xc3ae84;

/// The colour of a material in full light.
pub fn colour_of(material: Material) -> Colour {
    Palette::of(Scheme::Light).tint(material)
}

impl Palette {
    pub(super) fn of(scheme: Scheme) -> Self {
        match scheme {
            Scheme::Light => Self {
                paper: Colour::hex(0xf8f9f6),
                ink: Colour::hex(0x1a2a35),
                line: Colour::hex(0x1a2a35),
                shadow: Colour::hex(0x1a2a35),
                shadow_opacity: 0.09,
                light: Colour::hex(0xfffaee),
                light_share: 0.6,
                shade: Colour::hex(0x5a3a26),
                shade_share: 0.62,
                dim: 0.0,
                verdicts: [0xb9d3c6, 0xe3ae3c, 0xc0392f, 0xdcddd8].map(Colour::hex),
            },
            Scheme::Dark => Self {
                paper: Colour::hex(0x1a2125),
                ink: Colour::hex(0xf0e7d6),
                line: Colour::hex(0xdccfb6),
                shadow: Colour::hex(0x000000),
                shadow_opacity: 0.28,
                light: Colour::hex(0xf6e2ba),
                light_share: 0.3,
                shade: Colour::hex(0x1d120a),
                shade_share: 0.62,
                dim: 0.4,
                verdicts: [0x5f9483, 0xd9a43c, 0xf07a62, 0x545f63].map(Colour::hex),
            },
        }
    }

    /// The colour of a material before light falls on it.
    pub(super) fn tint(&self, material: Material) -> Colour {
        let code = match material {
            Material::Timber(species) => {
                TINTS.iter().find(|(start, _)| species.id.starts_with(start)).map_or(NEUTRAL, |&(_, c)| c)
            }
            Material::Plywood => PLYWOOD,
            Material::Padding => COVER,
            Material::Cord { .. } => CORD,
        };
        Colour::hex(code).toward(self.shade, self.dim)
    }

    /// The colour of a part whose strength stands so, or is not reckoned, before light falls on it.
    pub(super) fn verdict(&self, verdict: Option<Verdict>) -> Colour {
        let [sound, close, fails, none] = self.verdicts;
        match verdict {
            Some(Verdict::Sound) => sound,
            Some(Verdict::Close) => close,
            Some(Verdict::Fails) => fails,
            None => none,
        }
    }

    /// The colour of a face of that tint which is turned along `normal`.
    pub(super) fn face(&self, tint: Colour, normal: Vec3, camera: &Camera, end_grain: bool) -> Colour {
        let (right, up, toward) = LIGHT;
        let light = camera.right * right + camera.up * up + camera.toward * toward;
        let lit = light.dot(normal);
        let flat = match lit {
            lit if lit > 0.0 => tint.toward(self.light, self.light_share * lit),
            lit => tint.toward(self.shade, self.shade_share * -lit),
        };
        flat.toward(self.shade, if end_grain { END_GRAIN } else { 0.0 })
    }
}
