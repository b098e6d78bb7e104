//! From millimetres in the camera's picture to pixels on the sheet.

use super::View;
use super::stage::Stage;
use crestrail_geometry::Vec3;
use crestrail_geometry::view::Camera;
use kurbo::{Point, Vec2};
use serde::{Deserialize, Serialize};

/// Room at the sides for the letters, as a share of the smaller side of the sheet.
const SIDE_ROOM: f64 = 0.085;
/// Room above and below.
const END_ROOM: f64 = 0.035;

/// From the chair's outline to a dimension line, and a little beyond the figure on it, px.
const DIMENSION_GAP: f64 = 26.0;
/// Half of what a finger needs, px.
const GRIP: f64 = 14.0;

/// Scale and place of a picture as it is told, and handed back to keep both while a size is dragged: what is fixed in
/// space then stands still on the picture. With the same numbers several chairs are drawn to one scale; the focus
/// `[0, 0]` is the middle of the floor below the chair, from wherever it is seen. What has no room is drawn beyond the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Held {
    /// Pixels per millimetre.
    pub scale: f64,
    /// The point of the camera's picture that stands in the middle, mm.
    pub focus: [f64; 2],
}

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
    /// chair is turned, and changes smoothly while it is tilted or taken apart. What the
    /// view holds is kept instead.
    pub(super) fn fit(stage: &Stage<'_>, camera: &Camera, view: &View) -> Self {
        let smaller = view.width.min(view.height);
        let [half_width, half_height] = halves(stage, camera);
        let [side, above, below] = rooms(view, smaller);
        let room = Vec2::new(view.width - 2.0 * side, view.height - above - below) / 2.0;
        let room = Vec2::new(room.x.max(1.0), room.y.max(1.0));
        let own =
            Held { scale: (room.x / half_width).min(room.y / half_height), focus: middle_of(stage, camera) };
        let Held { scale, focus: [x, y] } = view.held.unwrap_or(own);
        Self {
            scale,
            weight: (smaller / 800.0).clamp(0.6, 1.6),
            middle: Point::new(view.width / 2.0, (view.height + above - below) / 2.0),
            focus: Point::new(x, y),
        }
    }

    /// As it is told.
    pub(super) fn held(&self) -> Held {
        Held { scale: self.scale, focus: spot(self.focus) }
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

/// Room at each side, above and below, px.
fn rooms(view: &View, smaller: f64) -> [f64; 3] {
    let (side, end) = (SIDE_ROOM * smaller, END_ROOM * smaller);
    match &view.dimensions {
        None => [side, end, end],
        Some(room) => {
            let [wide, high] = room.figure;
            [side.max(wide / 2.0 + DIMENSION_GAP), end.max(GRIP), end.max(high / 2.0 + DIMENSION_GAP)]
        }
    }
}

/// Half of the width and of the height that the cylinder around the chair takes in the camera's picture, mm.
pub(super) fn halves(stage: &Stage<'_>, camera: &Camera) -> [f64; 2] {
    let hull = stage.hull;
    [hull.radius, hull.half_height * camera.up.z.abs() + hull.radius * camera.toward.z.abs()]
}

/// The middle of that cylinder in the camera's picture, mm.
pub(super) fn middle_of(stage: &Stage<'_>, camera: &Camera) -> [f64; 2] {
    spot(camera.flat(stage.hull.centre))
}

fn spot(p: Point) -> [f64; 2] {
    [p.x, p.y]
}
