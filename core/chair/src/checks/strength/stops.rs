//! One frame for all cases, wherever the feet are stopped.
//!
//! Every foot stands on the floor and can neither rise nor sink; stops keep some from sliding. Where three stops hold just the
//! three ways in which the chair could slide and turn on the floor, their forces follow from balance alone. Put on as loads,
//! they leave nothing for any other three stops to carry, and the forces within the chair are the same: it only stands elsewhere
//! on the floor. A stop beyond the three carries as much as keeps its foot where it is (the method of forces): how far a newton
//! there moves that foot is one more load case. So cases that differ in their stops share one frame and one factorisation.

use super::cases::Case;
use super::frame::Model;
use core::ops::Range;
use crestrail_frame::{LoadCase, NodeLoad, Stiff, Support, Trouble};
use crestrail_geometry::Vec3;

/// Least determinant of three stops, mm: the distance of one of them from where the other two let the chair turn.
const APART: f64 = 1.0;

/// Cases that share a frame.
pub(super) struct Standing<'a> {
    pub(super) supports: Vec<Support>,
    pub(super) cases: Vec<Stopped<'a>>,
    /// Of each spare stop a newton, with what that asks of the three.
    spare: Vec<LoadCase>,
}

/// A case on a frame that it shares.
pub(super) struct Stopped<'a> {
    pub(super) case: &'a Case,
    /// Its loads with the forces of three of its stops.
    loads: LoadCase,
    /// Its spare stops among those of all cases.
    spare: Range<usize>,
}

/// A foot kept from sliding one way.
#[derive(Clone, Copy, PartialEq)]
struct Stop {
    node: usize,
    way: Vec3,
}

/// Stops of which three just hold the chair on the floor.
struct Held {
    three: [Stop; 3],
    spare: Vec<Stop>,
}

/// All cases on one frame, but for those that no three of their stops hold: each of these has a frame of its own, which is loose.
pub(super) fn standing<'a>(model: &Model<'_>, cases: &'a [Case]) -> Vec<Standing<'a>> {
    let mut all: Vec<Standing<'a>> = Vec::new();
    let mut shared: Option<Standing<'a>> = None;
    for case in cases {
        let Some(held) = Held::of(model, &case.supports) else {
            let loads = LoadCase { nodes: case.loads.clone(), members: Vec::new() };
            let cases = vec![Stopped { case, loads, spare: 0..0 }];
            all.push(Standing { supports: case.supports.clone(), cases, spare: Vec::new() });
            continue;
        };
        let Standing { cases, spare, .. } = shared.get_or_insert_with(|| Standing {
            supports: held.alone(&case.supports),
            cases: Vec::new(),
            spare: Vec::new(),
        });
        let own = match cases.iter().find(|known| known.case.supports == case.supports) {
            Some(known) => known.spare.clone(),
            None => {
                let first = spare.len();
                spare.extend(held.spare.iter().map(|stop| held.balanced(model, &[stop.push(1.0)])));
                first..spare.len()
            }
        };
        cases.push(Stopped { case, loads: held.balanced(model, &case.loads), spare: own });
    }
    all.extend(shared);
    all
}

impl Standing<'_> {
    /// The loads of each case with the forces of all its stops, on the frame as stiff as it is.
    pub(super) fn loads(&self, stiff: &Stiff<'_>) -> Result<Vec<LoadCase>, Trouble> {
        let moved = stiff.moved(&self.spare)?;
        let loads = |stopped: &Stopped<'_>| {
            let (units, moved) = (&self.spare[stopped.spare.clone()], &moved[stopped.spare.clone()]);
            let mut loads = stopped.loads.clone();
            for (size, unit) in pushes(units, moved, &stopped.loads)?.into_iter().zip(units) {
                let pushed = |load: &NodeLoad| NodeLoad { force: load.force.map(|f| f * size), ..*load };
                loads.nodes.extend(unit.nodes.iter().map(pushed));
            }
            Ok(loads)
        };
        self.cases.iter().map(loads).collect()
    }
}

/// How hard spare stops push, N, so that none of their feet moves against the three; `units` are the loads of a newton each,
/// `moved` what these do.
fn pushes(units: &[LoadCase], moved: &[Vec<[f64; 6]>], loads: &LoadCase) -> Result<Vec<f64>, Trouble> {
    // By virtual work: the loads of a spare stop are in balance, so they feel how the feet move against each other alone; and
    // what a case moves them is what they move the case (Maxwell).
    let work = |loads: &LoadCase, moved: &[[f64; 6]]| -> f64 {
        let of = |load: &NodeLoad| load.force.iter().zip(moved[load.node]).map(|(f, u)| f * u).sum::<f64>();
        loads.nodes.iter().map(of).sum()
    };
    let row = |moved: &Vec<[f64; 6]>| {
        units.iter().map(|unit| work(unit, moved)).chain([-work(loads, moved)]).collect::<Vec<f64>>()
    };
    let mut rows: Vec<Vec<f64>> = moved.iter().map(row).collect();
    let n = rows.len();
    // How loads yield to each other is even and positive, so Gauss needs no exchange of rows.
    for k in 0..n {
        if rows[k][k].is_nan() || rows[k][k] <= 0.0 {
            let why = "The feet that are kept from sliding do not yield to each other.".to_owned();
            return Err(Trouble { place: "supports".to_owned(), why });
        }
        let (done, rest) = rows.split_at_mut(k + 1);
        for row in rest {
            let share = row[k] / done[k][k];
            row.iter_mut().zip(&done[k]).skip(k).for_each(|(entry, pivot)| *entry -= share * pivot);
        }
    }
    let mut sizes = vec![0.0; n];
    for k in (0..n).rev() {
        let taken: f64 = (k + 1..n).map(|j| rows[k][j] * sizes[j]).sum();
        sizes[k] = (rows[k][n] - taken) / rows[k][k];
    }
    Ok(sizes)
}

