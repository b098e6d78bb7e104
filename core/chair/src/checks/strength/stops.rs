//! One frame for all cases, wherever the feet are stopped.
//!
//! Every foot stands on the floor and can neither rise nor sink; stops keep some from sliding. Where three stops hold just the
//! three ways in which the chair could slide and turn on the floor, their forces follow from balance alone. Put on as loads,
//! they leave nothing for any other three stops to carry, and the forces within the chair are the same: it only stands elsewhere
//! on the floor. So cases that differ in their stops share one frame and one factorisation.

use super::cases::Case;
use super::frame::Model;
use crestrail_frame::{LoadCase, NodeLoad, Support};
use crestrail_geometry::Vec3;

/// Least determinant of three stops, mm: the distance of one of them from where the other two let the chair turn.
const APART: f64 = 1.0;

/// Cases that share a frame.
pub(super) struct Standing<'a> {
    pub(super) supports: &'a [Support],
    pub(super) cases: Vec<&'a Case>,
    /// The loads of each case, with the forces of its own stops where these are others.
    pub(super) loads: Vec<LoadCase>,
    /// Whether balance alone tells what its stops carry.
    just: bool,
}

/// All cases, in as few frames as may be.
pub(super) fn standing<'a>(model: &Model<'_>, cases: &'a [Case]) -> Vec<Standing<'a>> {
    let mut all: Vec<Standing<'a>> = Vec::new();
    for case in cases {
        let stops = forces(model, case);
        let mut nodes = case.loads.clone();
        let at = match all.iter().position(|known| known.supports == case.supports) {
            Some(at) => at,
            None => match (&stops, all.iter().position(|known| known.just)) {
                (Some(stops), Some(at)) => {
                    nodes.extend(stops);
                    at
                }
                _ => {
                    let (supports, just) = (&*case.supports, stops.is_some());
                    all.push(Standing { supports, cases: Vec::new(), loads: Vec::new(), just });
                    all.len() - 1
                }
            },
        };
        all[at].cases.push(case);
        all[at].loads.push(LoadCase { nodes, members: Vec::new() });
    }
    all
}

/// What each of three stops does to the chair; none where there are more or fewer, or they leave it a way to go.
fn forces(model: &Model<'_>, case: &Case) -> Option<[NodeLoad; 3]> {
    let ways = [Vec3::X, Vec3::Y];
    let held = |support: &Support| {
        let node = support.node;
        ways.into_iter().zip(support.fixed).filter(|(_, fixed)| *fixed).map(move |(way, _)| (node, way))
    };
    let stops: Vec<(usize, Vec3)> = case.supports.iter().flat_map(held).collect();
    let stops: [(usize, Vec3); 3] = stops.try_into().ok()?;
    let [a, b, c] = stops.map(|(node, way)| on_floor(model.at(node), way));
    let loads = case.loads.iter().fold(Vec3::ZERO, |sum, load| {
        let [x, y, z] = load.force;
        sum + on_floor(model.at(load.node), Vec3::new(x, y, z)) + Vec3::Z * load.moment[2]
    });
    // Cramer's rule for a r₁ + b r₂ + c r₃ = −loads.
    let (bc, ca, ab) = (b.cross(c), c.cross(a), a.cross(b));
    let whole = a.dot(bc);
    let size = |cross: Vec3| -loads.dot(cross) / whole;
    let mut sizes = [bc, ca, ab].map(size).into_iter();
    (whole.abs() > APART).then(|| {
        stops.map(|(node, way)| {
            let force = way * sizes.next().unwrap_or_default();
            NodeLoad { node, force: [force.x, force.y, force.z], moment: [0.0; 3] }
        })
    })
}

/// What a force does on the floor: its parts along x and y, and its moment about z.
fn on_floor(at: Vec3, force: Vec3) -> Vec3 {
    Vec3::new(force.x, force.y, at.x * force.y - at.y * force.x)
}

#[cfg(test)]
mod tests {
    use super::super::cases;
    use super::*;
    use crate::chair::Chair;
    use crate::checks::sitting::Sitting;
    use crate::design::Design;
    use crate::joints::Bench;
    use crate::report::service;
    use crestrail_frame::solve;
    use serde_json::json;

    /// Forces within the members are those of a frame with the case's own stops, for joints soft and rigid.
    #[test]
    fn forces_within_are_those_of_its_own_stops() {
        for (values, frames) in [
            (json!({}), 1),
            (json!({"family": "armchair"}), 1),
            (json!({"family": "stool", "stretchers": "none"}), 1),
            (json!({"family": "bench_two"}), 3),
        ] {
            let design = Design::from_value(&values).unwrap();
            let chair = Chair::resolve(&design, &Bench::default()).unwrap();
            let sitting = Sitting::of(&chair).unwrap();
            let model = Model::of(&chair, &sitting);
            let cases = cases::all(&model, &sitting, &service(&design));
            let shared = standing(&model, &cases);
            assert_eq!(shared.len(), frames, "{values}");
            assert_eq!(shared.iter().map(|one| one.cases.len()).sum::<usize>(), cases.len());
            for standing in shared {
                let frame = |supports: &[Support]| {
                    let supports = supports.to_vec();
                    crestrail_frame::Frame { supports, ..model.frame.clone() }
                };
                let found = solve(&frame(standing.supports), &standing.loads).unwrap();
                for (case, found) in standing.cases.iter().zip(found) {
                    let own = LoadCase { nodes: case.loads.clone(), members: Vec::new() };
                    let own = solve(&frame(&case.supports), &[own]).unwrap().remove(0);
                    let most = own.members.iter().flat_map(|m| m.ends).fold(0.0, |a: f64, b| a.max(b.abs()));
                    for (a, b) in own.members.iter().zip(&found.members) {
                        for (a, b) in a.ends.iter().zip(b.ends) {
                            assert!((a - b).abs() < 1e-9 * most, "{values}, {}: {a} {b}", case.name);
                        }
                    }
                }
            }
        }
    }
}
