//! What stays of the host around a mortise.

use super::draft::Draft;
use super::feel::{along_face, reach};
use crate::joint::Kind;
use crate::unbuildable::Unbuildable;
use crestrail_geometry::Vec3;

/// The thinnest timber beside and behind the mortise, mm; a through mortise has nothing behind it.
pub(super) fn wall(draft: &Draft<'_>) -> Result<f64, Unbuildable> {
    let (site, mouth) = (&draft.site, draft.mouth);
    let depth = draft.length() + draft.end_room();
    let mut least = f64::INFINITY;
    if draft.far.is_none() {
        least = reach(site, mouth.origin, mouth.x)? - depth;
    }
    let deepest = if draft.far.is_some() { draft.length() - 1.0 } else { depth - 1.0 };
    // Measured in the direction of the host's face, which a slanting mortise is not square to.
    let way = along_face(site, mouth.z);
    for x in [1.0, deepest] {
        for way in [way, -way] {
            let square = way.dot(mouth.z).abs();
            least = least.min(reach(site, mouth.point(Vec3::X * x), way)? * square - draft.cutter / 2.0);
        }
    }
    Ok(least)
}

/// Timber between the mortise and the nearer end of the host, mm.
pub(super) fn room_to_end(draft: &Draft<'_>) -> Result<f64, Unbuildable> {
    let at = draft.mouth.point(Vec3::X);
    let along = along_face(&draft.site, draft.mouth.y);
    let [low, high] = draft.across();
    let up = reach(&draft.site, at, along)? - high;
    let down = reach(&draft.site, at, -along)? + low;
    let play = if draft.kind == Kind::Dowels { 0.0 } else { draft.play() };
    Ok(up.min(down) - play)
}
