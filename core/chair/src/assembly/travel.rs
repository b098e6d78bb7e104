//! How far parts move until their tenons are free.

use super::pieces::Pieces;
use crate::joint::Joint;
use crestrail_geometry::Vec3;

/// Tenons nearly along the host's face would be endless, as a share of a tenon across it.
const LEAST_SLANT: f64 = 0.05;

/// The least travel along a direction that takes a tenon out of its host, or the host off it, mm:
/// until its last corner has passed the plane of the host's face.
pub(super) fn of_joint(joint: &Joint, direction: Vec3) -> f64 {
    let (w, t) = (joint.tenon.width / 2.0, joint.tenon.thickness / 2.0);
    let corners = [(w, t), (w, -t), (-w, -t), (-w, t)].map(|(y, z)| Vec3::new(joint.tenon.length, y, z));
    let inside = corners.map(|c| -joint.face.distance(joint.mouth.point(c)));
    let rate = joint.face.normal.dot(direction).abs().max(LEAST_SLANT);
    inside.into_iter().fold(0.0, f64::max) / rate
}

/// The least travel that frees all joints between two sets, mm.
pub(super) fn between(pieces: &Pieces<'_>, movers: &[usize], others: &[usize], direction: Vec3) -> f64 {
    let (moves, stands) = (pieces.marked(movers), pieces.marked(others));
    let parted = |a: usize, b: usize| (moves[a] && stands[b]) || (moves[b] && stands[a]);
    let tenons = pieces.joints.iter().filter(|h| parted(h.guest, h.host));
    let tenons = tenons.map(|held| of_joint(held.joint, direction));
    let dowels = pieces.joints.iter().flat_map(|h| h.dowels.iter().map(move |&d| (h, d)));
    let dowels = dowels.flat_map(|(h, d)| {
        let [host, guest] = pieces.reach(h, d);
        let rate = h.joint.face.normal.dot(direction).abs().max(LEAST_SLANT);
        [(h.host, host), (h.guest, guest)].map(|(in_, deep)| if parted(d, in_) { deep / rate } else { 0.0 })
    });
    tenons.chain(dowels).fold(0.0, f64::max)
}
