//! The chair as a frame: a node where axes of parts meet, beams along the parts, springs for the joints.

use crate::chair::Chair;
use crate::checks::sitting::Sitting;
use crate::joint::{End as GuestEnd, Joint};
use crate::part::{Part, Role};
use crestrail_frame::{End, Frame, Member, Section, Springs, Structure, Trouble};
use crestrail_geometry::Vec3;
use crestrail_sorting::Order as _;
use crestrail_timber::Species;

/// Nodes of one part nearer to each other than this are one, mm: a joint is larger than that.
const NEAR: f64 = 3.0;

/// Poisson-free shear modulus from the modulus along the grain (Wood Handbook, FPL-GTR-282, text at Eq. 9-9).
const SHEAR_SHARE: f64 = 1.0 / 16.0;

/// The frame with what its beams and springs stand for.
pub(super) struct Model<'a> {
    pub(super) frame: Frame,
    /// What each member of the frame is a piece of.
    pub(super) beams: Vec<Beam<'a>>,
    /// The joints of the frame, each at an end of a beam.
    pub(super) seats: Vec<Seat<'a>>,
    /// For each part the nodes along it, by their distance along its x axis.
    lines: Vec<Line<'a>>,
}

/// A piece of a part between two nodes.
pub(super) struct Beam<'a> {
    pub(super) part: &'a Part,
    pub(super) species: &'static Species,
    /// Sizes along the part's y and z in its middle, mm.
    pub(super) size: [f64; 2],
    /// What mortises leave of them at its worse end, as a share of the section modulus.
    pub(super) left: f64,
}

/// A joint at the end of a beam of its guest.
pub(super) struct Seat<'a> {
    pub(super) joint: &'a Joint,
    pub(super) member: usize,
    pub(super) end: End,
    /// How far along the member its shoulder lies, as a share of its length.
    pub(super) shoulder: f64,
    /// The member's own axes in chair space.
    pub(super) axes: [Vec3; 3],
}

struct Line<'a> {
    part: &'a Part,
    species: &'static Species,
    nodes: Vec<(f64, usize)>,
}

/// Whether it takes part in the frame.
fn carries(role: Role) -> bool {
    matches!(
        role,
        Role::FrontLeg
            | Role::BackLeg
            | Role::FrontRail
            | Role::SideRail
            | Role::BackRail
            | Role::SideStretcher
            | Role::CrossStretcher
            | Role::FrontStretcher
            | Role::BackStretcher
            | Role::BackSlat
            | Role::CrestRail
            | Role::LowerBackRail
            | Role::Lath
            | Role::Splat
            | Role::Stile
            | Role::ArmPost
            | Role::Arm
    )
}

impl<'a> Model<'a> {
    pub(super) fn of(chair: &'a Chair, sitting: &Sitting) -> Self {
        let parts = chair.parts.iter().filter(|p| carries(p.id.role));
        let line = |part: &'a Part| Some(Line { part, species: part.material.species()?, nodes: Vec::new() });
        let mut model = Self {
            frame: Frame { nodes: Vec::new(), members: Vec::new(), supports: Vec::new() },
            beams: Vec::new(),
            seats: Vec::new(),
            lines: parts.filter_map(line).collect(),
        };
        let line = |id| model.lines.iter().position(|line| line.part.id == id);
        let known = |joint: &'a Joint| Some((joint, [line(joint.host)?, line(joint.guest)?]));
        let (joints, lines): (Vec<&Joint>, Vec<[usize; 2]>) = chair.joints.iter().filter_map(known).unzip();
        let hosted: Vec<usize> =
            joints.iter().zip(lines).map(|(joint, lines)| model.meet(joint, lines)).collect();
        model.feet();
        model.loaded(sitting);
        for index in 0..model.lines.len() {
            model.beam(index, &joints, &hosted, chair);
        }
        model
    }

    /// The node in the host where the guest's axis comes to the host's, and the same node on the guest.
    fn meet(&mut self, joint: &Joint, [host, guest]: [usize; 2]) -> usize {
        let inside = joint.mouth.point(Vec3::X * (joint.tenon.middle_length() / 2.0));
        let at = axis_point(self.lines[host].part, inside);
        let node = self.node(host, at);
        let x = self.lines[guest].part.place.local_point(self.frame_node(node)).x;
        self.lines[guest].nodes.push((x, node));
        node
    }

    fn frame_node(&self, node: usize) -> Vec3 {
        let [x, y, z] = self.frame.nodes[node];
        Vec3::new(x, y, z)
    }

    /// A node on a part's axis: one that is there already, or a new one.
    fn node(&mut self, line: usize, at: Vec3) -> usize {
        let x = self.lines[line].part.place.local_point(at).x;
        let near = self.lines[line].nodes.iter().find(|(other, _)| (other - x).abs() < NEAR);
        if let Some((_, node)) = near {
            return *node;
        }
        self.frame.nodes.push([at.x, at.y, at.z]);
        let node = self.frame.nodes.len() - 1;
        self.lines[line].nodes.push((x, node));
        node
    }