impl Stop {
    fn push(self, size: f64) -> NodeLoad {
        let Vec3 { x, y, z } = self.way * size;
        NodeLoad { node: self.node, force: [x, y, z], moment: [0.0; 3] }
    }

    /// What a newton of it does on the floor.
    fn on_floor(self, model: &Model<'_>) -> Vec3 {
        on_floor(model.at(self.node), self.way)
    }
}

impl Held {
    /// The three that stand the farthest apart, and the others; none where they leave the chair a way to go.
    fn of(model: &Model<'_>, supports: &[Support]) -> Option<Self> {
        let held = |support: &Support| {
            let node = support.node;
            let ways = [Vec3::X, Vec3::Y].into_iter().zip(support.fixed);
            ways.filter(|(_, fixed)| *fixed).map(move |(way, _)| Stop { node, way })
        };
        let mut spare: Vec<Stop> = supports.iter().flat_map(held).collect();
        let floor: Vec<Vec3> = spare.iter().map(|stop| stop.on_floor(model)).collect();
        let (mut most, mut best) = (APART, None);
        for a in 0..floor.len() {
            for b in a + 1..floor.len() {
                for c in b + 1..floor.len() {
                    let apart = floor[a].dot(floor[b].cross(floor[c])).abs();
                    if apart > most {
                        (most, best) = (apart, Some([a, b, c]));
                    }
                }
            }
        }
        let three = best?.map(|k| spare[k]);
        spare.retain(|stop| !three.contains(stop));
        Some(Self { three, spare })
    }

    /// The supports with no stops but the three.
    fn alone(&self, supports: &[Support]) -> Vec<Support> {
        let is_one = |node: usize, way: Vec3| self.three.contains(&Stop { node, way });
        let alone = |support: &Support| {
            let mut fixed = support.fixed;
            (fixed[0], fixed[1]) = (is_one(support.node, Vec3::X), is_one(support.node, Vec3::Y));
            Support { fixed, ..*support }
        };
        supports.iter().map(alone).collect()
    }

    /// Loads with what the three do against them.
    fn balanced(&self, model: &Model<'_>, loads: &[NodeLoad]) -> LoadCase {
        let all = loads.iter().fold(Vec3::ZERO, |sum, load| {
            let [x, y, z] = load.force;
            sum + on_floor(model.at(load.node), Vec3::new(x, y, z)) + Vec3::Z * load.moment[2]
        });
        // Cramer's rule for a r₁ + b r₂ + c r₃ = −loads.
        let [a, b, c] = self.three.map(|stop| stop.on_floor(model));
        let (bc, ca, ab) = (b.cross(c), c.cross(a), a.cross(b));
        let whole = a.dot(bc);
        let mut nodes = loads.to_vec();
        for (stop, cross) in self.three.into_iter().zip([bc, ca, ab]) {
            nodes.push(stop.push(-all.dot(cross) / whole));
        }
        LoadCase { nodes, members: Vec::new() }
    }
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
    use crestrail_frame::{Structure, solve};
    use serde_json::json;

    /// Forces within the members are those of a frame with the case's own stops, for joints soft and rigid.
    #[test]
    fn forces_within_are_those_of_its_own_stops() {
        for (values, spare) in [
            (json!({}), 0),
            (json!({"family": "armchair"}), 0),
            (json!({"family": "stool", "stretchers": "none"}), 0),
            (json!({"family": "bench_two"}), 4),
            (json!({"family": "bench_three", "arms": "posts", "back": "laths"}), 6),
        ] {
            let design = Design::from_value(&values).unwrap();
            let chair = Chair::resolve(&design, &Bench::default()).unwrap();
            let sitting = Sitting::of(&chair).unwrap();
            let model = Model::of(&chair, &sitting);
            let cases = cases::all(&model, &sitting, &service(&design));
            let shared = standing(&model, &cases);
            assert_eq!(shared.len(), 1, "{values}");
            assert_eq!(shared[0].cases.len(), cases.len());
            assert_eq!(shared[0].spare.len(), spare, "{values}");
            for standing in shared {
                let frame = |supports: &[Support]| {
                    let supports = supports.to_vec();
                    crestrail_frame::Frame { supports, ..model.frame.clone() }
                };
                let frame_of_all = frame(&standing.supports);
                let structure = Structure::new(&frame_of_all).unwrap();
                let stiff = structure.factorise().unwrap();
                let found = stiff.solve_all(&standing.loads(&stiff).unwrap()).unwrap();
                for (Stopped { case, .. }, found) in standing.cases.iter().zip(found) {
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
