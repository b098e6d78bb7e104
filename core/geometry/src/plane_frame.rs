//! A plane with axes drawn in it.

use crate::clip::Clipper;
use crate::piece::{SAME_DIRECTION, Side};
use crate::polygon::{Corners, HalfPlane, NEAR, Polygon};
use crate::{Plane, Vec3};
use kurbo::{Point, Rect, Vec2};

/// A plane and two axes in it, right-handed with its normal.
#[derive(Clone, Copy)]
pub(crate) struct PlaneFrame {
    pub(crate) origin: Vec3,
    pub(crate) u: Vec3,
    pub(crate) v: Vec3,
    pub(crate) normal: Vec3,
}

/// How the inner side of another plane shows in this one.
pub(crate) enum Meeting {
    /// All of this plane is inside the other.
    Inside,
    /// All of it is outside or on the other.
    Outside,
    /// A half-plane of it is inside.
    Line(HalfPlane),
}

impl PlaneFrame {
    /// Axes along and across the step from `from` to `to`, which lies in the plane.
    pub(crate) fn along(plane: &Plane, from: Vec3, to: Vec3) -> Self {
        let step = to - from;
        let u = (step - plane.normal * plane.normal.dot(step)).unit();
        let origin = from - plane.normal * plane.distance(from);
        Self { origin, u, v: plane.normal.cross(u), normal: plane.normal }
    }

    /// Axes along and across the line where `other` meets the plane, if it does.
    pub(crate) fn beside(plane: &Plane, other: &Plane) -> Self {
        let line = plane.normal.cross(other.normal);
        if line.dot(line) < SAME_DIRECTION {
            return Self::square(plane);
        }
        let u = line.unit();
        Self { origin: plane.normal * plane.offset, u, v: plane.normal.cross(u), normal: plane.normal }
    }

    /// Some axes, with the origin nearest to that of space.
    pub(crate) fn square(plane: &Plane) -> Self {
        let n = plane.normal;
        let (x, y, z) = (n.x.abs(), n.y.abs(), n.z.abs());
        let least = if x <= y && x <= z {
            Vec3::X
        } else if y <= z {
            Vec3::Y
        } else {
            Vec3::Z
        };
        let u = least.cross(n).unit();
        Self { origin: n * plane.offset, u, v: n.cross(u), normal: n }
    }

    /// The point in the frame's own coordinates; its height above the plane is lost.
    pub(crate) fn flat(&self, p: Vec3) -> Point {
        let d = p - self.origin;
        Point::new(self.u.dot(d), self.v.dot(d))
    }

    /// The same, and its height above the plane.
    pub(crate) fn local(&self, p: Vec3) -> Vec3 {
        let d = p - self.origin;
        Vec3::new(self.u.dot(d), self.v.dot(d), self.normal.dot(d))
    }

    /// The point of the plane with these coordinates.
    pub(crate) fn lift(&self, p: Point) -> Vec3 {
        self.origin + self.u * p.x + self.v * p.y
    }

    /// A side of a piece that lies in the plane.
    pub(crate) fn polygon(&self, side: &Side) -> Polygon {
        let points: Corners = side.corners.iter().map(|&p| self.flat(p)).collect();
        Polygon::new(points, side.convex)
    }

    /// Whether the side faces along the normal, rather than against it.
    pub(crate) fn faces(&self, side: &Side) -> bool {
        self.normal.dot(side.plane.normal) > 0.0
    }

    /// Height of a point above the plane.
    pub(crate) fn height(&self, p: Vec3) -> f64 {
        self.normal.dot(p - self.origin)
    }

    /// Clips by the inner sides of `planes`. `None` where nothing is left, or where the whole plane is
    /// outside one of them or on it.
    pub(crate) fn clip<'a>(
        &self,
        start: Polygon,
        planes: impl Iterator<Item = &'a Plane>,
    ) -> Option<Polygon> {
        let mut clipper = Clipper::new(start);
        for plane in planes {
            if self.is_inside(clipper.bounds(), plane) {
                continue;
            }
            match self.meeting(plane) {
                Meeting::Line(half) if !clipper.cut(&half) => return None,
                Meeting::Line(_) | Meeting::Inside => {}
                Meeting::Outside => return None,
            }
        }
        clipper.finish()
    }

    /// Whether a rectangle of this plane is surely inside another plane: a quick test without a root.
    fn is_inside(&self, rect: &Rect, other: &Plane) -> bool {
        let (x, y) = (other.normal.dot(self.u), other.normal.dot(self.v));
        let middle = rect.center();
        let distance = other.distance(self.origin) + x * middle.x + y * middle.y;
        distance + (x.abs() * rect.width() + y.abs() * rect.height()) * 0.5 <= -NEAR
    }

    /// Where this plane runs inside `other`.
    pub(crate) fn meeting(&self, other: &Plane) -> Meeting {
        let across = Vec2::new(other.normal.dot(self.u), other.normal.dot(self.v));
        let length = across.hypot2().sqrt();
        let distance = other.distance(self.origin);
        if length > SAME_DIRECTION {
            Meeting::Line(HalfPlane { normal: across / length, offset: -distance / length })
        } else if distance < -NEAR {
            Meeting::Inside
        } else {
            Meeting::Outside
        }
    }
}
