use super::*;
use crate::chair::Chair;
use crate::design::Design;
use crate::joints::Bench;
use crate::part::{Role, Side};
use crestrail_geometry::{Body, Place, Plane, carve};
use serde_json::json;

fn chair(values: &serde_json::Value) -> Chair {
    Chair::resolve(&Design::from_value(values).unwrap(), &Bench::default()).unwrap()
}

fn told(step: &Step) -> (Task, Vec<(String, Vec3)>) {
    let first = |m: &Move| (m.goes_in[0].to_string(), m.direction);
    (step.task, step.moves.iter().map(first).collect())
}

#[test]
fn side_frames_then_across_then_the_seat() {
    let order = chair(&json!({"pegs": "none"})).assembly;
    assert_eq!(order.blocked, None);
    let at = |id: &str, direction: Vec3| (id.to_owned(), direction);
    let frames = vec![
        at("back leg, right", -Vec3::Y),
        at("front leg, right", Vec3::Y),
        at("back leg, left", -Vec3::Y),
        at("front leg, left", Vec3::Y),
    ];
    let across = vec![at("front leg, right", -Vec3::X), at("front leg, left", Vec3::X)];
    let found: Vec<_> = order.steps.iter().map(told).collect();
    assert_eq!(found[..2], [(Task::Join, frames), (Task::Join, across)]);
    assert!(found[2..].iter().all(|(task, moves)| *task == Task::Lay && moves[0].1 == -Vec3::Z));
    assert_eq!(
        order.steps.iter().map(|s| s.number).collect::<Vec<_>>(),
        (1..=found.len()).collect::<Vec<_>>()
    );
}

/// The travel told frees the tenons, and less than that does not.
#[test]
fn travel_is_the_least_that_frees_the_tenons() {
    let chair = chair(&json!({}));
    let across = &chair.assembly.steps[2].moves[0];
    let longest = chair.joints.iter().filter(|j| j.mouth.x.x.abs() > 0.99).map(|j| j.tenon.length);
    let longest = longest.fold(0.0, f64::max);
    assert!((across.by - longest).abs() < 1e-6, "{} {longest}", across.by);
    assert_eq!((across.clear, across.before), (f64::INFINITY, None));
}

/// The slat between the back legs lies under the lowest back slat: it comes from the front.
#[test]
fn what_lies_under_something_comes_from_aside() {
    let order = chair(&json!({})).assembly;
    let lay: Vec<&Step> = order.steps.iter().filter(|s| s.task == Task::Lay).collect();
    assert_eq!(lay.len(), 2);
    let slat = &lay[0].moves[0];
    assert_eq!((slat.goes_in.len(), slat.before), (1, Some(Vec3::Y)));
    assert!(slat.clear.is_finite() && slat.clear > slat.by);
}

#[test]
fn pegs_are_driven_as_soon_as_their_joint_is_home() {
    for pegs in ["round", "square"] {
        let chair = chair(&json!({"pegs": pegs}));
        let step_of = |id: PartId, task: Task| {
            let within = |s: &&Step| s.task == task && s.moves.iter().any(|m| m.goes_in.contains(&id));
            chair.assembly.steps.iter().find(within).map(|s| s.number)
        };
        let joined = |guest: PartId, host: PartId| {
            let by = |m: &Move| {
                (m.goes_in.contains(&guest) && m.into.contains(&host))
                    || (m.goes_in.contains(&host) && m.into.contains(&guest))
            };
            chair
                .assembly
                .steps
                .iter()
                .find(|s| s.task == Task::Join && s.moves.iter().any(by))
                .map(|s| s.number)
        };
        for joint in &chair.joints {
            for peg in &joint.pegs {
                let driven = step_of(peg.id, Task::Peg);
                assert_eq!(driven, joined(joint.guest, joint.host).map(|n| n + 1), "{}", peg.id);
            }
        }
    }
}

fn block(low: [f64; 3], high: [f64; 3]) -> Body {
    let at = |p: [f64; 3]| Vec3::new(p[0], p[1], p[2]);
    Body::cuboid(&Place::HOME, at(low), at(high))
}

