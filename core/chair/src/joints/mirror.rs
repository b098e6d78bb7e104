//! The joints of the left half are mirror images of those of the right.

use crate::joint::{End, Insert, Joint, Peg};
use crate::part::Side;
use crestrail_geometry::Body;

impl Joint {
    /// Whether the joint is its own mirror image: both parts stand in the middle and it lies between.
    pub fn in_the_middle(&self) -> bool {
        self.host.side == Side::Middle && self.guest.side == Side::Middle
    }

    /// Whether it belongs to the right half or the middle: joints that are not are mirror images of those.
    pub fn is_right(&self) -> bool {
        self.host.side == Side::Right || (self.host.side == Side::Middle && self.guest.side != Side::Left)
    }

    /// The same joint on the other side of the chair.
    pub fn mirrored(&self) -> Self {
        let mut twin = self.clone();
        twin.host = self.host.mirrored();
        twin.guest = self.guest.mirrored();
        if twin.guest == self.guest {
            twin.end = self.end.other();
        }
        twin.mouth = self.mouth.mirrored_x();
        twin.face = self.face.mirrored_x();
        twin.tenon.bodies = self.tenon.bodies.iter().map(Body::mirrored_x).collect();
        twin.mortise.bodies = self.mortise.bodies.iter().map(Body::mirrored_x).collect();
        twin.guest_cuts = self.guest_cuts.iter().map(Body::mirrored_x).collect();
        if let Some(mitre) = &mut twin.tenon.mitre {
            mitre.with = mitre.with.mirrored();
            mitre.plane = mitre.plane.mirrored_x();
        }
        twin.corners.iter_mut().for_each(|corner| corner.with = corner.with.mirrored());
        twin.pegs = self.pegs.iter().map(Peg::mirrored).collect();
        twin.inserts = self.inserts.iter().map(Insert::mirrored).collect();
        twin
    }
}

impl Peg {
    fn mirrored(&self) -> Self {
        Self {
            id: self.id.mirrored(),
            place: self.place.mirrored_x(),
            body: self.body.mirrored_x(),
            hole: self.hole.mirrored_x(),
            ..self.clone()
        }
    }
}

impl Insert {
    fn mirrored(&self) -> Self {
        Self {
            id: self.id.mirrored(),
            place: self.place.mirrored_x(),
            body: self.body.mirrored_x(),
            ..self.clone()
        }
    }
}

impl End {
    /// The other end of the same part.
    pub fn other(self) -> Self {
        match self {
            Self::Near => Self::Far,
            Self::Far => Self::Near,
        }
    }
}
