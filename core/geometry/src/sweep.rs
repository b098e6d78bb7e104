//! How far one solid moves along a line before it meets another.
//!
//! Seen along the line, a solid shows facets that lead and facets that trail. Two solids that share no
//! space meet where a leading facet of the one that moves and a trailing facet of the one ahead cover
//! each other; the room between them is the least distance there. Facets along the line never meet
//! anything, so walls that slide along each other need no tolerance. For solids with flat faces this
//! is exact, up to a movement without end.

use crate::math::{max, min};
use crate::plane_frame::PlaneFrame;
use crate::polygon::{Corners, Polygon, meet};
use crate::region::{Region, common, subtract};
use crate::{Bounds, Face, Place, Plane, Solid, Vec3};
use core::cell::OnceCell;
use kurbo::{Point, Rect};
use smallvec::SmallVec;

/// A facet is along the line below this sine of its angle to it: over the length of a chair it then
/// shows less than [`THIN`].
const ALONG: f64 = 1e-6;

/// An overlap whose mean width is less than this is a matter of rounding, mm.
const THIN: f64 = 1e-3;

/// Solids may lie in each other by this much and still be taken to touch, mm.
const TOUCH: f64 = 1e-3;

/// An overlap in which a square of this side has room is more than a matter of rounding, mm: else its rim would be
/// longer than 8 m.
const WIDE: f64 = 2.0;

/// How far inside what two facets span the middle of such a square is looked for, mm.
const INSET: f64 = 1.25;

/// Room below this is as good as none, mm: the search for the least room stops there.
const NONE: f64 = 1.0;

/// What a solid covers at most, seen along a line: quickly told from the box around it in its own frame.
#[derive(Clone, Copy, Debug)]
pub struct Shade {
    bounds: Rect,
    low: f64,
    high: f64,
}

impl Shade {
    /// Of all that lies within `own`, a box in the frame `place`, seen along the unit direction `along`.
    pub fn of(own: &Bounds, place: &Place, along: Vec3) -> Self {
        let frame = PlaneFrame::square(&Plane { normal: along, offset: 0.0 });
        let (middle, half) = (frame.local(place.point(own.middle())), own.size() * 0.5);
        let reach = |axis: Vec3| {
            let along = |d: Vec3, half: f64| d.dot(axis).abs() * half;
            along(place.x, half.x) + along(place.y, half.y) + along(place.z, half.z)
        };
        let (u, v, w) = (reach(frame.u), reach(frame.v), reach(frame.normal));
        Self {
            bounds: Rect::new(middle.x - u, middle.y - v, middle.x + u, middle.y + v),
            low: middle.z - w,
            high: middle.z + w,
        }
    }

    /// Whether that tells that a solid, moving along the line, never meets one ahead.
    #[inline]
    pub fn misses(&self, ahead: &Self) -> bool {
        !meet(&self.bounds, &ahead.bounds, -THIN) || ahead.high < self.low - TOUCH
    }
}

/// A solid seen along a line.
pub struct Shadow<'a> {
    solid: &'a Solid,
    /// Its corners, told across and along the line.
    spots: Vec<Vec3>,
    /// The solid's own frame as it is seen: across the line, and along it.
    seen: Place,
    /// Around all of it, across the line.
    bounds: Rect,
    low: f64,
    high: f64,
    leading: OnceCell<Vec<Facet>>,
    trailing: OnceCell<Vec<Facet>>,
}

/// A face seen along the line.
struct Facet {
    /// Its place among the faces of the solid.
    face: usize,
    bounds: Rect,
    low: f64,
    high: f64,
    /// Worked out for those alone that something comes near.
    shape: OnceCell<Shape>,
}

/// What a facet covers, and how high.
struct Shape {
    region: Region,
    /// Its height over the frame at a point: `at + slope · p`.
    at: f64,
    slope: kurbo::Vec2,
}

/// A facet with the shape that is needed of it.
#[derive(Clone, Copy)]
struct Seen<'s> {
    low: f64,
    high: f64,
    bounds: &'s Rect,
    shape: &'s Shape,
}

impl<'a> Shadow<'a> {
    /// The solid where `place` stands, seen along the unit direction `along`.
    pub fn of(solid: &'a Solid, place: &Place, along: Vec3) -> Self {
        let frame = PlaneFrame::square(&Plane { normal: along, offset: 0.0 });
        let turned = |axis: Vec3| Vec3::new(frame.u.dot(axis), frame.v.dot(axis), frame.normal.dot(axis));
        let origin = frame.local(place.origin);
        let seen = Place { origin, x: turned(place.x), y: turned(place.y), z: turned(place.z) };
        let spots: Vec<Vec3> = solid.vertices.iter().map(|&v| seen.point(v)).collect();
        let Bounds { low, high } = Bounds::around(&spots);
        let bounds = Rect::new(low.x, low.y, high.x, high.y);
        let (leading, trailing) = (OnceCell::new(), OnceCell::new());
        Self { solid, spots, seen, bounds, low: low.z, high: high.z, leading, trailing }
    }

