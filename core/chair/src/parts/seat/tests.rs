//! No seat runs into anything else, on any kind of chair.

use crate::chair::Chair;
use crate::choices::{Choice, Family, Seat};
use crate::design::Design;
use crate::joints::Bench;
use crate::knob::Kind;
use crate::part::{Part, Role, Side};
use crate::seating::cord_length;
use crestrail_geometry::{Bounds, Solid, Vec3};
use serde_json::{Value, json};

const SEAT: [Role; 7] =
    [Role::SeatSlat, Role::SeatBoard, Role::Button, Role::Ledge, Role::PadBoard, Role::Pad, Role::Cord];

/// Two parts overlap only where a point of an edge lies this deep in the other, mm.
const DEEP: f64 = 0.02;

/// Distance of the points looked at on an edge, mm.
const STEP: f64 = 4.0;

fn posed(chair: &Chair) -> Vec<(&Part, Solid, Bounds)> {
    let pose = |(part, body): (_, &crate::chair::PartBody)| {
        let part: &Part = part;
        let solid = body.solid.posed(&part.place);
        let bounds = solid.bounds();
        (part, solid, bounds)
    };
    chair.pieces().map(pose).collect()
}

/// Whether a point lies on a face or an edge.
fn touches(solid: &Solid, p: Vec3) -> bool {
    let corner = |i: u32| solid.vertices[i as usize];
    let on_edge = |a: Vec3, b: Vec3| {
        let way = b - a;
        let share = ((p - a).dot(way) / way.dot(way)).clamp(0.0, 1.0);
        (p - a - way * share).length() < DEEP
    };
    solid.faces.iter().any(|face| {
        let near = (p - corner(face.rings[0].corners[0])).dot(face.normal).abs() < DEEP;
        let on_rim = || {
            face.rings.iter().any(|ring| {
                let next = ring.corners.iter().cycle().skip(1);
                ring.corners.iter().zip(next).any(|(&a, &b)| on_edge(corner(a), corner(b)))
            })
        };
        near && (crossings(solid, face, p - face.normal, face.normal) % 2 == 1 || on_rim())
    })
}

/// How many rings of the face a line crosses (holes count again), if it goes forward to the face.
fn crossings(solid: &Solid, face: &crestrail_geometry::Face, p: Vec3, d: Vec3) -> usize {
    let corner = solid.vertices[face.rings[0].corners[0] as usize];
    let rate = face.normal.dot(d);
    if rate.abs() < 1e-9 {
        return 0;
    }
    let t = (corner - p).dot(face.normal) / rate;
    if t <= 0.0 {
        return 0;
    }
    let at = p + d * t;
    let other = if face.normal.x.abs() < 0.7 { Vec3::X } else { Vec3::Y };
    let u = face.normal.cross(other).unit();
    let v = face.normal.cross(u);
    face.rings
        .iter()
        .filter(|ring| {
            let flat: Vec<(f64, f64)> = ring
                .corners
                .iter()
                .map(|&c| solid.vertices[c as usize] - at)
                .map(|q| (q.dot(u), q.dot(v)))
                .collect();
            let n = flat.len();
            let cross = (0..n).filter(|&i| {
                let (a, b) = (flat[i], flat[(i + 1) % n]);
                (a.1 > 0.0) != (b.1 > 0.0) && a.0 + (b.0 - a.0) * (-a.1) / (b.1 - a.1) > 0.0
            });
            cross.count() % 2 == 1
        })
        .count()
}

fn inside(solid: &Solid, p: Vec3) -> bool {
    let d = Vec3::new(0.267_1, 0.534_7, 0.801_9).unit();
    let hits: usize = solid.faces.iter().map(|face| crossings(solid, face, p, d)).sum();
    hits % 2 == 1 && !touches(solid, p)
}

/// A point of an edge of `a` that lies within `b`.
fn edge_within(a: &Solid, b: &Solid, room: &Bounds) -> Option<Vec3> {
    let corner = |i: u32| a.vertices[i as usize];
    for ring in a.faces.iter().flat_map(|f| &f.rings) {
        for (i, &from) in ring.corners.iter().enumerate() {
            let to = ring.corners[(i + 1) % ring.corners.len()];
            if from > to {
                continue;
            }
            let way = corner(to) - corner(from);
            let steps = (way.length() / STEP).ceil().max(1.0) as usize;
            let point = |k: usize| corner(from) + way * (k as f64 / steps as f64);
            let near = |p: &Vec3| Bounds::around(&[*p]).meets(room, 0.0);
            if let Some(p) = (0..=steps).map(point).filter(near).find(|&p| inside(b, p)) {
                return Some(p);
            }
        }
    }
    None
}

