//! The order of assembly as plain moves of solids.

use crestrail_chair::assembly::{Move, Step, Task};
use crestrail_chair::chair::Chair;
use crestrail_chair::part::PartId;
use crestrail_geometry::Vec3;
use serde::Serialize;

/// One move; moves of one step can be made in the order given or all together. Lengths mm.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct MoveRow {
    step: usize,
    task: &'static str,
    /// What moves, named as in `solids`.
    parts: Vec<String>,
    /// What is in place.
    into: Vec<String>,
    /// Unit direction of the movement.
    direction: [f64; 3],
    /// The last part of the way, in which tenons and pegs are in their holes.
    travel_mm: f64,
    /// How far back from home the way is free; nothing where it is free for ever.
    clear_mm: Option<f64>,
    /// Where the way is not free for ever: the direction from which it comes to where `travel_mm` begins.
    before: Option<[f64; 3]>,
}

/// The moves of a chair, in their order.
pub(crate) fn rows(chair: &Chair) -> Vec<MoveRow> {
    chair.assembly.steps.iter().flat_map(|step| step.moves.iter().map(|m| row(step, m))).collect()
}

fn row(step: &Step, m: &Move) -> MoveRow {
    let names = |ids: &[PartId]| ids.iter().map(ToString::to_string).collect();
    let vector = |v: Vec3| [v.x, v.y, v.z];
    MoveRow {
        step: step.number,
        task: match step.task {
            Task::Join => "join",
            Task::Peg => "peg",
            Task::Lay => "lay",
            Task::Weave => "weave",
        },
        parts: names(&m.goes_in),
        into: names(&m.into),
        direction: vector(m.direction),
        travel_mm: m.by,
        clear_mm: m.clear.is_finite().then_some(m.clear),
        before: m.before.map(vector),
    }
}
