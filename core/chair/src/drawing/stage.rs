//! The parts where they stand in the picture.

use super::{View, apart};
use crate::chair::Chair;
use crate::part::PartId;
use crestrail_geometry::view::Subject;
use crestrail_geometry::{Bounds, Solid, Vec3, math};

/// The parts, each moved along its way apart.
pub(super) struct Stage<'a> {
    /// One for each part, in the chair's order; the owner is the part's index.
    pub(super) subjects: Vec<Subject<'a>>,
    /// How far each part has moved, mm; nothing for one that is not shown.
    shifts: Vec<Option<Vec3>>,
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
        let shifts = apart::shifts(chair).into_iter().map(|full| Some(full * spread)).collect();
        Self::of(chair, shifts)
    }

    /// As a view says.
    pub(super) fn of_view(chair: &'a Chair, view: &View) -> Self {
        match view.assembled {
            None => Self::set(chair, view.spread),
            Some(done) => Self::of(chair, apart::underway(chair, done).into_iter().map(Some).collect()),
        }
    }

    /// For each part how far it is moved; nothing for one that is not on the stage.
    pub(super) fn of(chair: &'a Chair, shifts: Vec<Option<Vec3>>) -> Self {
        let subjects: Vec<Subject<'a>> = (chair.pieces().zip(&shifts).enumerate())
            .filter_map(|(owner, ((part, body), shift))| {
                let place = part.place.moved((*shift)?);
                Some(Subject { owner, solid: &body.solid, place })
            })
            .collect();
        Self { hull: Cylinder::around(&subjects), subjects, shifts, chair }
    }

    /// The same with other solids than those of the finished parts, in the parts' own frames and order: each at full
    /// spread, or nothing for a part that is not on the stage.
    pub(super) fn stood_in(chair: &'a Chair, solids: &'a [Option<Solid>]) -> Self {
        let full = apart::shifts(chair).into_iter().zip(solids);
        let shifts: Vec<Option<Vec3>> = full.map(|(shift, solid)| solid.as_ref().map(|_| shift)).collect();
        let mut stage = Self::of(chair, shifts);
        for subject in &mut stage.subjects {
            subject.solid = solids[subject.owner].as_ref().unwrap_or(subject.solid);
        }
        Self { hull: Cylinder::around(&stage.subjects), ..stage }
    }

    /// Whether a part is on the stage.
    pub(super) fn holds(&self, id: PartId) -> bool {
        self.chair.place_of(id).is_some_and(|i| self.holds_place(i))
    }

    /// The same, by its place among the chair's parts.
    pub(super) fn holds_place(&self, place: usize) -> bool {
        self.shifts[place].is_some()
    }

    /// How far a part has moved.
    pub(super) fn shift(&self, id: PartId) -> Vec3 {
        self.chair.place_of(id).map(|i| self.shift_at(i)).unwrap_or_default()
    }

    /// The same, by its place among the chair's parts.
    pub(super) fn shift_at(&self, place: usize) -> Vec3 {
        self.shifts[place].unwrap_or_default()
    }
}

impl Cylinder {
    fn around(subjects: &[Subject<'_>]) -> Self {
        let corners = || subjects.iter().flat_map(|s| s.solid.vertices.iter().map(|&v| s.place.point(v)));
        let bounds = corners().fold(Bounds::NOTHING, Bounds::with);
        let centre = (bounds.low + bounds.high) * 0.5;
        // The farthest is told by the squares, for a root of each takes long.
        let aside = |p: Vec3| (p.x - centre.x, p.y - centre.y);
        let farther = |(far, best), (x, y)| {
            let squared = x * x + y * y;
            if squared > far { (squared, (x, y)) } else { (far, best) }
        };
        let (_, (x, y)) = corners().map(aside).fold((0.0, (0.0, 0.0)), farther);
        let half_height = (bounds.high.z - bounds.low.z) * 0.5;
        Self { centre, radius: math::hypot(x, y), half_height }
    }
}
