//! What timber of the host stays around a mortise.

use super::block::Block;
use super::draft::{Draft, along_face, reach};
use crate::unbuildable::Unbuildable;
use crestrail_geometry::{Plane, Vec3};

/// The face of the host at which a tenon that goes straight on comes out.
pub(super) fn far_face(draft: &Draft<'_>) -> Option<Plane> {
    let inside = draft.mouth.point(Vec3::X * 1e-3);
    draft.site.host.exit(inside, draft.mouth.x).map(|exit| exit.face)
}

/// The thinnest timber beside the mortise, and behind it unless it goes through.
pub(super) fn wall(draft: &Draft<'_>, hole: &Block, through: bool) -> Result<f64, Unbuildable> {
    let (half, host) = (hole.high.z, reach(&draft.site, draft.mouth.origin, draft.mouth.x)?);
    let mut least = if through { f64::INFINITY } else { host - hole.high.x };
    for depth in [1.0, hole.high.x.min(host) - 1.0] {
        let at = draft.mouth.point(Vec3::X * depth);
        // Measured in the direction of the host's face, which a slanting mortise is not square to.
        let way = along_face(&draft.site, draft.mouth.z);
        for way in [way, -way] {
            let square = way.dot(draft.mouth.z).abs();
            least = least.min(reach(&draft.site, at, way)? * square - half);
        }
    }
    Ok(least)
}

/// Timber between the mortise and the nearer end of the host.
pub(super) fn room_to_end(draft: &Draft<'_>, hole: &Block) -> Result<f64, Unbuildable> {
    let at = draft.mouth.point(Vec3::X);
    let along = along_face(&draft.site, draft.mouth.y);
    let up = reach(&draft.site, at, along)?;
    let down = reach(&draft.site, at, -along)?;
    Ok(up.min(down) - hole.high.y)
}
