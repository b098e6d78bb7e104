use super::*;
use crate::Vec3;
use crate::math::{PI, TAU, cos, sin};
use crate::{Place, Plane, Prism};
use kurbo::Point;
use proptest::prelude::*;

fn block(low: [f64; 3], high: [f64; 3]) -> Body {
    Body::cuboid(&Place::HOME, low.into(), high.into())
}

impl From<[f64; 3]> for Vec3 {
    fn from([x, y, z]: [f64; 3]) -> Self {
        Self::new(x, y, z)
    }
}

/// A peg of `sides` sides through `at` along `axis`, `length` to either side.
fn peg(at: Vec3, axis: Vec3, radius: f64, sides: usize, length: f64) -> Body {
    let aside = if axis.x.abs() < 0.9 { Vec3::X } else { Vec3::Y };
    let x = aside.cross(axis).unit();
    let place = Place { origin: at, x, y: axis.unit().cross(x), z: axis.unit() };
    let corner = |i: usize| {
        let turn = TAU * (i as f64 + 0.5) / sides as f64;
        Point::new(radius * cos(turn), radius * sin(turn))
    };
    Body::Prism(Prism {
        place,
        outline: (0..sides).map(corner).collect(),
        from: -length,
        to: length,
        clip: Vec::new(),
    })
}

fn gon_area(radius: f64, sides: usize) -> f64 {
    0.5 * sides as f64 * radius * radius * sin(TAU / sides as f64)
}

#[track_caller]
fn sound(solid: &Solid, volume: f64) {
    assert!(solid.is_closed());
    let found = solid.volume();
    assert!((found - volume).abs() <= 1e-9 * volume.abs(), "volume {found}, expected {volume}");
    let triangles = solid.triangles();
    assert!(closed(triangles.iter().map(|t| t.as_slice())));
    assert!(closed(solid.simple_faces().iter().map(Vec::as_slice)));
    let at = |v: u32| solid.vertices[v as usize];
    let mut total = 0.0;
    for t in triangles {
        let [a, b, c] = t.map(at);
        let normal = (b - a).cross(c - a);
        assert!(normal.length() > 1e-9, "triangle without area");
        total += a.dot(b.cross(c)) / 6.0;
    }
    assert!((total - volume).abs() <= 1e-9 * volume.abs(), "triangles hold {total}");
    for face in &solid.faces {
        assert!(solid.face_area(face) > 0.0 && (face.normal.length() - 1.0).abs() < 1e-12);
        let level = face.normal.dot(at(face.rings[0].corners[0]));
        let corners = face.rings.iter().flat_map(|r| &r.corners);
        corners.for_each(|&v| assert!((face.normal.dot(at(v)) - level).abs() < 1e-5));
    }
}

fn closed<'a>(faces: impl Iterator<Item = &'a [u32]>) -> bool {
    let mut edges: Vec<(u32, u32)> = Vec::new();
    for f in faces {
        edges.extend((0..f.len()).map(|i| (f[i], f[(i + 1) % f.len()])));
    }
    let mut back: Vec<(u32, u32)> = edges.iter().map(|&(a, b)| (b, a)).collect();
    edges.sort_unstable();
    back.sort_unstable();
    edges == back
}

/// Corners, faces and rings.
fn counts(solid: &Solid) -> (usize, usize, usize) {
    (solid.vertices.len(), solid.faces.len(), solid.faces.iter().map(|f| f.rings.len()).sum())
}

#[test]
fn box_stays_a_box() {
    let solid = carve(&[block([0.0; 3], [30.0, 40.0, 500.0])], &[]).unwrap();
    sound(&solid, 600_000.0);
    assert_eq!(counts(&solid), (8, 6, 6));
    assert_eq!(solid.surface_area(), 2.0 * (30.0 * 40.0 + 30.0 * 500.0 + 40.0 * 500.0));
    assert!((solid.centre_of_mass() - Vec3::new(15.0, 20.0, 250.0)).length() < 1e-9);
    assert!(solid.faces.iter().all(|f| f.rings[0].sharp.iter().all(|&s| s)));
}

