//! Bodies made ready for carving: their boundary as flat sides, and their bounds.

use crate::carve::CarveError;
use crate::hexahedron::Hexahedron;
use crate::outline::tidy;
use crate::plane_frame::PlaneFrame;
use crate::polygon::{Corners, HalfPlane, NEAR, Polygon};
use crate::{Body, Bounds, Plane, Prism, Vec3};
use kurbo::Point;
use smallvec::{SmallVec, smallvec};

/// A body that reaches farther than this from its first face is taken for endless, mm. The longest
/// timber for a chair is a fifth of it.
const ENDLESS: f64 = 10_000.0;
/// Directions that differ by less are the same: over a metre they part by a millionth of a millimetre.
pub(crate) const SAME_DIRECTION: f64 = 1e-9;

/// A body with its bounds.
pub(crate) struct Piece {
    pub(crate) added: bool,
    pub(crate) bounds: Bounds,
    pub(crate) shape: Shape,
}

/// The body itself, cleaned.
pub(crate) enum Shape {
    Convex(Vec<Plane>),
    /// A prism, and whether its outline is convex.
    Prism(Prism, bool),
}

/// A flat side of a piece.
pub(crate) struct Side {
    pub(crate) piece: usize,
    /// Its plane, with the normal pointing out of the piece.
    pub(crate) plane: Plane,
    /// Counter-clockwise seen from outside the piece.
    pub(crate) corners: SmallVec<[Vec3; 4]>,
    pub(crate) convex: bool,
    pub(crate) bounds: Bounds,
}

impl Side {
    fn new(piece: usize, plane: Plane, corners: SmallVec<[Vec3; 4]>, convex: bool) -> Self {
        let bounds = Bounds::around(&corners);
        Self { piece, plane, corners, convex, bounds }
    }
}

/// Makes `body` ready; its sides are appended to `sides` as those of piece number `piece`.
pub(crate) fn prepare(
    body: &Body,
    added: bool,
    piece: usize,
    sides: &mut Vec<Side>,
) -> Result<Piece, CarveError> {
    let first = sides.len();
    let shape = match body {
        Body::Convex(planes) => Shape::Convex(convex_sides(planes, piece, sides)?),
        Body::Prism(prism) => {
            let prism = prism_sides(prism, piece, sides)?;
            let convex = is_convex(&prism.outline);
            Shape::Prism(prism, convex)
        }
    };
    let bounds = sides[first..].iter().fold(Bounds::NOTHING, |b, s| b.union(s.bounds));
    Ok(Piece { added, bounds, shape })
}

fn convex_sides(planes: &[Plane], piece: usize, sides: &mut Vec<Side>) -> Result<Vec<Plane>, CarveError> {
    let planes = without_repeats(planes);
    if let Some(hexahedron) = Hexahedron::of(&planes) {
        let face = |i: usize| SmallVec::from(hexahedron.face(i));
        sides.extend(planes.iter().enumerate().map(|(i, own)| Side::new(piece, *own, face(i), true)));
        return Ok(planes);
    }
    for (i, own) in planes.iter().enumerate() {
        let n = planes.len();
        let frame = PlaneFrame::beside(own, &planes[(i + 1) % n]);
        // Planes next to each other in the list mostly bound neighbouring faces: from there outwards,
        // the face soon is small, and the far planes are passed by its bounds alone.
        let around =
            (1..n).map(|k| &planes[(if k % 2 == 1 { i + k.div_ceil(2) } else { i + n - k / 2 }) % n]);
        let Some(face) = frame.clip(square(Point::ZERO, ENDLESS), around) else { continue };
        if face.points.iter().any(|p| p.x.abs().max(p.y.abs()) > 0.9 * ENDLESS) {
            return Err(CarveError::Endless);
        }
        let corners = face.points.iter().map(|&p| frame.lift(p)).collect();
        sides.push(Side::new(piece, *own, corners, true));
    }
    Ok(planes)
}

/// Drops a plane that another of the same direction makes idle.
fn without_repeats(planes: &[Plane]) -> Vec<Plane> {
    let mut kept: Vec<Plane> = Vec::with_capacity(planes.len());
    for plane in planes {
        let same = |k: &&mut Plane| (k.normal - plane.normal).length() < SAME_DIRECTION;
        match kept.iter_mut().find(same) {
            Some(k) => k.offset = k.offset.min(plane.offset),
            None => kept.push(*plane),
        }
    }
    kept
}

/// An axis-parallel square that reaches `half` from its middle.
pub(crate) fn square(middle: Point, half: f64) -> Polygon {
    let corner = |x: f64, y: f64| Point::new(middle.x + x * half, middle.y + y * half);
    let corners = [corner(-1.0, -1.0), corner(1.0, -1.0), corner(1.0, 1.0), corner(-1.0, 1.0)];
    Polygon::new(Corners::from_slice(&corners), true)
}

fn prism_sides(prism: &Prism, piece: usize, sides: &mut Vec<Side>) -> Result<Prism, CarveError> {
    let outline = tidy(prism.outline.clone());
    if outline.len() < 3 || prism.to - prism.from <= NEAR {
        return Err(CarveError::Outline);
    }
    let prism = Prism { outline, ..prism.clone() };
    let place = prism.place;
    let corner = |p: Point, z: f64| place.point(Vec3::new(p.x, p.y, z));
    let convex = is_convex(&prism.outline);
    let mut add = |normal: Vec3, mut corners: SmallVec<[Vec3; 4]>, turned: bool, convex: bool| {
        // Corners must run counter-clockwise seen from outside; a mirrored place turns them all.
        if turned != place.is_mirrored() {
            corners.reverse();
        }
        sides.push(Side::new(piece, Plane::through(corners[0], normal), corners, convex));
    };
    let end = |z: f64| prism.outline.iter().map(|&p| corner(p, z)).collect();
    add(-place.z, end(prism.from), true, convex);
    add(place.z, end(prism.to), false, convex);
    for (i, &a) in prism.outline.iter().enumerate() {
        let b = prism.outline[(i + 1) % prism.outline.len()];
        let normal = place.x * (b.y - a.y) - place.y * (b.x - a.x);
        let (from, to) = (prism.from, prism.to);
        add(normal, smallvec![corner(a, from), corner(b, from), corner(b, to), corner(a, to)], false, true);
    }
    Ok(prism)
}

/// Whether a counter-clockwise outline turns left at every corner.
pub(crate) fn is_convex(outline: &[Point]) -> bool {
    let n = outline.len();
    let after = |i: usize| if i + 1 == n { 0 } else { i + 1 };
    (0..n).all(|i| {
        let (a, b, c) = (outline[i], outline[after(i)], outline[after(after(i))]);
        // Most corners turn plainly; only a doubtful one is asked for its distance, which takes a root.
        (b - a).cross(c - b) > 0.0 || HalfPlane::left_of(a, b).distance(c) <= 0.0
    })
}
