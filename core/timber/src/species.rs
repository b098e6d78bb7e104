//! Species of timber.

use crate::Mark;
use crate::species_table::SPECIES;

/// Broad-leaved or needle-leaved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Broad-leaved tree. Its dust counts as hardwood dust.
    Hardwood,
    /// Needle-leaved tree.
    Softwood,
}

/// A species of timber: means of small clear specimens at 12 % moisture, not design values.
#[derive(Debug, PartialEq)]
pub struct Species {
    /// Stable name in files, such as `ash_white`.
    pub id: &'static str,
    /// Name in the trade, such as "white ash".
    pub name: &'static str,
    /// Botanical name.
    pub latin: &'static str,
    /// Broad-leaved or needle-leaved.
    pub kind: Kind,
    /// Density at 12 % moisture, kg/m³.
    pub density: f64,
    /// Specific gravity: ovendry mass over volume at 12 % moisture, relative to water.
    pub specific_gravity: f64,
    /// Strength and stiffness at 12 % moisture.
    pub strength: Strength,
    /// Shrinkage and movement.
    pub movement: Movement,
    /// Where the density and the strength were published.
    pub source: &'static str,
    /// How they came here.
    pub mark: Mark,
}

/// Strength and stiffness at 12 % moisture, MPa unless stated; `None` where the source has no value.
#[derive(Debug, PartialEq)]
pub struct Strength {
    /// Modulus of rupture in bending.
    pub mor: f64,
    /// Modulus of elasticity in bending; shear deflection is contained in it.
    pub moe: f64,
    /// Compression along the grain, crushing strength.
    pub compression: f64,
    /// Compression across the grain, at the proportional limit.
    pub compression_across: Option<f64>,
    /// Shear along the grain.
    pub shear: f64,
    /// Tension across the grain.
    pub tension_across: Option<f64>,
    /// Side hardness, N.
    pub hardness: Option<f64>,
}

/// Shrinkage from green to ovendry, %, and change of size per 1 % of moisture (a ratio).
#[derive(Debug, PartialEq)]
pub struct Movement {
    /// Radial shrinkage, %.
    pub shrink_radial: Option<f64>,
    /// Tangential shrinkage, %.
    pub shrink_tangential: Option<f64>,
    /// Radial change per 1 % of moisture, valid from 6 to 14 %.
    pub radial: f64,
    /// Tangential change per 1 % of moisture, valid from 6 to 14 %.
    pub tangential: f64,
    /// Where they were published.
    pub source: &'static str,
    /// How the changes per 1 % came here.
    pub mark: Mark,
    /// How the shrinkage came here.
    pub shrink_mark: Mark,
}

impl Species {
    /// Mass of a volume of this timber at 12 % moisture, kg from mm³.
    pub fn mass(&self, volume_mm3: f64) -> f64 {
        volume_mm3 * self.density * 1e-9
    }
}

/// The species with this id.
pub fn species(id: &str) -> Option<&'static Species> {
    SPECIES.iter().find(|s| s.id == id)
}

/// All species, sorted by id.
pub fn all() -> &'static [Species] {
    SPECIES
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_are_sorted_and_unique() {
        assert!(all().windows(2).all(|w| w[0].id < w[1].id));
        assert!(all().iter().all(|s| species(s.id) == Some(s)));
        assert_eq!(species("ash"), None);
    }

    /// A slip of a decimal point or a swapped column would leave these bounds.
    #[test]
    fn values_are_those_of_wood() {
        for s in all() {
            let t = &s.strength;
            assert!((350.0..1000.0).contains(&s.density), "{}", s.id);
            assert!((s.density / (1120.0 * s.specific_gravity) - 1.0).abs() < 0.005, "{}", s.id);
            assert!((7000.0..17000.0).contains(&t.moe) && (50.0..150.0).contains(&t.mor), "{}", s.id);
            assert!(t.compression < t.mor && t.shear < t.compression / 2.0, "{}", s.id);
            assert!(t.compression_across.is_none_or(|c| c < t.compression / 3.0), "{}", s.id);
            let m = &s.movement;
            assert!(0.0005 < m.radial && m.radial < m.tangential && m.tangential < 0.0050, "{}", s.id);
        }
    }

    /// The change per 1 % follows from the shrinkage: C = 1 / (3000 / S − 20), FPL-GTR-190 Eq. 13-3
    /// with 10 % moisture. Rows of a species group ("commercial") differ from their own species.
    #[test]
    fn movement_agrees_with_shrinkage() {
        let groups = ["birch_sweet", "oak_red", "oak_white", "hickory_shagbark", "beech_european", "teak"];
        for s in all().iter().filter(|s| !groups.contains(&s.id)) {
            let derived = |shrink: f64| 1.0 / (3000.0 / shrink - 20.0);
            let near = |shrink: Option<f64>, c: f64| shrink.is_none_or(|s| (derived(s) - c).abs() < 0.00003);
            assert!(near(s.movement.shrink_radial, s.movement.radial), "{}", s.id);
            assert!(near(s.movement.shrink_tangential, s.movement.tangential), "{}", s.id);
        }
    }

    /// Mass of a cubic decimetre of white ash: 0.672 kg (FPL-GTR-190 Table 5-3a: 0.60 at 12 %).
    #[test]
    fn mass_of_a_volume() {
        let ash = species("ash_white").expect("listed");
        assert!((ash.mass(1e6) - 0.672).abs() < 1e-12);
    }
}
