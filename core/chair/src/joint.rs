//! Joints: the mortise and tenon where one part meets another.

use crate::part::{PartId, Role};
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

/// The kinds of joint, as they are made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// The tenon ends inside its host.
    Blind,
    /// A blind tenon with a haunch up to the host's end.
    Haunched,
    /// The tenon goes through its host and is wedged from outside.
    Through,
    /// The tenon has a shoulder on one face only.
    BareFaced,
    /// Two tenons one above the other.
    Twin,
    /// A separate tenon in two mortises.
    Loose,
    /// Two dowels.
    Dowels,
}

impl Kind {
    /// What a maker calls it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Blind => "blind tenon",
            Self::Haunched => "haunched tenon",
            Self::Through => "through tenon, wedged",
            Self::BareFaced => "bare-faced tenon",
            Self::Twin => "twin tenons",
            Self::Loose => "loose tenon",
            Self::Dowels => "pair of dowels",
        }
    }

    /// Whether the tenon is cut from the guest itself.
    pub fn of_the_guest(self) -> bool {
        !matches!(self, Self::Loose | Self::Dowels)
    }
}

/// What two tenons do that would run into each other inside one part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// Both end in a mitre.
    Mitred,
    /// Each goes on past the other with half of its height.
    Halved,
    /// One stands above the other.
    Staggered,
    /// They come from opposite sides and end before each other.
    EndToEnd,
    /// One ends before the cheek of the other.
    Stopped,
}

impl Way {
    /// What a maker calls it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Mitred => "mitred",
            Self::Halved => "halved past each other",
            Self::Staggered => "staggered in height",
            Self::EndToEnd => "end to end",
            Self::Stopped => "one stopped before the other",
        }
    }
}

/// How a tenon passes another one.
#[derive(Clone, Debug, PartialEq)]
pub struct Corner {
    /// The guest whose tenon it meets.
    pub with: PartId,
    /// The way that was taken.
    pub way: Way,
    /// Why this one.
    pub why: String,
    /// Every way that was weighed: the area of both tenons' cheeks, mm², or why it has no room.
    pub weighed: Vec<(Way, Result<f64, String>)>,
}

/// A tenon's stepped end: beyond the root only half of its height goes on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// From the shoulder to the step, mm.
    pub root: f64,
    /// Height that goes on, mm.
    pub width: f64,
    /// Whether the upper half goes on.
    pub upper: bool,
}

/// A piece of its own that belongs to a joint: a loose tenon, a dowel or a wedge.
#[derive(Clone, Debug)]
pub struct Insert {
    /// Which part it is.
    pub id: PartId,
    /// Its own frame in chair space, x along its length.
    pub place: Place,
    /// Length, width and thickness, mm.
    pub size: [f64; 3],
    /// Its timber in chair space.
    pub body: Body,
}

impl Insert {
    /// What it is.
    pub fn role(&self) -> Role {
        self.id.role
    }
}

/// A mortise and tenon: the guest's tenon goes into the host.
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
    /// The tenon.
    pub tenon: Tenon,
    /// The mortise.
    pub mortise: Mortise,
    /// Pegs through it.
    pub pegs: Vec<Peg>,
    /// How it is made.
    pub kind: Kind,
    /// Why it is made so.
    pub why: String,
    /// What was asked for and had no room.
    pub given_way: Option<String>,
    /// How it passes other tenons in its host.
    pub corners: Vec<Corner>,
    /// Loose tenons, dowels and wedges.
    pub inserts: Vec<Insert>,
    /// What is cut out of the guest: the mortise of a loose tenon, the holes of dowels.
    pub guest_cuts: Vec<Body>,
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
    /// The short tongue that fills the space up to the host's end.
    pub haunch: Option<Haunch>,
    /// The cut across its end where another tenon meets it.
    pub mitre: Option<Mitre>,
    /// The step behind which half of it goes on past another tenon.
    pub step: Option<Step>,
    /// Space between twin tenons, mm.
    pub gap: Option<f64>,
    /// Angle between the tenon and the guest's grain, radians.
    pub to_grain: f64,
    /// The timber of the tenon and haunch in chair space, one or two bodies.
    pub bodies: Vec<Body>,
}

impl Tenon {
    /// Length in the middle of the thickness, mm.
    pub fn middle_length(&self) -> f64 {
        self.mitre.map_or(self.length, |mitre| (self.length + mitre.short_length) / 2.0)
    }

    /// Area of both cheeks, where long grain is glued to long grain, mm².
    pub fn cheeks(&self) -> f64 {
        let whole = self.width - self.gap.unwrap_or_default();
        let past = self.step.map_or(0.0, |s| (self.length - s.root) * (whole - s.width));
        2.0 * (whole * self.middle_length() - past)
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
    /// How much nearer to the shoulder the hole in the tenon is bored than the hole in the host, mm;
    /// bodies show the joint drawn tight, where both lie in one line.
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
