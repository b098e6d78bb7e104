//! What the timber of the frame holds where the chair will stand: wood that takes up water gets weaker.

use super::frame::Beam;
use crate::climate::Climate;
use crestrail_timber::OutOfRange;
use crestrail_timber::at_moisture::kept;

/// Mean strength of clear wood in the dampest weeks, MPa.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Held {
    /// In bending.
    pub(super) bending: f64,
    /// In shear along the grain.
    pub(super) shear: f64,
}

/// Of the timber of each beam, in their order.
pub(super) fn of(beams: &[Beam<'_>], climate: &Climate) -> Result<Vec<Held>, OutOfRange> {
    let held = |beam: &Beam<'_>| {
        let (dry, kept) = (&beam.species.strength, kept(beam.species, climate.damp)?);
        Ok(Held { bending: dry.mor * kept.bending, shear: dry.shear * kept.shear })
    };
    beams.iter().map(held).collect()
}