fn overlaps(chair: &Chair) -> Vec<String> {
    let all = posed(chair);
    let mut found = Vec::new();
    for (i, (part, solid, bounds)) in all.iter().enumerate() {
        if !SEAT.contains(&part.id.role) || part.id.side == Side::Left {
            continue;
        }
        for (j, (other, other_solid, other_bounds)) in all.iter().enumerate() {
            if i == j || !bounds.meets(other_bounds, -DEEP) {
                continue;
            }
            let hit = edge_within(solid, other_solid, other_bounds)
                .or_else(|| edge_within(other_solid, solid, bounds));
            if let Some(p) = hit {
                found.push(format!("{} in {} at {p:?}", part.id, other.id));
            }
        }
    }
    found
}

/// Knobs that shape the seat and what stands round it.
const SHAPING: [&str; 21] = [
    "seat_width",
    "narrowing",
    "seat_depth",
    "seat_slope",
    "seat_slat_width",
    "seat_slat_thickness",
    "seat_slat_gap",
    "seat_overhang",
    "cord",
    "post_setback",
    "front_leg",
    "splay",
    "front_splay",
    "back_leg_thickness",
    "back_leg_depth",
    "kick",
    "rake",
    "rail_width",
    "rail_thickness",
    "set_back",
    "arm_overhang",
];

fn set(design: &Design, name: &str, value: &Value) -> Option<Design> {
    design.with(name, value).ok()
}

/// The design with every shaping knob at that share of its range; `None` leaves it as it is.
fn shaped(design: &Design, share: impl Fn(usize) -> Option<f64>) -> Design {
    let mut shaped = design.clone();
    for (i, name) in SHAPING.iter().enumerate() {
        let Some(knob) = design.knobs().iter().find(|k| k.name == *name) else { continue };
        if let (Kind::Range { min, max, step, .. }, Some(share)) = (&knob.kind, share(i)) {
            let value = min + ((max - min) * share / step).round() * step;
            shaped = set(&shaped, name, &json!(value.clamp(*min, *max))).unwrap_or(shaped);
        }
    }
    shaped
}

/// A share from 0 to 1 that looks random and is the same every time.
fn scattered(seed: usize) -> f64 {
    let mut x = (seed as u64).wrapping_add(1).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    x ^= x >> 31;
    x = x.wrapping_mul(0xbf58_476d_1ce4_e5b9);
    x ^= x >> 29;
    (x >> 11) as f64 / (1_u64 << 53) as f64
}

fn designs(rounds: usize) -> Vec<Design> {
    let mut all = Vec::new();
    for (family, _) in Family::ALL {
        for (_, seat) in Seat::ALL {
            for arms in ["none", "legs", "posts"] {
                for back in ["slats", "panel", "open"] {
                    let design = Design::of(*family);
                    let design = set(&design, "seat", &json!(seat.name));
                    let design = design.and_then(|d| set(&d, "arms", &json!(arms)));
                    let Some(design) = design.and_then(|d| set(&d, "back", &json!(back))) else { continue };
                    if (back == "open" && arms != "none") || (back == "panel" && arms == "legs") {
                        continue;
                    }
                    let seed = all.len() * 1000;
                    let extreme = |on: &'static [&'static str]| {
                        shaped(&design, |i| on.contains(&SHAPING[i]).then_some(1.0))
                    };
                    all.push(design.clone());
                    all.push(extreme(&["splay", "front_splay", "kick", "seat_slope"]));
                    all.push(extreme(&["narrowing", "seat_slope", "rail_thickness"]));
                    all.extend(
                        (0..rounds).map(|round| shaped(&design, |i| Some(scattered(seed + round * 50 + i)))),
                    );
                }
            }
        }
    }
    all
}

#[test]
fn no_seat_runs_into_anything() {
    let (mut built, mut refused, mut found) = (0, 0, Vec::new());
    let rounds = std::env::var("SEAT_ROUNDS").ok().and_then(|n| n.parse().ok()).unwrap_or(1);
    let mut by_seat = [0; 5];
    for design in designs(rounds) {
        match Chair::resolve(&design, &Bench::default()) {
            Ok(chair) => {
                built += 1;
                by_seat[design.seat().index()] += 1;
                for overlap in overlaps(&chair) {
                    found.push(format!("{overlap}: {:?}", design.differences()));
                }
            }
            Err(_) => refused += 1,
        }
    }
    println!("{built} chairs built {by_seat:?}, {refused} refused, {} overlaps", found.len());
    assert!(by_seat.iter().all(|&n| n > 20), "too few chairs of some seat: {by_seat:?}");
    assert!(found.is_empty(), "{} overlaps:\n{}", found.len(), found[..found.len().min(25)].join("\n"));
}

