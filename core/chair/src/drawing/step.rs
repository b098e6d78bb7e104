//! The picture of one step: the parts in hand, what moves drawn back along its way.

use super::stage::Stage;
use super::{Scene, View, painted, sheet};
use crate::assembly::{Step, Task};
use crate::chair::Chair;
use crate::service::Service;
use crestrail_geometry::Vec3;
use crestrail_sheet::Sheet;

/// How far tenons stand clear, mm: enough to see them at the size of a thumb.
const CLEAR: f64 = 70.0;
/// How far pegs do.
const PEG_CLEAR: f64 = 30.0;

/// One step of the assembly of the chair. Of two frames made alike the right one is shown. Without a ground, so that it can
/// be laid on any sheet.
pub fn step(chair: &Chair, step: &Step, view: &View, service: &Service) -> Sheet {
    let whole = step.whole();
    let mut shifts: Vec<Option<Vec3>> =
        chair.parts.iter().map(|part| whole.contains(&part.id).then_some(Vec3::ZERO)).collect();
    let clear = if step.task == Task::Peg { PEG_CLEAR } else { CLEAR };
    for m in step.moves.iter().filter(|m| m.goes_in.iter().any(|id| whole.contains(id))) {
        let away = m.direction * -((m.by + clear) * m.rank as f64);
        for place in m.goes_in.iter().filter_map(|id| chair.place_of(*id)) {
            shifts[place] = Some(away);
        }
    }
    let scene = Scene::of(chair, Stage::of(chair, shifts), view, service);
    sheet(view, chair, painted(&scene))
}
