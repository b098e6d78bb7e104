//! Meetings: which end of which part goes into which face of which other, and from where it is pegged.

use crate::joint::End;
use crate::part::PartId;
use crestrail_geometry::{Plane, Vec3};

/// The angle up to which a tenon is cut at an angle to its rail's grain, so that the mortise can be
/// square to the leg; past it the mortise follows the rail, degrees (common practice, no source).
pub const SHORT_GRAIN_LIMIT: f64 = 10.0;

/// Joints for which one choice of kind is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum JointGroup {
    /// Seat rails in legs.
    Rails,
    /// Stretchers in legs and in each other.
    Stretchers,
    /// Slats and rails of the back in the back legs.
    Back,
    /// Arms on posts and in back legs.
    Arms,
    /// What stands between the rails of the back: laths, splats.
    Fill,
}

/// A place where a part's end meets the face of another, on the right half of the chair.
#[derive(Clone, Copy, Debug)]
pub struct Meeting {
    /// The part that is entered.
    pub host: PartId,
    /// The part that enters.
    pub guest: PartId,
    /// The guest's end.
    pub end: End,
    /// The host's face, its normal pointing out of the host.
    pub face: Plane,
    /// Unit direction in which the tenon enters the host.
    pub inward: Vec3,
    /// The side from which the peg is driven; along or against the tenon's thickness.
    pub peg_side: Vec3,
    /// Which choice of kind it follows.
    pub group: JointGroup,
    /// The greatest width of the tenon that the host has room for, mm, where it is less than the guest's.
    pub width: Option<f64>,
    /// Whether it is pegged when the design asks for pegs.
    pub pegged: bool,
}
