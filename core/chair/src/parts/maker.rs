//! What makes the parts: it gathers each with the meetings of its ends.

use crate::design::Design;
use crate::housing::Housing;
use crate::joint::End;
use crate::material::Material;
use crate::meeting::{JointGroup, Meeting};
use crate::part::{Part, PartId, Role, Side, Size};
use crate::skeleton::{Bay, Frame, Skeleton};
use crestrail_geometry::{Body, Place, Plane, Vec3};

/// Gathers parts and meetings of the right half and the middle.
pub(super) struct Maker<'a> {
    pub(super) design: &'a Design,
    pub(super) lines: &'a Skeleton,
    pub(super) parts: Vec<Part>,
    pub(super) meetings: Vec<Meeting>,
    pub(super) housings: Vec<Housing>,
}

/// The timber of a part in its own frame.
pub(super) struct Timber {
    pub(super) place: Place,
    pub(super) stock: Body,
    pub(super) size: Size,
    /// See [`Part::core`].
    pub(super) core: [f64; 2],
    /// See [`Part::sawn_to_outline`].
    pub(super) sawn: bool,
}

impl Timber {
    /// A part with nothing taken off its edges.
    pub(super) fn whole(place: Place, stock: Body, size: Size) -> Self {
        Self { place, stock, size, core: [-size.width / 2.0, size.width / 2.0], sawn: false }
    }
}

/// How an end enters its host.
#[derive(Clone, Copy)]
pub(super) struct Entry {
    pub(super) end: End,
    pub(super) host: PartId,
    /// The host's face, its normal pointing out of the host.
    pub(super) face: Plane,
    /// The line along which the tenon goes in, either way round.
    pub(super) way: Vec3,
    /// See [`Meeting::peg_side`].
    pub(super) peg_side: Vec3,
    pub(super) group: JointGroup,
    /// See [`Meeting::width`].
    pub(super) width: Option<f64>,
    pub(super) pegged: bool,
}

impl Maker<'_> {
    /// Adds a part of the design's timber.
    pub(super) fn add(&mut self, id: PartId, timber: Timber) {
        self.add_of(id, timber, Material::Timber(self.design.species()));
    }

    /// Adds a part of another material.
    pub(super) fn add_of(&mut self, id: PartId, timber: Timber, material: Material) {
        let Timber { place, stock, size, core, sawn } = timber;
        self.parts.push(Part {
            id,
            letter: String::new(),
            material,
            place,
            stock,
            core,
            size,
            sawn_to_outline: sawn,
        });
    }

    /// Lets an end of `guest` enter its host.
    pub(super) fn enter(&mut self, guest: PartId, entry: Entry) {
        let Entry { end, host, face, way, peg_side, group, width, pegged } = entry;
        let inward = if way.dot(face.normal) < 0.0 { way } else { -way };
        self.meetings.push(Meeting { host, guest, end, face, inward, peg_side, group, width, pegged });
    }

    /// Lets both ends of a piece across a bay enter the legs of the frames beside it. The left end of
    /// a piece across the middle is the mirror image of its right end.
    pub(super) fn across(&mut self, guest: PartId, bay: &Bay, legs: Role, ends: [Plane; 2], to: Across) {
        let lines = self.lines;
        let sides = [(End::Near, bay.near, ends[0]), (End::Far, Some(bay.far), ends[1])];
        for (end, frame, out) in sides {
            if let Some(frame) = frame {
                let host = leg_id(legs, &lines.frames[frame]);
                let Across { peg_side, group, width } = to;
                let face = out.flipped();
                self.enter(
                    guest,
                    Entry { end, host, face, way: Vec3::X, peg_side, group, width, pegged: true },
                );
            }
        }
    }
}

/// What the two ends of a piece across a bay share.
#[derive(Clone, Copy)]
pub(super) struct Across {
    pub(super) peg_side: Vec3,
    pub(super) group: JointGroup,
    pub(super) width: Option<f64>,
}

/// The id of a part.
pub(super) fn id(role: Role, side: Side, number: usize) -> PartId {
    PartId { role, side, number: u16::try_from(number).unwrap_or(u16::MAX) }
}

/// The id of a leg, or of what lies beside it in its frame.
pub(super) fn leg_id(role: Role, frame: &Frame) -> PartId {
    id(role, frame.side, frame.number)
}