#[test]
fn mortises_through_blind_and_meeting() {
    let leg = [block([0.0; 3], [40.0, 40.0, 400.0])];
    let through = block([15.0, -1.0, 300.0], [25.0, 41.0, 350.0]);
    let solid = carve(&leg, std::slice::from_ref(&through)).unwrap();
    sound(&solid, 640_000.0 - 10.0 * 40.0 * 50.0);
    assert_eq!(counts(&solid), (16, 10, 12));
    let blind = block([15.0, 20.0, 300.0], [25.0, 40.0, 350.0]);
    let solid = carve(&leg, core::slice::from_ref(&blind)).unwrap();
    sound(&solid, 640_000.0 - 10.0 * 20.0 * 50.0);
    assert_eq!(counts(&solid), (16, 11, 12));
    let other = block([20.0, 15.0, 310.0], [40.0, 25.0, 340.0]);
    let meeting = carve(&leg, &[blind, other]).unwrap();
    sound(&meeting, 640_000.0 - 10.0 * 20.0 * 50.0 - 20.0 * 10.0 * 30.0 + 5.0 * 5.0 * 30.0);
}

#[test]
fn rail_tenon_and_haunch_are_one_without_inner_walls() {
    let rail = block([0.0, 0.0, 0.0], [300.0, 22.0, 60.0]);
    let tenon = block([300.0, 6.0, 5.0], [330.0, 16.0, 40.0]);
    let haunch = block([300.0, 6.0, 40.0], [308.0, 16.0, 55.0]);
    let solid = carve(&[rail, tenon, haunch], &[]).unwrap();
    sound(&solid, 300.0 * 22.0 * 60.0 + 30.0 * 10.0 * 35.0 + 8.0 * 10.0 * 15.0);
    // The rail's sides (one with a hole); two cheeks of six corners, two edges, two ends, the step.
    assert_eq!(counts(&solid), (8 + 12, 6 + 7, 14));
}

#[test]
fn flush_tenon_joins_its_cheek_to_the_rail() {
    let rail = block([0.0; 3], [300.0, 22.0, 60.0]);
    let bare_faced = block([300.0, 0.0, 10.0], [330.0, 10.0, 60.0]);
    let solid = carve(&[rail, bare_faced], &[]).unwrap();
    sound(&solid, 300.0 * 22.0 * 60.0 + 30.0 * 10.0 * 50.0);
    assert_eq!(counts(&solid), (14, 9, 9));
}

#[test]
fn tools_flush_with_faces_leave_nothing_behind() {
    let leg = [block([0.0; 3], [40.0, 40.0, 400.0])];
    // An open mortise at the top, flush with two faces, and a slot from face to face.
    let open = block([0.0, 10.0, 350.0], [40.0, 20.0, 400.0]);
    let slot = block([10.0, 0.0, 100.0], [20.0, 40.0, 150.0]);
    let solid = carve(&leg, &[open, slot]).unwrap();
    sound(&solid, 640_000.0 - 40.0 * 10.0 * 50.0 - 10.0 * 40.0 * 50.0);
    // Stacked tools: their common wall is no wall.
    let parts =
        [block([10.0, 0.0, 100.0], [20.0, 30.0, 150.0]), block([10.0, 0.0, 150.0], [20.0, 10.0, 170.0])];
    let solid = carve(&leg, &parts).unwrap();
    sound(&solid, 640_000.0 - 10.0 * 30.0 * 50.0 - 10.0 * 10.0 * 20.0);
    assert_eq!(counts(&solid), (8 + 12, 6 + 7, 14));
    assert_eq!(carve(&leg, &leg), Err(CarveError::Nothing));
}

#[test]
fn timber_refills_nothing_and_islands_survive() {
    let parts = [block([0.0; 3], [10.0; 3]), block([10.0, 0.0, 0.0], [20.0, 10.0, 10.0])];
    let wall = block([8.0, -1.0, -1.0], [12.0, 11.0, 11.0]);
    let solid = carve(&parts, &[wall]).unwrap();
    sound(&solid, 1600.0);
    assert_eq!(counts(&solid), (16, 12, 12));
}

#[test]
fn round_and_square_pegs_through_an_l_prism() {
    let l = [(0.0, 0.0), (60.0, 0.0), (60.0, 20.0), (20.0, 20.0), (20.0, 80.0), (0.0, 80.0)];
    let outline: Vec<Point> = l.map(Point::from).to_vec();
    let prism = Body::Prism(Prism { place: Place::HOME, outline, from: 0.0, to: 30.0, clip: Vec::new() });
    let bare = 30.0 * (60.0 * 20.0 + 20.0 * 60.0);
    sound(&carve(std::slice::from_ref(&prism), &[]).unwrap(), bare);
    let along = peg(Vec3::new(10.0, 50.0, 0.0), Vec3::Z, 4.0, 24, 50.0);
    let across = peg(Vec3::new(0.0, 65.0, 15.0), Vec3::X, 3.0, 24, 25.0);
    let square = peg(Vec3::new(40.0, 10.0, 15.0), Vec3::Y, 5.0, 4, 10.0);
    let solid = carve(&[prism], &[along, across, square]).unwrap();
    let holes = 30.0 * gon_area(4.0, 24) + 20.0 * gon_area(3.0, 24) + 20.0 * gon_area(5.0, 4);
    sound(&solid, bare - holes);
    let drawn = |f: &crate::Face| f.rings.iter().flat_map(|r| &r.sharp).filter(|&&s| s).count();
    let facets = solid.faces.iter().filter(|f| f.rings.len() == 1 && drawn(f) == 2).count();
    assert_eq!(facets, 48, "each facet of a round hole is drawn at its two mouths only");
    assert!((gon_area(4.0, 24) - PI * 16.0 * 0.9886).abs() < 0.01);
}

