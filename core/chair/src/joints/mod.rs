//! From parts to joints: every rail, stretcher and slat meets its leg in a mortise and tenon.

mod block;
mod cutters;
mod mitre;
mod pegging;
pub mod rules;
mod site;
mod tenoning;

pub(crate) use tenoning::section_knobs;

pub use cutters::{Bench, Cutters};

use crate::design::Design;
use crate::joint::{End, Joint, Peg};
use crate::meeting::Meeting;
use crate::part::{Part, Side};
use crate::unbuildable::Unbuildable;
use crestrail_geometry::Body;
use tenoning::{Draft, RailTenons};

/// The joints of the right half, and what could not be pegged.
pub fn right_joints(
    design: &Design,
    parts: &[Part],
    meetings: &[Meeting],
    bench: &Bench,
) -> Result<Vec<Joint>, Unbuildable> {
    let sites = site::sites(meetings, parts)?;
    let sized = |rails| {
        let each = sites.iter().map(|site| Draft::size(design, *site, bench, rails));
        let mut drafts = each.collect::<Result<Vec<_>, _>>()?;
        mitre::part_where_they_meet(&mut drafts)?;
        Ok(drafts)
    };
    let drafts = sized(RailTenons::Middle).or_else(|_: Unbuildable| sized(RailTenons::Outwards))?;
    let pegs = pegging::pegs(design, &drafts);
    drafts.iter().zip(pegs).map(|(draft, pegs)| draft.finish(design, pegs)).collect()
}

impl Joint {
    /// Whether the joint is its own mirror image: both parts stand in the middle and it lies between.
    pub fn in_the_middle(&self) -> bool {
        self.host.side == Side::Middle && self.guest.side == Side::Middle
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
        if let Some(mitre) = &mut twin.tenon.mitre {
            mitre.with = mitre.with.mirrored();
            mitre.plane = mitre.plane.mirrored_x();
        }
        twin.pegs = self.pegs.iter().map(Peg::mirrored).collect();
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

impl End {
    /// The other end of the same part.
    pub fn other(self) -> Self {
        match self {
            Self::Near => Self::Far,
            Self::Far => Self::Near,
        }
    }
}
