//! Strength and stiffness at another moisture than 12 %.
//!
//! USDA Wood Handbook FPL-GTR-190 (2010), Eq. 5-3: P = P₁₂ (P₁₂ / P_g)^((12 − M) / (M_p − 12)), with P₁₂ the value at 12 %, P_g that of green
//! wood, M the moisture in % and M_p the moisture at which drying begins to change it (Table 5-13; 25 % for species not listed).
//! Not for impact or tension across the grain. Below some 8 % wood gains no more; the lower end is the table's.

use crate::Mark::{self, Memory, Read};
use crate::range::{OutOfRange, within};
use crate::species::Species;

/// Strength of green wood, MPa.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Green {
    /// Stable name of the species.
    pub id: &'static str,
    /// Modulus of rupture, modulus of elasticity, compression along the grain, shear along the grain.
    pub values: [f64; 4],
    /// Moisture at which drying begins to change them, %.
    pub begins: f64,
    /// How the values came here; all are those of FPL-GTR-190 Tables 5-3a and 5-5a.
    pub mark: Mark,
}

/// A species at some moisture, MPa.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AtMoisture {
    /// Modulus of rupture.
    pub mor: f64,
    /// Modulus of elasticity.
    pub moe: f64,
    /// Compression along the grain.
    pub compression: f64,
    /// Shear along the grain.
    pub shear: f64,
    /// How the green values came here.
    pub mark: Mark,
}

const fn row(id: &'static str, values: [f64; 4], begins: f64, mark: Mark) -> Green {
    Green { id, values, begins, mark }
}

static GREEN: &[Green] = &[
    row("ash_white", [66.0, 9900.0, 27.5, 9.3], 24.0, Read),
    row("beech_american", [59.0, 9500.0, 24.5, 8.9], 25.0, Memory),
    row("birch_yellow", [57.0, 10300.0, 23.3, 7.7], 27.0, Memory),
    row("cherry_black", [55.0, 9000.0, 24.4, 7.8], 25.0, Read),
    row("elm_american", [50.0, 7700.0, 20.1, 6.9], 25.0, Memory),
    row("hickory_shagbark", [76.0, 10800.0, 31.6, 10.5], 25.0, Memory),
    row("mahogany_african", [51.0, 7930.0, 25.7, 6.4], 25.0, Read),
    row("mahogany_true", [62.1, 9240.0, 29.9, 8.5], 25.0, Read),
    row("oak_white", [57.0, 8600.0, 24.5, 8.6], 25.0, Read),
    row("pine_eastern_white", [34.0, 6800.0, 16.8, 4.7], 25.0, Memory),
    row("pine_longleaf", [59.0, 11000.0, 29.8, 7.2], 21.0, Read),
    row("sycamore_american", [45.0, 7300.0, 20.1, 6.9], 25.0, Memory),
    row("teak", [80.0, 9450.0, 41.1, 8.9], 25.0, Read),
    row("walnut_black", [66.0, 9800.0, 29.6, 8.4], 25.0, Memory),
    row("yellow_poplar", [41.0, 8400.0, 18.3, 5.4], 25.0, Read),
];

/// Eq. 5-3 for one property; `moisture` in %, from 4 up to `begins`, above which the green value stays.
pub fn property(at_12: f64, green: f64, begins: f64, moisture: f64) -> Result<f64, OutOfRange> {
    let moisture = within("moisture", moisture, [4.0, 300.0], " %")?.min(begins);
    Ok(at_12 * libm::pow(at_12 / green, (12.0 - moisture) / (begins - 12.0)))
}

/// The green values of a species, where they are known.
pub fn green(species: &Species) -> Option<&'static Green> {
    GREEN.iter().find(|row| row.id == species.id)
}

/// Strength and stiffness at a moisture; nothing for a species whose green values are not known.
pub fn at_moisture(species: &Species, moisture: f64) -> Result<Option<AtMoisture>, OutOfRange> {
    let Some(Green { values, begins, mark, .. }) = green(species) else { return Ok(None) };
    let s = &species.strength;
    let at = |at_12: f64, green: f64| property(at_12, green, *begins, moisture);
    Ok(Some(AtMoisture {
        mor: at(s.mor, values[0])?,
        moe: at(s.moe, values[1])?,
        compression: at(s.compression, values[2])?,
        shear: at(s.shear, values[3])?,
        mark: *mark,
    }))
}

