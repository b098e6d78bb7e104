//! Whether timber of one part stands in timber of another, felt point by point: finely inside every tenon, peg,
//! wedge, dowel and loose tenon, and through the room that the boxes round two parts have in common.

use crestrail_chair::chair::Chair;
use crestrail_chair::joint::Joint;
use crestrail_chair::part::{Part, PartId};
use crestrail_geometry::{Body, Bounds, Plane, Prism, Solid, Vec3};

/// Points this near to a surface are not told apart, mm.
const SKIN: f64 = 0.01;

/// Points along each side of the box round a body.
const STEPS: usize = 7;

struct Piece<'a> {
    part: &'a Part,
    added: Vec<&'a Body>,
    cut: Vec<&'a Body>,
    /// Around its finished solid, in chair space.
    bounds: Bounds,
}

/// The first two parts found to share a place, and the place.
pub(crate) fn first(chair: &Chair) -> Option<(PartId, PartId, Vec3)> {
    let pieces: Vec<Piece<'_>> = chair.pieces().map(|(part, body)| piece(chair, part, &body.solid)).collect();
    let shared = |own: &Piece<'_>, other: &Piece<'_>, at: Vec3| {
        (own.has(at) && other.has(at)).then_some((own.part.id, other.part.id, at))
    };
    for (i, own) in pieces.iter().enumerate() {
        let others = pieces.iter().filter(|other| other.part.id != own.part.id);
        let near: Vec<&Piece<'_>> = others.filter(|other| own.bounds.meets(&other.bounds, -SKIN)).collect();
        for at in own.fine() {
            if let Some(found) = near.iter().find_map(|other| shared(own, other, at)) {
                return Some(found);
            }
        }
        for other in pieces[i + 1..].iter().filter(|other| own.bounds.meets(&other.bounds, -SKIN)) {
            let room = common(&own.bounds, &other.bounds);
            if let Some(found) = grid(room).find_map(|at| shared(own, other, at)) {
                return Some(found);
            }
        }
    }
    None
}

fn common(a: &Bounds, b: &Bounds) -> Bounds {
    let pick = |f: fn(f64, f64) -> f64, a: Vec3, b: Vec3| Vec3::new(f(a.x, b.x), f(a.y, b.y), f(a.z, b.z));
    Bounds { low: pick(f64::max, a.low, b.low), high: pick(f64::min, a.high, b.high) }
}

/// The first joint of which a tenon, or what stands for it, is not wholly in its host's timber.
pub(crate) fn outside_its_host(chair: &Chair) -> Option<(&Joint, Vec3)> {
    for joint in &chair.joints {
        let host = chair.part(joint.host).expect("a host");
        let host =
            piece(chair, host, &chair.pieces().find(|(p, _)| p.id == joint.host).expect("a body").1.solid);
        let beyond = |p: &Vec3| joint.face.distance(*p) < -SKIN;
        let tenons = joint.tenon.bodies.iter().chain(joint.inserts.iter().map(|insert| &insert.body));
        let mut points = tenons.flat_map(inside).filter(beyond);
        if let Some(at) = points.find(|p| !host.is_timber(*p, -SKIN)) {
            return Some((joint, at));
        }
    }
    None
}

fn piece<'a>(chair: &'a Chair, part: &'a Part, solid: &Solid) -> Piece<'a> {
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
        bounds: solid.posed(&part.place).bounds(),
    }
}

impl Piece<'_> {
    fn has(&self, at: Vec3) -> bool {
        self.is_timber(at, SKIN) && !self.cut.iter().any(|b| holds(b, at, -SKIN))
    }

    /// Whether a place is in its timber before anything is cut out of it.
    fn is_timber(&self, at: Vec3, skin: f64) -> bool {
        let own = self.part.place.local_point(at);
        holds(&self.part.stock, own, skin) || self.added.iter().any(|b| holds(b, at, skin))
    }

    /// Points all through its tenons, and through the whole of a peg, wedge, dowel or loose tenon.
    fn fine(&self) -> Vec<Vec3> {
        let stock = self.part.id.role.is_small().then(|| inside(&self.part.stock));
        let stock = stock.into_iter().flatten().map(|p| self.part.place.point(p));
        self.added.iter().flat_map(|body| inside(body)).chain(stock).collect()
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
fn inside(body: &Body) -> Vec<Vec3> {
    let Body::Convex(planes) = body else { panic!("tenons are bounded by planes") };
    let within = |p: &Vec3| planes.iter().all(|plane| plane.distance(*p) < -SKIN);
    grid(Bounds::around(&corners(planes))).filter(within).collect()
}

/// Points spread evenly through a box.
fn grid(Bounds { low, high }: Bounds) -> impl Iterator<Item = Vec3> {
    let steps = move |i: usize| (i as f64 + 0.5) / STEPS as f64;
    let at = move |i: usize, j: usize, k: usize| {
        let size = high - low;
        low + Vec3::new(size.x * steps(i), size.y * steps(j), size.z * steps(k))
    };
    (0..STEPS).flat_map(move |i| (0..STEPS).flat_map(move |j| (0..STEPS).map(move |k| at(i, j, k))))
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
