//! Joints: the mortise and tenon where one part meets another.

mod corner;
mod kind;

pub use corner::{Corner, Way};
pub use kind::Kind;

use crate::part::PartId;
use crestrail_geometry::{Body, Place, Plane};

/// Which end of the guest part carries the tenon.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum End {
    /// The end at the smaller x of the guest's own frame.
    Near,
    /// The end at the larger x.
    Far,
}

/// A joint: the guest's tenon, or what stands for it, goes into the host.
#[derive(Clone, Debug)]
pub struct Joint {
    /// The part that holds the mortise.
    pub host: PartId,
    /// The part that carries the tenon.
    pub guest: PartId,
    /// Which end of the guest.
    pub end: End,
    /// The mouth of the mortise, in chair space: origin in the middle of the tenon where it enters
    /// the host's face, x into the host along the tenon, y along the tenon's width,
    /// z through its thickness.
    pub mouth: Place,
    /// The plane of the shoulders, in chair space: the host's face, its normal pointing out of the host.
    pub face: Plane,
    /// The kind of joint.
    pub kind: Kind,
    /// Why it is of this kind, as a sentence.
    pub why: String,
    /// What was wished and why it had to give way, as a sentence.
    pub given_way: Option<String>,
    /// What was done where it meets other tenons in the host.
    pub corners: Vec<Corner>,
    /// The tenon.
    pub tenon: Tenon,
    /// The mortise.
    pub mortise: Mortise,
    /// Pegs through it.
    pub pegs: Vec<Peg>,
    /// What is cut out of the guest, in chair space: slots for wedges, holes of dowels, the mortise of a loose tenon.
    pub guest_cuts: Vec<Body>,
    /// Loose tenons, dowels and wedges.
    pub inserts: Vec<Insert>,
    /// The wedges of a through tenon.
    pub wedging: Option<Wedging>,
}

/// A loose tenon, dowel or wedge: a part of its own.
#[derive(Clone, Debug)]
pub struct Insert {
    /// Which part it is.
    pub id: PartId,
    /// Its own frame in chair space, x along its grain and into the host.
    pub place: Place,
    /// Length, width and thickness in that frame, mm.
    pub size: [f64; 3],
    /// Its timber in chair space.
    pub body: Body,
}

/// How a through tenon is wedged; lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wedging {
    /// How many wedges.
    pub count: usize,
    /// Depth of the saw kerfs from the tenon's end, and length of the wedges.
    pub length: f64,
    /// Thickness of a wedge at the tenon's end.
    pub thickness: f64,
    /// From the tenon's edge to the middle of the kerf; `None` for a single one in the middle.
    pub from_edge: Option<f64>,
    /// How much longer the mortise is cut at each end on the far face, so that the wedged tenon spreads into it.
    pub flare: f64,
}

/// The tenon, measured along the mouth's axes; lengths in mm.
#[derive(Clone, Debug)]
pub struct Tenon {
    /// From the shoulder to the end, on the longer side if it is mitred.
    pub length: f64,
    /// Along the mouth's y axis.
    pub width: f64,
    /// Along the mouth's z axis.
    pub thickness: f64,
    /// Shoulders around it.
    pub shoulders: Shoulders,
    /// Its tongues from below: one, or two of a twin tenon, or the stub and the end of one halved past another.
    pub tongues: Vec<Tongue>,
    /// See [`Tenon::cheeks`].
    pub cheek_area: f64,
    /// The short tongue that fills the space up to the host's end.
    pub haunch: Option<Haunch>,
    /// The cut across its end where another tenon meets it.
    pub mitre: Option<Mitre>,
    /// Angle between the tenon and the guest's grain, radians.
    pub to_grain: f64,
    /// The timber of the tenon and haunch in chair space; none where a loose tenon or dowels stand for it.
    pub bodies: Vec<Body>,
}

/// A rectangular piece of a tenon in the plane of its cheeks, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tongue {
    /// From and to along the mouth's y axis.
    pub y: [f64; 2],
    /// Where it begins, from the shoulder: more than zero for the end of a tenon halved past another.
    pub from: f64,
    /// Where it ends, from the shoulder.
    pub to: f64,
}

impl Tongue {
    /// Along the mouth's y axis, mm.
    pub fn width(&self) -> f64 {
        self.y[1] - self.y[0]
    }

    /// Middle of its width.
    pub fn middle(&self) -> f64 {
        (self.y[0] + self.y[1]) / 2.0
    }
}

impl Tenon {
    /// Both cheeks together without the haunch, where long grain is glued to long grain, mm²; of dowels their round.
    pub fn cheeks(&self) -> f64 {
        self.cheek_area
    }

    /// Length in the middle of the thickness, mm.
    pub fn middle_length(&self) -> f64 {
        self.mitre.map_or(self.length, |mitre| (self.length + mitre.short_length) / 2.0)
    }
}

/// Width of the shoulders at the four sides of a tenon, mm; zero where it is bare-faced.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shoulders {
    /// At the larger y of the mouth (upwards for a rail).
    pub top: f64,
    /// At the smaller y.
    pub bottom: f64,
    /// At the larger z.
    pub front: f64,
    /// At the smaller z.
    pub back: f64,
}

/// A haunch: a short tongue between the tenon and the end of the host.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Haunch {
    /// How far it enters the host, mm.
    pub length: f64,
    /// From the tenon's edge to the end of the haunch, mm.
    pub width: f64,
}

/// A mitred tenon end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mitre {
    /// The guest whose tenon it meets.
    pub with: PartId,
    /// The plane of the cut, in chair space, its normal pointing away from this tenon.
    pub plane: Plane,
    /// Length of the tenon on its shorter side, mm.
    pub short_length: f64,
    /// Distance kept between the two tenon ends, mm.
    pub gap: f64,
}

/// The mortise, measured along the mouth's axes; lengths in mm.
#[derive(Clone, Debug)]
pub struct Mortise {
    /// From the host's face to its bottom.
    pub depth: f64,
    /// Along the mouth's y axis.
    pub width: f64,
    /// Along the mouth's z axis: the cutter.
    pub thickness: f64,
    /// Room left for glue between the tenon's end and the bottom.
    pub glue_gap: f64,
    /// The thinnest wall of the host beside the mortise.
    pub wall: f64,
    /// Timber of the host between the mortise and the host's nearer end.
    pub from_end: f64,
    /// The space cut out of the host, in chair space.
    pub bodies: Vec<Body>,
}

/// Shape of a peg's section.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PegShape {
    /// Turned or split round.
    Round,
    /// Square with the hole squared to match.
    Square,
}

/// A peg through host and tenon.
#[derive(Clone, Debug)]
pub struct Peg {
    /// Which part it is.
    pub id: PartId,
    /// Diameter, or side of the square, mm.
    pub size: f64,
    /// Section.
    pub shape: PegShape,
    /// From the host's face with the mortise to the peg's axis, along the mouth's x axis, mm.
    pub from_face: f64,
    /// From the middle of the tenon's width to the peg's axis, along the mouth's y axis, mm.
    pub from_middle: f64,
    /// How much nearer to the shoulder the hole in the tenon is bored than the hole in the host, mm; zero for a
    /// straight peg. A number to mark by: bodies show the joint drawn tight, where both holes stand in line.
    pub draw: f64,
    /// Its own frame in chair space: origin in the middle of the outer end, x along the hole
    /// into the host.
    pub place: Place,
    /// Length of the peg and depth of its hole, mm.
    pub length: f64,
    /// The peg, cut off flush with its host, in chair space.
    pub body: Body,
    /// The space of its hole in host and tenon, in chair space.
    pub hole: Body,
}
