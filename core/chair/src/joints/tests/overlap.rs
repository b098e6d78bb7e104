//! Whether timber of one part stands in timber of another, felt point by point inside every tenon, peg, wedge,
//! dowel and loose tenon.

use crate::chair::Chair;
use crate::part::{Part, PartId};
use crestrail_geometry::{Body, Bounds, Plane, Prism, Vec3};

/// Points this near to a surface are not told apart, mm.
const SKIN: f64 = 0.01;

/// Points along each side of the box round a body.
const STEPS: usize = 7;

struct Piece<'a> {
    part: &'a Part,
    added: Vec<&'a Body>,
    cut: Vec<&'a Body>,
}

/// The first two parts found to share a place.
pub(super) fn first(chair: &Chair) -> Option<(PartId, PartId, Vec3)> {
    let pieces: Vec<Piece<'_>> = chair.parts.iter().map(|part| piece(chair, part)).collect();
    for own in &pieces {
        let stock = own.part.id.role.is_small().then(|| own.part.stock.clone());
        let tenons = own.added.iter().map(|b| b.local_to(&own.part.place));
        for body in tenons.chain(stock) {
            for at in inside(&body).map(|p| own.part.place.point(p)).filter(|p| own.has(*p)) {
                let other = pieces.iter().find(|other| other.part.id != own.part.id && other.has(at));
                if let Some(other) = other {
                    return Some((own.part.id, other.part.id, at));
                }
            }
        }
    }
    None
}

fn piece<'a>(chair: &'a Chair, part: &'a Part) -> Piece<'a> {
    let as_guest = || chair.joints.iter().filter(|j| j.guest == part.id);
    let as_host = || chair.joints.iter().filter(|j| j.host == part.id);
    let holes = as_guest().chain(as_host()).flat_map(|j| j.pegs.iter().map(|peg| &peg.hole));
    let cut =
        as_guest().flat_map(|j| &j.guest_cuts).chain(as_host().flat_map(|j| &j.mortise.bodies)).chain(holes);
    let housings = chair.housings.iter().filter(|h| h.host == part.id).map(|h| &h.body);
    Piece {
        part,
        added: as_guest().flat_map(|j| &j.tenon.bodies).collect(),
        cut: cut.chain(housings).collect(),
    }
}

impl Piece<'_> {
    fn has(&self, at: Vec3) -> bool {
        let own = self.part.place.local_point(at);
        let timber = holds(&self.part.stock, own, SKIN) || self.added.iter().any(|b| holds(b, at, SKIN));
        timber && !self.cut.iter().any(|b| holds(b, at, -SKIN))
    }
}

fn holds(body: &Body, p: Vec3, skin: f64) -> bool {
    match body {
        Body::Convex(planes) => planes.iter().all(|plane| plane.distance(p) < -skin),
        Body::Prism(prism) => in_prism(prism, p, skin),
    }
}

fn in_prism(prism: &Prism, p: Vec3, skin: f64) -> bool {
    let at = prism.place.local_point(p);
    let between = at.z > prism.from + skin && at.z < prism.to - skin;
    let clear = prism.clip.iter().all(|plane| plane.distance(p) < -skin);
    between && clear && in_outline(&prism.outline, at, skin)
}

/// Even–odd rule; points nearer to an edge than the skin count as outside.
fn in_outline(outline: &[kurbo::Point], at: Vec3, skin: f64) -> bool {
    let mut odd = false;
    for (a, b) in outline.iter().zip(outline.iter().cycle().skip(1)) {
        let (edge, to) = (*b - *a, kurbo::Point::new(at.x, at.y) - *a);
        let along = (to.dot(edge) / edge.hypot2()).clamp(0.0, 1.0);
        if skin > 0.0 && (to - edge * along).hypot2() < skin * skin {
            return false;
        }
        let crosses = (a.y > at.y) != (b.y > at.y);
        odd ^= crosses && at.x < a.x + (at.y - a.y) / (b.y - a.y) * (b.x - a.x);
    }
    odd
}

/// Points inside a body bounded by planes.
fn inside(body: &Body) -> impl Iterator<Item = Vec3> {
    let Body::Convex(planes) = body.clone() else { panic!("tenons are bounded by planes") };
    let corners = corners(&planes);
    let Bounds { low, high } = Bounds::around(&corners);
    let steps = move |i: usize| (i as f64 + 0.5) / STEPS as f64;
    let at = move |i: usize, j: usize, k: usize| {
        let size = high - low;
        low + Vec3::new(size.x * steps(i), size.y * steps(j), size.z * steps(k))
    };
    let grid =
        (0..STEPS).flat_map(move |i| (0..STEPS).flat_map(move |j| (0..STEPS).map(move |k| at(i, j, k))));
    grid.filter(move |p| planes.iter().all(|plane| plane.distance(*p) < -SKIN))
}

fn corners(planes: &[Plane]) -> Vec<Vec3> {
    let mut found = Vec::new();
    for (i, a) in planes.iter().enumerate() {
        for (j, b) in planes.iter().enumerate().skip(i + 1) {
            let third = planes[j + 1..].iter().filter_map(|c| Plane::corner(a, b, c));
            found.extend(third.filter(|p| planes.iter().all(|plane| plane.distance(*p) < 1e-6)));
        }
    }
    found
}
