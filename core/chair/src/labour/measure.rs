//! What there is to do: quantities of each operation, taken from the chair and its cutting list.

use crate::assembly::{Step, Task as Join};
use crate::chair::Chair;
use crate::housing::Cut;
use crate::joint::{Joint, Kind};
use crate::lists::{CuttingRow, exposed_area};
use crate::material::Material;
use crate::part::{PartId, Role};
use crate::shop::Operation;
use crestrail_phrases::say;
use crestrail_sorting::Order as _;

/// Work of one kind at one chair.
#[derive(Clone, Debug, PartialEq)]
pub struct Task {
    /// What is done.
    pub operation: Operation,
    /// How much of it, in the operation's unit.
    pub quantity: f64,
    /// Letters of the parts it is done to.
    pub parts: Vec<String>,
    /// Where the quantity comes from, as a sentence.
    pub why: String,
}

const METRE: f64 = 1e-3;
const SQUARE_METRE: f64 = 1e-6;

/// Faces of a stick that are planed.
const FACES: f64 = 4.0;
/// Long edges of an outline that are sawn and shaped.
const EDGES: f64 = 2.0;

const KINDS: [Kind; 7] =
    [Kind::Blind, Kind::Haunched, Kind::Through, Kind::BareFaced, Kind::Twin, Kind::Loose, Kind::Dowels];

/// All that is to be done for one chair, in the order of the stages; `coats` of finish. What has no quantity is left
/// out.
pub fn tasks(chair: &Chair, rows: &[CuttingRow], coats: u32) -> Vec<Task> {
    let mut tasks = timber(rows);
    tasks.extend(curves(chair, rows));
    tasks.extend(KINDS.iter().map(|&kind| joints(chair, kind)));
    tasks.extend(housings(chair));
    tasks.extend(assembly(chair, rows));
    tasks.extend(surface(chair, rows, coats));
    tasks.extend(seat(rows));
    tasks.retain(|task| task.quantity > 0.0);
    tasks.order_by_key(|task| task.operation.stage());
    tasks
}

/// Whether it is sawn and planed as a stick: pegs, dowels, wedges and loose tenons are made with their joint, buttons
/// with the seat.
fn is_stick(row: &&CuttingRow) -> bool {
    row.material.species().is_some() && !row.role.is_small() && row.role != Role::Button
}

fn letters<'a>(rows: impl Iterator<Item = &'a CuttingRow>) -> Vec<String> {
    rows.map(|row| row.letter.clone()).collect()
}

fn timber(rows: &[CuttingRow]) -> Vec<Task> {
    let sticks: Vec<&CuttingRow> = rows.iter().filter(is_stick).collect();
    let count: f64 = sticks.iter().map(|r| f64::from(r.quantity)).sum();
    let metres: f64 = sticks.iter().map(|r| f64::from(r.quantity) * r.rough.length * METRE).sum();
    let task = |operation, quantity, why: String| Task {
        operation,
        quantity,
        parts: letters(sticks.iter().copied()),
        why,
    };
    vec![
        task(Operation::ChooseAndMark, count, say!("{count} parts are laid out on boards.")),
        task(Operation::Crosscut, count, say!("{count} parts, to rough length and then both ends.")),
        task(Operation::Rip, metres, say!("{count} parts have {metres:.2} m of rough length, one cut each.")),
        task(
            Operation::Plane,
            FACES * metres,
            say!("{metres:.2} m of rough length, {FACES} faces and edges."),
        ),
    ]
}

/// Both long edges of what is sawn to an outline.
fn curves(chair: &Chair, rows: &[CuttingRow]) -> Vec<Task> {
    let curved = |row: &&CuttingRow| {
        is_stick(row) && chair.parts.iter().any(|p| p.letter == row.letter && p.sawn_to_outline)
    };
    let curved: Vec<&CuttingRow> = rows.iter().filter(curved).collect();
    let metres: f64 = curved.iter().map(|r| EDGES * f64::from(r.quantity) * r.finished.length * METRE).sum();
    let task = |operation| Task {
        operation,
        quantity: metres,
        parts: letters(curved.iter().copied()),
        why: say!("{metres:.2} m: {EDGES} long edges of each part that is sawn to an outline."),
    };
    vec![task(Operation::SawCurve), task(Operation::ShapeCurve)]
}

/// Letters of these parts, each once, in the order of the ids.
fn letters_of(chair: &Chair, ids: impl Iterator<Item = PartId>) -> Vec<String> {
    let mut named = vec![false; chair.parts.len()];
    ids.filter_map(|id| chair.place_of(id)).for_each(|place| named[place] = true);
    let named = chair.parts.iter().zip(named).filter(|(_, named)| *named);
    let mut found: Vec<&str> = named.map(|(part, _)| part.letter.as_str()).collect();
    found.order_by_key(|letter| (letter.len(), *letter));
    found.dedup();
    found.into_iter().map(str::to_owned).collect()
}

