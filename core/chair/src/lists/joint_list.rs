//! The joint list: each kind of joint once, with the numbers to mark it from.

mod rows;
mod rules;

use rows::{
    Angles, CornerRow, HaunchRow, InsertRow, MitreRow, MortiseRow, PegRow, ShouldersRow, TenonRow, TongueRow,
    WedgesRow,
};
use rules::Rule;

use super::size::tenths;
use crate::chair::Chair;
use crate::joint::{Joint, Kind};
use crate::part::{PartId, Role};
use crestrail_geometry::Vec3;
use crestrail_geometry::math::{acos, degrees};
use crestrail_phrases::say;
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
    /// The kind of joint.
    pub kind: Kind,
    /// Its name.
    pub kind_name: &'static str,
    /// Why it is of this kind.
    pub why: String,
    /// What was wished and had no room.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub given_way: Option<String>,
    /// The tenon, mm.
    pub tenon: TenonRow,
    /// The pieces of twin tenons and of one halved past another, mm.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub tongues: Vec<TongueRow>,
    /// The shoulders around it, mm.
    pub shoulders: ShouldersRow,
    /// The haunch, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub haunch: Option<HaunchRow>,
    /// The mitred end, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mitre: Option<MitreRow>,
    /// How it passes other tenons in its host.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub corners: Vec<CornerRow>,
    /// The wedges, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wedges: Option<WedgesRow>,
    /// The loose tenon, the dowels or the wedges as pieces, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub inserts: Option<InsertRow>,
    /// The mortise, mm.
    pub mortise: MortiseRow,
    /// The pegs of one joint.
    pub pegs: Vec<PegRow>,
    /// Angles, degrees.
    pub angles: Angles,
    /// Why it has these measures.
    pub rule: Vec<Rule>,
}

/// The joint list, in the order of the joints.
pub fn joint_list(chair: &Chair) -> Vec<JointRow> {
    let mut rows: Vec<JointRow> = Vec::new();
    // The left half repeats the right one; a part across the middle has its twin joint there too.
    for joint in chair.joints.iter().filter(|j| j.is_right()) {
        let row = row(chair, joint);
        match rows.iter_mut().find(|r| r.is_like(&row)) {
            Some(same) => same.join(row),
            None => rows.push(told(row, joint)),
        }
    }
    rows
}

impl JointRow {
    /// Whether two joints are cut to the same settings; where in the host they stand may differ.
    fn is_like(&self, other: &Self) -> bool {
        let cut = |m: &MortiseRow| (m.depth, m.width, m.thickness, m.glue_gap);
        (&self.name, &self.letter_guest, &self.letter_host)
            == (&other.name, &other.letter_guest, &other.letter_host)
            && (&self.tenon, &self.shoulders, &self.angles) == (&other.tenon, &other.shoulders, &other.angles)
            && (&self.haunch, &self.mitre) == (&other.haunch, &other.mitre)
            && cut(&self.mortise) == cut(&other.mortise)
            && (self.kind, &self.tongues, &self.wedges) == (other.kind, &other.tongues, &other.wedges)
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

/// The row with all that is told of joints that are alike in words.
fn told(row: JointRow, joint: &Joint) -> JointRow {
    JointRow {
        why: joint.why.clone(),
        given_way: joint.given_way.clone(),
        corners: joint.corners.iter().map(rows::corner).collect(),
        inserts: rows::inserts(joint),
        rule: rules::of(joint),
        ..row
    }
}

/// The row with what tells whether joints are alike.
fn row(chair: &Chair, joint: &Joint) -> JointRow {
    let letter = |id: PartId| chair.letter(id).to_owned();
    let (tenon, mortise) = (&joint.tenon, &joint.mortise);
    JointRow {
        name: say!("{} in {}", joint.guest.role.name(), joint.host.role.name()),
        host: joint.host.role.name(),
        guest: joint.guest.role.name(),
        letter_host: letter(joint.host),
        letter_guest: letter(joint.guest),
        quantity: if joint.in_the_middle() { 1 } else { 2 },
        kind: joint.kind,
        kind_name: joint.kind.name(),
        why: String::new(),
        given_way: None,
        tenon: TenonRow {
            length: tenths(tenon.length),
            width: tenths(tenon.width),
            thickness: tenths(tenon.thickness),
        },
        tongues: rows::tongues(joint),
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
        corners: Vec::new(),
        wedges: rows::wedges(joint),
        inserts: None,
        mortise: MortiseRow {
            depth: tenths(mortise.depth),
            width: tenths(mortise.width),
            thickness: tenths(mortise.thickness),
            glue_gap: tenths(mortise.glue_gap),
            wall: tenths(mortise.wall),
            from_end: tenths(mortise.from_end),
            above_floor: above_floor(joint),
        },
        pegs: joint.pegs.iter().map(rows::peg).collect(),
        angles: angles(chair, joint),
        rule: Vec::new(),
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
