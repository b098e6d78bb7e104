//! The small pieces that everything stands on, each held to figures worked out by hand.

use crate::math::{self, PI};
use crate::{Body, Bounds, Place, Plane, Solid, Vec3, carve};

fn v(x: f64, y: f64, z: f64) -> Vec3 {
    Vec3::new(x, y, z)
}

fn near(a: Vec3, b: Vec3) {
    assert!((a - b).length() < 1e-12, "{a:?} is not {b:?}");
}

/// Turned a third round (1, 1, 1), so that every axis becomes another, and moved.
fn turned() -> Place {
    Place::new(v(10.0, 20.0, 30.0), Vec3::Y, Vec3::Z)
}

#[test]
fn vectors() {
    let (a, b) = (v(1.0, 2.0, 3.0), v(4.0, -5.0, 6.0));
    assert_eq!(a.dot(b), 12.0);
    assert_eq!(a.cross(b), v(27.0, 6.0, -13.0));
    assert_eq!(
        [a + b, a - b, a * 2.0, b / 2.0, -a],
        [v(5.0, -3.0, 9.0), v(-3.0, 7.0, -3.0), v(2.0, 4.0, 6.0), v(2.0, -2.5, 3.0), v(-1.0, -2.0, -3.0)]
    );
    let mut sum = a;
    sum += b;
    assert_eq!(sum, a + b);
    assert_eq!((v(2.0, 3.0, 6.0).length(), v(0.0, 3.0, -4.0).unit()), (7.0, v(0.0, 0.6, -0.8)));
    assert_eq!(a.lerp(b, 0.25), v(1.75, 0.25, 3.75));
    assert_eq!(b.mirrored_x(), v(-4.0, -5.0, 6.0));
    for bad in [f64::NAN, f64::INFINITY] {
        assert!(![v(bad, 0.0, 0.0), v(0.0, bad, 0.0), v(0.0, 0.0, bad)].iter().any(|v| v.is_finite()));
    }
    assert!(a.is_finite());
}

#[test]
fn boxes() {
    let one = Bounds::around(&[v(1.0, 5.0, -2.0), v(-3.0, 2.0, 7.0)]);
    assert_eq!((one.low, one.high), (v(-3.0, 2.0, -2.0), v(1.0, 5.0, 7.0)));
    assert_eq!((one.size(), one.middle()), (v(4.0, 3.0, 9.0), v(-1.0, 3.5, 2.5)));
    let other = Bounds::around(&[v(0.0, 0.0, 0.0), v(9.0, 1.0, 1.0)]);
    assert_eq!(one.union(other), Bounds { low: v(-3.0, 0.0, -2.0), high: v(9.0, 5.0, 7.0) });
    assert_eq!(Bounds::NOTHING.union(one), one);
    // They are 1 mm apart along y, and overlap along x and z.
    assert!(!one.meets(&other, 0.5) && !other.meets(&one, 0.5));
    assert!(one.meets(&other, 1.0) && other.meets(&one, 1.0), "at the slack they meet");
    for axis in [Vec3::X, Vec3::Y, Vec3::Z] {
        let unit = Bounds::around(&[Vec3::ZERO, v(1.0, 1.0, 1.0)]);
        let moved = |by: f64| Bounds { low: unit.low + axis * by, high: unit.high + axis * by };
        assert!(unit.meets(&moved(0.9), 0.0) && unit.meets(&moved(-0.9), 0.0));
        assert!(!unit.meets(&moved(1.1), 0.0) && !unit.meets(&moved(-1.1), 0.0));
        assert!(!unit.meets(&moved(0.9), -0.2), "they overlap by less than that");
        assert!(unit.meets(&moved(0.7), -0.2));
    }
}

