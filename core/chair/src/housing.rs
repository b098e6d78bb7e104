//! Housings: grooves and slots that one part cuts into another without a tenon.

use crate::part::PartId;
use crestrail_geometry::Body;

/// What is cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Cut {
    /// A long recess in which an edge sits.
    Groove,
    /// A short recess that is longer than what sits in it, so that this can move.
    Slot,
    /// A piece sawn out of an edge or corner.
    Notch,
}

/// A recess in one part for the edge of another. Lengths in mm.
#[derive(Clone, Debug)]
pub struct Housing {
    /// The part that is cut.
    pub host: PartId,
    /// The part that sits in it.
    pub guest: PartId,
    /// What is cut.
    pub cut: Cut,
    /// Along the recess.
    pub length: f64,
    /// Across it.
    pub width: f64,
    /// Into the host.
    pub depth: f64,
    /// The space cut out of the host, in chair space.
    pub body: Body,
}

impl Housing {
    /// The same housing on the other side of the chair.
    pub fn mirrored(&self) -> Self {
        Self {
            host: self.host.mirrored(),
            guest: self.guest.mirrored(),
            body: self.body.mirrored_x(),
            ..self.clone()
        }
    }

    /// Whether both parts stand in the middle, so that the housing has no twin.
    pub fn in_the_middle(&self) -> bool {
        self.host.mirrored() == self.host && self.guest.mirrored() == self.guest
    }
}
