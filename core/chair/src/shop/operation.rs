//! Operations at the bench: what a workshop keeps its times by.

use crate::joint::Kind;
use crestrail_phrases::{phrase, say, word};
use serde::Serialize;

/// One kind of work, for which a workshop knows minutes for each unit and minutes of set-up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Operation {
    /// Choosing boards, laying out the parts on them, marking face and edge.
    ChooseAndMark,
    /// Sawing to rough length and, once planed, both ends to length.
    Crosscut,
    /// Sawing along the grain to rough width.
    Rip,
    /// Planing faces and edges.
    Plane,
    /// Sawing outlines that are no straight sticks.
    SawCurve,
    /// Shaping sawn outlines true and smooth.
    ShapeCurve,
    /// A joint of a kind, mortise and tenon together, with its wedges, dowels or loose tenon.
    Joint(Kind),
    /// Cutting grooves.
    Groove,
    /// Cutting notches round legs and slots of buttons.
    Notch,
    /// Boring for a peg, making, driving and trimming it.
    Peg,
    /// Putting joints together dry and easing them.
    DryFit,
    /// Gluing up a stage of the assembly, with its clamps and its checks for square.
    GlueUp,
    /// Fitting and screwing down a slat of the seat.
    SeatSlat,
    /// Gluing up, fitting and fastening a solid seat.
    SeatBoard,
    /// Making a button and fastening it.
    Button,
    /// Gluing and screwing a ledge under a seat.
    Ledge,
    /// Cutting board and foam of a pad and covering it.
    Pad,
    /// Weaving cord.
    Weave,
    /// Scraping and sanding what stays in sight.
    ScrapeAndSand,
    /// Putting on a coat of finish and rubbing it down.
    Finish,
}

/// A stage of the work, in the order in which it is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    /// From the board to planed parts.
    Timber,
    /// Curves.
    Shaping,
    /// Joints, grooves and notches.
    Joints,
    /// Scraping and sanding.
    Surface,
    /// Dry fit, gluing up, pegs.
    Assembly,
    /// Coats of finish.
    Finish,
    /// The seat.
    Seat,
}

/// How mortises and tenons are cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Method {
    /// Chisel and backsaw.
    Hand,
    /// Router or hand-held cutter with jigs.
    Router,
    /// Fixed mortising and tenoning machines.
    Machine,
}

impl Method {
    /// Each with its name in files.
    pub const NAMES: &[(&str, Self)] =
        &[("hand", Self::Hand), ("router", Self::Router), ("machine", Self::Machine)];

    /// Its name in files.
    pub fn name(self) -> &'static str {
        match self {
            Self::Hand => "hand",
            Self::Router => "router",
            Self::Machine => "machine",
        }
    }
}

impl Stage {
    /// All, in their order.
    pub const ALL: [Self; 7] =
        [Self::Timber, Self::Shaping, Self::Joints, Self::Surface, Self::Assembly, Self::Finish, Self::Seat];

    /// What a maker calls it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Timber => word("Preparing timber"),
            Self::Shaping => word("Curves"),
            Self::Joints => word("Cutting joints"),
            Self::Surface => word("Scraping and sanding"),
            Self::Assembly => word("Putting together"),
            Self::Finish => word("Finish"),
            Self::Seat => word("Seat"),
        }
    }
}

/// How an operation is named, measured and told.
struct Row {
    operation: Operation,
    /// In files and in the ids of lines.
    name: &'static str,
    /// On lists.
    label: &'static str,
    /// What minutes are told for.
    unit: &'static str,
    stage: Stage,
}

const fn row(
    operation: Operation,
    name: &'static str,
    label: &'static str,
    unit: &'static str,
    stage: Stage,
) -> Row {
    Row { operation, name, label, unit, stage }
}