#[test]
fn slanted_rail_with_mitred_tenon() {
    // The tenon's root lies in the slanted shoulder, its end is cut at 45°.
    let slant = Vec3::new(1.0, 0.0, 0.1).unit();
    let shoulder = Plane::through(Vec3::new(200.0, 0.0, 0.0), slant);
    let face = |n: [f64; 3], offset: f64| Plane { normal: n.into(), offset };
    let rail = Body::Convex(vec![
        shoulder,
        face([-1.0, 0.0, 0.0], 0.0),
        face([0.0, 1.0, 0.0], 22.0),
        face([0.0, -1.0, 0.0], 0.0),
        face([0.0, 0.0, 1.0], 50.0),
        face([0.0, 0.0, -1.0], 0.0),
    ]);
    let tenon = Body::Convex(vec![
        shoulder.flipped(),
        Plane::through(Vec3::new(230.0, 6.0, 0.0), Vec3::new(1.0, 1.0, 0.0)),
        face([0.0, 1.0, 0.0], 16.0),
        face([0.0, -1.0, 0.0], -6.0),
        face([0.0, 0.0, 1.0], 40.0),
        face([0.0, 0.0, -1.0], -8.0),
    ]);
    let rail_volume = 22.0 * 50.0 * (200.0 - 2.5);
    // Mean length: 30 − 5 from the mitre, + 2.4 from the shoulder at mid-height 24.
    let tenon_volume = 10.0 * 32.0 * (25.0 + 2.4);
    let solid = carve(&[rail.clone(), tenon.clone()], &[]).unwrap();
    sound(&solid, rail_volume + tenon_volume);
    assert_eq!(counts(&solid), (16, 11, 12));
    let hole = peg(Vec3::new(212.0, 11.0, 24.0), Vec3::Y, 3.0, 24, 30.0);
    let solid = carve(&[rail, tenon], &[hole]).unwrap();
    sound(&solid, rail_volume + tenon_volume - 10.0 * gon_area(3.0, 24));
}

#[test]
fn bad_bodies_are_refused() {
    let half =
        Body::Convex(vec![Plane { normal: Vec3::X, offset: 1.0 }, Plane { normal: -Vec3::X, offset: 1.0 }]);
    assert_eq!(carve(&[half], &[]), Err(CarveError::Endless));
    let line = vec![Point::ZERO, Point::new(1.0, 0.0), Point::new(2.0, 0.0)];
    let flat = Body::Prism(Prism { place: Place::HOME, outline: line, from: 0.0, to: 1.0, clip: Vec::new() });
    assert_eq!(carve(&[flat], &[]), Err(CarveError::Outline));
    assert_eq!(carve(&[], &[]), Err(CarveError::Nothing));
}

#[test]
fn mirrored_pose_keeps_volume_and_outside() {
    let leg = [block([0.0; 3], [40.0, 40.0, 400.0])];
    let solid = carve(&leg, &[block([15.0, 20.0, 300.0], [25.0, 50.0, 350.0])]).unwrap();
    let place = Place::new(Vec3::new(5.0, -9.0, 3.0), Vec3::new(1.0, 0.3, 0.2), Vec3::new(0.1, 1.0, -0.4));
    for place in [place, place.mirrored_x()] {
        sound(&solid.posed(&place), 640_000.0 - 10.0 * 20.0 * 50.0);
    }
}

