//! How much timber lies ahead: from a point inside a body to its surface.

use crate::{Body, Plane, Prism, Vec3};
use kurbo::{Point, Vec2};

/// Where a straight line from inside a body leaves it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Exit {
    /// Distance from the start, mm. Negative or zero where the start is not inside.
    pub distance: f64,
    /// The face it leaves through.
    pub face: Plane,
}

impl Body {
    /// Where the line from `p` in the unit direction `d` first leaves the body; `None` for a body
    /// that does not end that way.
    pub fn exit(&self, p: Vec3, d: Vec3) -> Option<Exit> {
        match self {
            Self::Convex(planes) => nearest(planes.iter().filter_map(|plane| leave(plane, p, d))),
            Self::Prism(prism) => prism.exit(p, d),
        }
    }
}

impl Prism {
    fn exit(&self, p: Vec3, d: Vec3) -> Option<Exit> {
        let (start, way) = (self.place.local_point(p), self.place.local_direction(d));
        let caps =
            [Plane { normal: Vec3::Z, offset: self.to }, Plane { normal: -Vec3::Z, offset: -self.from }];
        let closing = self.outline.last().copied().zip(self.outline.first().copied());
        let edges = self.outline.windows(2).map(|ends| (ends[0], ends[1])).chain(closing);
        let sides = edges.filter_map(|(a, b)| Some((cross(start, way, a, b)?, [a, b])));
        let side = sides.min_by(|a, b| a.0.total_cmp(&b.0));
        let side = side.map(|(distance, edge)| Exit { distance, face: wall(edge) });
        let exit = nearest(caps.iter().filter_map(|cap| leave(cap, start, way)).chain(side))?;
        let own = Exit { face: self.place.plane(&exit.face), ..exit };
        nearest(self.clip.iter().filter_map(|clip| leave(clip, p, d)).chain([own]))
    }
}

fn nearest(exits: impl Iterator<Item = Exit>) -> Option<Exit> {
    exits.min_by(|a, b| a.distance.total_cmp(&b.distance))
}

fn leave(plane: &Plane, p: Vec3, d: Vec3) -> Option<Exit> {
    let rate = plane.normal.dot(d);
    (rate > 1e-9).then(|| Exit { distance: -plane.distance(p) / rate, face: *plane })
}

/// Where the line crosses the side wall over the outline's edge `a`–`b`, if it leaves there.
#[inline]
fn cross(start: Vec3, way: Vec3, a: Point, b: Point) -> Option<f64> {
    let edge = b - a;
    let flat = Vec2::new(way.x, way.y);
    let rate = flat.cross(edge);
    // The inside of a counter-clockwise outline lies to the left of its edges.
    if rate <= 1e-12 {
        return None;
    }
    let to_a = a - Point::new(start.x, start.y);
    // Along the edge first: most edges are passed by, and need no division.
    let along = to_a.cross(flat);
    if along < -1e-9 * rate || along > (1.0 + 1e-9) * rate {
        return None;
    }
    Some(to_a.cross(edge) / rate).filter(|distance| *distance > -1e-9)
}

/// The side wall over an edge of the outline.
fn wall([a, b]: [Point; 2]) -> Plane {
    let edge = b - a;
    Plane::through(Vec3::new(a.x, a.y, 0.0), Vec3::new(edge.y, -edge.x, 0.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Place;

    #[test]
    fn leaves_a_box_through_the_face_ahead() {
        let body = Body::cuboid(&Place::HOME, Vec3::ZERO, Vec3::new(10.0, 20.0, 30.0));
        let exit = body.exit(Vec3::new(4.0, 5.0, 6.0), Vec3::Y).unwrap();
        assert_eq!((exit.distance, exit.face.normal), (15.0, Vec3::Y));
        let slanted = body.exit(Vec3::new(4.0, 5.0, 6.0), Vec3::new(0.6, 0.8, 0.0)).unwrap();
        assert!((slanted.distance - 10.0).abs() < 1e-12 && slanted.face.normal == Vec3::X);
    }

    #[test]
    fn stops_at_the_near_wall_of_a_bent_outline() {
        let outline = [
            (0.0, 0.0),
            (10.0, 0.0),
            (10.0, 2.0),
            (2.0, 2.0),
            (2.0, 8.0),
            (10.0, 8.0),
            (10.0, 10.0),
            (0.0, 10.0),
        ];
        let outline = outline.map(Point::from).to_vec();
        let body = Body::Prism(Prism { place: Place::HOME, outline, from: 0.0, to: 5.0, clip: Vec::new() });
        let up = body.exit(Vec3::new(5.0, 1.0, 2.0), Vec3::Y).unwrap();
        assert!((up.distance - 1.0).abs() < 1e-12 && (up.face.normal - Vec3::Y).length() < 1e-12);
        let through = body.exit(Vec3::new(1.0, 1.0, 2.0), Vec3::Y).unwrap();
        assert!((through.distance - 9.0).abs() < 1e-12);
        assert!((body.exit(Vec3::new(5.0, 1.0, 2.0), Vec3::Z).unwrap().distance - 3.0).abs() < 1e-12);
    }
}
