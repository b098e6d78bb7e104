//! A chair as workshops make it (common practice, no source): it can be asked for, and no check fails it.

use crestrail_chair::chair::Chair;
use crestrail_chair::design::Design;
use crestrail_chair::finding::Verdict;
use crestrail_chair::joint::{Joint, PegShape, Way};
use crestrail_chair::part::{Part, Role, Side};
use crestrail_chair::report::{Report, report};
use crestrail_chair::shop::Shop;
use crestrail_geometry::Bounds;

fn made() -> (Chair, Report) {
    let values = serde_json::from_str(include_str!("../../data/common_practice.json")).expect("a design");
    let design = Design::from_value(&values).expect("values within the limits");
    let shop = Shop::demo();
    let chair = Chair::resolve(&design, &shop.bench()).expect("it can be built");
    let report = report(&design, &chair, &shop);
    (chair, report)
}

fn close(found: f64, meant: f64, within: f64, what: &str) {
    assert!((found - meant).abs() <= within, "{what}: {found}, meant {meant}");
}

fn first(chair: &Chair, role: Role) -> &Part {
    chair.parts.iter().find(|p| p.id.role == role && p.id.side != Side::Left).expect("such a part")
}

/// Around all parts of a role, in chair space.
fn around(chair: &Chair, role: Role) -> Bounds {
    let of_role = chair.pieces().filter(|(part, _)| part.id.role == role);
    of_role.map(|(part, body)| body.solid.posed(&part.place).bounds()).fold(Bounds::NOTHING, Bounds::union)
}

fn joints(chair: &Chair, guest: Role) -> impl Iterator<Item = &Joint> {
    chair.joints.iter().filter(move |j| j.guest.role == guest)
}

#[test]
fn its_sizes_are_those_asked_for() {
    let (chair, report) = made();
    close(report.overall.height, 865.0, 0.1, "height over all");
    let leg = first(&chair, Role::FrontLeg).size;
    for (found, meant) in [(leg.length, 450.0), (leg.width, 50.0), (leg.thickness, 50.0)] {
        close(found, meant, 1e-6, "front leg");
    }
    close(around(&chair, Role::FrontLeg).size().x, 460.0, 1e-6, "over the front legs");
    close(around(&chair, Role::BackLeg).size().x, 455.0, 0.1, "over the back legs");
    close(first(&chair, Role::BackLeg).size.width, 97.0, 1.0, "plank of the back leg");
    for role in [Role::FrontRail, Role::SideRail, Role::BackRail, Role::BackSlat] {
        let size = first(&chair, role).size;
        close(size.width, 50.0, 1.5, role.name());
        close(size.thickness, 38.0, 1e-6, role.name());
    }
}

#[test]
fn its_slats_have_gaps_as_high_as_themselves() {
    let (chair, _) = made();
    let mut slats: Vec<&Part> = chair.parts.iter().filter(|p| p.id.role == Role::BackSlat).collect();
    slats.sort_by(|a, b| a.place.origin.z.total_cmp(&b.place.origin.z));
    assert_eq!(slats.len(), 3);
    for pair in slats.windows(2) {
        let pitch = (pair[1].place.origin - pair[0].place.origin).length();
        close(pitch - pair[0].size.width, pair[0].size.width, 1e-6, "gap");
    }
}

#[test]
fn its_joints_are_those_of_the_trade() {
    let (chair, _) = made();
    let of_rails = joints(&chair, Role::FrontRail).chain(joints(&chair, Role::SideRail));
    for joint in of_rails.filter(|j| j.host.role == Role::FrontLeg) {
        close(joint.tenon.length, 34.0, 1.0, "tenon of a rail");
        assert_eq!(joint.corners.iter().map(|c| c.way).collect::<Vec<_>>(), [Way::Mitred]);
    }
    for joint in joints(&chair, Role::BackSlat) {
        close(joint.mortise.depth, 20.0, 0.6, "mortise of a slat");
    }
    let top = joints(&chair, Role::BackSlat).map(|j| j.mortise.from_end).fold(f64::INFINITY, f64::min);
    close(top, 15.0, 0.2, "topmost mortise below the end of the leg");
    let pegs: Vec<_> = chair.joints.iter().flat_map(|j| &j.pegs).collect();
    assert!(!pegs.is_empty());
    assert!(pegs.iter().all(|peg| peg.shape == PegShape::Square && peg.size == 6.0));
}

#[test]
fn no_check_fails_it() {
    let (_, report) = made();
    for finding in &report.findings {
        assert_ne!(finding.verdict, Verdict::Fails, "{}: {}", finding.subject, finding.say);
    }
}