/// Volume inside the union of boxes `(low, high)`, cell by cell of the grid of all their walls.
fn union_of_boxes(boxes: &[(Vec3, Vec3)], inside: &(Vec3, Vec3)) -> f64 {
    let walls = |pick: fn(Vec3) -> f64| {
        let ends = boxes.iter().flat_map(|b| [pick(b.0), pick(b.1)]);
        let held = ends.map(|w| w.clamp(pick(inside.0), pick(inside.1)));
        let mut walls: Vec<f64> = held.collect();
        walls.sort_by(f64::total_cmp);
        walls
    };
    let (xs, ys, zs) = (walls(|v| v.x), walls(|v| v.y), walls(|v| v.z));
    let holds = |b: &(Vec3, Vec3), p: Vec3| {
        p.x > b.0.x && p.x < b.1.x && p.y > b.0.y && p.y < b.1.y && p.z > b.0.z && p.z < b.1.z
    };
    let mut volume = 0.0;
    for x in xs.windows(2) {
        for y in ys.windows(2) {
            for z in zs.windows(2) {
                let middle = Vec3::new(x[0] + x[1], y[0] + y[1], z[0] + z[1]) * 0.5;
                if boxes.iter().any(|b| holds(b, middle)) {
                    volume += (x[1] - x[0]) * (y[1] - y[0]) * (z[1] - z[0]);
                }
            }
        }
    }
    volume
}

/// Mortises in whole millimetres, so that walls often fall into one plane.
fn mortise() -> impl Strategy<Value = (Vec3, Vec3)> {
    let box_of = |(x, y, z): (i32, i32, i32), (a, b, c): (i32, i32, i32)| {
        let low = Vec3::new(f64::from(x), f64::from(y), f64::from(z));
        (low, low + Vec3::new(f64::from(a), f64::from(b), f64::from(c)))
    };
    ((-10..35, -10..35, 20..150), (5..40, 5..40, 20..60)).prop_map(move |(low, size)| box_of(low, size))
}

fn any_place() -> impl Strategy<Value = Place> {
    let part = -1.0..1.0_f64;
    (part.clone(), part.clone(), part.clone(), part, any::<bool>()).prop_map(|(a, b, c, d, mirrored)| {
        let origin = Vec3::new(a * 50.0, b * 50.0, c * 50.0);
        let place = Place::new(origin, Vec3::new(1.0, a, b), Vec3::new(c * 0.4, 1.0, d));
        if mirrored { place.mirrored_x() } else { place }
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    /// Legs with mortises that meet, overlap and share walls, told in any frame.
    #[test]
    fn mortised_legs_hold_the_counted_volume(
        mortises in proptest::collection::vec(mortise(), 1..6),
        place in any_place(),
    ) {
        let whole = (Vec3::ZERO, Vec3::new(40.0, 40.0, 200.0));
        let volume = 40.0 * 40.0 * 200.0 - union_of_boxes(&mortises, &whole);
        let body = |b: &(Vec3, Vec3)| Body::cuboid(&Place::HOME, b.0, b.1).local_to(&place);
        let cut: Vec<Body> = mortises.iter().map(body).collect();
        let solid = carve(&[body(&whole)], &cut).unwrap();
        sound(&solid, volume);
        sound(&solid.posed(&place), volume);
    }

    /// Curved legs with peg holes apart from each other, bored through at a slant.
    #[test]
    fn pegged_curved_legs_hold_the_computed_volume(
        bend in -20.0..40.0_f64,
        heights in proptest::collection::vec(0.0..20.0_f64, 1..5),
        radius in 2.0..5.0_f64,
        sides in prop_oneof![Just(4_usize), Just(16), Just(24)],
        tilt in -0.2..0.2_f64,
        place in any_place(),
    ) {
        let mut path = kurbo::BezPath::new();
        path.move_to((20.0, 0.0));
        path.curve_to((20.0 + bend, 100.0), (20.0 + bend, 200.0), (20.0, 300.0));
        path.line_to((-20.0, 300.0));
        path.curve_to((-20.0 + bend, 200.0), (-20.0 + bend, 100.0), (-20.0, 0.0));
        path.close_path();
        let outline = crate::outline::flatten(&path, 0.02);
        let bare = 30.0 * crate::outline::signed_area(&outline);
        let leg = Body::Prism(Prism { place: Place::HOME, outline, from: -15.0, to: 15.0, clip: Vec::new() });
        // Pegs along the prism's axis, tilted: each takes its section times the thickness over cos.
        let axis = Vec3::new(0.0, tilt, 1.0).unit();
        let pegs = heights.iter().enumerate().map(|(i, h)| {
            peg(Vec3::new(bend * 0.6, 40.0 + 50.0 * i as f64 + h, 0.0), axis, radius, sides, 60.0)
        });
        let cut: Vec<Body> = pegs.map(|p| p.local_to(&place)).collect();
        let hole = gon_area(radius, sides) * 30.0 / axis.z;
        let volume = bare - hole * cut.len() as f64;
        let solid = carve(&[leg.local_to(&place)], &cut).unwrap();
        sound(&solid, volume);
        sound(&solid.posed(&place), volume);
    }
}
