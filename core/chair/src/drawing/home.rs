//! Thin lines that show where each part goes home.

use super::Scene;
use crate::chair::PartBody;
use crate::joint::{Joint, Peg};
use crate::part::{Part, Role};
use crestrail_geometry::{Plane, Vec3};
use crestrail_sheet::{Group, Item, Path, Stroke, Trace};

/// Lines shorter than this say nothing, mm.
const SHORTEST: f64 = 6.0;
/// Width, and lengths of dash, gap, dot, gap, in pixels at weight 1.
const WIDTH: f64 = 0.8;
const DASHES: [f64; 4] = [9.0, 3.0, 1.2, 3.0];

/// The visible stretches of all such lines.
pub(super) fn items(scene: &Scene<'_>) -> Option<Item> {
    let seen = ways(scene).into_iter().flat_map(|(from, to)| scene.picture.visible(from, to));
    let traces: Vec<Trace> = seen
        .map(|line| [line.p0, line.p1].map(|p| scene.frame.pixel(p)))
        .map(|points| Trace { points: points.to_vec(), closed: false })
        .collect();
    let weight = scene.frame.weight;
    let stroke = Stroke {
        opacity: 0.75,
        dashes: DASHES.map(|d| d * weight).to_vec(),
        ..Stroke::solid(scene.palette.ink, WIDTH * weight)
    };
    let path = Item::Path(Path { traces: traces.clone(), fill: None, stroke: Some(stroke) });
    let group = Group { data: vec![("layer", "ways".to_owned())], items: vec![path] };
    (!traces.is_empty()).then_some(Item::Group(group))
}

/// From the end of each tenon and peg to the mouth of its mortise or hole.
fn ways(scene: &Scene<'_>) -> Vec<(Vec3, Vec3)> {
    let shown = |joint: &&Joint| scene.stage.holds(joint.guest) && scene.stage.holds(joint.host);
    let joints = scene.chair.joints.iter().filter(shown);
    let all = joints.flat_map(|joint| {
        let pegs =
            joint.pegs.iter().filter(|peg| scene.stage.holds(peg.id)).map(|peg| peg_way(scene, joint, peg));
        core::iter::once(tenon_way(scene, joint)).chain(pegs)
    });
    all.chain(seat_ways(scene)).filter(|(from, to)| (*to - *from).length() > SHORTEST).collect()
}

fn tenon_way(scene: &Scene<'_>, joint: &Joint) -> (Vec3, Vec3) {
    let (guest, host) = (scene.stage.shift(joint.guest), scene.stage.shift(joint.host));
    let (mouth, inwards) = (joint.mouth.origin, joint.mouth.x);
    way(mouth + inwards * joint.tenon.middle_length() + guest, mouth + host, inwards)
}

fn peg_way(scene: &Scene<'_>, joint: &Joint, peg: &Peg) -> (Vec3, Vec3) {
    let (own, host) = (scene.stage.shift(peg.id), scene.stage.shift(joint.host));
    let (mouth, inwards) = (peg.place.origin, peg.place.x);
    way(mouth + inwards * peg.length + own, mouth + host, inwards)
}

/// From the first and the last slat of the seat down to their height, and aside to the rails on
/// which they lie.
fn seat_ways(scene: &Scene<'_>) -> Vec<(Vec3, Vec3)> {
    let shown = |part: &Part| scene.stage.holds(part.id);
    let of = |role: Role| scene.chair.pieces().filter(move |(part, _)| part.id.role == role && shown(part));
    let Some((first, last)) = of(Role::SeatSlat).next().zip(of(Role::SeatSlat).last()) else {
        return Vec::new();
    };
    let across = first.0.place.x.x.abs() > first.0.place.x.y.abs();
    let roles = if across { &[Role::SideRail][..] } else { &[Role::FrontRail, Role::BackRail] };
    let rails = || roles.iter().flat_map(|&role| of(role));
    let ends = [first, last];
    (ends.into_iter().flat_map(|slat| rails().map(move |rail| (slat, rail))))
        .filter_map(|(slat, rail)| {
            let rests = resting_place(slat, rail)?;
            let (up, aside) = (scene.stage.shift(slat.0.id), scene.stage.shift(rail.0.id));
            Some([(rests + up, rests), (rests, rests + aside)])
        })
        .flatten()
        .collect()
}

/// Where the middle line of a slat's underside crosses the middle line of a rail, seen from above, if
/// it does so within both.
fn resting_place(slat: (&Part, &PartBody), rail: (&Part, &PartBody)) -> Option<Vec3> {
    let (along, rail_along) = (slat.0.place.x, rail.0.place.x);
    let upright = Plane::through(rail.1.centre, rail_along.cross(Vec3::Z));
    let middle = upright.meet(slat.1.centre, along)?;
    let within = |(part, body): (&Part, &PartBody)| {
        let (bounds, x) = (body.solid.bounds(), part.place.local_point(middle).x);
        bounds.low.x <= x && x <= bounds.high.x
    };
    (within(slat) && within(rail)).then(|| middle - Vec3::Z * (slat.0.size.thickness / 2.0))
}

/// The way, or none while the end still is inside its mouth.
fn way(end: Vec3, mouth: Vec3, inwards: Vec3) -> (Vec3, Vec3) {
    if (mouth - end).dot(inwards) > 0.0 { (end, mouth) } else { (end, end) }
}