/// The test above would find a slat that stands in a leg.
#[test]
fn an_overlap_is_found() {
    let chair = Chair::resolve(&Design::default(), &Bench::default()).unwrap();
    let mut moved = chair.clone();
    let last = moved.parts.iter().rposition(|p| p.id.role == Role::SeatSlat).unwrap();
    moved.parts[last].place = moved.parts[last].place.moved(Vec3::X * 60.0);
    assert!(overlaps(&chair).is_empty() && !overlaps(&moved).is_empty());
}

fn chair(family: Family, values: &[(&str, Value)]) -> Chair {
    let design = values.iter().fold(Design::of(family), |d, (name, value)| d.with(name, value).unwrap());
    Chair::resolve(&design, &Bench::default()).unwrap()
}

/// Between the legs the slats are alike and stand evenly; every slat rests on two rails or on a side rail.
#[test]
fn lengthwise_slats_stand_evenly() {
    let chair = chair(Family::BenchTwo, &[("seat", json!("lengthwise"))]);
    let mut slats: Vec<&Part> = chair.parts.iter().filter(|p| p.id.role == Role::SeatSlat).collect();
    slats.sort_by(|a, b| a.place.origin.x.total_cmp(&b.place.origin.x));
    assert!(slats.len() > 10 && slats.len() % 2 == 1, "one lies before the middle leg: {}", slats.len());
    let gaps: Vec<f64> = slats
        .windows(2)
        .map(|pair| {
            let half = |p: &Part| p.size.width / 2.0;
            pair[1].place.origin.x - half(pair[1]) - pair[0].place.origin.x - half(pair[0])
        })
        .collect();
    assert!(gaps.iter().all(|gap| (gap - 5.0).abs() < 1e-6), "{gaps:?}");
}

/// By hand: 0.16 m² above and below and 4 rails of 400 × 60 mm are 0.416 m²; of 4 mm cord 104 m, and a tenth more.
#[test]
fn length_of_cord_by_hand() {
    assert!((cord_length(160_000.0, 4.0 * 400.0 * 60.0, 4.0) - 114_400.0).abs() < 1e-6);
}

/// Each button's tongue sits in a slot of its own, and the slots are cut out of the rails.
#[test]
fn buttons_sit_in_slots() {
    let board = chair(Family::SideChair, &[("seat", json!("board"))]);
    let buttons: Vec<&Part> = board.parts.iter().filter(|p| p.id.role == Role::Button).collect();
    assert_eq!(buttons.len(), 6, "two in front, two behind, one on each side");
    for button in buttons {
        let slots: Vec<_> = board.housings.iter().filter(|h| h.guest == button.id).collect();
        assert_eq!(slots.len(), 1, "{}", button.id);
    }
    let plain = chair(Family::SideChair, &[]);
    let volume = |chair: &Chair| {
        chair.pieces().filter(|(p, _)| p.id.role == Role::FrontRail).map(|(_, b)| b.volume).sum::<f64>()
    };
    let slots = 2.0 * 24.6 * 6.6 * 12.0;
    assert!((volume(&plain) - volume(&board) - slots).abs() < 1.0, "{}", volume(&plain) - volume(&board));
}

/// The board of the pad lies on its ledges: its lower face in the plane of their upper faces.
#[test]
fn the_pad_lies_on_its_ledges() {
    let chair = chair(Family::SideChair, &[("seat", json!("pad"))]);
    let top = |part: &Part| part.place.point(Vec3::Y * (part.size.width / 2.0)).z;
    let board = chair.parts.iter().find(|p| p.id.role == Role::PadBoard).unwrap();
    let under = board.place.origin.z - board.size.thickness / 2.0;
    let ledges: Vec<f64> = chair.parts.iter().filter(|p| p.id.role == Role::Ledge).map(top).collect();
    assert_eq!(ledges.len(), 4);
    assert!(ledges.iter().all(|z| (z - under).abs() < 1e-9), "{ledges:?} under {under}");
}