    /// A node where each leg stands on the floor.
    fn feet(&mut self) {
        for index in 0..self.lines.len() {
            let part = self.lines[index].part;
            if matches!(part.id.role, Role::FrontLeg | Role::BackLeg) {
                self.node(index, foot(part));
            }
        }
    }

    /// Nodes where loads act: on side rails below the loading points of the seat, on arms at their front ends, on what
    /// is across in front at its middle, and on the pieces of the back at their middle.
    fn loaded(&mut self, sitting: &Sitting) {
        for index in 0..self.lines.len() {
            let part = self.lines[index].part;
            match part.id.role {
                Role::SideRail => {
                    for y in [sitting.seat_point(), sitting.front + super::cases::FRONT_EDGE] {
                        self.on_axis(index, |at| at.y, y);
                    }
                }
                Role::Arm => {
                    let tip = part.place.point(Vec3::X * part.size.length);
                    let near = part.place.origin;
                    let front = tip.y.min(near.y) + super::cases::FRONT_OF_ARM;
                    self.on_axis(index, |at| at.y, front);
                }
                Role::FrontStretcher
                | Role::FrontRail
                | Role::BackRail
                | Role::BackSlat
                | Role::CrestRail
                | Role::LowerBackRail => {
                    let middle = self.middle(index);
                    self.on_axis(index, |at| at.x, middle);
                }
                _ => {}
            }
        }
    }

    /// The middle of a part across the chair.
    fn middle(&self, line: usize) -> f64 {
        let nodes = &self.lines[line].nodes;
        let xs = || nodes.iter().map(|(_, node)| self.frame.nodes[*node][0]);
        (xs().fold(f64::INFINITY, f64::min) + xs().fold(f64::NEG_INFINITY, f64::max)) / 2.0
    }

    /// A node on the line between a part's outer nodes where a coordinate has a value, if it lies between.
    fn on_axis(&mut self, line: usize, coordinate: impl Fn(Vec3) -> f64, value: f64) {
        let nodes = &self.lines[line].nodes;
        let end = |pick: fn(f64, f64) -> bool| {
            nodes
                .iter()
                .copied()
                .reduce(|a, b| if pick(a.0, b.0) { a } else { b })
                .map(|(_, node)| self.frame_node(node))
        };
        let (Some(low), Some(high)) = (end(|a, b| a < b), end(|a, b| a > b)) else { return };
        let (from, to) = (coordinate(low), coordinate(high));
        if (to - from).abs() < NEAR {
            return;
        }
        let share = ((value - from) / (to - from)).clamp(0.0, 1.0);
        self.node(line, low.lerp(high, share));
    }

