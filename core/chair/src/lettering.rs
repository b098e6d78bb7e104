//! Letters: parts that are made alike share one; it stands on drawings and lists.
//!
//! A letter belongs to a role; where the parts of a role differ in size or joints, a number follows.

use crate::housing::{Cut, Housing};
use crate::joint::Joint;
use crate::part::{Part, Role};
use crestrail_geometry::{Body, Vec3};

/// Gives every part but pegs its letter.
pub(crate) fn letter(parts: &mut [Part], joints: &[Joint], housings: &[Housing]) {
    let makes: Vec<String> = parts.iter().map(|part| make(part, joints, housings)).collect();
    let roles: Vec<Role> = parts.iter().map(|part| part.id.role).collect();
    for (i, part) in parts.iter_mut().enumerate().filter(|(_, part)| part.letter.is_empty()) {
        let mut alike: Vec<&String> = Vec::new();
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

/// What one has to know to make a part: its size, its timber and its joints, to a hundredth of a mm.
fn make(part: &Part, joints: &[Joint], housings: &[Housing]) -> String {
    let mut make = format!(
        "{} {}",
        point(Vec3::new(part.size.length, part.size.width, part.size.thickness)),
        stock(&part.stock)
    );
    for joint in joints {
        let local = |v: Vec3| point(part.place.local_point(v));
        if joint.guest == part.id {
            let t = &joint.tenon;
            let size = point(Vec3::new(t.length, t.width, t.thickness));
            let kind = (joint.kind, joint.corners.iter().map(|c| c.way).collect::<Vec<_>>());
            let pegs = joint.pegs.len();
            make.push_str(&format!(" t{}{size}{kind:?}p{pegs}", local(joint.mouth.origin)));
            if let Some(haunch) = t.haunch {
                make.push_str(&format!("h{}", point(Vec3::new(haunch.length, haunch.width, 0.0))));
            }
        }
        if joint.host == part.id {
            let m = &joint.mortise;
            make.push_str(&format!(
                " m{}{}p{}",
                local(joint.mouth.origin),
                point(Vec3::new(m.depth, m.width, m.thickness)),
                joint.pegs.len()
            ));
        }
    }
    for housing in housings.iter().filter(|h| h.host == part.id && h.cut == Cut::Slot) {
        make.push_str(&format!(" s{}", stock(&housing.body.local_to(&part.place))));
    }
    make
}

fn stock(body: &Body) -> String {
    match body {
        Body::Convex(planes) => {
            planes.iter().map(|p| format!("{}{}", point(p.normal * 100.0), hundredths(p.offset))).collect()
        }
        Body::Prism(prism) => prism
            .outline
            .iter()
            .map(|p| point(Vec3::new(p.x, p.y, 0.0)))
            .chain(prism.clip.iter().map(|p| format!("{}{}", point(p.normal * 100.0), hundredths(p.offset))))
            .collect(),
    }
}

fn point(v: Vec3) -> String {
    format!("({},{},{})", hundredths(v.x), hundredths(v.y), hundredths(v.z))
}

fn hundredths(v: f64) -> i64 {
    (v * 100.0).round() as i64
}
