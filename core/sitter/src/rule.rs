//! What a seat must leave the body, each with who says so.

use crate::{Mark, Measure, Range, Source};
use core::fmt;
use crestrail_phrases::phrase;

/// What shoes add to the height of the knee, mm.
pub const SHOE: f64 = 25.0;
/// A seat may be so much lower than the hollow of the knee in shoes before the thighs are no longer carried, mm.
const LOWER_SEAT: f64 = 20.0;
/// Free behind the knee, mm.
const BEHIND_KNEE: f64 = 50.0;
/// A seat is so much wider than the hips, mm.
const WIDER_THAN_HIPS: f64 = 25.0;
/// Arms stand so much further apart than the hips are wide, mm.
const ARMS_PAST_HIPS: f64 = 50.0;
/// Free between thigh and table, mm.
const OVER_THIGH: f64 = 15.0;

/// A size of a seat that a body has a say in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// Front edge of the seat above what the feet stand on, under the sitter's weight.
    SeatHeight,
    /// Front edge of the seat to the back.
    SeatDepth,
    /// Width of a seat without arms.
    SeatWidth,
    /// Clear width between the arms.
    BetweenArms,
    /// Top of the arms above the seat.
    ArmHeight,
    /// The part of the back that stands out most, above the seat.
    LumbarHeight,
    /// Seat to the top of the table.
    SeatToTable,
    /// Seat to the underside of the table or its rail.
    ThighRoom,
    /// Floor to the underside of the table or its rail.
    KneeRoom,
}

/// Which way a size is held to a measure of the body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Side {
    /// The size is at most the measure and `plus`; a seat for one person is at most `under` less than that, if given.
    AtMost { under: Option<f64> },
    /// The size is at least the measure and `plus`.
    AtLeast,
}

/// A size held to a measure of the body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Limit {
    pub(crate) measure: Measure,
    /// Added to the measure, mm.
    pub(crate) plus: f64,
    pub(crate) side: Side,
}

/// What a rule asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Asks {
    Body(Limit),
    /// The same for all adults.
    Size(Range),
}

const fn body(measure: Measure, plus: f64, side: Side) -> Asks {
    Asks::Body(Limit { measure, plus, side })
}

impl Rule {
    /// All rules.
    pub const ALL: [Self; 9] = [
        Self::SeatHeight,
        Self::SeatDepth,
        Self::SeatWidth,
        Self::BetweenArms,
        Self::ArmHeight,
        Self::LumbarHeight,
        Self::SeatToTable,
        Self::ThighRoom,
        Self::KneeRoom,
    ];

    /// What it asks of a seat for adults.
    pub(crate) fn asks(self) -> Asks {
        let at_most = Side::AtMost { under: None };
        match self {
            Self::SeatHeight => {
                body(Measure::PoplitealHeight, SHOE, Side::AtMost { under: Some(LOWER_SEAT) })
            }
            Self::SeatDepth => body(Measure::ButtockPoplitealLength, -BEHIND_KNEE, at_most),
            Self::SeatWidth => body(Measure::HipBreadth, WIDER_THAN_HIPS, Side::AtLeast),
            Self::BetweenArms => body(Measure::HipBreadth, ARMS_PAST_HIPS, Side::AtLeast),
            Self::ArmHeight => body(Measure::ElbowRestHeight, 0.0, at_most),
            Self::LumbarHeight => Asks::Size(Range::between(180.0, 250.0)),
            Self::SeatToTable => Asks::Size(Range::between(270.0, 300.0)),
            Self::ThighRoom => body(Measure::ThighClearance, OVER_THIGH, Side::AtLeast),
            Self::KneeRoom => body(Measure::KneeHeight, SHOE, Side::AtLeast),
        }
    }

    /// The measure of the body it looks at, if any.
    pub fn measure(self) -> Option<Measure> {
        match self.asks() {
            Asks::Body(limit) => Some(limit.measure),
            Asks::Size(_) => None,
        }
    }

    /// The rule in plain words, with its figures.
    pub fn says(self) -> &'static str {
        match self {
            Self::SeatHeight => {
                "The feet stand flat when the seat is no higher than the hollow of the knee with 25 mm of shoe; for one \
                 person it is at most 20 mm lower than that."
            }
            Self::SeatDepth => "50 mm stay free between the front of the seat and the hollow of the knee.",
            Self::SeatWidth => "The seat is 25 mm wider than the hips.",
            Self::BetweenArms => "The arms are 50 mm further apart than the hips are wide.",
            Self::ArmHeight => {
                "The arms are no higher than the bent elbow, so that they do not lift the shoulders."
            }
            Self::LumbarHeight => {
                "The back supports the small of the back 180 to 250 mm above the seat, usually at 200."
            }
            Self::SeatToTable => "The top of the table is 270 to 300 mm above the seat.",
            Self::ThighRoom => "15 mm stay free between the thigh and the table above it.",
            Self::KneeRoom => "The knee, with 25 mm of shoe, goes under the table.",
        }
    }

    /// Who says so.
    pub fn source(self) -> Source {
        const OURS: &str = phrase("worked out from body measures; no source sets the allowance");
        match self {
            Self::SeatHeight | Self::SeatDepth | Self::SeatWidth | Self::BetweenArms | Self::ThighRoom => {
                Source::new(Mark::Computed, OURS)
            }
            Self::ArmHeight => Source::new(
                Mark::Computed,
                phrase(
                    "the height of the elbow as limit is worked out; EN 1335 and Pheasant, from memory: 200 to 250 mm",
                ),
            ),
            Self::LumbarHeight => Source::new(
                Mark::Memory,
                phrase(
                    "180 to 250 mm from memory, no source; Joyce, The Technique of Furniture Making: about 200 mm",
                ),
            ),
            Self::SeatToTable => Source::new(
                Mark::Computed,
                phrase(
                    "Joyce, The Technique of Furniture Making: table 735 mm, seat 430 to 440 mm; 270 mm has no source",
                ),
            ),
            Self::KneeRoom => Source::new(
                Mark::Computed,
                phrase(
                    "worked out: what goes under is no higher than what is over it; no source, no allowance",
                ),
            ),
        }
    }
}

impl fmt::Display for Rule {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::SeatHeight => "height of the seat",
            Self::SeatDepth => "depth of the seat",
            Self::SeatWidth => "width of the seat",
            Self::BetweenArms => "width between the arms",
            Self::ArmHeight => "height of the arms",
            Self::LumbarHeight => "height of the small of the back",
            Self::SeatToTable => "height of the table above the seat",
            Self::ThighRoom => "room over the thighs",
            Self::KneeRoom => "room over the knees",
        })
    }
}
