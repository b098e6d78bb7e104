//! What the parts are made from: plain bodies to add and to cut, and the joints between the parts,
//! so that another program can do the carving itself and compare.

use crestrail_chair::chair::Chair;
use crestrail_chair::drawing::shifts;
use crestrail_chair::housing::Housing;
use crestrail_chair::joint::{Joint, Kind, Way};
use crestrail_chair::part::Part;
use crestrail_geometry::{Body, Place, Plane, Vec3};
use serde::Serialize;

/// The whole answer; lengths mm, everything in chair space.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct Bodies {
    parts: Vec<PartRow>,
    joints: Vec<JointRow>,
}

/// A part is the union of `added` less the union of `cut`.
#[derive(Clone, Debug, Serialize)]
struct PartRow {
    part: String,
    added: Vec<BodyRow>,
    cut: Vec<BodyRow>,
    /// How far and where the part has moved at full spread.
    travel: [f64; 3],
}

#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "snake_case")]
enum BodyRow {
    /// All points inside the half-spaces n · p ≤ d, each told as `[nx, ny, nz, d]`.
    Planes(Vec<[f64; 4]>),
    /// An outline in the x–y plane of a frame, drawn along its z axis; the frame may be left-handed.
    /// What lies outside any of `clip` is cut away.
    Prism { frame: [[f64; 3]; 4], outline: Vec<[f64; 2]>, from: f64, to: f64, clip: Vec<[f64; 4]> },
}

#[derive(Clone, Debug, Serialize)]
struct JointRow {
    host: String,
    guest: String,
    /// Kind of joint, and the ways in which it passes others.
    kind: Kind,
    ways: Vec<Way>,
    /// Whether the tenon is one plain rectangle of the guest that ends inside its host.
    plain: bool,
    /// Origin and axes of the mouth: x into the host, y along the width, z through the thickness.
    mouth: [[f64; 3]; 4],
    /// The host's face, its normal out of the host.
    face: [f64; 4],
    length: f64,
    width: f64,
    thickness: f64,
    glue_gap: f64,
    /// Play of the tenon in width and in thickness, both sides together.
    play: [f64; 2],
    /// How far the haunch enters the host.
    haunch: Option<f64>,
    mitre: Option<MitreRow>,
}

#[derive(Clone, Debug, Serialize)]
struct MitreRow {
    with: String,
    short_length: f64,
    gap: f64,
}

/// The bodies of a chair.
pub(crate) fn bodies(chair: &Chair) -> Bodies {
    Bodies {
        parts: (chair.parts.iter().zip(shifts(chair)))
            .map(|(part, travel)| part_row(part, &chair.joints, &chair.housings, travel))
            .collect(),
        joints: chair.joints.iter().map(joint_row).collect(),
    }
}

fn part_row(part: &Part, joints: &[Joint], housings: &[Housing], travel: Vec3) -> PartRow {
    let (added, cut) = made_from(part, joints, housings);
    PartRow {
        part: part.id.to_string(),
        added: added.iter().map(body_row).collect(),
        cut: cut.iter().map(body_row).collect(),
        travel: vector(travel),
    }
}

/// What a part is the union of, and what is cut out of that, in chair space.
pub(crate) fn made_from(part: &Part, joints: &[Joint], housings: &[Housing]) -> (Vec<Body>, Vec<Body>) {
    let guest = || joints.iter().filter(|j| j.guest == part.id);
    let host = joints.iter().filter(|j| j.host == part.id);
    let either = joints.iter().filter(|j| j.host == part.id || j.guest == part.id);
    let added = [posed(&part.stock, &part.place)].into_iter();
    let cut = (host.flat_map(|j| &j.mortise.bodies))
        .chain(guest().flat_map(|j| &j.guest_cuts))
        .chain(housings.iter().filter(|h| h.host == part.id).map(|h| &h.body))
        .chain(either.flat_map(|j| j.pegs.iter().map(|peg| &peg.hole)));
    (added.chain(guest().flat_map(|j| j.tenon.bodies.iter().cloned())).collect(), cut.cloned().collect())
}

/// A body of a part's own frame, seen from outside.
fn posed(body: &Body, place: &Place) -> Body {
    match body {
        Body::Convex(planes) => Body::Convex(planes.iter().map(|p| place.plane(p)).collect()),
        Body::Prism(prism) => {
            let mut prism = prism.clone();
            prism.place = place.place(&prism.place);
            prism.clip = prism.clip.iter().map(|clip| place.plane(clip)).collect();
            Body::Prism(prism)
        }
    }
}

fn body_row(body: &Body) -> BodyRow {
    match body {
        Body::Convex(planes) => BodyRow::Planes(planes.iter().map(plane_row).collect()),
        Body::Prism(prism) => BodyRow::Prism {
            frame: frame(&prism.place),
            outline: prism.outline.iter().map(|p| [p.x, p.y]).collect(),
            from: prism.from,
            to: prism.to,
            clip: prism.clip.iter().map(plane_row).collect(),
        },
    }
}

fn plane_row(plane: &Plane) -> [f64; 4] {
    [plane.normal.x, plane.normal.y, plane.normal.z, plane.offset]
}

fn frame(place: &Place) -> [[f64; 3]; 4] {
    [place.origin, place.x, place.y, place.z].map(vector)
}

fn vector(v: Vec3) -> [f64; 3] {
    [v.x, v.y, v.z]
}

fn joint_row(joint: &Joint) -> JointRow {
    let (tenon, mortise) = (&joint.tenon, &joint.mortise);
    JointRow {
        host: joint.host.to_string(),
        guest: joint.guest.to_string(),
        kind: joint.kind,
        ways: joint.corners.iter().map(|corner| corner.way).collect(),
        plain: tenon.tongues.len() == 1 && !joint.kind.is_separate() && joint.wedging.is_none(),
        mouth: frame(&joint.mouth),
        face: plane_row(&joint.face),
        length: tenon.length,
        width: tenon.width,
        thickness: tenon.thickness,
        glue_gap: mortise.glue_gap,
        play: [mortise.width - tenon.width, mortise.thickness - tenon.thickness],
        haunch: tenon.haunch.map(|haunch| haunch.length),
        mitre: tenon.mitre.map(|mitre| MitreRow {
            with: mitre.with.to_string(),
            short_length: mitre.short_length,
            gap: mitre.gap,
        }),
    }
}