/// Parts made by hand: blocks with tenons and mortises.
struct HandMade {
    pattern: Chair,
    parts: Vec<(Part, Solid)>,
    joints: Vec<Joint>,
}

impl HandMade {
    fn new() -> Self {
        Self { pattern: chair(&json!({})), parts: Vec::new(), joints: Vec::new() }
    }

    fn part(&mut self, number: u16, added: &[Body], cut: &[Body]) -> PartId {
        let id = PartId { role: Role::SideRail, side: Side::Middle, number };
        let part = Part { id, place: Place::HOME, ..self.pattern.parts[0].clone() };
        self.parts.push((part, carve(added, cut).unwrap()));
        id
    }

    /// A tenon 18 mm long that enters its host at `origin` along `x`.
    fn joint(&mut self, guest: PartId, host: PartId, origin: Vec3, x: Vec3) {
        let mut joint = self.pattern.joints[0].clone();
        (joint.guest, joint.host) = (guest, host);
        let across = if x.z.abs() > 0.5 { Vec3::X } else { Vec3::Z };
        joint.mouth = Place::new(origin, x, across);
        joint.face = Plane::through(origin, -x);
        (joint.tenon.length, joint.tenon.width, joint.tenon.thickness) = (18.0, 20.0, 8.0);
        joint.pegs.clear();
        self.joints.push(joint);
    }

    fn order(&self) -> Assembly {
        let pieces: Vec<(&Part, &Solid)> = self.parts.iter().map(|(part, solid)| (part, solid)).collect();
        Assembly::of(&pieces, &self.joints)
    }
}

/// A block with a tenon to the left into one wall and a tenon to the front into another; the walls are
/// themselves joined upright. On the right a rail that goes in freely.
fn corner(walls_are_joined: bool) -> (HandMade, [PartId; 4]) {
    let mut made = HandMade::new();
    let tenon_left = block([-18.0, 20.0, 40.0], [1.0, 28.0, 60.0]);
    let tenon_front = block([20.0, -18.0, 40.0], [28.0, 1.0, 60.0]);
    let mortise_left = block([-20.0, 19.9, 39.9], [1.0, 28.1, 60.1]);
    let mortise_front = block([19.9, -20.0, 39.9], [28.1, 1.0, 60.1]);
    let mortise_right = block([40.0, 19.9, 39.9], [61.0, 28.1, 60.1]);
    let body = block([0.0, 0.0, 0.0], [60.0, 60.0, 100.0]);
    let block_id = made.part(1, &[body, tenon_left, tenon_front], &[mortise_right]);
    // The left wall stands on the foot of the front wall with a tenon downwards.
    let foot = block([-40.0, -40.0, -30.0], [60.0, 0.0, 100.0]);
    let shelf = block([-40.0, -1.0, -30.0], [-1.0, 60.0, 0.0]);
    let hole = block([-30.0, 20.0, -20.0], [-21.9, 40.1, 1.0]);
    let left = block([-40.0, 0.0, 0.0], [0.0, 60.0, 100.0]);
    let down = block([-29.9, 20.1, -18.0], [-22.0, 40.0, 1.0]);
    let (added, cut) = if walls_are_joined {
        (vec![left, down], vec![mortise_left])
    } else {
        (vec![left], vec![mortise_left])
    };
    let left_id = made.part(2, &added, &cut);
    let front_id = if walls_are_joined {
        made.part(3, &[foot, shelf], &[mortise_front, hole])
    } else {
        made.part(3, &[block([0.0, -40.0, 0.0], [60.0, 0.0, 100.0])], &[mortise_front])
    };
    let rail = block([60.0, 0.0, 30.0], [300.0, 40.0, 70.0]);
    let rail_tenon = block([42.0, 20.0, 40.0], [61.0, 28.0, 60.0]);
    let rail_id = made.part(4, &[rail, rail_tenon], &[]);
    made.joint(block_id, left_id, Vec3::new(0.0, 24.0, 50.0), -Vec3::X);
    made.joint(block_id, front_id, Vec3::new(24.0, 0.0, 50.0), -Vec3::Y);
    made.joint(rail_id, block_id, Vec3::new(60.0, 24.0, 50.0), -Vec3::X);
    if walls_are_joined {
        made.joint(left_id, front_id, Vec3::new(-26.0, 30.0, 0.0), -Vec3::Z);
    }
    (made, [block_id, left_id, front_id, rail_id])
}

