//! A chair in outline: parts and joints worked out, the bodies only guessed from a chair that is like it.
//!
//! What most checks look at are parts and joints. Solids are needed for the mass of the chair and for the outline of
//! feet, seat and back alone, and there the plain timber serves: how much of it the joints take is carried over
//! from the other chair. So a sketch costs a fraction of a chair. It says nothing of the order of assembly.

use crate::assembly::Assembly;
use crate::chair::{Chair, PartBody};
use crate::design::Design;
use crate::joints::Bench;
use crate::part::Part;
use crate::resolve::{Timber, timber};
use crate::solids::{mirrored, not_closed};
use crate::unbuildable::Unbuildable;
use crestrail_geometry::{Solid, carve};
use std::sync::Arc;

/// Sketches chairs that are like one chair.
#[derive(Clone, Debug)]
pub struct Sketcher {
    like: Chair,
    /// What the joints leave of the plain timber of each of its parts, as a share of the volume.
    left: Vec<f64>,
}

impl Sketcher {
    /// Sketches after this chair.
    pub fn new(like: Chair) -> Self {
        let left = |(part, body): (&Part, &PartBody)| match plain(part) {
            Ok(solid) => body.volume / solid.volume(),
            Err(_) => 1.0,
        };
        Self { left: like.pieces().map(left).collect(), like }
    }

    /// The chair of a design with its bodies guessed, and no order of assembly.
    pub fn chair(&self, design: &Design, bench: &Bench) -> Result<Chair, Unbuildable> {
        let Timber { parts, joints, housings, settled } = timber(design, bench)?;
        let bodies = mirrored(&parts, |part| self.guessed(part))?;
        Ok(Chair { parts, joints, housings, bodies, assembly: Assembly::default(), settled })
    }

    /// The body of the same timber in the other chair, or else the plain timber less what joints take of it there.
    fn guessed(&self, part: &Part) -> Result<PartBody, Unbuildable> {
        let known = self.like.place_of(part.id);
        let same = known.filter(|&at| self.like.parts[at].stock == part.stock);
        if let Some(at) = same {
            let (other, body) = (&self.like.parts[at], &self.like.bodies[at]);
            let centre = part.place.point(other.place.local_point(body.centre));
            return Ok(PartBody { centre, ..body.clone() });
        }
        let solid = plain(part)?;
        let ((whole, centre), surface) = (solid.volume_and_centre(), solid.surface_area());
        let volume = whole * known.map_or(1.0, |at| self.left[at]);
        Ok(PartBody { volume, surface, centre: part.place.point(centre), solid: Arc::new(solid) })
    }
}

/// The timber of a part before any joint is cut.
fn plain(part: &Part) -> Result<Solid, Unbuildable> {
    carve(core::slice::from_ref(&part.stock), &[]).map_err(|error| not_closed(part, &error.to_string()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn resolved(values: &serde_json::Value) -> (Design, Chair) {
        let design = Design::from_value(values).unwrap();
        let chair = Chair::resolve(&design, &Bench::default()).unwrap();
        (design, chair)
    }

    fn mass(chair: &Chair) -> f64 {
        chair.pieces().map(|(part, body)| part.material.mass(body.volume)).sum()
    }

    #[test]
    fn a_sketch_of_itself_is_the_same() {
        let (design, chair) = resolved(&json!({}));
        let sketch = Sketcher::new(chair.clone()).chair(&design, &Bench::default()).unwrap();
        assert!((mass(&sketch) - mass(&chair)).abs() < 1e-9);
        for (a, b) in sketch.bodies.iter().zip(&chair.bodies) {
            assert!((a.centre - b.centre).length() < 1e-6);
        }
    }

    #[test]
    fn a_sketch_of_another_size_has_nearly_its_mass() {
        let (_, like) = resolved(&json!({}));
        let (design, chair) = resolved(&json!({"seat_height": 500, "rail_thickness": 28, "front_leg": 44}));
        let sketch = Sketcher::new(like).chair(&design, &Bench::default()).unwrap();
        let off = (mass(&sketch) - mass(&chair)).abs() / mass(&chair);
        assert!(off < 0.02, "{off}");
    }
}
