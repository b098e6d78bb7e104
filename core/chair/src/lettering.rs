//! Letters: parts that are made alike share one; it stands on drawings and lists.
//!
//! A letter belongs to a role; where the parts of a role differ in size or joints, a number follows.

use crate::housing::{Cut, Housing};
use crate::joint::Joint;
use crate::part::{Part, Role};
use crestrail_geometry::math::nearest;
use crestrail_geometry::{Body, Vec3};

/// Gives every part but pegs its letter.
pub(crate) fn letter(parts: &mut [Part], joints: &[Joint], housings: &[Housing]) {
    let makes: Vec<Vec<i64>> = parts.iter().map(|part| make(part, joints, housings)).collect();
    let roles: Vec<Role> = parts.iter().map(|part| part.id.role).collect();
    for (i, part) in parts.iter_mut().enumerate().filter(|(_, part)| part.letter.is_empty()) {
        let mut alike: Vec<&Vec<i64>> = Vec::new();
        for (make, _) in makes.iter().zip(&roles).filter(|(_, role)| **role == roles[i]) {
            if !alike.contains(&make) {
                alike.push(make);
            }
        }
        let place = alike.iter().position(|make| **make == makes[i]).unwrap_or_default();
        let letter = of(roles[i]);
        part.letter = if alike.len() > 1 { format!("{letter}{}", place + 1) } else { letter.to_owned() };
    }
}

/// The letter of a role.
pub(crate) fn of(role: Role) -> &'static str {
    match role {
        Role::FrontLeg => "A",
        Role::BackLeg => "B",
        Role::FrontRail => "C",
        Role::SideRail => "D",
        Role::BackRail => "E",
        Role::SideStretcher => "F",
        Role::CrossStretcher => "G",
        Role::BackSlat => "H",
        Role::SeatSlat | Role::SeatBoard | Role::PadBoard | Role::Cord => "J",
        Role::Button => "JB",
        Role::Ledge => "JL",
        Role::Pad => "JP",
        Role::Arm => "K",
        Role::ArmPost => "L",
        Role::FrontStretcher => "M",
        Role::BackStretcher => "N",
        Role::CrestRail => "R",
        Role::LowerBackRail => "S",
        Role::Lath => "U",
        Role::Splat => "V",
        Role::Stile => "X",
        Role::Panel => "W",
        Role::LooseTenon => "T",
        Role::Dowel => "Q",
        Role::Wedge => "Z",
        Role::Peg => "P",
    }
}

/// What one has to know to make a part: its size, its timber and its joints, to a hundredth of a mm. Every list in it follows
/// its length, and each joint or slot a figure that says which it is, so that two parts have the same figures only if they are alike.
fn make(part: &Part, joints: &[Joint], housings: &[Housing]) -> Vec<i64> {
    let mut make = point(Vec3::new(part.size.length, part.size.width, part.size.thickness)).to_vec();
    stock(&part.stock, &mut make);
    for joint in joints {
        let pegs = joint.pegs.len() as i64;
        let mouth = || point(part.place.local_point(joint.mouth.origin));
        if joint.guest == part.id {
            let t = &joint.tenon;
            make.extend([GUEST, joint.kind as i64, pegs, joint.corners.len() as i64]);
            make.extend(joint.corners.iter().map(|corner| corner.way as i64));
            make.extend(mouth());
            make.extend(point(Vec3::new(t.length, t.width, t.thickness)));
            let haunch = t.haunch.map_or([-1.0; 2], |haunch| [haunch.length, haunch.width]);
            make.extend(haunch.map(hundredths));
        }
        if joint.host == part.id {
            let m = &joint.mortise;
            make.extend([HOST, pegs]);
            make.extend(mouth());
            make.extend(point(Vec3::new(m.depth, m.width, m.thickness)));
        }
    }
    for housing in housings.iter().filter(|h| h.host == part.id && h.cut == Cut::Slot) {
        make.push(SLOT);
        stock(&housing.body.local_to(&part.place), &mut make);
    }
    make
}

const GUEST: i64 = 1;
const HOST: i64 = 2;
const SLOT: i64 = 3;

fn stock(body: &Body, make: &mut Vec<i64>) {
    let (outline, planes) = match body {
        Body::Convex(planes) => (&[][..], planes),
        Body::Prism(prism) => (&*prism.outline, &prism.clip),
    };
    make.extend([outline.len() as i64, planes.len() as i64]);
    make.extend(outline.iter().flat_map(|p| [p.x, p.y].map(hundredths)));
    for plane in planes {
        make.extend(point(plane.normal * 100.0));
        make.push(hundredths(plane.offset));
    }
}

fn point(v: Vec3) -> [i64; 3] {
    [v.x, v.y, v.z].map(hundredths)
}

fn hundredths(v: f64) -> i64 {
    nearest(v * 100.0)
}
