//! From parts and joints to finished bodies.

use crate::chair::{Chair, PartBody, place_in};
use crate::housing::Housing;
use crate::joint::Joint;
use crate::part::{Part, Side};
use crate::unbuildable::{Stage, Unbuildable};
use crestrail_geometry::{Body, CarveError, Place, Solid, carve};
use crestrail_phrases::say;
use known::Carved;

mod known;

/// The body of each part, in the same order; `parts` are sorted by their ids.
pub fn bodies(parts: &[Part], joints: &[Joint], housings: &[Housing]) -> Result<Vec<PartBody>, Unbuildable> {
    mirrored(parts, |part| finished(part, joints, housings))
}

/// The body that `own` gives each part, in the same order. A left part shares the solid of its right twin, which must
/// stand somewhere in `parts`, sorted by their ids.
pub(crate) fn mirrored(
    parts: &[Part],
    own: impl Fn(&Part) -> Result<PartBody, Unbuildable>,
) -> Result<Vec<PartBody>, Unbuildable> {
    let right = |part: &Part| (part.id.side != Side::Left).then(|| own(part)).transpose();
    let bodies = parts.iter().map(right).collect::<Result<Vec<_>, _>>()?;
    let twin = |part: &Part| {
        let body = bodies[place_in(parts, part.id.mirrored())?].as_ref()?;
        Some(PartBody { centre: body.centre.mirrored_x(), ..body.clone() })
    };
    let all = parts.iter().zip(&bodies).map(|(part, own)| {
        own.clone().or_else(|| twin(part)).ok_or_else(|| not_closed(part, "its right twin is missing"))
    });
    all.collect()
}

fn finished(part: &Part, joints: &[Joint], housings: &[Housing]) -> Result<PartBody, Unbuildable> {
    let (added, cut) = all_cuts(part, joints, housings);
    let Carved { solid, volume, surface, centre } =
        known::carved(added, cut).map_err(|error| not_closed(part, &error.to_string()))?;
    Ok(PartBody { solid, volume, surface, centre: part.place.point(centre) })
}

/// What is left of a finished part, in its own frame, without the bodies `beyond`, which are told in chair space; `None` where
/// nothing is.
pub(crate) fn windowed(chair: &Chair, part: &Part, beyond: &[Body]) -> Result<Option<Solid>, Unbuildable> {
    let (added, mut cut) = all_cuts(part, &chair.joints, &chair.housings);
    cut.extend(beyond.iter().map(|body| body.local_to(&part.place)));
    match carve(&added, &cut) {
        Ok(solid) => Ok(Some(solid)),
        Err(CarveError::Nothing) => Ok(None),
        Err(error) => Err(not_closed(part, &error.to_string())),
    }
}

/// All that a part is made from, in its own frame, so exact that parts made alike are alike to the last bit.
fn all_cuts(part: &Part, joints: &[Joint], housings: &[Housing]) -> (Vec<Body>, Vec<Body>) {
    let (mut added, mut cut) = timber_and_cuts(part, joints);
    let own = housings.iter().filter(|housing| housing.host == part.id);
    cut.extend(own.map(|housing| housing.body.local_to(&part.place)));
    added.iter_mut().chain(&mut cut).for_each(Body::on_grid);
    (added, cut)
}

/// The timber of a part with its tenons, and what is cut out of it, in the part's own frame.
fn timber_and_cuts(part: &Part, joints: &[Joint]) -> (Vec<Body>, Vec<Body>) {
    let own = |bodies: &[Body], place: &Place| bodies.iter().map(|b| b.local_to(place)).collect::<Vec<_>>();
    let mut added = vec![part.stock.clone()];
    let mut cut = Vec::new();
    for joint in joints.iter().filter(|joint| joint.host == part.id || joint.guest == part.id) {
        if joint.guest == part.id {
            added.extend(own(&joint.tenon.bodies, &part.place));
            cut.extend(own(&joint.guest_cuts, &part.place));
        }
        if joint.host == part.id {
            cut.extend(own(&joint.mortise.bodies, &part.place));
        }
        cut.extend(joint.pegs.iter().map(|peg| peg.hole.local_to(&part.place)));
    }
    (added, cut)
}

pub(crate) fn not_closed(part: &Part, why: &str) -> Unbuildable {
    let knobs = crate::joints::section_knobs(part.id.role);
    Unbuildable::new(Stage::Solids, knobs, say!("The {} cannot be worked out: {why}.", part.id))
}
