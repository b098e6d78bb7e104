//! What a chair is charged by: quantities that anybody can measure on it.

use crate::joint::Kind;
use crate::money::Money;

/// A quantity of a chair that has a selling rate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Work {
    /// The chair itself: setting up for what every chair needs.
    Chair,
    /// A part that is sawn and planed: laying out, crosscutting.
    Part,
    /// A metre of its rough length: ripping, planing.
    Metre,
    /// A metre of curved edge.
    Curve,
    /// A joint of a kind, cut and fitted dry.
    Joint(Kind),
    /// A metre of groove.
    Groove,
    /// A notch or slot.
    Notch,
    /// A stage of gluing up.
    GlueUp,
    /// A peg, made and driven.
    Peg,
    /// A dowel.
    Dowel,
    /// A metre of rod for pegs and dowels.
    Rod,
    /// A square metre in sight: scraped, sanded and finished.
    Surface,
    /// A square metre of glued cheeks.
    Glued,
    /// A slat of the seat with its screws.
    SeatSlat,
    /// A solid seat.
    SeatBoard,
    /// A button with its screw.
    Button,
    /// A ledge.
    Ledge,
    /// A screw of a ledge.
    LedgeScrew,
    /// A pad.
    Pad,
    /// A square metre of plywood.
    Plywood,
    /// A square metre of foam.
    Foam,
    /// A square metre of cover.
    Cover,
    /// A metre of cord, woven.
    Cord,
}

/// What a work is sold at, in the finer decimals of the sheet's currency.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WorkRate {
    /// For what.
    pub work: Work,
    /// For each unit.
    pub each: Money,
    /// Once for a chair that has any of it, made alone.
    pub once: Money,
}

impl Work {
    /// All, with their names in files.
    pub const NAMES: &'static [(&'static str, Self)] = &[
        ("chair", Self::Chair),
        ("part", Self::Part),
        ("metre", Self::Metre),
        ("curve", Self::Curve),
        ("joint.blind", Self::Joint(Kind::Blind)),
        ("joint.haunched", Self::Joint(Kind::Haunched)),
        ("joint.through", Self::Joint(Kind::Through)),
        ("joint.bare_faced", Self::Joint(Kind::BareFaced)),
        ("joint.twin", Self::Joint(Kind::Twin)),
        ("joint.loose", Self::Joint(Kind::Loose)),
        ("joint.dowels", Self::Joint(Kind::Dowels)),
        ("groove", Self::Groove),
        ("notch", Self::Notch),
        ("glue_up", Self::GlueUp),
        ("peg", Self::Peg),
        ("dowel", Self::Dowel),
        ("rod", Self::Rod),
        ("surface", Self::Surface),
        ("glued", Self::Glued),
        ("seat_slat", Self::SeatSlat),
        ("seat_board", Self::SeatBoard),
        ("button", Self::Button),
        ("ledge", Self::Ledge),
        ("ledge_screw", Self::LedgeScrew),
        ("pad", Self::Pad),
        ("plywood", Self::Plywood),
        ("foam", Self::Foam),
        ("cover", Self::Cover),
        ("cord", Self::Cord),
    ];

    /// Its name in files.
    pub fn name(self) -> &'static str {
        Self::NAMES.iter().find(|(_, work)| *work == self).map_or("", |(name, _)| name)
    }
}