#[test]
fn places_go_there_and_back() {
    let place = turned();
    assert_eq!((place.x, place.y, place.z), (Vec3::Y, Vec3::Z, Vec3::X));
    assert_eq!(place.point(v(1.0, 2.0, 3.0)), v(13.0, 21.0, 32.0));
    assert_eq!(place.direction(v(1.0, 2.0, 3.0)), v(3.0, 1.0, 2.0));
    assert_eq!(place.local_point(v(13.0, 21.0, 32.0)), v(1.0, 2.0, 3.0));
    assert_eq!(place.local_direction(v(3.0, 1.0, 2.0)), v(1.0, 2.0, 3.0));
    let plane = Plane::through(v(0.0, 4.0, 0.0), Vec3::Y);
    let outside = place.plane(&plane);
    assert_eq!((outside.normal, outside.offset), (Vec3::Z, 34.0));
    let back = place.local_plane(&outside);
    assert_eq!((back.normal, back.offset), (plane.normal, plane.offset));
    let inner = place.place(&turned());
    assert_eq!((inner.x, inner.y, inner.z), (Vec3::Z, Vec3::X, Vec3::Y));
    near(inner.origin, v(40.0, 30.0, 50.0));
    assert_eq!(place.moved(v(1.0, 1.0, 1.0)).origin, v(11.0, 21.0, 31.0));
    assert!(!place.is_mirrored() && place.mirrored_x().is_mirrored());
    assert_eq!(place.mirrored_x().point(v(1.0, 2.0, 3.0)), place.point(v(1.0, 2.0, 3.0)).mirrored_x());
    // The y axis is only as near to what was wished as a right angle allows.
    let leaning = Place::new(Vec3::ZERO, v(2.0, 0.0, 0.0), v(1.0, 1.0, 0.0));
    assert_eq!((leaning.x, leaning.y, leaning.z), (Vec3::X, Vec3::Y, Vec3::Z));
}

#[test]
fn planes() {
    let plane = Plane::through(v(0.0, 0.0, 5.0), v(0.0, 3.0, 4.0));
    near(plane.normal, v(0.0, 0.6, 0.8));
    assert!((plane.offset - 4.0).abs() < 1e-12);
    assert!((plane.distance(v(7.0, 5.0, 5.0)) - 3.0).abs() < 1e-12);
    assert!((plane.flipped().distance(v(7.0, 5.0, 5.0)) + 3.0).abs() < 1e-12);
    assert!((plane.moved(2.0).distance(v(7.0, 5.0, 5.0)) - 1.0).abs() < 1e-12);
    near(plane.meet(v(1.0, 2.0, 0.0), Vec3::Z).expect("it slopes"), v(1.0, 2.0, 3.5));
    assert_eq!(plane.meet(Vec3::ZERO, Vec3::X), None, "along it");
    near(plane.mirrored_x().normal, plane.normal.mirrored_x());
    assert_eq!(plane.mirrored_x().offset, plane.offset);
    let at = |normal: Vec3, offset: f64| Plane { normal, offset };
    assert_eq!(
        Plane::corner(&at(Vec3::X, 1.0), &at(Vec3::Y, 2.0), &at(Vec3::Z, 3.0)),
        Some(v(1.0, 2.0, 3.0))
    );
    assert_eq!(Plane::corner(&at(Vec3::X, 1.0), &at(Vec3::X, 2.0), &at(Vec3::Z, 3.0)), None);
}