    /// Length along the line, mm.
    pub fn length(&self) -> f64 {
        self.high - self.low
    }

    /// Whether the boxes around both already tell that this solid, moving, never meets the other.
    pub fn misses(&self, ahead: &Self) -> bool {
        !meet(&self.bounds, &ahead.bounds, -THIN) || ahead.high < self.low - TOUCH
    }

    /// How far this solid can move along the line before it meets `ahead`, mm; infinite if it never
    /// does. Both are seen along the same line and share no space. Below a millimetre the figure is
    /// some room, not always the least.
    pub fn room(&self, ahead: &Self) -> f64 {
        if self.misses(ahead) {
            return f64::INFINITY;
        }
        let behind = ahead.faced_by(self);
        let mut least = f64::INFINITY;
        for own in self.facing(ahead) {
            for other in behind.iter().filter(|other| own.may_meet(other)) {
                if other.low - own.high >= least {
                    continue;
                }
                least = min(least, self.seen(own).room(&ahead.seen(other)));
                if least < NONE {
                    return least;
                }
            }
        }
        least
    }

    /// Whether this solid, moving along the line, ever meets `ahead`: whether the room is finite.
    pub fn meets(&self, ahead: &Self) -> bool {
        if self.misses(ahead) {
            return false;
        }
        let behind = ahead.faced_by(self);
        let pairs = || {
            self.facing(ahead).flat_map(|own| {
                let near = behind.iter().filter(move |other| own.may_meet(other));
                near.map(move |other| (self.seen(own), ahead.seen(other)))
            })
        };
        // Most that meet do so beyond doubt somewhere.
        pairs().any(|(own, other)| own.surely_meets(&other)) || pairs().any(|(own, other)| own.meets(&other))
    }

    /// The leading facets that may meet `ahead`.
    fn facing(&self, ahead: &Self) -> impl Iterator<Item = &Facet> {
        let leading = self.leading.get_or_init(|| self.facets(|rate| rate > ALONG));
        let may_meet =
            |own: &&Facet| meet(&own.bounds, &ahead.bounds, -THIN) && own.low <= ahead.high + TOUCH;
        leading.iter().filter(may_meet)
    }

    /// The trailing facets that one coming from behind may meet.
    fn faced_by(&self, behind: &Self) -> SmallVec<[&Facet; 16]> {
        let trailing = self.trailing.get_or_init(|| self.facets(|rate| rate < -ALONG));
        let may_meet =
            |own: &&Facet| meet(&own.bounds, &behind.bounds, -THIN) && own.high >= behind.low - TOUCH;
        trailing.iter().filter(may_meet).collect()
    }

    /// The facets whose normals go along the line at a rate that is wanted.
    fn facets(&self, wanted: impl Fn(f64) -> bool) -> Vec<Facet> {
        let (x, y, z) = (self.seen.x.z, self.seen.y.z, self.seen.z.z);
        let rate = |n: Vec3| x * n.x + y * n.y + z * n.z;
        let faces = self.solid.faces.iter().enumerate().filter(|(_, face)| wanted(rate(face.normal)));
        faces.filter_map(|(face, _)| self.facet(face)).collect()
    }

    fn facet(&self, face: usize) -> Option<Facet> {
        let outer = self.solid.faces[face].rings.first()?;
        let around = outer.corners.iter().fold(Bounds::NOTHING, |b, &c| b.with(self.spots[c as usize]));
        let Bounds { low, high } = around;
        let bounds = Rect::new(low.x, low.y, high.x, high.y);
        Some(Facet { face, bounds, low: low.z, high: high.z, shape: OnceCell::new() })
    }

    /// A facet of this solid with its shape.
    fn seen<'s>(&'s self, facet: &'s Facet) -> Seen<'s> {
        let shape = facet.shape.get_or_init(|| self.shape(&self.solid.faces[facet.face]));
        Seen { low: facet.low, high: facet.high, bounds: &facet.bounds, shape }
    }