fn ends(joint: &Joint) -> [PartId; 2] {
    [joint.host, joint.guest]
}

fn joints(chair: &Chair, kind: Kind) -> Task {
    let joints: Vec<&Joint> = chair.joints.iter().filter(|joint| joint.kind == kind).collect();
    Task {
        operation: Operation::Joint(kind),
        quantity: joints.len() as f64,
        parts: letters_of(chair, joints.iter().flat_map(|joint| ends(joint))),
        why: say!("{} joints of this kind: {}.", joints.len(), kind.name()),
    }
}

fn housings(chair: &Chair) -> Vec<Task> {
    let of = |operation, groove: bool| {
        let cut: Vec<_> = chair.housings.iter().filter(|h| (h.cut == Cut::Groove) == groove).collect();
        let metres: f64 = cut.iter().map(|h| h.length * METRE).sum();
        let (quantity, why) = match groove {
            true => (metres, say!("{} grooves, {metres:.2} m together.", cut.len())),
            false => (cut.len() as f64, say!("{} notches and slots.", cut.len())),
        };
        Task { operation, quantity, parts: letters_of(chair, cut.iter().map(|h| h.host)), why }
    };
    vec![of(Operation::Groove, true), of(Operation::Notch, false)]
}

/// Whether a step glues pieces of the frame together; loose tenons and dowels go in with the pieces they hold.
fn is_glue_up(step: &&Step) -> bool {
    step.task == Join::Join && step.moves.iter().flat_map(|m| &m.goes_in).any(|id| !id.role.is_small())
}

fn assembly(chair: &Chair, rows: &[CuttingRow]) -> Vec<Task> {
    let pegs: Vec<&CuttingRow> = rows.iter().filter(|r| r.role == Role::Peg).collect();
    let peg_count: u32 = pegs.iter().map(|r| r.quantity).sum();
    let stages: Vec<&Step> = chair.assembly.steps.iter().filter(is_glue_up).collect();
    let joined = stages.iter().flat_map(|step| &step.moves).flat_map(|m| m.goes_in.iter().chain(&m.into));
    let large = joined.filter(|id| !id.role.is_small()).copied();
    let count = chair.joints.len();
    vec![
        Task {
            operation: Operation::DryFit,
            quantity: count as f64,
            parts: letters_of(chair, chair.joints.iter().flat_map(ends)),
            why: say!("{count} joints are put together dry."),
        },
        Task {
            operation: Operation::GlueUp,
            quantity: stages.len() as f64,
            parts: letters_of(chair, large),
            why: say!("The frame is glued up in {} stages.", stages.len()),
        },
        Task {
            operation: Operation::Peg,
            quantity: f64::from(peg_count),
            parts: letters(pegs.iter().copied()),
            why: say!("{peg_count} pegs, each with its hole."),
        },
    ]
}

fn surface(chair: &Chair, rows: &[CuttingRow], coats: u32) -> Vec<Task> {
    let area = exposed_area(chair) * SQUARE_METRE;
    let task = |operation, quantity, why: String| Task {
        operation,
        quantity,
        parts: letters(rows.iter().filter(|r| r.material.species().is_some())),
        why,
    };
    vec![
        task(Operation::ScrapeAndSand, area, say!("{area:.3} m² of surface outside the joints.")),
        task(
            Operation::Finish,
            area * f64::from(coats),
            say!("{area:.3} m² of surface outside the joints, {coats} coats."),
        ),
    ]
}

fn seat(rows: &[CuttingRow]) -> Vec<Task> {
    let mut tasks: Vec<Task> = [
        (Operation::SeatSlat, Role::SeatSlat),
        (Operation::SeatBoard, Role::SeatBoard),
        (Operation::Button, Role::Button),
        (Operation::Ledge, Role::Ledge),
        (Operation::Pad, Role::Pad),
    ]
    .into_iter()
    .map(|(operation, role)| pieces(rows, operation, role))
    .collect();
    tasks.extend(rows.iter().filter_map(weaving));
    tasks
}

fn pieces(rows: &[CuttingRow], operation: Operation, role: Role) -> Task {
    let of_role: Vec<&CuttingRow> = rows.iter().filter(|r| r.role == role).collect();
    let count: u32 = of_role.iter().map(|r| r.quantity).sum();
    let name = role.name();
    let why = if count == 1 { say!("1 {name}.") } else { say!("{count} {name}s.") };
    Task { operation, quantity: f64::from(count), parts: letters(of_role.into_iter()), why }
}

fn weaving(row: &CuttingRow) -> Option<Task> {
    let Material::Cord { length, .. } = row.material else { return None };
    let metres = f64::from(row.quantity) * length * METRE;
    let why = say!("{metres:.1} m of cord.");
    Some(Task { operation: Operation::Weave, quantity: metres, parts: vec![row.letter.clone()], why })
}
