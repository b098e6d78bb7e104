//! Whole chairs: every kind of joint, every way at a corner, and what random designs come to.

mod mitres;
pub(crate) mod random;
mod sizes;

use super::Bench;
use crate::chair::Chair;
use crate::design::Design;
use crate::joint::{Joint, Kind, Way};
use crate::part::Role;
use crestrail_geometry::Vec3;
use random::Random;
use serde_json::{Value, json};

fn with(values: &Value) -> Chair {
    let design = Design::from_value(values).expect("values within limits");
    Chair::resolve(&design, &Bench::default()).unwrap_or_else(|error| panic!("{values}: {error}"))
}

fn sound(chair: &Chair) {
    for (part, body) in chair.pieces() {
        assert!(body.solid.is_closed() && body.volume > 0.0, "{}", part.id);
    }
}

fn between(chair: &Chair, guest: Role, host: Role) -> &Joint {
    chair.joints.iter().find(|j| j.guest.role == guest && j.host.role == host).expect("such a joint")
}

#[test]
fn random_designs_are_seldom_refused() {
    let mut random = Random::new(7);
    let (count, bench) = (600, Bench::default());
    let mut refused = Vec::new();
    for _ in 0..count {
        let design = random.design();
        if let Err(error) = Chair::check(&design, &bench) {
            refused.push(format!("{:?} {}", error.stage, error.why));
        }
    }
    assert!(refused.len() * 50 <= count, "{} of {count}: {refused:#?}", refused.len());
}

/// Every kind on the default chair: closed solids, nothing in each other's way, and made where it was wished.
#[test]
fn every_kind_can_be_built() {
    let kinds = [
        ("blind", Kind::Blind),
        ("through", Kind::Through),
        ("bare_faced", Kind::BareFaced),
        ("twin", Kind::Twin),
        ("loose", Kind::Loose),
        ("dowels", Kind::Dowels),
    ];
    for (name, kind) in kinds {
        let all = json!({"rail_joint": name, "stretcher_joint": name, "back_joint": name, "rail_width": 90});
        let chair = with(&all);
        sound(&chair);
        let made = chair.joints.iter().filter(|j| j.kind == kind).count();
        assert!(made >= 4, "{name}: {made}");
    }
}

/// The end of a through tenon and its wedges lie in the host's far face; nothing of them stands out.
#[test]
fn through_tenons_end_flush_and_are_wedged() {
    let chair = with(&json!({"stretcher_joint": "through"}));
    let joint = between(&chair, Role::CrossStretcher, Role::SideStretcher);
    assert_eq!(joint.kind, Kind::Through);
    let host = chair.part(joint.host).expect("the host");
    let far = host.exit(joint.mouth.point(Vec3::X), joint.mouth.x).expect("a far face").face;
    for id in joint.inserts.iter().map(|i| i.id).chain([joint.guest]) {
        let (part, body) = chair.pieces().find(|(part, _)| part.id == id).expect("a part");
        let out = body.solid.vertices.iter().map(|v| far.distance(part.place.point(*v)));
        let most = out.filter(|d| d.abs() < 40.0).fold(f64::NEG_INFINITY, f64::max);
        assert!(most.abs() < 1e-6, "{id}: {most}");
    }
    let wedging = joint.wedging.expect("wedges");
    assert_eq!(joint.inserts.len(), wedging.count);
    // FACTS, joint proportions: kerf to two thirds of the tenon, wedge 1:8 to 1:10.
    assert_eq!(wedging.length, (joint.tenon.length * 2.0 / 3.0).floor());
    let slope = (wedging.thickness - 0.6) / wedging.length;
    assert!(slope <= 1.0 / 8.0 && slope > 0.02, "{slope}");
    assert!(joint.pegs.is_empty());
}

/// The areas are counted anew from the solids' own tongues: the way taken has the greatest.
#[test]
fn the_corner_with_most_glue_is_taken() {
    let mut ways = Vec::new();
    for values in [
        json!({}),
        json!({"front_leg": 64, "set_back": 0, "rail_thickness": 38}),
        json!({"corner": "halved"}),
    ] {
        let chair = with(&values);
        let rails = [Role::FrontRail, Role::SideRail].map(|role| between(&chair, role, Role::FrontLeg));
        let [corner, other] = rails.map(|joint| joint.corners.first().expect("they meet"));
        assert_eq!(corner.way, other.way);
        let area = |way: Way| corner.weighed.iter().find(|w| w.0 == way).and_then(|w| w.1.clone().ok());
        let taken = area(corner.way).expect("it has room");
        let counted: f64 = rails.iter().map(|joint| cheeks(joint)).sum();
        assert!((taken - counted).abs() < 1e-6 * counted, "{taken} {counted}");
        if values.get("corner").is_none() {
            assert!(corner.weighed.iter().all(|(_, other)| other.as_ref().map_or(true, |a| *a <= taken)));
        } else {
            assert_eq!((corner.way, corner.why.as_str()), (Way::Halved, "Chosen by the maker."));
        }
        ways.push(corner.way);
    }
    assert_eq!(ways[0], Way::Mitred);
}