/// Values of a table of functions, to their last figures.
#[test]
fn functions_are_those_they_are_called_after() {
    let pairs = [
        (math::sin(PI / 6.0), 0.5),
        (math::cos(PI / 3.0), 0.5),
        (math::tan(PI / 4.0), 1.0),
        (math::asin(0.5), PI / 6.0),
        (math::acos(0.5), PI / 3.0),
        (math::asin(1.000_000_1), PI / 2.0),
        (math::acos(-1.000_000_1), PI),
        (math::atan(1.0), PI / 4.0),
        (math::atan2(1.0, -1.0), 0.75 * PI),
        (math::hypot(3.0, -4.0), 5.0),
        (math::pow(2.0, 10.0), 1024.0),
        (math::ln(math::exp(2.0)), 2.0),
        (math::exp(1.0), core::f64::consts::E),
        (math::radians(180.0), PI),
        (math::degrees(PI / 2.0), 90.0),
        (math::min(2.0, -3.0), -3.0),
        (math::min(-3.0, 2.0), -3.0),
        (math::max(2.0, -3.0), 2.0),
        (math::max(-3.0, 2.0), 2.0),
    ];
    for (i, (found, wanted)) in pairs.into_iter().enumerate() {
        assert!((found - wanted).abs() < 1e-12, "row {i}: {found} is not {wanted}");
    }
}

/// A block of 40 × 20 × 10 with a hole of 10 × 10 through it along z, off its middle.
fn holed() -> Solid {
    let block = Body::cuboid(&Place::HOME, Vec3::ZERO, v(40.0, 20.0, 10.0));
    let hole = Body::cuboid(&Place::HOME, v(25.0, 5.0, -1.0), v(35.0, 15.0, 11.0));
    carve(&[block], &[hole]).expect("a block with a hole")
}

#[test]
fn volume_surface_and_middle_of_a_block_with_a_hole() {
    let solid = holed();
    assert!((solid.volume() - 7000.0).abs() < 1e-6);
    // Two faces of 800 less 100, the four sides, and the four sides of the hole.
    assert!((solid.surface_area() - (2.0 * 700.0 + 2.0 * 400.0 + 2.0 * 200.0 + 4.0 * 100.0)).abs() < 1e-6);
    let top = solid.faces.iter().find(|face| face.normal.z > 0.5).expect("a top");
    assert!((solid.face_area(top) - 700.0).abs() < 1e-6);
    // 8000 mm³ at x = 20 less 1000 at x = 30.
    let middle = solid.centre_of_mass();
    assert!((middle - v((160_000.0 - 30_000.0) / 7000.0, 10.0, 5.0)).length() < 1e-9, "{middle:?}");
    assert_eq!(Solid::default().centre_of_mass(), Vec3::ZERO);
    assert_eq!(solid.bounds(), Bounds { low: Vec3::ZERO, high: v(40.0, 20.0, 10.0) });
}

/// A solid seen from a mirrored place still has its inside within, and each edge keeps whether it is drawn.
#[test]
fn a_posed_solid_is_the_same_one_elsewhere() {
    let solid = holed();
    assert!(solid.is_closed());
    for place in [turned(), turned().mirrored_x()] {
        let posed = solid.posed(&place);
        assert!(posed.is_closed() && (posed.volume() - solid.volume()).abs() < 1e-6);
        near(posed.centre_of_mass(), place.point(solid.centre_of_mass()));
        for (face, was) in posed.faces.iter().zip(&solid.faces) {
            near(face.normal, place.direction(was.normal));
            assert!((posed.face_area(face) - solid.face_area(was)).abs() < 1e-9, "rings turn with the place");
        }
    }
    let mut edges: Vec<(u32, u32)> = Vec::new();
    let mut marked = solid.clone();
    marked.faces[0].rings[0].sharp[0] = false;
    let ring = &marked.faces[0].rings[0];
    let blunt = (ring.corners[0], ring.corners[1]);
    for ring in marked.posed(&turned().mirrored_x()).faces[0].rings.iter().take(1) {
        let n = ring.corners.len();
        edges
            .extend((0..n).filter(|&i| !ring.sharp[i]).map(|i| (ring.corners[(i + 1) % n], ring.corners[i])));
    }
    assert_eq!(edges, [blunt], "the ring is turned, and its edge with it");
}

#[test]
fn an_open_or_empty_surface_is_not_closed() {
    let mut solid = holed();
    assert!(!Solid::default().is_closed());
    solid.faces.pop();
    assert!(!solid.is_closed());
}
