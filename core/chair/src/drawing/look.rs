//! Where points of the assembled chair lie on the picture, for what is laid over it.

use super::View;
use super::frame::{Frame, Held};
use super::stage::Stage;
use crate::chair::Chair;
use crestrail_geometry::view::Camera;
use crestrail_geometry::{Vec3, math};
use kurbo::{Point, Rect, Vec2};

/// Where points of the assembled chair lie on the picture.
pub struct Look {
    camera: Camera,
    frame: Frame,
    fit: Held,
    silhouette: Rect,
}

impl Look {
    /// The same frame that the picture has.
    pub fn of(chair: &Chair, view: &View) -> Self {
        let stage = Stage::of(chair, vec![Some(Vec3::ZERO); chair.parts.len()]);
        let camera = Camera::new(math::radians(view.turn), math::radians(view.tilt));
        let frame = Frame::fit(&stage, &camera, view);
        let fit = if view.held.is_some() {
            Frame::fit(&stage, &camera, &View { held: None, ..view.clone() }).held()
        } else {
            frame.held()
        };
        let silhouette = silhouette(&stage, &camera, &frame);
        Self { camera, frame, fit, silhouette }
    }

    /// A point in space on the picture, px.
    pub fn spot(&self, p: Vec3) -> Point {
        self.frame.spot(&self.camera, p)
    }

    /// What one mm along `way` becomes on the picture, px.
    pub fn step(&self, way: Vec3) -> Vec2 {
        let flat = self.camera.flat(way);
        Vec2::new(flat.x, -flat.y) * self.frame.scale
    }

    /// How squarely a unit vector is seen: 1 across the picture, 0 along the eye.
    pub fn squareness(&self, way: Vec3) -> f64 {
        self.camera.flat(way).to_vec2().hypot2().sqrt()
    }

    /// How much a unit vector points to the eye.
    pub fn toward(&self, way: Vec3) -> f64 {
        self.camera.toward.dot(way)
    }

    /// The box around the chair on the picture, px.
    pub fn silhouette(&self) -> Rect {
        self.silhouette
    }

    /// Scale and place of this picture.
    pub fn held(&self) -> Held {
        self.frame.held()
    }

    /// Scale and place that it would have if none were held.
    pub fn fit(&self) -> Held {
        self.fit
    }
}

fn silhouette(stage: &Stage<'_>, camera: &Camera, frame: &Frame) -> Rect {
    let corners = stage.subjects.iter().flat_map(|s| s.solid.vertices.iter().map(|&v| s.place.point(v)));
    let nothing = (f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY);
    let (left, low, right, high) = corners.map(|p| camera.flat(p)).fold(nothing, |(a, b, c, d), p| {
        (math::min(a, p.x), math::min(b, p.y), math::max(c, p.x), math::max(d, p.y))
    });
    Rect::from_points(frame.pixel(Point::new(left, low)), frame.pixel(Point::new(right, high)))
}