    /// Members between the nodes of a part, with the springs of its own joints at its ends.
    fn beam(&mut self, line: usize, joints: &[&'a Joint], hosted: &[usize], chair: &Chair) {
        let Line { part, species, .. } = self.lines[line];
        self.lines[line].nodes.order_by(|a, b| a.0.total_cmp(&b.0));
        self.lines[line].nodes.dedup_by_key(|(_, node)| *node);
        let nodes = self.lines[line].nodes.clone();
        for pair in nodes.windows(2) {
            let (i, j) = (pair[0].1, pair[1].1);
            let (from, to) = (self.frame_node(i), self.frame_node(j));
            let size = section(part, from.lerp(to, 0.5));
            let member = self.frame.members.len();
            let up = upright(part, to - from);
            self.frame.members.push(Member {
                i,
                j,
                section: stiffness(species, size),
                up: [up.x, up.y, up.z],
                springs_i: Springs::RIGID,
                springs_j: Springs::RIGID,
            });
            let left = [i, j]
                .map(|node| left_by_mortises(part, size, node, joints, hosted))
                .into_iter()
                .fold(1.0, f64::min);
            self.beams.push(Beam { part, species, size, left });
            self.seats_of(chair, part, member, joints, hosted);
        }
    }

    fn seats_of(
        &mut self,
        chair: &Chair,
        part: &Part,
        member: usize,
        joints: &[&'a Joint],
        hosted: &[usize],
    ) {
        let Member { i, j, up, .. } = self.frame.members[member];
        let (from, to) = (self.frame_node(i), self.frame_node(j));
        let along = to - from;
        let x = along.unit();
        let z = x.cross(Vec3::new(up[0], up[1], up[2])).unit();
        for (joint, node) in joints.iter().zip(hosted).filter(|(joint, _)| joint.guest == part.id) {
            let end = match (*node == i, *node == j) {
                (true, _) => End::I,
                (_, true) => End::J,
                _ => continue,
            };
            // A part whose two joints meet in one place has no beam between them; its end tells which joint it is.
            let ends_near = chair.part(joint.guest).is_some_and(|p| p.place.x.dot(x) * sign(joint.end) < 0.0);
            if ends_near != (end == End::I) {
                continue;
            }
            let shoulder = ((joint.mouth.origin - from).dot(x) / along.length()).clamp(0.0, 1.0);
            self.seats.push(Seat { joint, member, end, shoulder, axes: [x, z.cross(x), z] });
        }
    }

    /// Sets the stiffness of every joint.
    pub(super) fn soften(&self, structure: &mut Structure, stiffness: Option<f64>) -> Result<(), Trouble> {
        let springs = Springs { x: stiffness, y: stiffness, z: stiffness };
        self.seats.iter().try_for_each(|seat| structure.set_springs(seat.member, seat.end, springs))
    }

    /// The feet: their nodes with the parts.
    pub(super) fn standing(&self) -> Vec<(&'a Part, usize)> {
        let legs = self.lines.iter().filter(|l| matches!(l.part.id.role, Role::FrontLeg | Role::BackLeg));
        legs.filter_map(|line| Some((line.part, line.nodes.first()?.1))).collect()
    }

    /// The node of a part nearest to a point, for every part of a role.
    pub(super) fn nearest(&self, role: Role, to: impl Fn(Vec3) -> f64) -> Vec<(&'a Part, usize)> {
        let lines = self.lines.iter().filter(|l| l.part.id.role == role);
        lines
            .filter_map(|line| {
                let far = |node: &usize| to(self.frame_node(*node));
                let nodes = line.nodes.iter().map(|(_, node)| *node);
                Some((line.part, nodes.min_by(|a, b| far(a).total_cmp(&far(b)))?))
            })
            .collect()
    }

    /// Where a node is.
    pub(super) fn at(&self, node: usize) -> Vec3 {
        self.frame_node(node)
    }
}

fn sign(end: GuestEnd) -> f64 {
    match end {
        GuestEnd::Near => -1.0,
        GuestEnd::Far => 1.0,
    }
}

/// The middle of a part's section at a point inside it.
fn axis_point(part: &Part, inside: Vec3) -> Vec3 {
    let mut at = inside;
    for way in [part.place.y, part.place.z] {
        let room = |d: Vec3| part.exit(at, d).map_or(0.0, |exit| exit.distance);
        let (more, less) = (room(way), room(-way));
        at += way * ((more - less) / 2.0);
    }
    at
}

/// The sizes along y and z at a point of the axis, or those of the whole part where the point lies outside.
fn section(part: &Part, at: Vec3) -> [f64; 2] {
    let own = [part.size.width, part.size.thickness];
    let measured = [part.place.y, part.place.z].map(|way| {
        let room = |d: Vec3| part.exit(at, d).map_or(f64::NAN, |exit| exit.distance);
        (room(way), room(-way))
    });
    core::array::from_fn(|i| {
        let (more, less) = measured[i];
        if more > 0.0 && less > 0.0 { (more + less).min(own[i]) } else { own[i] * OUTSIDE }
    })
}

/// Of a bent leg whose middle between two nodes lies outside, this share of the plank's width is taken: a choice of
/// this program, on the safe side.
const OUTSIDE: f64 = 0.4;

/// The direction of the part's width as the member's `up`.
fn upright(part: &Part, along: Vec3) -> Vec3 {
    let x = along.unit();
    let flat = |d: Vec3| d - x * d.dot(x);
    let y = flat(part.place.y);
    if y.length() > 1e-3 { y.unit() } else { flat(part.place.z).unit() }
}

fn stiffness(species: &Species, [y, z]: [f64; 2]) -> Section {
    let e = species.strength.moe;
    let (long, short) = (y.max(z), y.min(z));
    // Torsion of a rectangle (Roark): a b³ [1/3 − 0.21 (b/a)(1 − b⁴/12a⁴)].
    let ratio = short / long;
    let square = ratio * ratio;
    let torsion = long * short * short * short * (1.0 / 3.0 - 0.21 * ratio * (1.0 - square * square / 12.0));
    Section {
        e,
        g: e * SHEAR_SHARE,
        area: y * z,
        iy: y * z * z * z / 12.0,
        iz: z * y * y * y / 12.0,
        torsion,
        shear_y: Some(5.0 / 6.0 * y * z),
        shear_z: Some(5.0 / 6.0 * y * z),
    }
}

/// What the mortises at a node leave of a section, as a share: their thickness and depth taken off its area, which is
/// less than what a hole near the middle takes off the section modulus.
fn left_by_mortises(part: &Part, size: [f64; 2], node: usize, joints: &[&Joint], hosted: &[usize]) -> f64 {
    let here = joints.iter().zip(hosted).filter(|(joint, at)| joint.host == part.id && **at == node);
    let lost: f64 = here.map(|(joint, _)| joint.mortise.depth * joint.mortise.thickness).sum();
    (1.0 - lost / (size[0] * size[1])).max(0.2)
}

/// The middle of a leg's end on the floor.
fn foot(part: &Part) -> Vec3 {
    let low = part.place.point(Vec3::X * 2.0);
    let inside = part.place.origin.lerp(low, 0.5);
    let at = axis_point(part, inside);
    Vec3 { z: 0.0, ..at }
}
