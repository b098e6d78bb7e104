//! From the skeleton to parts: each piece of timber shoulder to shoulder.
//!
//! Right and middle parts are worked out; the left ones are their mirror images.

mod back;
mod legs;
mod meetings;
mod seat;
mod stick;
mod underframe;

pub use meetings::meetings;

use crate::design::Design;
use crate::part::{Part, PartId, Release, Role, Side};
use crate::skeleton::Skeleton;
use crestrail_geometry::{Body, Place, Vec3};

/// All right and middle parts of a design without their pegs.
pub fn right_and_middle(design: &Design, lines: &Skeleton) -> Vec<Part> {
    let mut parts = vec![legs::front(design, lines), legs::back(design, lines)];
    parts.extend(underframe::rails(design, lines));
    parts.extend(underframe::stretchers(design, lines));
    parts.extend(back::slats(design, lines));
    parts.extend(seat::slats(design, lines));
    parts
}

impl Part {
    /// The same part on the other side of the chair.
    pub fn mirrored(&self) -> Self {
        Self {
            id: self.id.mirrored(),
            place: self.place.mirrored_x(),
            release: Release { travel: self.release.travel.mirrored_x() },
            ..self.clone()
        }
    }

    /// Where a line from `p` in the direction `d`, both in chair space, leaves the part's timber.
    pub fn exit(&self, p: Vec3, d: Vec3) -> Option<crestrail_geometry::Exit> {
        let exit = self.stock.exit(self.place.local_point(p), self.place.local_direction(d))?;
        Some(crestrail_geometry::Exit { face: self.place.plane(&exit.face), ..exit })
    }
}

/// How far groups of parts draw apart at full spread, mm: enough to see every tenon.
pub(crate) mod travel {
    use super::Vec3;

    /// The right side frame, sideways.
    pub(crate) const SIDE: Vec3 = Vec3::new(150.0, 0.0, 0.0);
    /// Front legs and what lies between them, forwards.
    pub(crate) const FRONT: Vec3 = Vec3::new(0.0, -130.0, 0.0);
    /// Back legs and what lies between them, backwards.
    pub(crate) const BACK: Vec3 = Vec3::new(0.0, 130.0, 0.0);
    /// The seat, upwards; clear of the rails and below the back slats.
    pub(crate) const SEAT: Vec3 = Vec3::new(0.0, 0.0, 120.0);
    /// Pegs, out of their holes.
    pub(crate) const PEG: f64 = 70.0;
}

fn id(role: Role, side: Side, number: usize) -> PartId {
    PartId { role, side, number: u16::try_from(number).unwrap_or(u16::MAX) }
}

/// What all parts of one role share.
struct Made<'a> {
    design: &'a Design,
    letter: String,
    travel: Vec3,
}

impl Made<'_> {
    fn part(self, id: PartId, place: Place, stock: Body, size: crate::part::Size, sawn: bool) -> Part {
        Part {
            id,
            letter: self.letter,
            species: self.design.species(),
            place,
            stock,
            size,
            sawn_to_outline: sawn,
            release: Release { travel: self.travel },
        }
    }
}
