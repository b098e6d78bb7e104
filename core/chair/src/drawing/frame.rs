//! From millimetres in the camera's picture to pixels on the sheet.

use super::View;
use super::stage::Stage;
use crestrail_geometry::Vec3;
use crestrail_geometry::view::Camera;
use kurbo::{Point, Vec2};

/// Room at the sides for the letters, as a share of the smaller side of the sheet.
const SIDE_ROOM: f64 = 0.085;
/// Room above and below.
const END_ROOM: f64 = 0.035;

/// Scale and place of the picture on the sheet.
pub(super) struct Frame {
    /// Pixels per millimetre.
    pub(super) scale: f64,
    /// Size of lines and letters: 1 on a sheet 800 pixels wide or high.
    pub(super) weight: f64,
    middle: Point,
    focus: Point,
}

impl Frame {
    /// Fits the upright cylinder around the chair, so that the scale does not change while the
    /// chair is turned, and changes smoothly while it is tilted or taken apart. A scale that the
    /// view names is kept instead.
    pub(super) fn fit(stage: &Stage<'_>, camera: &Camera, view: &View) -> Self {
        let hull = stage.hull;
        let smaller = view.width.min(view.height);
        let weight = (smaller / 800.0).clamp(0.6, 1.6);
        let middle = Point::new(view.width / 2.0, view.height / 2.0);
        if let Some(scale) = view.scale {
            return Self { scale, weight, middle, focus: camera.flat(Vec3::ZERO) };
        }
        let half_width = hull.radius;
        let half_height = hull.half_height * camera.up.z.abs() + hull.radius * camera.toward.z.abs();
        let room = Vec2::new(view.width, view.height) / 2.0 - Vec2::new(SIDE_ROOM, END_ROOM) * smaller;
        Self {
            scale: (room.x / half_width).min(room.y / half_height),
            weight,
            middle,
            focus: camera.flat(hull.centre),
        }
    }

    /// A point of the camera's picture on the sheet.
    pub(super) fn pixel(&self, p: Point) -> Point {
        let step = p - self.focus;
        self.middle + Vec2::new(step.x, -step.y) * self.scale
    }

    /// A point in space on the sheet.
    pub(super) fn spot(&self, camera: &Camera, p: Vec3) -> Point {
        self.pixel(camera.flat(p))
    }

    /// A point of the sheet in the camera's picture.
    pub(super) fn millimetre(&self, p: Point) -> Point {
        let step = (p - self.middle) / self.scale;
        self.focus + Vec2::new(step.x, -step.y)
    }
}
