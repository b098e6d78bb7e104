//! From a design to the resolved chair.

use crate::assembly::Assembly;
use crate::chair::{Chair, PartBody};
use crate::design::Design;
use crate::fastening;
use crate::housing::Housing;
use crate::joint::Joint;
use crate::joints::{self, Bench};
use crate::lettering;
use crate::part::{Part, Side};
use crate::parts::{self, Pieces};
use crate::settle::Settled;
use crate::skeleton::Skeleton;
use crate::solids;
use crate::unbuildable::Unbuildable;
use crestrail_geometry::Solid;
use crestrail_sorting::Order as _;

impl Chair {
    /// The chair of a design, made at the bench of a shop.
    pub fn resolve(design: &Design, bench: &Bench) -> Result<Self, Unbuildable> {
        let Timber { parts, joints, housings, settled } = timber(design, bench)?;
        let bodies = solids::bodies(&parts, &joints, &housings)?;
        let assembly = order_of(&parts, &joints, &bodies);
        Ok(Self { parts, joints, housings, bodies, assembly, settled })
    }

    /// Whether a design can be built, without working out its solids or the order of its assembly.
    pub fn check(design: &Design, bench: &Bench) -> Result<(), Unbuildable> {
        timber(design, bench).map(|_| ())
    }
}

fn order_of(parts: &[Part], joints: &[Joint], bodies: &[PartBody]) -> Assembly {
    let pieces: Vec<(&Part, &Solid)> = parts.iter().zip(bodies.iter().map(|body| &*body.solid)).collect();
    Assembly::of(&pieces, joints)
}

/// Parts, sorted by their ids, and joints of the whole chair, before their solids.
pub(crate) struct Timber {
    pub(crate) parts: Vec<Part>,
    pub(crate) joints: Vec<Joint>,
    pub(crate) housings: Vec<Housing>,
    pub(crate) settled: Vec<Settled>,
}

pub(crate) fn timber(design: &Design, bench: &Bench) -> Result<Timber, Unbuildable> {
    let lines = Skeleton::of(design)?;
    let Pieces { mut parts, meetings, mut housings } = parts::right_and_middle(design, &lines);
    parts.order_by_key(|part| part.id);
    let mut joints = joints::right_joints(design, &parts, &meetings, bench)?;
    lettering::letter(&mut parts, &joints, &housings);
    parts.extend(fastening::parts(design, &joints));
    let left: Vec<Part> = parts.iter().filter(|p| p.id.side == Side::Right).map(Part::mirrored).collect();
    parts.extend(left);
    parts.order_by_key(|part| part.id);
    let mirrored: Vec<Joint> = joints.iter().filter(|j| !j.in_the_middle()).map(Joint::mirrored).collect();
    joints.extend(mirrored);
    let mirrored: Vec<Housing> =
        housings.iter().filter(|h| !h.in_the_middle()).map(Housing::mirrored).collect();
    housings.extend(mirrored);
    Ok(Timber { parts, joints, housings, settled: lines.settled })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_default_design_is_a_chair() {
        let chair = Chair::resolve(&Design::default(), &Bench::default()).unwrap();
        assert!(chair.parts.is_sorted_by_key(|part| part.id));
        for (part, body) in chair.pieces() {
            assert!(body.solid.is_closed() && body.volume > 0.0, "{}", part.id);
            assert!(chair.part(part.id.mirrored()).is_some(), "{} has no twin", part.id);
        }
        let right = chair.joints.iter().filter(|joint| joint.host.side == Side::Right).count();
        assert_eq!(chair.joints.len(), 2 * right, "the default chair has no joint in its middle");
        assert!(chair.joints.iter().all(|joint| chair.part(joint.guest).is_some()));
    }
}
