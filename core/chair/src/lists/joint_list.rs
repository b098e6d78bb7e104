//! The joint list: each kind of joint once, with the numbers to mark it from.

use super::size::tenths;
use crate::chair::Chair;
use crate::joint::{Joint, PegShape};
use crate::part::{PartId, Role, Side};
use crestrail_geometry::Vec3;
use crestrail_geometry::math::{acos, degrees};
use serde::Serialize;

/// A kind of joint: all joints with the same measures between the same kinds of part.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct JointRow {
    /// Such as `side rail in back leg`.
    pub name: String,
    /// The part with the mortise.
    pub host: &'static str,
    /// The part with the tenon.
    pub guest: &'static str,
    /// Letter of the part with the mortise.
    pub letter_host: String,
    /// Letters of the parts with the tenon.
    pub letter_guest: String,
    /// How many there are in the chair.
    pub quantity: u32,
    /// The tenon, mm.
    pub tenon: TenonRow,
    /// The shoulders around it, mm.
    pub shoulders: ShouldersRow,
    /// The haunch, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub haunch: Option<HaunchRow>,
    /// The mitred end, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mitre: Option<MitreRow>,
    /// The mortise, mm.
    pub mortise: MortiseRow,
    /// The pegs of one joint.
    pub pegs: Vec<PegRow>,
    /// Angles, degrees.
    pub angles: Angles,
    /// Why it has these measures.
    pub rule: Vec<Rule>,
}

/// Sizes of a tenon, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TenonRow {
    /// From the shoulder to the end, on the longer side.
    pub length: f64,
    /// Along the host's grain.
    pub width: f64,
    /// Across it.
    pub thickness: f64,
}

/// Shoulders, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ShouldersRow {
    /// Above the tenon.
    pub top: f64,
    /// Below it.
    pub bottom: f64,
    /// At one cheek.
    pub front: f64,
    /// At the other.
    pub back: f64,
}

/// A haunch, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct HaunchRow {
    /// How far it enters at the tenon.
    pub length: f64,
    /// How far it reaches up from the tenon.
    pub width: f64,
}

/// A mitred end, mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MitreRow {
    /// The part whose tenon it meets.
    pub with: &'static str,
    /// Length of the tenon on the shorter side.
    pub short_length: f64,
    /// Space between the two ends.
    pub gap: f64,
}

/// A mortise, mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MortiseRow {
    /// From the host's face.
    pub depth: f64,
    /// Along the host's grain.
    pub width: f64,
    /// The cutter.
    pub thickness: f64,
    /// Room behind the tenon.
    pub glue_gap: f64,
    /// Thinnest timber beside or behind it.
    pub wall: f64,
    /// Timber to the nearer end of the host.
    pub from_end: f64,
    /// Heights above the floor of its lower and upper end at the host's face, for mortises in legs:
    /// one pair for each joint of the row on one side of the chair, from below.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub above_floor: Vec<[f64; 2]>,
}

/// A peg, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PegRow {
    /// Diameter or side.
    pub size: f64,
    /// `round` or `square`.
    pub shape: &'static str,
    /// From the host's face with the mortise.
    pub from_face: f64,
    /// From the middle of the tenon's width.
    pub from_middle: f64,
    /// Depth of its hole.
    pub length: f64,
}

/// Angles of a joint, degrees.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Angles {
    /// By how much the shoulder departs from square across the guest's width.
    pub shoulder_across_width: f64,
    /// By how much it departs from square across the guest's thickness.
    pub shoulder_across_thickness: f64,
    /// Between the tenon and its part's grain.
    pub tenon_to_grain: f64,
    /// By how much the mortise departs from square to the host's face.
    pub mortise_from_square: f64,
}

/// A rule that was followed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Rule {
    /// What it says.
    pub say: &'static str,
    /// Who says so.
    pub source: &'static str,
}

/// The joint list, in the order of the joints.
pub fn joint_list(chair: &Chair) -> Vec<JointRow> {
    let mut rows: Vec<JointRow> = Vec::new();
    // The left half repeats the right one; a part across the middle has its twin joint there too.
    for joint in chair.joints.iter().filter(|j| j.host.side != Side::Left) {
        let row = row(chair, joint);
        match rows.iter_mut().find(|r| r.is_like(&row)) {
            Some(same) => same.join(row),
            None => rows.push(row),
        }
    }
    rows
}

impl JointRow {
    /// Whether two joints are cut to the same settings; where in the host they stand may differ.
    fn is_like(&self, other: &Self) -> bool {
        let cut = |m: &MortiseRow| (m.depth, m.width, m.thickness, m.glue_gap);
        (&self.name, &self.letter_guest) == (&other.name, &other.letter_guest)
            && self.tenon == other.tenon
            && cut(&self.mortise) == cut(&other.mortise)
            && self.pegs.len() == other.pegs.len()
    }

