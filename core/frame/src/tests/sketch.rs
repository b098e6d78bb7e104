//! Frames and loads in few words.

use crate::{Frame, LoadCase, Member, NodeLoad, Section, Springs, Support, UniformLoad};

/// Beech as in the check cases, MPa.
pub(super) const E: f64 = 12000.0;
pub(super) const G: f64 = 750.0;

/// Second moments and torsion constant of 25 × 40 mm.
pub(super) const STRONG: f64 = 25.0 * 40.0 * 40.0 * 40.0 / 12.0;
pub(super) const WEAK: f64 = 40.0 * 25.0 * 25.0 * 25.0 / 12.0;
/// R. J. Roark's a b³ [1/3 − 0.21 (b/a) (1 − b⁴ / (12 a⁴))].
pub(super) const TORSION: f64 =
    40.0 * 15625.0 * (1.0 / 3.0 - 0.21 * 0.625 * (1.0 - 390_625.0 / (12.0 * 2_560_000.0)));

pub(super) const HELD: [bool; 6] = [true; 6];
pub(super) const PIN: [bool; 6] = [true, true, true, false, false, false];

/// A section that bends about z by `iz` and about y by `iy`.
pub(super) fn section(area: f64, iy: f64, iz: f64) -> Section {
    Section { e: E, g: G, area, iy, iz, torsion: TORSION, shear_y: None, shear_z: None }
}

/// 25 × 40 mm, 40 along `up`.
pub(super) fn upright() -> Section {
    section(1000.0, WEAK, STRONG)
}

/// A rigidly joined member.
pub(super) fn member(i: usize, j: usize, section: Section, up: [f64; 3]) -> Member {
    Member { i, j, section, up, springs_i: Springs::RIGID, springs_j: Springs::RIGID }
}

/// The same spring about both bending axes.
pub(super) fn bends(spring: f64) -> Springs {
    Springs { x: None, y: Some(spring), z: Some(spring) }
}

/// A line of members along x through nodes at these places, `up` along z.
pub(super) fn line(places: &[f64], section: Section, supports: &[(usize, [bool; 6])]) -> Frame {
    Frame {
        nodes: places.iter().map(|&x| [x, 0.0, 0.0]).collect(),
        members: (1..places.len()).map(|j| member(j - 1, j, section, [0.0, 0.0, 1.0])).collect(),
        supports: supports.iter().map(|&(node, fixed)| Support { node, fixed }).collect(),
    }
}

pub(super) fn force(node: usize, force: [f64; 3]) -> LoadCase {
    LoadCase { nodes: vec![NodeLoad { node, force, moment: [0.0; 3] }], members: vec![] }
}

pub(super) fn moment(node: usize, moment: [f64; 3]) -> LoadCase {
    LoadCase { nodes: vec![NodeLoad { node, force: [0.0; 3], moment }], members: vec![] }
}

/// The same even load on all these members.
pub(super) fn even(members: &[usize], force: [f64; 3]) -> LoadCase {
    let members = members.iter().map(|&member| UniformLoad { member, force }).collect();
    LoadCase { nodes: vec![], members }
}
