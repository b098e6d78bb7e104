//! From parts to joints: every rail, stretcher and slat meets its host in a joint of a kind that has room.

mod block;
mod corner;
mod cutters;
mod draft;
mod inserts;
mod kinds;
mod pegging;
mod refusals;
mod round;
pub mod rules;
mod sections;
mod shape;
mod site;
mod walls;

pub(crate) use pegging::can_be_pegged;
pub(crate) use sections::section_knobs;

pub use cutters::{Bench, Cutters};

use crate::design::Design;
use crate::joint::{Corner, End, Insert, Joint, Peg};
use crate::meeting::Meeting;
use crate::part::{Part, Side};
use crate::unbuildable::Unbuildable;
use crestrail_geometry::Body;
use draft::{Draft, RailTenons, Sizing};
use site::Site;

/// Ways to size all joints, tried in this order: where the tenons of the rails stand, and the widest
/// mortise, mm. Tenons set outwards reach deeper before they meet in a leg, and so do thinner ones.
const TRIES: [(RailTenons, f64); 7] = [
    (RailTenons::Middle, f64::INFINITY),
    (RailTenons::Outwards, f64::INFINITY),
    (RailTenons::Middle, 9.0),
    (RailTenons::Outwards, 9.0),
    (RailTenons::Middle, 6.0),
    (RailTenons::Outwards, 6.0),
    (RailTenons::Outwards, 5.0),
];

/// The joints of the right half and the middle.
pub fn right_joints(
    design: &Design,
    parts: &[Part],
    meetings: &[Meeting],
    bench: &Bench,
) -> Result<Vec<Joint>, Unbuildable> {
    let sites = site::sites(meetings, parts)?;
    let mut first = None;
    for (rails, widest) in TRIES {
        match joints(&sites, &Sizing { design, bench, rails, widest }) {
            Ok(joints) => return Ok(joints),
            Err(clash) => first = first.or(Some(clash)),
        }
    }
    Err(first
        .unwrap_or_else(|| Unbuildable::new(crate::unbuildable::Stage::Joints, &[], "No joint was tried.")))
}

fn joints(sites: &[Site<'_>], sizing: &Sizing<'_>) -> Result<Vec<Joint>, Unbuildable> {
    let each = sites.iter().map(|site| Draft::size(*site, sizing));
    let mut drafts = each.collect::<Result<Vec<_>, _>>()?;
    keep_out_of_guests(&mut drafts, sizing)?;
    corner::part_where_they_meet(sizing.design, &mut drafts)?;
    let pegs = pegging::pegs(sizing.design, &drafts);
    let mut numbers = inserts::Numbers::default();
    let each = drafts.iter().zip(pegs);
    each.map(|(draft, pegs)| shape::finish(draft, sizing.design, pegs, &mut numbers)).collect()
}

/// A loose tenon or dowel that would run into a mortise cut in its own guest becomes a tenon.
fn keep_out_of_guests(drafts: &mut [Draft<'_>], sizing: &Sizing<'_>) -> Result<(), Unbuildable> {
    for i in 0..drafts.len() {
        let Some(inside) = drafts[i].block_in_guest() else { continue };
        let guest = drafts[i].site.guest.id;
        let hosted = drafts.iter().filter(|d| d.site.host.id == guest);
        if hosted.flat_map(Draft::all_blocks).any(|block| block.grown(rules::MITRE_GAP).overlaps(&inside)) {
            let why = format!(
                "A {} was asked for. It would run into another joint in the {}.",
                drafts[i].kind.name(),
                guest.role.name()
            );
            drafts[i] = Draft::by_rule(drafts[i].site, sizing, why)?;
        }
    }
    Ok(())
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
        twin.inserts = self.inserts.iter().map(Insert::mirrored).collect();
        twin.guest_cuts = self.guest_cuts.iter().map(Body::mirrored_x).collect();
        let mirrored = |corner: &Corner| Corner { with: corner.with.mirrored(), ..corner.clone() };
        twin.corners = self.corners.iter().map(mirrored).collect();
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
