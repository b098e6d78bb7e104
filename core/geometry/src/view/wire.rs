//! Lines in space, as far as they can be seen among the faces of a picture.

use super::Picture;
use super::flat::{Bounds, Shown};
use super::meet::{TOUCH, side};
use crate::Vec3;
use crestrail_sorting::Order as _;
use kurbo::{Line, Point};

impl Picture {
    /// The visible stretches of the straight line from `from` to `to`, in order along it.
    pub fn visible(&self, from: Vec3, to: Vec3) -> Vec<Line> {
        let wire = Wire::new(self, from, to);
        let bounds = Bounds::of(&[wire.from, wire.to]);
        let mut hidden: Vec<(f64, f64)> =
            self.near().to(&bounds).flat_map(|face| wire.behind(&self.faces[face])).collect();
        hidden.order_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
        let mut seen = Vec::new();
        let mut at = 0.0;
        for (start, end) in hidden.into_iter().chain([(1.0, 1.0)]) {
            if start > at {
                seen.push(Line::new(wire.at(at), wire.at(start)));
            }
            at = f64::max(at, end);
        }
        seen
    }
}

/// A line with its nearness at both ends.
struct Wire {
    from: Point,
    to: Point,
    near: (f64, f64),
}

impl Wire {
    fn new(picture: &Picture, from: Vec3, to: Vec3) -> Self {
        let camera = &picture.camera;
        Self {
            from: camera.flat(from),
            to: camera.flat(to),
            near: (camera.nearness(from), camera.nearness(to)),
        }
    }

    fn at(&self, share: f64) -> Point {
        self.from.lerp(self.to, share)
    }

    /// The stretches, as shares of its length, on which the line runs behind the face.
    fn behind(&self, face: &Shown) -> Vec<(f64, f64)> {
        let depth =
            |share: f64| face.nearness(self.at(share)) - (self.near.0 + (self.near.1 - self.near.0) * share);
        let (start, end) = (depth(0.0), depth(1.0));
        if start.max(end) * face.facing <= TOUCH {
            return Vec::new();
        }
        let mut marks = vec![0.0, 1.0];
        marks.extend(face.segments().filter_map(|(a, b)| self.share(a, b)));
        if start * end < 0.0 {
            marks.push(start / (start - end));
        }
        marks.sort_by(f64::total_cmp);
        let stretches = marks.windows(2).map(|w| (w[0], w[1]));
        let is_behind = |&(s, e): &(f64, f64)| {
            let middle = (s + e) / 2.0;
            e > s && depth(middle) * face.facing > TOUCH && face.covers(self.at(middle))
        };
        stretches.filter(is_behind).collect()
    }

    /// Where the edge crosses the line.
    fn share(&self, a: Point, b: Point) -> Option<f64> {
        let (start, end) = (side(self.from, self.to, a), side(self.from, self.to, b));
        if start * end >= 0.0 {
            return None;
        }
        let (from, to) = (side(a, b, self.from), side(a, b, self.to));
        (from * to < 0.0).then(|| from / (from - to))
    }
}