const OPERATIONS: &[Row] = &[
    row(
        Operation::ChooseAndMark,
        "choose_and_mark",
        phrase("choosing and marking"),
        phrase("part"),
        Stage::Timber,
    ),
    row(Operation::Crosscut, "crosscut", phrase("crosscutting"), phrase("part"), Stage::Timber),
    row(Operation::Rip, "rip", phrase("ripping"), phrase("m"), Stage::Timber),
    row(Operation::Plane, "plane", phrase("planing"), phrase("m of face"), Stage::Timber),
    row(Operation::SawCurve, "saw_curve", phrase("sawing curves"), phrase("m"), Stage::Shaping),
    row(Operation::ShapeCurve, "shape_curve", phrase("shaping curves"), phrase("m"), Stage::Shaping),
    row(Operation::Groove, "groove", phrase("grooves"), phrase("m"), Stage::Joints),
    row(Operation::Notch, "notch", phrase("notches and slots"), phrase("cut"), Stage::Joints),
    row(
        Operation::ScrapeAndSand,
        "scrape_and_sand",
        phrase("scraping and sanding"),
        phrase("m²"),
        Stage::Surface,
    ),
    row(Operation::DryFit, "dry_fit", phrase("dry fit"), phrase("joint"), Stage::Assembly),
    row(Operation::GlueUp, "glue_up", phrase("gluing up"), phrase("stage"), Stage::Assembly),
    row(Operation::Peg, "peg", phrase("pegs"), phrase("peg"), Stage::Assembly),
    row(Operation::Finish, "finish", phrase("finishing"), phrase("m² and coat"), Stage::Finish),
    row(Operation::SeatSlat, "seat_slat", phrase("seat slats"), phrase("slat"), Stage::Seat),
    row(Operation::SeatBoard, "seat_board", phrase("solid seat"), phrase("board"), Stage::Seat),
    row(Operation::Button, "button", phrase("buttons"), phrase("button"), Stage::Seat),
    row(Operation::Ledge, "ledge", phrase("ledges"), phrase("ledge"), Stage::Seat),
    row(Operation::Pad, "pad", phrase("pad"), phrase("pad"), Stage::Seat),
    row(Operation::Weave, "weave", phrase("weaving"), phrase("m of cord"), Stage::Seat),
];

/// The kinds of joint with their names in files.
pub(super) const JOINTS: &[(&str, Kind)] = &[
    ("blind", Kind::Blind),
    ("haunched", Kind::Haunched),
    ("through", Kind::Through),
    ("bare_faced", Kind::BareFaced),
    ("twin", Kind::Twin),
    ("loose", Kind::Loose),
    ("dowels", Kind::Dowels),
];

impl Operation {
    /// All but the joints, with their names in files.
    pub(super) fn plain() -> impl Iterator<Item = (&'static str, Self)> {
        OPERATIONS.iter().map(|row| (row.name, row.operation))
    }

    fn row(self) -> Option<&'static Row> {
        OPERATIONS.iter().find(|row| row.operation == self)
    }

    /// Its name in the ids of lines, such as `plane` or `joint.haunched`.
    pub fn id(self) -> String {
        match self {
            Self::Joint(kind) => {
                let name = JOINTS.iter().find(|(_, k)| *k == kind).map_or("", |(name, _)| name);
                format!("joint.{name}")
            }
            plain => plain.row().map_or("", |row| row.name).to_owned(),
        }
    }

    /// What a maker calls it.
    pub fn label(self) -> String {
        match self {
            Self::Joint(kind) => say!("joints: {}", kind.name()),
            plain => plain.row().map_or("", |row| word(row.label)).to_owned(),
        }
    }

    /// What its minutes are told for.
    pub fn unit(self) -> &'static str {
        word(self.row().map_or("joint", |row| row.unit))
    }

    /// When it is done.
    pub fn stage(self) -> Stage {
        self.row().map_or(Stage::Joints, |row| row.stage)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_operation_has_one_row() {
        for (i, row) in OPERATIONS.iter().enumerate() {
            let twice = OPERATIONS[..i].iter().any(|r| r.operation == row.operation || r.name == row.name);
            assert!(!twice, "{}", row.name);
        }
        // The compiler names what is missing here when an operation is added.
        let known = |operation: Operation| match operation {
            Operation::Joint(_) => true,
            Operation::ChooseAndMark
            | Operation::Crosscut
            | Operation::Rip
            | Operation::Plane
            | Operation::SawCurve
            | Operation::ShapeCurve
            | Operation::Groove
            | Operation::Notch
            | Operation::Peg
            | Operation::DryFit
            | Operation::GlueUp
            | Operation::SeatSlat
            | Operation::SeatBoard
            | Operation::Button
            | Operation::Ledge
            | Operation::Pad
            | Operation::Weave
            | Operation::ScrapeAndSand
            | Operation::Finish => operation.row().is_some(),
        };
        assert!(OPERATIONS.iter().all(|row| known(row.operation)) && OPERATIONS.len() == 19);
        assert!(JOINTS.iter().all(|(name, kind)| Operation::Joint(*kind).id() == format!("joint.{name}")));
    }
}