/// Both cheeks of a tenon from its bodies' corners: the area of the section half-way through its thickness, which of
/// a mitred tenon is the mean of both cheeks.
fn cheeks(joint: &Joint) -> f64 {
    let tongues = joint.tenon.tongues.iter();
    let middle = |t: &crate::joint::Tongue| {
        let at = joint.mouth.point(Vec3::Y * t.middle());
        let cut = joint.tenon.mitre.and_then(|m| m.plane.meet(at, joint.mouth.x));
        cut.map_or(t.to, |p| t.to.min((p - at).dot(joint.mouth.x)))
    };
    tongues.map(|t| 2.0 * t.width() * (middle(t) - t.from)).sum()
}

#[test]
fn staggered_tenons_stand_one_above_the_other() {
    let chair = with(&json!({"corner": "staggered"}));
    sound(&chair);
    let [low, high] = [Role::FrontRail, Role::SideRail].map(|role| {
        let joint = between(&chair, role, Role::FrontLeg);
        let half = joint.tenon.width / 2.0;
        [joint.mouth.origin.z - half, joint.mouth.origin.z + half]
    });
    let gap = (high[0] - low[1]).max(low[0] - high[1]);
    assert!((gap - super::rules::BRIDGE).abs() < 1e-6, "{gap}");
}

/// A loose tenon goes as deep into both parts, and both mortises have room for glue behind it.
#[test]
fn loose_tenons_sit_in_both_parts() {
    let chair = with(&json!({"back_joint": "loose"}));
    let joint = between(&chair, Role::BackSlat, Role::BackLeg);
    assert_eq!((joint.kind, joint.inserts.len(), joint.guest_cuts.len()), (Kind::Loose, 1, 1));
    let [length, width, thickness] = joint.inserts[0].size;
    assert!(
        length > joint.tenon.length + 9.0 && (width, thickness) == (joint.tenon.width, joint.tenon.thickness)
    );
    let body = chair.pieces().find(|(part, _)| part.id == joint.inserts[0].id).expect("a part").1;
    assert!((body.volume - length * width * thickness).abs() < 1e-3 || !joint.corners.is_empty());
}

/// A draw-bored peg is a number to mark by: its bodies are those of a straight one.
#[test]
fn the_draw_is_a_number() {
    let values = |way: &str| json!({"peg_way": way, "draw": 1.25});
    let (straight, drawn) = (with(&values("straight")), with(&values("drawn")));
    let pegs = |chair: &Chair| chair.joints.iter().flat_map(|j| j.pegs.clone()).collect::<Vec<_>>();
    let (straight, drawn) = (pegs(&straight), pegs(&drawn));
    assert!(!straight.is_empty() && straight.len() == drawn.len());
    assert!(straight.iter().all(|peg| peg.draw == 0.0) && drawn.iter().all(|peg| peg.draw == 1.25));
    assert!(straight.iter().zip(&drawn).all(|(a, b)| a.body == b.body && a.hole == b.hole));
}

/// Two rails from opposite sides of a middle leg: together with what is kept between them they are no longer than
/// the leg is thick.
#[test]
fn tenons_from_opposite_sides_end_before_each_other() {
    for family in ["bench_two", "bench_three"] {
        let chair = with(&json!({"family": family}));
        sound(&chair);
        let ends =
            |j: &&Joint| j.corners.iter().any(|c| c.way == Way::EndToEnd) && j.host.role == Role::FrontLeg;
        let joint = chair.joints.iter().find(ends).expect("a middle leg");
        let leg = chair.part(joint.host).expect("the leg").size.thickness;
        let gap = leg - 2.0 * joint.tenon.length;
        assert!((0.9..14.0).contains(&gap), "{family}: {gap}");
    }
}

/// High rails get twin tenons by the rule, thin laths a tenon without a shoulder on both faces or a small one.
#[test]
fn the_rule_picks_by_size() {
    let chair = with(&json!({"rail_width": 110, "seat_height": 500}));
    sound(&chair);
    assert_eq!(between(&chair, Role::SideRail, Role::BackLeg).kind, Kind::Twin);
    assert_eq!(between(&with(&json!({})), Role::SideRail, Role::BackLeg).kind, Kind::Blind);
    assert_eq!(between(&with(&json!({})), Role::FrontRail, Role::FrontLeg).kind, Kind::Haunched);
}

/// Past the short-grain limit the mortise follows the rail; up to it the tenon is square to the frame.
#[test]
fn the_tenon_of_an_angled_rail() {
    let angle = |narrowing: f64, depth: f64| {
        let chair = with(&json!({"narrowing": narrowing, "seat_depth": depth}));
        let joint = between(&chair, Role::SideRail, Role::BackLeg);
        let square = joint.face.normal.dot(joint.mouth.x).abs();
        (joint.tenon.to_grain.to_degrees(), square)
    };
    let (slight, square) = angle(58.0, 446.0);
    assert!(slight > 1.0 && slight <= 10.0 && (square - 1.0).abs() < 1e-9, "{slight} {square}");
    let (none, square) = angle(0.0, 446.0);
    assert!(none < 1e-6 && (square - 1.0).abs() < 1e-9);
}
