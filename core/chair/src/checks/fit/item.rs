//! What of a chair is compared with the sitter.

use super::measured::Measured;
use crate::service::Service;
use crestrail_phrases::phrase;
use crestrail_sitter::{Rule, Sitter};
use serde::Serialize;

/// A size of the chair that the sitter has a say in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Item {
    /// Front of the loaded seat above what the feet rest on.
    SeatHeight,
    /// Front edge of the seat to the back.
    SeatDepth,
    /// Width of the seat.
    SeatWidth,
    /// Clear width between the arms.
    BetweenArms,
    /// Angle between seat and back.
    BackAngle,
    /// Where the back supports the small of the back.
    Lumbar,
    /// Top of the arms above the seat.
    ArmHeight,
    /// Seat to the top of the table.
    SeatToTable,
    /// Seat to the underside of the table.
    ThighRoom,
    /// What the feet rest on to the underside of the table.
    KneeRoom,
    /// Top of the arms to the underside of the table.
    ArmsUnderTable,
    /// Weight of the sitter beside that for which strength is checked.
    SitterWeight,
}

impl Item {
    /// All, in the order in which they are told.
    pub const ALL: [Self; 12] = [
        Self::SeatHeight,
        Self::SeatDepth,
        Self::SeatWidth,
        Self::BetweenArms,
        Self::BackAngle,
        Self::Lumbar,
        Self::ArmHeight,
        Self::SeatToTable,
        Self::ThighRoom,
        Self::KneeRoom,
        Self::ArmsUnderTable,
        Self::SitterWeight,
    ];

    /// Its name in plain words.
    pub fn name(self) -> &'static str {
        match self {
            Self::SeatHeight => phrase("seat height"),
            Self::SeatDepth => phrase("seat depth"),
            Self::SeatWidth => phrase("seat width"),
            Self::BetweenArms => phrase("width between the arms"),
            Self::BackAngle => phrase("angle of the back"),
            Self::Lumbar => phrase("support of the small of the back"),
            Self::ArmHeight => phrase("height of the arms"),
            Self::SeatToTable => phrase("table above the seat"),
            Self::ThighRoom => phrase("room for the thighs"),
            Self::KneeRoom => phrase("room for the knees"),
            Self::ArmsUnderTable => phrase("arms under the table"),
            Self::SitterWeight => phrase("weight of the sitter"),
        }
    }

    /// Unit of its figures.
    pub fn unit(self) -> &'static str {
        match self {
            Self::BackAngle => "°",
            Self::SitterWeight => "kg",
            _ => "mm",
        }
    }

    /// The rule of bodies that it is held to, if there is one.
    pub(super) fn rule(self) -> Option<Rule> {
        Some(match self {
            Self::SeatHeight => Rule::SeatHeight,
            Self::SeatDepth => Rule::SeatDepth,
            Self::SeatWidth => Rule::SeatWidth,
            Self::BetweenArms => Rule::BetweenArms,
            Self::Lumbar => Rule::LumbarHeight,
            Self::ArmHeight => Rule::ArmHeight,
            Self::SeatToTable => Rule::SeatToTable,
            Self::ThighRoom => Rule::ThighRoom,
            Self::KneeRoom => Rule::KneeRoom,
            Self::BackAngle | Self::ArmsUnderTable | Self::SitterWeight => return None,
        })
    }

    /// The knob that mends it.
    pub(super) fn knob(self, high: bool) -> &'static str {
        match self {
            Self::SeatHeight if high => "front_stretcher_height",
            Self::SeatHeight | Self::ThighRoom => "seat_height",
            // The seat of a high chair follows its worktop; else it follows the sitter, and the table the seat.
            Self::SeatToTable if high => "seat_height",
            Self::SeatDepth => "seat_depth",
            Self::SeatWidth | Self::BetweenArms => "seat_width",
            Self::BackAngle => "rake",
            Self::Lumbar => "back_clear",
            Self::ArmHeight | Self::ArmsUnderTable => "arm_height",
            Self::SeatToTable | Self::KneeRoom => "table_height",
            Self::SitterWeight => "user",
        }
    }

    /// Its size on the chair; `aim` is the height at which the small of the back is wanted.
    pub(super) fn on(self, m: &Measured, service: &Service, aim: f64) -> Option<f64> {
        match self {
            Self::SeatHeight => Some(m.seat_height()),
            Self::SeatDepth => Some(m.depth),
            Self::SeatWidth => m.between_arms.is_none().then_some(m.width),
            Self::BetweenArms => m.between_arms,
            Self::BackAngle => m.back_angle,
            Self::Lumbar => m.support_near(aim),
            Self::ArmHeight => m.arm_height,
            Self::SeatToTable => service.table.map(|table| table.top - m.front_height),
            Self::ThighRoom => service.table.map(|table| table.underside - m.front_height),
            Self::KneeRoom => service.table.map(|table| table.underside - m.feet),
            Self::ArmsUnderTable => Some(service.table?.underside - m.arm_top?),
            Self::SitterWeight => match service.sitter {
                Sitter::Stature { weight_kg, .. } => weight_kg,
                _ => None,
            },
        }
    }
}
