//! Faces before they are welded: corners as points, not yet shared.

use crate::Vec3;
use crate::piece::Side;
use crate::plane_frame::PlaneFrame;
use crate::polygon::Polygon;
use crate::region::Region;
use core::ops::Range;

/// Faces of a solid that still have corners of their own.
pub(crate) struct Soup {
    pub(crate) points: Vec<Vec3>,
    pub(crate) loops: Vec<Loop>,
    pub(crate) faces: Vec<SoupFace>,
}

/// One closed loop of a face.
pub(crate) struct Loop {
    pub(crate) points: Range<usize>,
    /// Its points carry the rounding of a grid.
    pub(crate) coarse: bool,
}

/// A face: its loops, the outer one first, run counter-clockwise about `normal`, holes clockwise.
pub(crate) struct SoupFace {
    pub(crate) normal: Vec3,
    pub(crate) loops: Range<usize>,
}

impl Soup {
    /// With room for about as many faces, most of them with four corners.
    pub(crate) fn for_faces(count: usize) -> Self {
        Self {
            points: Vec::with_capacity(5 * count),
            loops: Vec::with_capacity(count),
            faces: Vec::with_capacity(count),
        }
    }

    /// Adds a whole side of a piece.
    pub(crate) fn add_side(&mut self, side: &Side) {
        let first = self.loops.len();
        self.add_loop(side.corners.iter().copied(), false);
        self.faces.push(SoupFace { normal: side.plane.normal, loops: first..self.loops.len() });
    }

    /// Adds regions of a plane, facing along its normal or, when `turned`, against it.
    pub(crate) fn add_regions(&mut self, regions: &[Region], frame: &PlaneFrame, turned: bool) {
        for region in regions {
            let first = self.loops.len();
            self.add_polygon(&region.outer, frame, turned);
            region.holes.iter().for_each(|hole| self.add_polygon(hole, frame, !turned));
            let normal = if turned { -frame.normal } else { frame.normal };
            self.faces.push(SoupFace { normal, loops: first..self.loops.len() });
        }
    }

    fn add_polygon(&mut self, polygon: &Polygon, frame: &PlaneFrame, reversed: bool) {
        let points = polygon.points.iter().map(|&p| frame.lift(p));
        if reversed {
            self.add_loop(points.rev(), polygon.coarse);
        } else {
            self.add_loop(points, polygon.coarse);
        }
    }

    fn add_loop(&mut self, points: impl Iterator<Item = Vec3>, coarse: bool) {
        let first = self.points.len();
        self.points.extend(points);
        self.loops.push(Loop { points: first..self.points.len(), coarse });
    }
}
