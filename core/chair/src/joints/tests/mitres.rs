//! Mitred tenons on the finished joints: what is told of them is what is cut.

use super::random::Random;
use super::with;
use crate::chair::Chair;
use crate::design::Design;
use crate::joint::{Joint, Way};
use crate::joints::{Bench, rules};
use crestrail_geometry::{Body, Bounds, Plane, Vec3};
use serde_json::json;

/// How finely the ends are felt for each other, in each direction.
const STEPS: usize = 40;

/// Tenons that stand one above the other have nothing to mitre, a mitre leaves both cheeks something to glue, and a haunch
/// stands on its tenon.
#[test]
fn mitres_where_there_is_little_to_mitre() {
    for values in [
        json!({"family": "bar_chair", "stretcher_height": 393, "back_stretcher_height": 350, "stretcher_width": 52.5, "corner": "mitred"}),
        json!({"family": "bench_two", "back_slats": 4, "back_clear": 35, "arms": "posts", "arm_height": 193, "splay": 2, "set_back": 0.5, "corner": "mitred"}),
        json!({"family": "armchair", "arms": "posts", "front_leg": 40, "front_splay": 6, "rail_joint": "bare_faced", "tenon_depth": 45}),
    ] {
        checked(&with(&values));
    }
    let chair = with(&json!({"family": "bar_chair", "stretcher_height": 393, "back_stretcher_height": 350,
        "stretcher_width": 52.5, "corner": "mitred"}));
    let ways = chair.joints.iter().flat_map(|joint| &joint.corners);
    let apart =
        ways.filter(|corner| corner.way == Way::Staggered && corner.why.contains("pass close by")).count();
    assert!(apart >= 2, "{apart}");
}

#[test]
fn mitres_of_random_chairs() {
    let (mut random, mut mitres) = (Random::new(41), 0);
    for _ in 0..60 {
        let design: Design = random.design();
        if let Ok(chair) = Chair::resolve(&design, &Bench::default()) {
            mitres += checked(&chair);
        }
    }
    assert!(mitres > 100, "{mitres}");
}

/// Checks every mitred joint; how many there were.
fn checked(chair: &Chair) -> usize {
    let mut count = 0;
    for joint in &chair.joints {
        let Some(mitre) = joint.tenon.mitre else { continue };
        count += 1;
        let name = format!("{} in {}", joint.guest, joint.host);
        assert!(mitre.short_length >= rules::SHORTEST_CHEEK, "{name}: {}", mitre.short_length);
        assert!(joint.tenon.haunch.is_none_or(|h| h.length < mitre.short_length), "{name}");
        let partner = |other: &&Joint| other.host == joint.host && other.guest == mitre.with;
        let partner = chair.joints.iter().find(partner).expect("the tenon that it meets");
        if !joint.kind.is_separate() && !partner.kind.is_separate() {
            assert!(faces(joint, &mitre.plane, partner, mitre.gap), "{name} passes {} by", partner.guest);
        }
    }
    count
}

/// Whether a point of the tenon's mitred end lies in the other tenon when it is carried over the gap.
fn faces(joint: &Joint, end: &Plane, partner: &Joint, gap: f64) -> bool {
    let carried = |p: Vec3| p + end.normal * (gap + 0.01 - end.distance(p));
    let bodies = |joint: &Joint| -> Vec<Vec<Plane>> {
        let planes = |body: &Body| if let Body::Convex(planes) = body { Some(planes.clone()) } else { None };
        joint.tenon.bodies.iter().filter_map(planes).collect()
    };
    let holds = |planes: &[Plane], p: Vec3| planes.iter().all(|plane| plane.distance(p) <= 1e-6);
    let others = bodies(partner);
    bodies(joint).iter().any(|own| {
        let ends = corners(own).into_iter().filter(|p| end.distance(*p).abs() < 1e-6).collect::<Vec<_>>();
        grid(&ends).any(|p| {
            let on = p - end.normal * end.distance(p);
            holds(own, on) && others.iter().any(|other| holds(other, carried(on)))
        })
    })
}

fn corners(planes: &[Plane]) -> Vec<Vec3> {
    let n = planes.len();
    let triples = (0..n).flat_map(|i| (i + 1..n).flat_map(move |j| (j + 1..n).map(move |k| [i, j, k])));
    let corner = |[i, j, k]: [usize; 3]| Plane::corner(&planes[i], &planes[j], &planes[k]);
    triples.filter_map(corner).filter(|p| planes.iter().all(|plane| plane.distance(*p) <= 1e-6)).collect()
}

/// Points spread evenly through the box round some points.
fn grid(around: &[Vec3]) -> impl Iterator<Item = Vec3> {
    let Bounds { low, high } = Bounds::around(around);
    let at = move |i: usize| (i as f64 + 0.5) / STEPS as f64;
    let size = high - low;
    // The end of a mitred tenon stands aslant between the tenons' ways: its height and one of them tell a point of it.
    (0..STEPS).flat_map(move |i| {
        (0..STEPS).map(move |k| low + Vec3::new(size.x * 0.5, size.y * at(i), size.z * at(k)))
    })
}
