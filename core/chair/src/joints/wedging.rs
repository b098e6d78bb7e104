//! Wedges of through tenons: driven into saw kerfs from outside, they spread the tenon in its mortise. They lie
//! across the tenon's thickness, so that it spreads along the grain of the host and does not split it.

use super::draft::Draft;
use super::rules;
use crate::joint::{Tongue, Wedging};
use crestrail_geometry::{Body, Place, Plane, Vec3};

/// Play of a wedge in its slot on each side, mm: a choice of this program, to tell wedge and slot apart.
const PLAY: f64 = 0.02;

/// One wedge: its frame, size, timber and the slot it fills.
pub(super) struct Wedge {
    pub(super) place: Place,
    pub(super) size: [f64; 3],
    pub(super) body: Body,
    pub(super) slot: Body,
}

/// How the tenon is wedged; `None` unless it comes out.
pub(super) fn wedging(draft: &Draft<'_>) -> Option<Wedging> {
    draft.far?;
    let tongue = outer(draft)?;
    let length = (draft.length() * rules::KERF_SHARE).min(draft.length() - tongue.from - 2.0).floor();
    let thickness = (rules::WEDGE_TIP + length * rules::WEDGE_SLOPE).min(tongue.width() / 4.0);
    let two = tongue.width() >= rules::TWO_WEDGES;
    let count = if two { 2 } else { 1 };
    let flare = (thickness - rules::WEDGE_TIP) * count as f64 / 2.0;
    Some(Wedging { count, length, thickness, from_edge: two.then_some(tongue.width() / 4.0), flare })
}

/// The tongue that comes out.
fn outer<'a>(draft: &'a Draft<'_>) -> Option<&'a Tongue> {
    draft.tongues.iter().find(|t| t.to + 1e-6 >= draft.length())
}

/// The wedges from below.
pub(super) fn wedges(draft: &Draft<'_>) -> Vec<Wedge> {
    let (Some(wedging), Some(far), Some(tongue)) = (wedging(draft), draft.far, outer(draft)) else {
        return Vec::new();
    };
    let middles = match wedging.from_edge {
        Some(from_edge) => vec![tongue.y[0] + from_edge, tongue.y[1] - from_edge],
        None => vec![tongue.middle()],
    };
    middles.into_iter().map(|y| wedge(draft, &wedging, far, y)).collect()
}

fn wedge(draft: &Draft<'_>, wedging: &Wedging, far: Plane, y: f64) -> Wedge {
    let half = draft.half();
    let tip = draft.mouth.point(Vec3::new(draft.length() - wedging.length, y, 0.0));
    let place = Place::new(tip, draft.mouth.x, draft.mouth.z);
    let size = [wedging.length, 2.0 * half, wedging.thickness];
    let mut body = sides(&place, wedging, half, 0.0);
    body.push(far);
    let mut slot = sides(&place, wedging, half + 1.0, PLAY);
    slot.push(far.moved(5.0));
    Wedge { place, size, body: Body::Convex(body), slot: Body::Convex(slot) }
}

fn sides(place: &Place, wedging: &Wedging, half: f64, play: f64) -> Vec<Plane> {
    let slope = (wedging.thickness - rules::WEDGE_TIP) / 2.0 / wedging.length;
    let face = |way: f64| {
        Plane::through(Vec3::Z * (way * (rules::WEDGE_TIP / 2.0 + play)), Vec3::new(-slope, 0.0, way))
    };
    let flat = |normal: Vec3, offset: f64| Plane { normal, offset };
    [face(1.0), face(-1.0), flat(Vec3::Y, half), flat(-Vec3::Y, half), flat(-Vec3::X, play)]
        .iter()
        .map(|plane| place.plane(plane))
        .collect()
}
