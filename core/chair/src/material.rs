//! What parts are made of.

use crestrail_geometry::math::PI;
use crestrail_phrases::word;
use crestrail_timber::Species;

/// Density of plywood of birch or beech, kg/m³ (common practice, no source: 650–720).
const PLYWOOD: f64 = 680.0;

/// Density of firm seat foam with its cover, kg/m³ (common practice, no source: 40–60).
const PADDING: f64 = 50.0;

/// Density of a twisted paper cord, kg/m³ (common practice, no source: 3.2 mm cord weighs about
/// 7.4 g/m).
const CORD: f64 = 920.0;

/// What a part is made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Material {
    /// Sawn timber.
    Timber(&'static Species),
    /// Plywood, bought as sheets.
    Plywood,
    /// Foam under a sewn cover.
    Padding,
    /// Cord, woven. The body in the picture stands for the weave; these count.
    Cord {
        /// Thickness of the cord, mm.
        thickness: f64,
        /// Length that is woven, mm.
        length: f64,
    },
}

impl Material {
    /// The name on lists.
    pub fn name(self) -> &'static str {
        match self {
            Self::Timber(species) => word(species.name),
            Self::Plywood => word("plywood"),
            Self::Padding => word("foam and cover"),
            Self::Cord { .. } => word("cord"),
        }
    }

    /// The species, if it is timber.
    pub fn species(self) -> Option<&'static Species> {
        match self {
            Self::Timber(species) => Some(species),
            Self::Plywood | Self::Padding | Self::Cord { .. } => None,
        }
    }

    /// Mass of a part of this volume, kg from mm³; of a cord its length counts instead.
    pub fn mass(self, volume_mm3: f64) -> f64 {
        let (volume, density) = match self {
            Self::Timber(species) => return species.mass(volume_mm3),
            Self::Plywood => (volume_mm3, PLYWOOD),
            Self::Padding => (volume_mm3, PADDING),
            Self::Cord { thickness, length } => (PI / 4.0 * thickness * thickness * length, CORD),
        };
        volume * density * 1e-9
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 100 m of 4 mm cord: π/4 · 16 mm² · 100 m = 1257 cm³, at 920 kg/m³ 1.156 kg, whatever its body.
    #[test]
    fn masses_by_hand() {
        let cord = Material::Cord { thickness: 4.0, length: 100_000.0 };
        assert!((cord.mass(1.0) - 1.156).abs() < 0.001 && cord.mass(1.0) == cord.mass(1e9));
        assert!((Material::Plywood.mass(9.0 * 400.0 * 400.0) - 0.9792).abs() < 1e-9);
        assert!((Material::Padding.mass(1e9) - 50.0).abs() < 1e-9);
    }
}
