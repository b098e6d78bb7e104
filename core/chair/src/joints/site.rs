//! Sites: the meetings of a chair with the two parts at hand.

use crate::joint::End;
use crate::meeting::{JointGroup, Meeting};
use crate::part::{Part, PartId, Side};
use crate::unbuildable::{Stage, Unbuildable};
use crestrail_geometry::{Plane, Vec3};
use crestrail_phrases::say;

/// A [`Meeting`] with its parts.
#[derive(Clone, Copy, Debug)]
pub(super) struct Site<'a> {
    pub(super) host: &'a Part,
    pub(super) guest: &'a Part,
    pub(super) end: End,
    /// See [`Meeting::face`].
    pub(super) face: Plane,
    /// See [`Meeting::inward`].
    pub(super) inward: Vec3,
    /// See [`Meeting::peg_side`].
    pub(super) peg_side: Vec3,
    pub(super) group: JointGroup,
    /// See [`Meeting::width`].
    pub(super) width: Option<f64>,
    pub(super) pegged: bool,
}

impl Site<'_> {
    /// Whether a joint of two parts in the middle of the chair must stand in the middle along `d`, because it is
    /// its own mirror image.
    pub(super) fn is_centred(&self, d: Vec3) -> bool {
        self.host.id.side == Side::Middle && self.guest.id.side == Side::Middle && d.x.abs() > 0.5
    }
}

/// The meetings in their order, each with its parts.
pub(super) fn sites<'a>(meetings: &[Meeting], parts: &'a [Part]) -> Result<Vec<Site<'a>>, Unbuildable> {
    meetings.iter().map(|meeting| site(meeting, parts)).collect()
}

fn site<'a>(meeting: &Meeting, parts: &'a [Part]) -> Result<Site<'a>, Unbuildable> {
    let Meeting { end, face, inward, peg_side, group, width, pegged, .. } = *meeting;
    let (host, guest) = (find(parts, meeting.host)?, find(parts, meeting.guest)?);
    Ok(Site { host, guest, end, face, inward, peg_side, group, width, pegged })
}

fn find(parts: &[Part], id: PartId) -> Result<&Part, Unbuildable> {
    let missing = || Unbuildable::new(Stage::Joints, &[], say!("There is no {id} to be joined."));
    parts.iter().find(|part| part.id == id).ok_or_else(missing)
}
