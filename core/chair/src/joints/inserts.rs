//! Pieces of their own that belong to a joint: loose tenons, dowels, wedges.

use super::block::Block;
use super::draft::Draft;
use super::{round, rules, walls};
use crate::joint::{Insert, Kind};
use crate::part::{PartId, Role, Side};
use crestrail_geometry::{Body, Place, Plane, Vec3};

/// How many pieces of each sort there are so far.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Numbers {
    loose: u16,
    dowels: u16,
    wedges: u16,
}

/// What a joint has beside tenon and mortise.
#[derive(Default)]
pub(super) struct Made {
    pub(super) inserts: Vec<Insert>,
    pub(super) guest_cuts: Vec<Body>,
}

/// Thickness of a wedge at its head and at its tip, mm, and how much of the tenon it enters (common
/// practice, no source: slim wedges over half to two thirds of the tenon's length).
const WEDGE_HEAD: f64 = 3.0;
const WEDGE_TIP: f64 = 0.8;
const WEDGE_SHARE: f64 = 0.6;

/// The pieces of a joint.
pub(super) fn of(draft: &Draft<'_>, glue_gap: f64, numbers: &mut Numbers) -> Made {
    match draft.kind {
        Kind::Loose => loose(draft, glue_gap, numbers),
        Kind::Dowels => dowels(draft, glue_gap, numbers),
        Kind::Through => wedges(draft, numbers),
        Kind::Blind | Kind::Haunched | Kind::BareFaced | Kind::Twin => Made::default(),
    }
}

fn id(draft: &Draft<'_>, role: Role, counter: &mut u16) -> PartId {
    *counter += 1;
    let middle = draft.site.host.id.side == Side::Middle && draft.site.guest.id.side == Side::Middle;
    PartId { role, side: if middle { Side::Middle } else { Side::Right }, number: *counter }
}

/// A loose tenon enters its guest as deep as its host.
fn loose(draft: &Draft<'_>, glue_gap: f64, numbers: &mut Numbers) -> Made {
    let block = draft.block();
    let deep = draft.length;
    let own = Block { low: Vec3::new(-deep, block.low.y, block.low.z), ..block };
    let play = draft.play();
    let (low, high) = (own.low, own.high);
    let hole = Block {
        low: Vec3::new(low.x - glue_gap, low.y - play, low.z - play),
        high: Vec3::new(draft.lead(), high.y + play, high.z + play),
        ..own
    };
    let mut body = own.body();
    if let Some(mitre) = draft.mitre {
        body = body.clipped(mitre.plane);
    }
    let size = [deep + draft.length, draft.width, draft.cutter - draft.fit];
    let place = draft.mouth.moved(draft.mouth.x * ((draft.length - deep) / 2.0));
    let insert = Insert { id: id(draft, Role::LooseTenon, &mut numbers.loose), place, size, body };
    Made { inserts: vec![insert], guest_cuts: vec![hole.body()] }
}

/// The frames of the two dowels at the joint's face.
fn places(draft: &Draft<'_>) -> [Place; 2] {
    let apart = (draft.width - draft.cutter) / 2.0;
    [-apart, apart].map(|y| draft.mouth.moved(draft.mouth.y * y))
}

/// The holes of the dowels in the host, `depth` mm deep.
pub(super) fn holes(draft: &Draft<'_>, depth: f64) -> Vec<Body> {
    places(draft).iter().map(|place| drilled(draft, place, rules::PEG_PLAY, [-draft.lead(), depth])).collect()
}

fn drilled(draft: &Draft<'_>, place: &Place, play: f64, [from, to]: [f64; 2]) -> Body {
    let end = |normal: Vec3, at: f64| place.plane(&Plane { normal, offset: at });
    let mut planes = round::round(place, draft.cutter, play);
    planes.extend([end(Vec3::X, to), end(-Vec3::X, -from)]);
    Body::Convex(planes)
}

fn dowels(draft: &Draft<'_>, glue_gap: f64, numbers: &mut Numbers) -> Made {
    let mut made = Made::default();
    let deep = draft.length;
    for place in places(draft) {
        let body = drilled(draft, &place, 0.0, [-deep, draft.length]);
        made.guest_cuts.push(drilled(draft, &place, rules::PEG_PLAY, [-deep - glue_gap, draft.lead()]));
        made.inserts.push(Insert {
            id: id(draft, Role::Dowel, &mut numbers.dowels),
            place: place.moved(place.x * ((draft.length - deep) / 2.0)),
            size: [deep + draft.length, draft.cutter, draft.cutter],
            body,
        });
    }
    made
}

/// Two wedges in saw cuts across the tenon, flush with its end.
fn wedges(draft: &Draft<'_>, numbers: &mut Numbers) -> Made {
    let Some(far) = walls::far_face(draft) else { return Made::default() };
    let mut made = Made::default();
    for y in [-draft.width / 4.0, draft.width / 4.0] {
        let place = draft.mouth.moved(draft.mouth.y * y);
        let head = draft.length;
        let tip = head * (1.0 - WEDGE_SHARE);
        let thickness = draft.cutter - draft.fit;
        let body = |play: f64, beyond: f64, ends: [Plane; 2]| {
            let slope = |up: f64| {
                let start = Vec3::new(head, up * (WEDGE_HEAD / 2.0 + play), 0.0);
                let rise = (WEDGE_HEAD - WEDGE_TIP) / 2.0 / (head - tip);
                place.plane(&Plane::through(start, Vec3::new(-rise, up, 0.0)))
            };
            let side = |z: f64| place.plane(&Plane { normal: Vec3::Z * z, offset: thickness / 2.0 + beyond });
            Body::Convex([vec![slope(1.0), slope(-1.0), side(1.0), side(-1.0)], ends.to_vec()].concat())
        };
        let end = |at: f64| place.plane(&Plane { normal: -Vec3::X, offset: -at });
        made.guest_cuts.push(body(rules::PEG_PLAY, 1.0, [end(tip - rules::PEG_BOTTOM), far.moved(1.0)]));
        made.inserts.push(Insert {
            id: id(draft, Role::Wedge, &mut numbers.wedges),
            place: place.moved(place.x * ((head + tip) / 2.0)),
            size: [head - tip, thickness, WEDGE_HEAD],
            body: body(0.0, 0.0, [end(tip), far]),
        });
    }
    made
}
