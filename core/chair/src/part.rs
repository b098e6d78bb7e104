//! Parts: the pieces of timber, shoulder to shoulder, before any joint is cut.

use crate::material::Material;
use core::fmt;
use crestrail_geometry::{Body, Place};
use crestrail_phrases::word;
use serde::Serialize;

/// What a part does in the chair.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Leg in front, from the floor to the seat.
    FrontLeg,
    /// Leg behind, from the floor to the top of the back.
    BackLeg,
    /// Seat rail between the front legs.
    FrontRail,
    /// Seat rail from front leg to back leg.
    SideRail,
    /// Seat rail between the back legs.
    BackRail,
    /// Stretcher from front leg to back leg.
    SideStretcher,
    /// Stretcher between two side stretchers.
    CrossStretcher,
    /// Stretcher between front legs; the footrest of a high chair.
    FrontStretcher,
    /// Stretcher between back legs.
    BackStretcher,
    /// Horizontal slat of the back.
    BackSlat,
    /// Topmost rail of a back.
    CrestRail,
    /// Lower rail of a back.
    LowerBackRail,
    /// Upright lath between the rails of a back.
    Lath,
    /// Broad upright board between the rails of a back.
    Splat,
    /// Upright of the frame round a panel.
    Stile,
    /// Panel in grooves of the rails and stiles of a back.
    Panel,
    /// Post on the side rail that carries an arm.
    ArmPost,
    /// Arm.
    Arm,
    /// Slat of the seat.
    SeatSlat,
    /// Solid board of the seat.
    SeatBoard,
    /// Button that holds the board of the seat to a rail.
    Button,
    /// Strip inside a rail that carries a pad.
    Ledge,
    /// Plywood under a pad.
    PadBoard,
    /// Foam with its cover.
    Pad,
    /// Cord woven round the rails.
    Cord,
    /// Separate tenon in two mortises.
    LooseTenon,
    /// Dowel in two holes.
    Dowel,
    /// Wedge in the end of a through tenon.
    Wedge,
    /// Peg through a tenon.
    Peg,
}

impl Role {
    /// The name a maker uses for one such part.
    pub fn name(self) -> &'static str {
        match self {
            Self::FrontLeg => word("front leg"),
            Self::BackLeg => word("back leg"),
            Self::FrontRail => word("front rail"),
            Self::SideRail => word("side rail"),
            Self::BackRail => word("back rail"),
            Self::SideStretcher => word("side stretcher"),
            Self::CrossStretcher => word("cross stretcher"),
            Self::FrontStretcher => word("front stretcher"),
            Self::BackStretcher => word("back stretcher"),
            Self::BackSlat => word("back slat"),
            Self::CrestRail => word("crest rail"),
            Self::LowerBackRail => word("lower back rail"),
            Self::Lath => word("lath"),
            Self::Splat => word("splat"),
            Self::Stile => word("stile"),
            Self::Panel => word("panel"),
            Self::ArmPost => word("arm post"),
            Self::Arm => word("arm"),
            Self::SeatSlat => word("seat slat"),
            Self::SeatBoard => word("seat board"),
            Self::Button => word("button"),
            Self::Ledge => word("ledge"),
            Self::PadBoard => word("pad board"),
            Self::Pad => word("pad"),
            Self::Cord => word("woven cord"),
            Self::LooseTenon => word("loose tenon"),
            Self::Dowel => word("dowel"),
            Self::Wedge => word("wedge"),
            Self::Peg => word("peg"),
        }
    }

    /// Whether it holds a joint and is no piece of the frame: it is counted, and told apart by its number.
    pub fn is_small(self) -> bool {
        matches!(self, Self::LooseTenon | Self::Dowel | Self::Wedge | Self::Peg)
    }
}

/// On which side of the chair's middle plane a part stands, seen by somebody who faces its front.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// To the left (negative x): the mirror image of the right one.
    Left,
    /// Across the middle.
    Middle,
    /// To the right (positive x).
    Right,
}

/// Which one of the parts: role, side, and a number counted from the front or from below.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct PartId {
    /// What it does.
    pub role: Role,
    /// Where it stands.
    pub side: Side,
    /// 1 for the first of its role and side.
    pub number: u16,
}

impl PartId {
    /// The id of the same part on the other side; a middle part is its own mirror image.
    pub fn mirrored(self) -> Self {
        let side = match self.side {
            Side::Left => Side::Right,
            Side::Middle => Side::Middle,
            Side::Right => Side::Left,
        };
        Self { side, ..self }
    }
}

impl fmt::Display for PartId {
    /// Such as `back leg, left`, `front leg 2, right` or `seat slat 3`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.role.name())?;
        let rows = matches!(self.role, Role::BackSlat | Role::Lath | Role::Stile | Role::SeatSlat);
        let many = rows || matches!(self.role, Role::Button | Role::Ledge) || self.role.is_small();
        if many || self.number > 1 {
            write!(f, " {}", self.number)?;
        }
        match self.side {
            Side::Left => f.write_str(word(", left")),
            Side::Right => f.write_str(word(", right")),
            Side::Middle => Ok(()),
        }
    }
}

/// A piece of timber without its joints.
///
/// Its own frame (`place`): x along the length and the grain, y across the width, z through the
/// thickness. A left part is the right one mirrored, so both are measured alike.
#[derive(Clone, Debug)]
pub struct Part {
    /// Which part.
    pub id: PartId,
    /// Letter on the drawings and lists, shared by all parts that are made alike.
    pub letter: String,
    /// What it is made of.
    pub material: Material,
    /// Where the part stands in the chair.
    pub place: Place,
    /// The timber in the part's own frame, shoulder to shoulder.
    pub stock: Body,
    /// The range of y, in the part's own frame, that is timber over the whole thickness: less than the
    /// width where an edge is bevelled. Tenons keep within it.
    pub core: [f64; 2],
    /// Size along x, y and z of the part's own frame, shoulder to shoulder at the longest corner, mm.
    pub size: Size,
    /// Whether it is sawn to a curve from a plank, not straight from a stick.
    pub sawn_to_outline: bool,
}

/// Length along the grain, width and thickness, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Size {
    /// Along the grain.
    pub length: f64,
    /// The larger size across the grain.
    pub width: f64,
    /// The smaller size across the grain.
    pub thickness: f64,
}