/// What damp wood keeps of its strength at 12 %, as shares.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kept {
    /// Of the modulus of rupture.
    pub bending: f64,
    /// Of the shear strength along the grain.
    pub shear: f64,
}

/// What a species keeps at a moisture in %, from 12 on; below that all and no more, since drier wood takes up water
/// again. Of a species whose green values are not known, as little as of that which loses most of those known
/// (a choice of this program, on the safe side).
pub fn kept(species: &Species, moisture: f64) -> Result<Kept, OutOfRange> {
    let moisture = within("moisture", moisture, [0.0, 300.0], " %")?.max(12.0);
    let of = |species: &Species| -> Result<Option<Kept>, OutOfRange> {
        let (dry, damp) = (&species.strength, at_moisture(species, moisture)?);
        Ok(damp.map(|damp| Kept { bending: damp.mor / dry.mor, shear: damp.shear / dry.shear }))
    };
    if let Some(kept) = of(species)? {
        return Ok(kept);
    }
    let mut least = Kept { bending: 1.0, shear: 1.0 };
    for known in crate::all() {
        if let Some(kept) = of(known)? {
            least = Kept { bending: least.bending.min(kept.bending), shear: least.shear.min(kept.shear) };
        }
    }
    Ok(least)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// FPL-GTR-190 p. 5-34: white ash, 103 000 kPa at 12 % and 66 000 green, M_p 24: at 8 % 119 500 kPa.
    #[test]
    fn white_ash_of_the_handbook() {
        let p = property(103.0, 66.0, 24.0, 8.0).expect("within the range");
        assert!((p - 119.5).abs() < 0.05, "{p}");
        let ash = crate::species("ash_white").expect("listed");
        let found = at_moisture(ash, 8.0).expect("within the range").expect("known");
        assert!((found.mor - 119.5).abs() < 0.05, "{}", found.mor);
    }

    /// At 12 % the table's value, when green the green one, and drier wood is stronger and stiffer.
    #[test]
    fn between_dry_and_green() {
        for row in GREEN {
            let species = crate::species(row.id).expect(row.id);
            let at = |moisture| at_moisture(species, moisture).expect("within the range").expect("known");
            assert!((at(12.0).mor - species.strength.mor).abs() < 1e-9);
            assert!((at(80.0).moe - row.values[1]).abs() < 1e-9 * row.values[1], "{}", row.id);
            let all = |m| {
                let a = at(m);
                [a.mor, a.moe, a.compression, a.shear]
            };
            assert!(all(8.0).iter().zip(all(16.0)).all(|(dry, damp)| *dry >= damp), "{}", row.id);
        }
        assert!(GREEN.windows(2).all(|pair| pair[0].id < pair[1].id));
    }

    /// By hand from the same formula: white oak, 105 MPa at 12 % and 57 green, shear 13.8 and 8.6, M_p 25, at 16 %.
    #[test]
    fn damp_white_oak_by_hand() {
        let oak = crate::species("oak_white").expect("listed");
        let damp = kept(oak, 16.0).expect("within the range");
        assert!((damp.bending - 0.828_6).abs() < 1e-3 && (damp.shear - 0.864_6).abs() < 1e-3, "{damp:?}");
        assert_eq!(kept(oak, 8.0), Ok(Kept { bending: 1.0, shear: 1.0 }));
    }

    /// A species without green values keeps no more than any of the others.
    #[test]
    fn the_unknown_keep_least() {
        let unknown = kept(crate::species("oak_european").expect("listed"), 16.0).expect("within the range");
        for row in GREEN {
            let known = kept(crate::species(row.id).expect(row.id), 16.0).expect("within the range");
            assert!(unknown.bending <= known.bending && unknown.shear <= known.shear, "{}", row.id);
        }
        assert!(unknown.bending > 0.7 && unknown.shear > 0.7, "{unknown:?}");
    }

    #[test]
    fn what_is_unknown_or_outside() {
        let oak = crate::species("oak_european").expect("listed");
        assert_eq!(kept(oak, f64::NAN).unwrap_err().what, "moisture");
        assert_eq!(at_moisture(oak, 10.0), Ok(None));
        assert_eq!(property(100.0, 60.0, 25.0, 1.0).unwrap_err().what, "moisture");
    }
}
