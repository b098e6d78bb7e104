//! The small picture of a step of the work: what the hands hold, as far as it is made by then.

use super::stage::Stage;
use super::{Scene, View, apart, painted, sheet, step};
use crate::chair::{Chair, PartBody};
use crate::part::{Part, PartId};
use crate::service::Service;
use crate::work::{Shows, WorkStep};
use crestrail_geometry::{Body, CarveError, Place, Solid, carve};
use crestrail_sheet::Sheet;

/// The picture of a step, without a ground, so that it can be laid on any sheet; nothing for a step that has none.
pub fn work_step(chair: &Chair, of: &WorkStep, view: &View, service: &Service) -> Option<Sheet> {
    match of.shows.as_ref()? {
        Shows::Assembly(number) => {
            let own = chair.assembly.steps.iter().find(|own| own.number == *number)?;
            Some(step(chair, own, view, service))
        }
        Shows::Blanks(ids) => stood_in(chair, ids, view, service, blank),
        Shows::Shaped(ids) => stood_in(chair, ids, view, service, shaped),
        Shows::Jointed(ids) => Some(shown(chair, ids, 1.0, view, service)),
        Shows::Together(ids) => Some(shown(chair, ids, 0.0, view, service)),
    }
}

/// The finished parts as far apart as `spread` says.
fn shown(chair: &Chair, ids: &[PartId], spread: f64, view: &View, service: &Service) -> Sheet {
    let full = chair.parts.iter().zip(apart::shifts(chair));
    let shifts = full.map(|(part, shift)| ids.contains(&part.id).then_some(shift * spread)).collect();
    sheet(view, chair, painted(&Scene::of(chair, Stage::of(chair, shifts), view, service)))
}

/// Parts apart, as they are before they are finished.
fn stood_in(
    chair: &Chair,
    ids: &[PartId],
    view: &View,
    service: &Service,
    make: fn(&Part, &PartBody) -> Result<Solid, CarveError>,
) -> Option<Sheet> {
    let own =
        |(part, body): (&Part, &PartBody)| ids.contains(&part.id).then(|| make(part, body)).transpose().ok();
    let solids: Vec<Option<Solid>> = chair.pieces().map(own).collect::<Option<_>>()?;
    let scene = Scene::of(chair, Stage::stood_in(chair, &solids), view, service);
    Some(sheet(view, chair, painted(&scene)))
}

/// The squared bar that holds the part with its tenons.
fn blank(_: &Part, body: &PartBody) -> Result<Solid, CarveError> {
    let bounds = body.solid.bounds();
    carve(&[Body::cuboid(&Place::HOME, bounds.low, bounds.high)], &[])
}

/// The part to its outline, from shoulder to shoulder, before a joint is cut.
fn shaped(part: &Part, _: &PartBody) -> Result<Solid, CarveError> {
    carve(std::slice::from_ref(&part.stock), &[])
}
