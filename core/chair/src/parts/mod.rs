//! From the skeleton to parts: each piece of timber shoulder to shoulder, and where its ends go.
//!
//! Right and middle parts are worked out; the left ones are their mirror images.

mod arms;
mod back;
mod legs;
mod maker;
mod rails;
mod seat;
mod stick;
mod stretchers;

use crate::design::Design;
use crate::housing::Housing;
use crate::meeting::Meeting;
use crate::part::Part;
use crate::skeleton::Skeleton;
use crestrail_geometry::Vec3;
use maker::Maker;

/// All right and middle parts of a design without their pegs and letters, and where they meet.
pub fn right_and_middle(design: &Design, lines: &Skeleton) -> Pieces {
    let (parts, meetings, housings) = (Vec::new(), Vec::new(), Vec::new());
    let mut maker = Maker { design, lines, parts, meetings, housings };
    legs::make(&mut maker);
    rails::make(&mut maker);
    stretchers::make(&mut maker);
    back::make(&mut maker);
    arms::make(&mut maker);
    seat::make(&mut maker);
    Pieces { parts: maker.parts, meetings: maker.meetings, housings: maker.housings }
}

/// Parts of the right half and the middle, and how they come together.
pub struct Pieces {
    /// The timber.
    pub parts: Vec<Part>,
    /// Where ends enter.
    pub meetings: Vec<Meeting>,
    /// What sits in grooves and slots.
    pub housings: Vec<Housing>,
}

impl Part {
    /// The same part on the other side of the chair.
    pub fn mirrored(&self) -> Self {
        Self { id: self.id.mirrored(), place: self.place.mirrored_x(), ..self.clone() }
    }

    /// Where a line from `p` in the direction `d`, both in chair space, leaves the part's timber.
    pub fn exit(&self, p: Vec3, d: Vec3) -> Option<crestrail_geometry::Exit> {
        let exit = self.stock.exit(self.place.local_point(p), self.place.local_direction(d))?;
        Some(crestrail_geometry::Exit { face: self.place.plane(&exit.face), ..exit })
    }
}