    /// Takes in a joint that is like this one; of what stays around the mortises the least counts.
    fn join(&mut self, other: Self) {
        self.quantity += other.quantity;
        self.mortise.wall = self.mortise.wall.min(other.mortise.wall);
        self.mortise.from_end = self.mortise.from_end.min(other.mortise.from_end);
        self.mortise.above_floor.extend(other.mortise.above_floor);
    }
}

fn row(chair: &Chair, joint: &Joint) -> JointRow {
    let letter = |id: PartId| chair.part(id).map(|p| p.letter.clone()).unwrap_or_default();
    let (tenon, mortise) = (&joint.tenon, &joint.mortise);
    JointRow {
        name: format!("{} in {}", joint.guest.role.name(), joint.host.role.name()),
        host: joint.host.role.name(),
        guest: joint.guest.role.name(),
        letter_host: letter(joint.host),
        letter_guest: letter(joint.guest),
        quantity: 2,
        tenon: TenonRow {
            length: tenths(tenon.length),
            width: tenths(tenon.width),
            thickness: tenths(tenon.thickness),
        },
        shoulders: ShouldersRow {
            top: tenths(tenon.shoulders.top),
            bottom: tenths(tenon.shoulders.bottom),
            front: tenths(tenon.shoulders.front),
            back: tenths(tenon.shoulders.back),
        },
        haunch: tenon.haunch.map(|h| HaunchRow { length: tenths(h.length), width: tenths(h.width) }),
        mitre: tenon.mitre.map(|m| MitreRow {
            with: m.with.role.name(),
            short_length: tenths(m.short_length),
            gap: tenths(m.gap),
        }),
        mortise: MortiseRow {
            depth: tenths(mortise.depth),
            width: tenths(mortise.width),
            thickness: tenths(mortise.thickness),
            glue_gap: tenths(mortise.glue_gap),
            wall: tenths(mortise.wall),
            from_end: tenths(mortise.from_end),
            above_floor: above_floor(joint),
        },
        pegs: joint.pegs.iter().map(peg).collect(),
        angles: angles(chair, joint),
        rule: rules_of(joint),
    }
}

fn peg(peg: &crate::joint::Peg) -> PegRow {
    let shape = match peg.shape {
        PegShape::Round => "round",
        PegShape::Square => "square",
    };
    PegRow {
        size: tenths(peg.size),
        shape,
        from_face: tenths(peg.from_face),
        from_middle: tenths(peg.from_middle),
        length: tenths(peg.length),
    }
}

fn above_floor(joint: &Joint) -> Vec<[f64; 2]> {
    let in_leg = matches!(joint.host.role, Role::FrontLeg | Role::BackLeg);
    let height = |y: f64| tenths(joint.mouth.point(Vec3::Y * y).z);
    let half = joint.mortise.width / 2.0;
    in_leg.then(|| [height(-half), height(half)]).into_iter().collect()
}

fn angles(chair: &Chair, joint: &Joint) -> Angles {
    let normal = chair.part(joint.guest).map_or(Vec3::X, |p| p.place.local_direction(joint.face.normal));
    let along = normal.x.abs();
    let lean = |across: f64| degrees(crestrail_geometry::math::atan2(across.abs(), along));
    Angles {
        shoulder_across_width: tenths(lean(normal.y)),
        shoulder_across_thickness: tenths(lean(normal.z)),
        tenon_to_grain: tenths(degrees(joint.tenon.to_grain)),
        mortise_from_square: tenths(degrees(acos(joint.face.normal.dot(joint.mouth.x).abs()))),
    }
}

fn rules_of(joint: &Joint) -> Vec<Rule> {
    let rule = |say, source| Rule { say, source };
    let mut found = vec![
        rule(
            "Tenon a third to just under half of the part's thickness, to the nearest cutter.",
            "Joyce, The Technique of Furniture Making; a third tested best: Oktaee et al. 2014",
        ),
        rule("Mortise deeper than the tenon, for glue.", "Joyce, The Technique of Furniture Making"),
        rule(
            "Play of 0.1 mm over the whole thickness.",
            "Elek et al. 2020; Liu et al. 2024, Forests 15:1612",
        ),
    ];
    match joint.tenon.mitre {
        Some(_) => found.push(rule(
            "Where two tenons meet in a leg their ends are mitred and keep a gap.",
            "Joyce, The Technique of Furniture Making",
        )),
        None => found.push(rule(
            "Length up to four times the thickness, leaving 6 mm behind the mortise.",
            "leg-to-apron practice of the trade press (three to four times); wall: common practice, no source",
        )),
    }
    if joint.tenon.shoulders.top > joint.tenon.shoulders.bottom {
        found.push(rule(
            "A third of the rail's width stays whole at the end of the leg.",
            "Joyce, The Technique of Furniture Making",
        ));
    }
    if !joint.pegs.is_empty() {
        found.push(rule(
            "Pegs one and a half diameters or more from the shoulder, about 16 mm from the leg's face where there is room.",
            "craft texts; distances: common practice, no source",
        ));
    }
    found
}
