//! Which parts meet where.

use crate::design::Design;
use crate::joint::End;
use crate::meeting::{JointGroup, Meeting, SHORT_GRAIN_LIMIT};
use crate::part::{Part, Role};
use crate::skeleton::Skeleton;
use crestrail_geometry::math::degrees;
use crestrail_geometry::{Plane, Vec3};

/// All meetings of the right half.
pub fn meetings(design: &Design, lines: &Skeleton, parts: &[Part]) -> Vec<Meeting> {
    let by_role = |role: Role| parts.iter().filter(move |p| p.id.role == role);
    let mut found = Vec::new();
    for (guest_role, host_role, end, face, peg_side) in pairs(design, lines) {
        for guest in by_role(guest_role) {
            for host in by_role(host_role) {
                let inward = inward(lines, guest, face);
                let group = group(guest_role);
                found.push(Meeting {
                    host: host.id,
                    guest: guest.id,
                    end,
                    face,
                    inward,
                    peg_side,
                    group,
                    width: None,
                    pegged: true,
                });
            }
        }
    }
    found
}

fn group(role: Role) -> JointGroup {
    match role {
        Role::SideStretcher | Role::CrossStretcher => JointGroup::Stretchers,
        Role::BackSlat => JointGroup::Back,
        _ => JointGroup::Rails,
    }
}

type Pair = (Role, Role, End, Plane, Vec3);

fn pairs(design: &Design, lines: &Skeleton) -> Vec<Pair> {
    let inside = |half: f64, leg: f64| Plane { normal: -Vec3::X, offset: leg - half };
    let front_inner = inside(lines.half_front, design.front_leg());
    let back_inner = inside(lines.half_back, design.back_leg_thickness());
    let front_back = Plane { normal: Vec3::Y, offset: lines.front_leg_back };
    let zone = Plane { normal: -Vec3::Y, offset: -lines.profile.zone_front };
    let stretcher = lines.stretcher_place(design);
    let stretcher_inner =
        stretcher.plane(&Plane { normal: -Vec3::Z, offset: design.stretcher_thickness() / 2.0 });
    vec![
        (Role::FrontRail, Role::FrontLeg, End::Far, front_inner, -Vec3::Y),
        (Role::SideRail, Role::FrontLeg, End::Near, front_back, Vec3::X),
        (Role::SideRail, Role::BackLeg, End::Far, zone, Vec3::X),
        (Role::BackRail, Role::BackLeg, End::Far, back_inner, Vec3::Y),
        (Role::SideStretcher, Role::FrontLeg, End::Near, front_back, Vec3::X),
        (Role::SideStretcher, Role::BackLeg, End::Far, lines.lower_front_face(), Vec3::X),
        (Role::CrossStretcher, Role::SideStretcher, End::Far, stretcher_inner, -Vec3::Z),
        (Role::BackSlat, Role::BackLeg, End::Far, back_inner, Vec3::Y),
    ]
}

/// The direction of a tenon. Parts of a side frame go together front to back and those between the
/// frames from side to side, so all tenons of a frame are parallel whatever the angle of its faces;
/// past the short-grain limit the side frame's tenons follow their rails instead.
fn inward(lines: &Skeleton, guest: &Part, face: Plane) -> Vec3 {
    let in_side_frame = matches!(guest.id.role, Role::SideRail | Role::SideStretcher);
    let along = match in_side_frame {
        false => Vec3::X,
        true if degrees(lines.taper.abs()) <= SHORT_GRAIN_LIMIT => Vec3::Y,
        true => lines.side_direction,
    };
    if along.dot(face.normal) < 0.0 { along } else { -along }
}
