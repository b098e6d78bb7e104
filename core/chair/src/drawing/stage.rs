//! The parts where they stand in the picture.

use super::apart;
use crate::chair::Chair;
use crate::part::PartId;
use crestrail_geometry::view::Subject;
use crestrail_geometry::{Bounds, Vec3, math};

/// The parts, each moved along its way apart.
pub(super) struct Stage<'a> {
    /// One for each part, in the chair's order; the owner is the part's index.
    pub(super) subjects: Vec<Subject<'a>>,
    /// How far each part has moved, mm.
    shifts: Vec<Vec3>,
    /// The upright cylinder around all of it.
    pub(super) hull: Cylinder,
    chair: &'a Chair,
}

/// An upright cylinder.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cylinder {
    /// Half way up its axis.
    pub(super) centre: Vec3,
    /// Radius, mm.
    pub(super) radius: f64,
    /// Half its height, mm.
    pub(super) half_height: f64,
}

impl<'a> Stage<'a> {
    pub(super) fn set(chair: &'a Chair, spread: f64) -> Self {
        let shifts: Vec<Vec3> = apart::shifts(chair).into_iter().map(|full| full * spread).collect();
        let subjects: Vec<Subject<'a>> = (chair.pieces().zip(&shifts).enumerate())
            .map(|(owner, ((part, body), shift))| Subject {
                owner,
                solid: &body.solid,
                place: part.place.moved(*shift),
            })
            .collect();
        Self { hull: Cylinder::around(&subjects), subjects, shifts, chair }
    }

    /// How far a part has moved.
    pub(super) fn shift(&self, id: PartId) -> Vec3 {
        self.chair.place_of(id).map_or(Vec3::ZERO, |i| self.shifts[i])
    }
}

impl Cylinder {
    fn around(subjects: &[Subject<'_>]) -> Self {
        let corners = || subjects.iter().flat_map(|s| s.solid.vertices.iter().map(|&v| s.place.point(v)));
        let bounds = corners().fold(Bounds::NOTHING, Bounds::with);
        let centre = (bounds.low + bounds.high) * 0.5;
        let reach = corners().map(|p| math::hypot(p.x - centre.x, p.y - centre.y));
        let half_height = (bounds.high.z - bounds.low.z) * 0.5;
        Self { centre, radius: reach.fold(0.0, f64::max), half_height }
    }
}
