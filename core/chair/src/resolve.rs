//! From a design to the resolved chair.

use crate::assembly::Assembly;
use crate::chair::{Chair, PartBody};
use crate::design::Design;
use crate::joint::{Joint, Peg};
use crate::joints::{self, Bench};
use crate::part::{Part, Side, Size};
use crate::parts;
use crate::skeleton::Skeleton;
use crate::solids;
use crate::unbuildable::Unbuildable;
use crestrail_geometry::Solid;

impl Chair {
    /// The chair of a design, made at the bench of a shop.
    pub fn resolve(design: &Design, bench: &Bench) -> Result<Self, Unbuildable> {
        let (mut parts, joints) = parts_and_joints(design, bench)?;
        parts.sort_by_key(|part| part.id);
        let bodies = solids::bodies(&parts, &joints)?;
        let assembly = order_of(&parts, &joints, &bodies);
        Ok(Self { parts, joints, bodies, assembly })
    }

    /// Whether a design can be built, without working out its solids or the order of its assembly.
    pub fn check(design: &Design, bench: &Bench) -> Result<(), Unbuildable> {
        parts_and_joints(design, bench).map(|_| ())
    }
}

fn order_of(parts: &[Part], joints: &[Joint], bodies: &[PartBody]) -> Assembly {
    let pieces: Vec<(&Part, &Solid)> = parts.iter().zip(bodies.iter().map(|body| &*body.solid)).collect();
    Assembly::of(&pieces, joints)
}

fn parts_and_joints(design: &Design, bench: &Bench) -> Result<(Vec<Part>, Vec<Joint>), Unbuildable> {
    let lines = Skeleton::of(design)?;
    let mut parts = parts::right_and_middle(design, &lines);
    let mut joints = joints::right_joints(design, &lines, &parts, bench)?;
    parts.extend(pegs(design, &joints));
    let left: Vec<Part> = parts.iter().filter(|p| p.id.side == Side::Right).map(Part::mirrored).collect();
    parts.extend(left);
    let mirrored: Vec<Joint> = joints.iter().map(Joint::mirrored).collect();
    joints.extend(mirrored);
    Ok((parts, joints))
}

/// The pegs as parts; pegs of one length share a letter.
fn pegs(design: &Design, joints: &[Joint]) -> Vec<Part> {
    let all = || joints.iter().flat_map(|joint| &joint.pegs);
    let mut lengths: Vec<i64> = all().map(tenths).collect();
    lengths.sort_unstable();
    lengths.dedup();
    let letter = |peg: &Peg| match lengths.binary_search(&tenths(peg)) {
        Ok(place) if lengths.len() > 1 => format!("P{}", place + 1),
        _ => "P".to_owned(),
    };
    all().map(|peg| peg_part(design, peg, letter(peg))).collect()
}

/// Pegs are told apart to a tenth of a millimetre.
fn tenths(peg: &Peg) -> i64 {
    (peg.length * 10.0).round() as i64
}

fn peg_part(design: &Design, peg: &Peg, letter: String) -> Part {
    Part {
        id: peg.id,
        letter,
        species: design.species(),
        place: peg.place,
        stock: peg.body.local_to(&peg.place),
        size: Size { length: peg.length, width: peg.size, thickness: peg.size },
        sawn_to_outline: false,
    }
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
        assert_eq!(chair.joints.len(), 2 * right);
        assert!(chair.joints.iter().all(|joint| chair.part(joint.guest).is_some()));
    }
}
