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
    Body::Prism(Prism { place, outline: (0..sides).map(corner).collect(), from: -length, to: length })
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
    let solid = carve(&leg, &[blind.clone()]).unwrap();
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
    let prism = Body::Prism(Prism { place: Place::HOME, outline, from: 0.0, to: 30.0 });
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
    let flat = Body::Prism(Prism { place: Place::HOME, outline: line, from: 0.0, to: 1.0 });
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
