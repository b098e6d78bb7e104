//! The measures of a joint as rows of the list.

use crate::joint::{Corner, Joint, Peg, PegShape, Way};
use crate::lists::tenths;
use serde::Serialize;

/// Sizes of a tenon, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TenonRow {
    /// From the shoulder to the end, on the longer side.
    pub length: f64,
    /// Along the host's grain.
    pub width: f64,
    /// Across it.
    pub thickness: f64,
}

/// Shoulders, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ShouldersRow {
    /// Above the tenon.
    pub top: f64,
    /// Below it.
    pub bottom: f64,
    /// At one cheek.
    pub front: f64,
    /// At the other.
    pub back: f64,
}

/// A haunch, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct HaunchRow {
    /// How far it enters at the tenon.
    pub length: f64,
    /// How far it reaches up from the tenon.
    pub width: f64,
}

/// A mitred end, mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MitreRow {
    /// The part whose tenon it meets.
    pub with: &'static str,
    /// Length of the tenon on the shorter side.
    pub short_length: f64,
    /// Space between the two ends.
    pub gap: f64,
}

/// A mortise, mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MortiseRow {
    /// From the host's face.
    pub depth: f64,
    /// Along the host's grain.
    pub width: f64,
    /// The cutter.
    pub thickness: f64,
    /// Room behind the tenon.
    pub glue_gap: f64,
    /// Thinnest timber beside or behind it.
    pub wall: f64,
    /// Timber to the nearer end of the host.
    pub from_end: f64,
    /// Heights above the floor of its lower and upper end at the host's face, for mortises in legs:
    /// one pair for each joint of the row on one side of the chair, from below.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub above_floor: Vec<[f64; 2]>,
}

/// A peg, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PegRow {
    /// Diameter or side.
    pub size: f64,
    /// `round` or `square`.
    pub shape: &'static str,
    /// From the host's face with the mortise.
    pub from_face: f64,
    /// From the middle of the tenon's width.
    pub from_middle: f64,
    /// Depth of its hole.
    pub length: f64,
    /// By how much the hole in the tenon is bored nearer to the shoulder; zero for a straight peg.
    pub draw: f64,
}

/// Angles of a joint, degrees.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Angles {
    /// By how much the shoulder departs from square across the guest's width.
    pub shoulder_across_width: f64,
    /// By how much it departs from square across the guest's thickness.
    pub shoulder_across_thickness: f64,
    /// Between the tenon and its part's grain.
    pub tenon_to_grain: f64,
    /// By how much the mortise departs from square to the host's face.
    pub mortise_from_square: f64,
}

/// A piece of a tenon that is not one plain rectangle, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TongueRow {
    /// From the lower edge of the whole tenon to this piece.
    pub from_bottom: f64,
    /// Its width.
    pub width: f64,
    /// Where it begins, from the shoulder.
    pub from: f64,
    /// Where it ends, from the shoulder.
    pub to: f64,
}

/// Loose tenons, dowels or wedges of one joint, mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct InsertRow {
    /// What they are.
    pub what: &'static str,
    /// How many in one joint.
    pub quantity: usize,
    /// Along the grain.
    pub length: f64,
    /// Across it.
    pub width: f64,
    /// The smaller size across it.
    pub thickness: f64,
    /// Depth of the hole in the guest; `None` for wedges.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub into_guest: Option<f64>,
}

/// The wedges of a through tenon, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WedgesRow {
    /// How many.
    pub count: usize,
    /// Depth of the saw kerfs from the tenon's end.
    pub kerf: f64,
    /// Thickness of a wedge at the tenon's end.
    pub thickness: f64,
    /// From the tenon's edge to the kerf; `None` for a single one in the middle.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from_edge: Option<f64>,
    /// How much longer the mortise is cut at each end on the far face.
    pub flare: f64,
}

/// How a tenon passes another one.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CornerRow {
    /// The way that was taken.
    pub way: Way,
    /// Its name.
    pub name: &'static str,
    /// The part whose tenon it meets.
    pub with: &'static str,
    /// Glue area of the tenons that meet, mm².
    #[serde(skip_serializing_if = "Option::is_none")]
    pub glue_mm2: Option<f64>,
    /// Why.
    pub why: String,
    /// The ways that were not taken.
    pub others: Vec<OtherRow>,
}

/// A way that was not taken.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OtherRow {
    /// The way.
    pub way: Way,
    /// Its name.
    pub name: &'static str,
    /// The glue area that it would leave, mm².
    #[serde(skip_serializing_if = "Option::is_none")]
    pub glue_mm2: Option<f64>,
    /// Why it cannot be made.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub why: Option<String>,
}

pub(super) fn peg(peg: &Peg) -> PegRow {
    let shape = match peg.shape {
        PegShape::Round => "round",
        PegShape::Square => "square",
    };
    PegRow {
        size: tenths(peg.size),
        shape,
        from_face: tenths(peg.from_face),
        from_middle: tenths(peg.from_middle),
        length: tenths(peg.length),
        draw: peg.draw,
    }
}

/// The pieces of a tenon; none where it is one plain rectangle.
pub(super) fn tongues(joint: &Joint) -> Vec<TongueRow> {
    let tongues = &joint.tenon.tongues;
    let bottom = -joint.tenon.width / 2.0;
    let row = |t: &crate::joint::Tongue| TongueRow {
        from_bottom: tenths(t.y[0] - bottom),
        width: tenths(t.width()),
        from: tenths(t.from),
        to: tenths(t.to),
    };
    if tongues.len() > 1 { tongues.iter().map(row).collect() } else { Vec::new() }
}

pub(super) fn inserts(joint: &Joint) -> Option<InsertRow> {
    let first = joint.inserts.first()?;
    let [length, width, thickness] = first.size.map(tenths);
    let separate = joint.kind.is_separate();
    let room = joint.mortise.glue_gap;
    let into_guest = separate.then(|| tenths(first.size[0] - joint.tenon.length + room));
    Some(InsertRow {
        what: first.id.role.name(),
        quantity: joint.inserts.len(),
        length,
        width,
        thickness,
        into_guest,
    })
}

pub(super) fn wedges(joint: &Joint) -> Option<WedgesRow> {
    joint.wedging.map(|w| WedgesRow {
        count: w.count,
        kerf: tenths(w.length),
        thickness: tenths(w.thickness),
        from_edge: w.from_edge.map(tenths),
        flare: tenths(w.flare),
    })
}

pub(super) fn corner(corner: &Corner) -> CornerRow {
    let of = |way: Way| corner.weighed.iter().find(|(weighed, _)| *weighed == way);
    let other = |(way, done): &(Way, Result<f64, String>)| OtherRow {
        way: *way,
        name: way.name(),
        glue_mm2: done.as_ref().ok().map(|area| area.round()),
        why: done.as_ref().err().cloned(),
    };
    CornerRow {
        way: corner.way,
        name: corner.way.name(),
        with: corner.with.role.name(),
        glue_mm2: of(corner.way).and_then(|(_, done)| done.as_ref().ok()).map(|area| area.round()),
        why: corner.why.clone(),
        others: corner.weighed.iter().filter(|(way, _)| *way != corner.way).map(other).collect(),
    }
}