    fn shape(&self, face: &Face) -> Shape {
        let flat = |corners: &[u32]| {
            let seen = |&corner: &u32| {
                let spot = self.spots[corner as usize];
                Point::new(spot.x, spot.y)
            };
            Polygon::any(corners.iter().map(seen).collect::<Corners>())
        };
        let mut rings = face.rings.iter().map(|ring| flat(&ring.corners));
        let outer = rings.next().unwrap_or_else(|| flat(&[]));
        let normal = self.seen.direction(face.normal);
        let slope = kurbo::Vec2::new(-normal.x / normal.z, -normal.y / normal.z);
        let first = face.rings.first().and_then(|ring| ring.corners.first());
        let at = first.map_or(0.0, |&corner| {
            let spot = self.spots[corner as usize];
            spot.z - slope.dot(kurbo::Vec2::new(spot.x, spot.y))
        });
        Shape { region: Region { outer, holes: rings.collect() }, at, slope }
    }
}

impl Facet {
    /// Whether the boxes around both leave it open that this one, moving, meets another.
    fn may_meet(&self, ahead: &Self) -> bool {
        ahead.high >= self.low - TOUCH && meet(&self.bounds, &ahead.bounds, -THIN)
    }
}

impl Shape {
    fn height(&self, p: Point) -> f64 {
        self.at + self.slope.dot(p.to_vec2())
    }
}

impl Seen<'_> {
    /// The room up to a facet ahead.
    fn room(&self, ahead: &Self) -> f64 {
        let covered = self.covered(ahead);
        covered.iter().filter_map(|region| self.gap(ahead, region)).fold(f64::INFINITY, min)
    }

    /// Whether there is room to tell: whether this facet, moving, meets one ahead.
    fn meets(&self, ahead: &Self) -> bool {
        self.covered(ahead).iter().any(|region| self.gap(ahead, region).is_some())
    }

    /// Whether the other lies ahead all over what both span, and one of a few places there is well within both: a quick
    /// answer that may be wrong if it is no.
    fn surely_meets(&self, ahead: &Self) -> bool {
        let window = self.bounds.intersect(*ahead.bounds);
        if window.width() < WIDE || window.height() < WIDE {
            return false;
        }
        let gap = |x: f64, y: f64| ahead.shape.height(Point::new(x, y)) - self.shape.height(Point::new(x, y));
        let (xs, ys) = ([window.x0, window.x1], [window.y0, window.y1]);
        // Far ahead at their nearest they need not be compared.
        let lies_ahead =
            ahead.low >= self.high || { !xs.iter().any(|&x| ys.iter().any(|&y| gap(x, y) < -TOUCH)) };
        let places = |[low, high]: [f64; 2]| [low + INSET, (low + high) / 2.0, high - INSET];
        let both = [&self.shape.region, &ahead.shape.region];
        lies_ahead
            && places(xs).iter().any(|&x| {
                places(ys).iter().any(|&y| both.iter().all(|region| has_room_at(region, Point::new(x, y))))
            })
    }

    /// Where both cover each other, seen along the line.
    fn covered(&self, ahead: &Self) -> Vec<Region> {
        let (own, other) = (&self.shape.region, &ahead.shape.region);
        let covered = common(&own.outer, &other.outer).into_iter().map(Region::from).collect();
        subtract(covered, own.holes.iter().chain(&other.holes))
    }

    /// The least distance to the facet ahead within a region that both cover, if it really lies ahead there.
    fn gap(&self, ahead: &Self, region: &Region) -> Option<f64> {
        if is_thin(region) {
            return None;
        }
        let gaps = region.outer.points.iter().map(|&p| ahead.shape.height(p) - self.shape.height(p));
        // The facets of solids that share no space do not cross: one lies ahead as a whole. They may
        // touch at an edge, where rounding takes either side, so the far end decides.
        let (least, most) = gaps.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, m), g| (min(g, l), max(g, m)));
        (least >= -TOUCH || most > -least).then(|| max(least, 0.0))
    }
}

/// Whether a wide square about a place surely lies in a region.
fn has_room_at(region: &Region, p: Point) -> bool {
    let square = Rect::from_center_size(p, (WIDE, WIDE));
    region.holes.iter().all(|hole| !meet(&hole.bounds, &square, 0.0))
        && region.outer.surrounds_box(&square, p)
}

