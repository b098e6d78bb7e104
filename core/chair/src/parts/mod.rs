//! From the skeleton to parts: each piece of timber shoulder to shoulder.
//!
//! Right and middle parts are worked out; the left ones are their mirror images.

mod back;
mod legs;
mod seat;
mod stick;
mod underframe;

use crate::design::Design;
use crate::part::{Part, PartId, Role, Side};
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
        Self { id: self.id.mirrored(), place: self.place.mirrored_x(), ..self.clone() }
    }

    /// Where a line from `p` in the direction `d`, both in chair space, leaves the part's timber.
    pub fn exit(&self, p: Vec3, d: Vec3) -> Option<crestrail_geometry::Exit> {
        let exit = self.stock.exit(self.place.local_point(p), self.place.local_direction(d))?;
        Some(crestrail_geometry::Exit { face: self.place.plane(&exit.face), ..exit })
    }
}

fn id(role: Role, side: Side, number: usize) -> PartId {
    PartId { role, side, number: u16::try_from(number).unwrap_or(u16::MAX) }
}

/// What all parts of one role share.
struct Made<'a> {
    design: &'a Design,
    letter: String,
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
        }
    }
}
