//! What a sitter wants of a chair. For grown-ups in general these are the ranges of the trade, which bodies alone do not give; for
//! one person what follows from the body; for children what school chairs have.

use super::item::Item;
use super::measured::Measured;
use crate::service::Service;
use crestrail_phrases::phrase;
use crestrail_sitter::{Range, Sitter, Suits, suits};

/// Where a size is sound, and up to where it is close.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Want {
    pub(super) sound: Range,
    pub(super) close: Range,
    pub(super) source: &'static str,
}

/// Past the sound range by so much a size is still close, mm (no source: what a rounded edge, a thicker sole or a cushion makes up
/// for).
const NEARLY: f64 = 20.0;
/// The same for a table above the seat, mm (high chairs: 230 to 330 where 255 to 305 is usual).
const NEARLY_TABLE: f64 = 30.0;
/// The same for what is given from memory or by a size of school chairs, mm: once more their tolerance.
const NEARLY_SCHOOL: f64 = 10.0;
/// The same for an angle, degrees (office chairs go up to 120, upright ones down to 90).
const NEARLY_ANGLE: f64 = 5.0;
/// Arms lower than this under the elbow carry nothing, mm (common practice, no source).
const UNDER_ELBOW: f64 = 40.0;
/// Room of arms under a table, mm (common practice, no source).
const ARM_ROOM: f64 = 10.0;
/// Standard deviations from the middle of people to the 95 % for whom room is aimed at.
const ROOMY: f64 = 1.644_853_626_951_473;

const HEIGHT: &str = phrase(
    "trade: 400 to 450 mm (common practice); Joyce, The Technique of Furniture Making: 430 to 440 mm at a table of 735 mm",
);
const FOOTREST: &str = phrase("400 to 460 mm from the hollow of the knee, worked out; no source");
const DEPTH: &str = phrase("trade: 400 to 420 mm at a table; work chairs 380 to 430 mm (SS 514)");
const WIDTH: &str = phrase("trade: 400 to 450 mm for chairs at a table");
const ARMS_APART: &str = phrase(
    "trade: about 530 mm; 480 mm leaves 50 mm beside the hips of 84 % of women and 95 % of men (ANSUR II)",
);
const ANGLE: &str = phrase(
    "95° to 105° for upright sitting and at a table (makers; Floyd and Roberts 1958); school chairs 95° to 110° (EN 1729-1, from memory)",
);
const ARMS_HIGH: &str = phrase("200 to 250 mm: EN 1335 and Pheasant, from memory");
const HIGH_TABLE: &str =
    phrase("trade: 255 to 305 mm from the seat of a high chair to its counter, 230 to 330 mm at most");
const THIGHS: &str =
    phrase("210 mm leaves 15 mm over the thighs of 97 % of women and 84 % of men (ANSUR II)");
const KNEES: &str = phrase("knee height of 90 % of men (ANSUR II) with 25 mm of shoe");
const UNDER: &str = phrase("common practice, no source");
const USER: &str = phrase("the heaviest user for whom strength and tipping are checked");

impl Want {
    fn near(sound: Range, by: f64, source: &'static str) -> Self {
        Self { sound, close: sound.widened(by), source }
    }

    /// What the service's sitter wants of this size; nothing where nobody says so.
    pub(super) fn of(item: Item, measured: &Measured, service: &Service) -> Option<Self> {
        match item {
            Item::SitterWeight => {
                let sound = Range::up_to(service.user);
                return Some(Self { sound, close: sound, source: USER });
            }
            Item::ArmsUnderTable => {
                let (sound, close) = (Range::from(ARM_ROOM), Range::from(0.0));
                return Some(Self { sound, close, source: UNDER });
            }
            _ => {}
        }
        match service.sitter {
            Sitter::Adults => Some(of_adults(item, measured)),
            Sitter::Stature { .. } => of_person(item, measured, service.sitter),
            Sitter::Child { .. } | Sitter::School { .. } => of_child(item, service.sitter),
        }
    }
}

fn of_adults(item: Item, measured: &Measured) -> Want {
    let near = |low: f64, high: f64, source| Want::near(Range::between(low, high), NEARLY, source);
    let from = |least: f64, source| Want::near(Range::from(least), NEARLY, source);
    match item {
        Item::SeatHeight if measured.high => near(400.0, 460.0, FOOTREST),
        Item::SeatHeight => near(400.0, 450.0, HEIGHT),
        // One perches on a stool or a high chair: a seat that is short does no harm.
        Item::SeatDepth if measured.high || measured.back_angle.is_none() => {
            Want::near(Range::up_to(430.0), NEARLY, DEPTH)
        }
        Item::SeatDepth => near(380.0, 430.0, DEPTH),
        Item::SeatWidth => from(400.0, WIDTH),
        Item::BetweenArms => from(480.0, ARMS_APART),
        Item::BackAngle => angle(105.0),
        Item::Lumbar => near(180.0, 250.0, crestrail_sitter::Rule::LumbarHeight.source().text),
        Item::ArmHeight => near(200.0, 250.0, ARMS_HIGH),
        Item::SeatToTable => table(measured),
        Item::ThighRoom => from(210.0, THIGHS),
        Item::KneeRoom => from(615.0, KNEES),
        Item::ArmsUnderTable | Item::SitterWeight => from(0.0, UNDER),
    }
}

fn angle(most: f64) -> Want {
    Want::near(Range::between(95.0, most), NEARLY_ANGLE, ANGLE)
}

fn table(measured: &Measured) -> Want {
    if measured.high {
        return Want {
            close: Range::between(230.0, 330.0),
            ..Want::near(Range::between(255.0, 305.0), 0.0, HIGH_TABLE)
        };
    }
    let source = crestrail_sitter::Rule::SeatToTable.source().text;
    Want::near(Range::between(270.0, 300.0), NEARLY_TABLE, source)
}

/// The size at which a rule is asked does not change what it wants.
const ANY: f64 = 0.0;

fn of_person(item: Item, measured: &Measured, sitter: Sitter) -> Option<Want> {
    let Some(rule) = item.rule() else { return Some(of_adults(item, measured)) };
    let Suits::Person { aim, body, .. } = suits(rule, ANY, sitter).ok()?.suits else {
        return Some(of_adults(item, measured));
    };
    let source = rule.source().text;
    Some(match (item, aim.at_least, aim.at_most) {
        (Item::ArmHeight, _, Some(most)) => {
            Want::near(Range::between(most - UNDER_ELBOW, most), NEARLY, source)
        }
        (_, Some(least), None) => Want { sound: aim, close: Range::from(least - ROOMY * body.sd), source },
        (_, None, Some(most)) => Want { sound: aim, close: Range::up_to(most + body.sd), source },
        _ => Want::near(aim, NEARLY, source),
    })
}

/// Nothing is known of children's arms, thighs and knees; between arms they have the width of a seat.
fn of_child(item: Item, sitter: Sitter) -> Option<Want> {
    let item = if item == Item::BetweenArms { Item::SeatWidth } else { item };
    if item == Item::BackAngle {
        return Some(angle(110.0));
    }
    let answer = suits(item.rule()?, ANY, sitter).ok()?;
    let Suits::Size { range, .. } = answer.suits else { return None };
    Some(Want::near(range, NEARLY_SCHOOL, answer.rule.text))
}
