//! How long the distinct parts of a chair take to carve: `cargo run --release --example carve_time`.

use crestrail_geometry::{Body, Place, Plane, Prism, Solid, Vec3, carve, math, outline};
use kurbo::{BezPath, Point};
use std::time::Instant;

/// Added bodies and tools of one part.
type Part = (&'static str, Vec<Body>, Vec<Body>);

fn main() {
    let parts = chair();
    let mut total = 0.0;
    for (name, added, cut) in &parts {
        let (best, solid) = best_of(200, || carve(added, cut));
        let solid: Solid = solid.unwrap_or_else(|e| panic!("{name}: {e}"));
        let count = solid.faces.len();
        println!("{name:<16} {best:7.1} µs, {count:4} faces, {:12.1} mm³", solid.volume());
        total += best;
    }
    println!("{:<16} {total:7.1} µs for {} parts", "all", parts.len());
}

fn best_of<T>(times: usize, mut job: impl FnMut() -> T) -> (f64, T) {
    let mut best = f64::INFINITY;
    let mut last = job();
    for _ in 0..times {
        let start = Instant::now();
        last = job();
        best = best.min(start.elapsed().as_secs_f64() * 1e6);
    }
    (best, last)
}

fn chair() -> Vec<Part> {
    let mut parts = vec![
        ("front leg", vec![front_leg()], leg_tools(400.0)),
        ("back leg", vec![back_leg()], leg_tools(420.0)),
    ];
    for name in ["front rail", "side rail", "back rail", "stretcher", "side stretcher"] {
        parts.push((name, rail(), rail_tools()));
    }
    parts.push(("crest rail", crest_rail(), rail_tools()));
    parts.push(("slat", rail(), Vec::new()));
    parts.push(("seat", vec![seat()], Vec::new()));
    parts
}

fn block(low: [f64; 3], high: [f64; 3]) -> Body {
    let v = |[x, y, z]: [f64; 3]| Vec3::new(x, y, z);
    Body::cuboid(&Place::HOME, v(low), v(high))
}

fn front_leg() -> Body {
    block([-20.0, -20.0, 0.0], [20.0, 20.0, 430.0])
}

/// A curved leg: its side view drawn across its width.
fn back_leg() -> Body {
    let mut path = BezPath::new();
    path.move_to((20.0, 0.0));
    path.curve_to((20.0, 300.0), (20.0, 450.0), (90.0, 900.0));
    path.line_to((60.0, 905.0));
    path.curve_to((-25.0, 450.0), (-20.0, 300.0), (-30.0, 0.0));
    path.close_path();
    let outline = outline::flatten(&path, 0.02);
    let place = Place { origin: Vec3::ZERO, x: Vec3::Y, y: Vec3::Z, z: Vec3::X };
    Body::Prism(Prism { place, outline, from: -20.0, to: 20.0, clip: Vec::new() })
}

fn leg_tools(top: f64) -> Vec<Body> {
    let mut tools = Vec::new();
    for z in [top - 70.0, 150.0] {
        tools.push(block([-5.0, -25.0, z], [5.0, 12.0, z + 50.0]));
        tools.push(block([-25.0, -5.0, z], [12.0, 5.0, z + 50.0]));
        for at in [z + 15.0, z + 35.0] {
            tools.push(peg(Vec3::new(0.0, -10.0, at), Vec3::X));
            tools.push(peg(Vec3::new(-10.0, 0.0, at + 5.0), Vec3::Y));
        }
    }
    tools
}

fn rail() -> Vec<Body> {
    let slant = math::radians(3.0);
    let away = Vec3::new(math::cos(slant), 0.0, math::sin(slant));
    let toward = Vec3::new(-away.x, 0.0, away.z);
    let (right, left) = (Plane::through(Vec3::X * 200.0, away), Plane::through(Vec3::X * -200.0, toward));
    let slab = |y: [f64; 2], z: [f64; 2], ends: [Plane; 2]| {
        let side = |normal: Vec3, offset: f64| Plane { normal, offset };
        let mut planes =
            vec![side(Vec3::Y, y[1]), side(-Vec3::Y, -y[0]), side(Vec3::Z, z[1]), side(-Vec3::Z, -z[0])];
        planes.extend(ends);
        Body::Convex(planes)
    };
    let (deep, short) = (right.moved(32.0), right.moved(8.0));
    let (far, near) = (left.moved(32.0), left.moved(8.0));
    vec![
        slab([-11.0, 11.0], [-30.0, 30.0], [right, left]),
        slab([-5.0, 5.0], [-25.0, 15.0], [right.flipped(), deep]),
        slab([-5.0, 5.0], [15.0, 25.0], [right.flipped(), short]),
        slab([-5.0, 5.0], [-25.0, 15.0], [left.flipped(), far]),
        slab([-5.0, 5.0], [15.0, 25.0], [left.flipped(), near]),
    ]
}

fn rail_tools() -> Vec<Body> {
    let at = |x: f64, z: f64| peg(Vec3::new(x, 0.0, z), Vec3::Y);
    vec![at(215.0, -12.0), at(215.0, 5.0), at(-215.0, -12.0), at(-215.0, 5.0)]
}

fn crest_rail() -> Vec<Body> {
    let mut path = BezPath::new();
    path.move_to((-200.0, -30.0));
    path.line_to((200.0, -30.0));
    path.line_to((200.0, 30.0));
    path.curve_to((80.0, 80.0), (-80.0, 80.0), (-200.0, 30.0));
    path.close_path();
    let place = Place { origin: Vec3::ZERO, x: Vec3::X, y: Vec3::Z, z: -Vec3::Y };
    let outline = outline::flatten(&path, 0.01);
    let slab = Body::Prism(Prism { place, outline, from: -11.0, to: 11.0, clip: Vec::new() });
    let tenon = |x: f64| block([x.min(x + 32.0), -5.0, -25.0], [x.max(x + 32.0), 5.0, 15.0]);
    vec![slab, tenon(200.0), tenon(-232.0)]
}

fn seat() -> Body {
    block([-220.0, -200.0, 430.0], [220.0, 220.0, 450.0])
}

/// A hole for a round peg of 8 mm, right through whatever it meets.
fn peg(origin: Vec3, axis: Vec3) -> Body {
    let x = if axis == Vec3::X { Vec3::Y } else { Vec3::Z };
    let place = Place { origin, x, y: axis.cross(x), z: axis };
    let corner = |i: i32| {
        let turn = math::TAU * (f64::from(i) + 0.5) / 24.0;
        Point::new(4.0 * math::cos(turn), 4.0 * math::sin(turn))
    };
    Body::Prism(Prism {
        place,
        outline: (0..24).map(corner).collect(),
        from: -100.0,
        to: 100.0,
        clip: Vec::new(),
    })
}