#[test]
fn tenons_at_right_angles_in_joined_walls_are_blocked_and_named() {
    let (made, [block_id, left, front, rail]) = corner(true);
    let order = made.order();
    let blocked = order.blocked.expect("three joints along three lines hold each other");
    assert_eq!(blocked.parts, [block_id, left, front]);
    assert_eq!(blocked.joints, [(block_id, left), (block_id, front), (left, front)]);
    // What can be put together is told all the same.
    assert_eq!(order.steps.len(), 1);
    assert_eq!(
        (&order.steps[0].moves[0].goes_in, order.steps[0].moves[0].direction),
        (&vec![rail], -Vec3::X)
    );
}

#[test]
fn the_same_tenons_in_two_loose_walls_go_together() {
    let (made, [_, left, front, rail]) = corner(false);
    let order = made.order();
    assert_eq!(order.blocked, None);
    let moved: Vec<PartId> =
        order.steps.iter().flat_map(|s| &s.moves).flat_map(|m| m.goes_in.clone()).collect();
    assert!([left, front, rail].iter().filter(|id| moved.contains(id)).count() >= 2, "{moved:?}");
}

/// A peg with a head inside its hole cannot be driven.
#[test]
fn a_peg_that_cannot_be_driven_names_its_joint() {
    let mut chair = chair(&json!({}));
    let first = chair.joints.iter().find(|j| !j.pegs.is_empty()).unwrap().clone();
    let peg = &first.pegs[0];
    let at = chair.parts.binary_search_by(|p| p.id.cmp(&peg.id)).unwrap();
    let host = chair.part(first.host).unwrap().clone();
    let half = peg.size / 2.0;
    let shank = block([0.0, -half, -half], [peg.length, half, half]);
    let head = block([peg.length - 2.0, -half - 1.5, -half - 1.5], [peg.length, half + 1.5, half + 1.5]);
    chair.parts[at].place = peg.place;
    let solid = carve(&[shank, head.clone()], &[]).unwrap();
    // The same room is cut into the host, so that nothing overlaps where it stands.
    let to_host = |body: &Body| match body {
        Body::Convex(planes) => {
            Body::Convex(planes.iter().map(|p| peg.place.plane(p)).collect::<Vec<_>>()).local_to(&host.place)
        }
        Body::Prism(_) => body.clone(),
    };
    let hole =
        block([peg.length - 2.5, -half - 1.6, -half - 1.6], [peg.length + 0.5, half + 1.6, half + 1.6]);
    let mut cut: Vec<Body> = vec![to_host(&hole)];
    for joint in chair.joints.iter().filter(|j| j.host == host.id) {
        cut.extend(
            joint
                .mortise
                .bodies
                .iter()
                .chain(joint.pegs.iter().map(|p| &p.hole))
                .map(|b| b.local_to(&host.place)),
        );
    }
    let host_solid = carve(std::slice::from_ref(&host.stock), &cut).unwrap();
    let host_id = host.id;
    let pieces: Vec<(&Part, &Solid)> = chair
        .pieces()
        .map(|(part, body)| match part.id {
            id if id == peg.id => (part, &solid),
            id if id == host_id => (part, &host_solid),
            _ => (part, &*body.solid),
        })
        .collect();
    let blocked = Assembly::of(&pieces, &chair.joints).blocked.expect("the head is wider than the hole");
    assert_eq!(blocked.joints, [(first.guest, first.host)]);
    assert_eq!(blocked.parts[0], peg.id);
}
