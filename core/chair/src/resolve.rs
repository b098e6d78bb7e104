//! From a design to the resolved chair.

use crate::chair::Chair;
use crate::design::Design;
use crate::housing::Housing;
use crate::joint::{Insert, Joint, Peg};
use crate::joints::{self, Bench};
use crate::lettering;
use crate::material::Material;
use crate::part::{Part, PartId, Release, Side, Size};
use crate::parts::{self, Pieces};
use crate::settle::Settled;
use crate::skeleton::Skeleton;
use crate::solids;
use crate::unbuildable::Unbuildable;
use crestrail_geometry::Vec3;

impl Chair {
    /// The chair of a design, made at the bench of a shop.
    pub fn resolve(design: &Design, bench: &Bench) -> Result<Self, Unbuildable> {
        let Timber { mut parts, joints, housings, settled } = timber(design, bench)?;
        parts.sort_by_key(|part| part.id);
        let bodies = solids::bodies(&parts, &joints, &housings)?;
        Ok(Self { parts, joints, housings, bodies, settled })
    }

    /// Whether a design can be built, without working out its solids.
    pub fn check(design: &Design, bench: &Bench) -> Result<(), Unbuildable> {
        timber(design, bench).map(|_| ())
    }
}

/// Parts and joints of the whole chair, before their solids.
struct Timber {
    parts: Vec<Part>,
    joints: Vec<Joint>,
    housings: Vec<Housing>,
    settled: Vec<Settled>,
}

fn timber(design: &Design, bench: &Bench) -> Result<Timber, Unbuildable> {
    let lines = Skeleton::of(design)?;
    let Pieces { mut parts, meetings, mut housings } = parts::right_and_middle(design, &lines);
    parts.sort_by_key(|part| part.id);
    let mut joints = joints::right_joints(design, &parts, &meetings, bench)?;
    lettering::letter(&mut parts, &joints, &housings);
    parts.extend(pegs(design, &parts, &joints));
    parts.extend(inserts(design, &joints));
    let left: Vec<Part> = parts.iter().filter(|p| p.id.side == Side::Right).map(Part::mirrored).collect();
    parts.extend(left);
    let mirrored: Vec<Joint> = joints.iter().filter(|j| !j.in_the_middle()).map(Joint::mirrored).collect();
    joints.extend(mirrored);
    let mirrored: Vec<Housing> =
        housings.iter().filter(|h| !h.in_the_middle()).map(Housing::mirrored).collect();
    housings.extend(mirrored);
    Ok(Timber { parts, joints, housings, settled: lines.settled })
}

/// The pegs as parts; pegs of one length share a letter.
fn pegs(design: &Design, parts: &[Part], joints: &[Joint]) -> Vec<Part> {
    let all = || joints.iter().flat_map(|j| j.pegs.iter().map(move |peg| (j.host, peg)));
    let mut lengths: Vec<i64> = all().map(|(_, peg)| tenths(peg)).collect();
    lengths.sort_unstable();
    lengths.dedup();
    let letter = |peg: &Peg| match lengths.binary_search(&tenths(peg)) {
        Ok(place) if lengths.len() > 1 => format!("P{}", place + 1),
        _ => "P".to_owned(),
    };
    let host_travel =
        |host: PartId| parts.iter().find(|p| p.id == host).map_or(Vec3::ZERO, |p| p.release.travel);
    all().map(|(host, peg)| peg_part(design, peg, letter(peg), host_travel(host))).collect()
}

/// Pegs are told apart to a tenth of a millimetre.
fn tenths(peg: &Peg) -> i64 {
    (peg.length * 10.0).round() as i64
}

/// How far a peg stands out of its hole in the picture at full spread, mm.
const PEG_TRAVEL: f64 = 70.0;

fn peg_part(design: &Design, peg: &Peg, letter: String, host_travel: Vec3) -> Part {
    Part {
        id: peg.id,
        letter,
        material: Material::Timber(design.species()),
        place: peg.place,
        stock: peg.body.local_to(&peg.place),
        core: [-peg.size / 2.0, peg.size / 2.0],
        size: Size { length: peg.length, width: peg.size, thickness: peg.size },
        sawn_to_outline: false,
        release: Release { travel: host_travel - peg.place.x * PEG_TRAVEL },
    }
}

/// Loose tenons, dowels and wedges as parts; those of one size share a letter.
fn inserts(design: &Design, joints: &[Joint]) -> Vec<Part> {
    let all = || joints.iter().flat_map(|joint| &joint.inserts);
    let tenths = |insert: &Insert| insert.size.map(|side| (side * 10.0).round() as i64);
    let part = |insert: &Insert| {
        let mut sizes: Vec<_> = all().filter(|i| i.role() == insert.role()).map(tenths).collect();
        sizes.sort_unstable();
        sizes.dedup();
        let letter = lettering::of(insert.role());
        let letter = match sizes.binary_search(&tenths(insert)) {
            Ok(place) if sizes.len() > 1 => format!("{letter}{}", place + 1),
            _ => letter.to_owned(),
        };
        insert_part(design, insert, letter)
    };
    all().map(part).collect()
}

fn insert_part(design: &Design, insert: &Insert, letter: String) -> Part {
    let [length, width, thickness] = insert.size;
    Part {
        id: insert.id,
        letter,
        material: Material::Timber(design.species()),
        place: insert.place,
        stock: insert.body.local_to(&insert.place),
        core: [-width / 2.0, width / 2.0],
        size: Size { length, width, thickness },
        sawn_to_outline: false,
        release: Release { travel: Vec3::ZERO },
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
        assert_eq!(chair.joints.len(), 2 * right, "the default chair has no joint in its middle");
        assert!(chair.joints.iter().all(|joint| chair.part(joint.guest).is_some()));
    }
}