/// Whether a region is so narrow that only rounding made it.
fn is_thin(region: &Region) -> bool {
    let whole = |p: &Polygon| crate::outline::signed_area(&p.points);
    let around = |p: &Polygon| p.edges().map(|(a, b)| (b - a).hypot2().sqrt()).sum::<f64>();
    let area = whole(&region.outer) - region.holes.iter().map(whole).sum::<f64>();
    let length = around(&region.outer) + region.holes.iter().map(around).sum::<f64>();
    2.0 * area < THIN * length
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Body, carve};

    fn block(low: [f64; 3], high: [f64; 3]) -> Body {
        let at = |p: [f64; 3]| Vec3::new(p[0], p[1], p[2]);
        Body::cuboid(&Place::HOME, at(low), at(high))
    }

    fn room(mover: &Solid, other: &Solid, along: Vec3) -> f64 {
        let see = |solid| Shadow::of(solid, &Place::HOME, along);
        let room = see(mover).room(&see(other));
        assert_eq!(see(mover).meets(&see(other)), room < f64::INFINITY);
        room
    }

    /// A post with a mortise in its right side, and a rail whose tenon stands in it with a little play.
    fn post_and_rail() -> [Solid; 2] {
        let mortise = block([-20.0, -4.0, 30.0], [1.0, 4.0, 60.0]);
        let post = carve(&[block([-40.0, -20.0, 0.0], [0.0, 20.0, 100.0])], &[mortise]).unwrap();
        let tenon = block([-18.0, -3.9, 30.1], [1.0, 3.9, 59.9]);
        let rail = carve(&[block([0.0, -10.0, 20.0], [300.0, 10.0, 70.0]), tenon], &[]).unwrap();
        [post, rail]
    }

    #[test]
    fn a_tenon_leaves_its_mortise_one_way_only() {
        let [post, rail] = post_and_rail();
        assert_eq!(room(&rail, &post, Vec3::X), f64::INFINITY);
        assert_eq!(room(&post, &rail, -Vec3::X), f64::INFINITY);
        assert_eq!(room(&rail, &post, -Vec3::X), 0.0);
        for across in [Vec3::Y, -Vec3::Y, Vec3::Z, -Vec3::Z] {
            assert!((room(&rail, &post, across) - 0.1).abs() < 1e-9, "{across:?}");
        }
    }

    /// What covers more than the solid itself misses less.
    #[test]
    fn what_misses_by_its_own_box_misses() {
        let turned = Place::new(Vec3::new(90.0, 12.0, 5.0), Vec3::new(1.0, 0.4, 0.2), Vec3::Z);
        let solid = carve(&[block([0.0, 0.0, 0.0], [60.0, 8.0, 4.0])], &[]).unwrap();
        let see =
            |place: &Place| (Shade::of(&solid.bounds(), place, Vec3::X), Shadow::of(&solid, place, Vec3::X));
        let (shade, shadow) = see(&turned);
        let mut missed = 0;
        for step in 0..60 {
            let (other, exact) = see(&Place::HOME.moved(Vec3::new(0.0, f64::from(step), 3.0)));
            assert!(!other.misses(&shade) || exact.misses(&shadow), "{step}");
            assert!(!shade.misses(&other) || shadow.misses(&exact), "{step}");
            missed += usize::from(other.misses(&shade));
            assert_eq!(other.bounds, exact.bounds, "along the axes both are the same");
        }
        assert!((1..60).contains(&missed), "{missed}");
    }

    #[test]
    fn the_room_to_something_far_off_is_told() {
        let [post, rail] = post_and_rail();
        let wall = carve(&[block([500.0, -50.0, -50.0], [510.0, 50.0, 150.0])], &[]).unwrap();
        assert!((room(&rail, &wall, Vec3::X) - 200.0).abs() < 1e-9);
        assert_eq!(room(&wall, &rail, Vec3::X), f64::INFINITY);
        // Through a window as large as itself the rail slides for ever.
        let window = block([499.0, -10.0, 20.0], [511.0, 10.0, 70.0]);
        let frame = carve(&[block([500.0, -50.0, -50.0], [510.0, 50.0, 150.0])], &[window]).unwrap();
        assert_eq!(room(&rail, &frame, Vec3::X), f64::INFINITY);
        assert!((room(&post, &frame, Vec3::X) - 500.0).abs() < 1e-9);
    }

    #[test]
    fn a_slanted_face_is_met_where_it_is_nearest() {
        let ramp = Body::Convex(vec![
            Plane::through(Vec3::new(100.0, 0.0, 0.0), Vec3::new(-1.0, 0.0, 0.5)),
            Plane { normal: Vec3::X, offset: 300.0 },
            Plane { normal: Vec3::Y, offset: 10.0 },
            Plane { normal: -Vec3::Y, offset: 10.0 },
            Plane { normal: Vec3::Z, offset: 50.0 },
            Plane { normal: -Vec3::Z, offset: 50.0 },
        ]);
        let ramp = carve(&[ramp], &[]).unwrap();
        let cube = carve(&[block([0.0, -5.0, -10.0], [20.0, 5.0, 10.0])], &[]).unwrap();
        assert!((room(&cube, &ramp, Vec3::X) - 75.0).abs() < 1e-9);
    }
}
