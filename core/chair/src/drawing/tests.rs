//! Pictures of the default chair at many turns.

use super::*;
use crate::design::Design;
use crate::joints::Bench;
use crestrail_sheet::svg;
use crestrail_sitter::Sitter;

pub(super) const SERVICE: Service =
    Service { user: 110.0, pegged: true, sitter: Sitter::Adults, table: None, climate: Service::HOUSE };

fn chair() -> Chair {
    Chair::resolve(&Design::default(), &Bench::default()).expect("the default design can be built")
}

/// The default chair, one with many thin parts and round pegs, and one with few and no stretchers.
pub(super) fn chairs() -> Vec<Chair> {
    let designs = [
        "{}",
        r#"{"back_slats": 6, "seat_slat_width": 30, "seat_slat_gap": 2, "pegs": "round", "rake": 18, "kick": 14}"#,
        r#"{"back_slats": 2, "seat_slat_width": 110, "pegs": "none", "stretchers": "none", "species": "walnut_black"}"#,
    ];
    let chair = |text: &str| {
        let design = Design::from_value(&serde_json::from_str(text).unwrap()).unwrap();
        Chair::resolve(&design, &Bench::default()).unwrap()
    };
    designs.into_iter().map(chair).collect()
}

pub(super) fn scene<'a>(chair: &'a Chair, view: &'a View) -> Scene<'a> {
    Scene::of(chair, Stage::set(chair, view.spread), view, &SERVICE)
}

pub(super) fn views() -> impl Iterator<Item = View> {
    (0..24).flat_map(|k| [0.0, 0.15, 0.5, 1.0].map(|spread| (k, spread))).map(|(k, spread)| View {
        turn: -180.0 + 15.0 * f64::from(k),
        tilt: f64::from(k % 5) * 14.0 - 10.0,
        spread,
        ..View::default()
    })
}

#[test]
fn letters_and_their_lines_never_meet() {
    for chair in chairs() {
        for view in views() {
            letters::tests::assert_apart(&scene(&chair, &view));
        }
    }
}

#[test]
fn the_default_chair_has_all_its_letters() {
    let chair = chair();
    let all: std::collections::BTreeSet<&str> = chair.parts.iter().map(|p| p.letter.as_str()).collect();
    let text = svg::write(&exploded(&chair, &View { spread: 1.0, ..View::default() }, &SERVICE));
    let missing: Vec<_> = all.iter().filter(|letter| !text.contains(&format!(">{letter}</text>"))).collect();
    assert!(missing.is_empty(), "{missing:?}");
}

#[test]
fn lines_from_letters_end_on_parts_that_carry_them() {
    for chair in chairs() {
        for view in views() {
            letters::tests::assert_rightly_anchored(&scene(&chair, &view));
        }
    }
}

#[test]
fn every_face_finds_its_order() {
    for chair in chairs() {
        for view in views() {
            assert_eq!(scene(&chair, &view).picture.unsettled, 0, "{view:?}");
        }
    }
}

#[test]
fn the_scale_does_not_change_with_the_turn() {
    let chair = chair();
    let scale = |turn: f64| scene(&chair, &View { turn, ..View::default() }).frame.scale;
    assert!((0..36).all(|k| (scale(f64::from(k) * 10.0) - scale(0.0)).abs() < 1e-12));
}

#[test]
fn pictures_stay_small_and_within_the_sheet() {
    for (chair, view) in chairs().iter().flat_map(|chair| views().map(move |view| (chair, view))) {
        let text = svg::write(&exploded(chair, &view, &SERVICE));
        // Only many round pegs, taken out of their holes, make a picture as large as that.
        assert!(text.len() < 250_000, "{} bytes: {view:?}", text.len());
        assert!(!text.contains("style"));
        let scene = scene(chair, &view);
        let points =
            scene.picture.faces.iter().flat_map(|f| &f.rings[0].points).map(|&p| scene.frame.pixel(p));
        assert!(points.into_iter().all(|p| p.x > 0.0 && p.y > 0.0 && p.x < view.width && p.y < view.height));
    }
}

#[test]
fn pictures_of_the_default_chair_are_small() {
    let chair = chair();
    let largest = views().map(|view| svg::write(&exploded(&chair, &view, &SERVICE)).len()).max();
    assert!(largest.is_some_and(|bytes| bytes < 120_000), "{largest:?} bytes");
}

#[test]
fn lines_home_are_drawn_only_when_taken_apart() {
    let chair = chair();
    let ways = |spread: f64| {
        let view = View { spread, letters: false, ..View::default() };
        svg::write(&exploded(&chair, &view, &SERVICE)).contains("stroke-dasharray")
    };
    assert!(!ways(0.0));
    assert!(ways(1.0));
}

#[test]
fn a_view_out_of_range_is_refused_by_name() {
    let read = |text: &str| View::from_value(&serde_json::from_str(text).unwrap());
    assert_eq!(read("{\"spread\": 1.5}").unwrap_err().where_, "view.spread");
    assert_eq!(read("{\"tilt\": 91}").unwrap_err().where_, "view.tilt");
    assert_eq!(read("{\"zoom\": 2}").unwrap_err().where_, "view");
    assert_eq!(read("{\"turn\": 10, \"scheme\": \"dark\"}").unwrap().scheme, Scheme::Dark);
    assert_eq!(View { turn: f64::NAN, ..View::default() }.checked().unwrap_err().where_, "view.turn");
}

/// The colour of the faces of parts of a role in a picture by shares, as the scene tints them.
fn verdicts(values: &str) -> Vec<(crate::part::Role, Option<crate::finding::Verdict>)> {
    let design = Design::from_value(&serde_json::from_str(values).unwrap()).unwrap();
    let chair = Chair::resolve(&design, &Bench::default()).unwrap();
    let view = View { colour: Meaning::Share, ..View::default() };
    let scene = scene(&chair, &view);
    let shares = scene.shares.as_ref().unwrap();
    chair.parts.iter().enumerate().map(|(i, part)| (part.id.role, shares.verdict(i))).collect()
}

#[test]
fn a_thin_rail_has_the_tint_of_what_fails() {
    use crate::finding::Verdict;
    use crate::part::Role;
    let of = |values: &str, role: Role| {
        verdicts(values).into_iter().filter(|(other, _)| *other == role).map(|(_, v)| v).collect::<Vec<_>>()
    };
    let thin = r#"{"rail_width": 40}"#;
    assert_eq!(of(thin, Role::SideRail), [Some(Verdict::Fails); 2]);
    assert!(of("{}", Role::SideRail).iter().all(|v| *v != Some(Verdict::Fails)));
    assert!(of(thin, Role::SeatSlat).iter().all(Option::is_none));
}

#[test]
fn tints_by_share_bring_hatching_and_a_legend() {
    let design = Design::from_value(&serde_json::json!({"rail_width": 40})).unwrap();
    let chair = Chair::resolve(&design, &Bench::default()).unwrap();
    for scheme in [Scheme::Light, Scheme::Dark] {
        let written = |colour: Meaning| {
            let view = View { colour, scheme, letters: false, ..View::default() };
            svg::write(&exploded(&chair, &view, &SERVICE))
        };
        let (wood, share) = (written(Meaning::Wood), written(Meaning::Share));
        assert!(share.contains("data-layer=\"legend\"") && share.contains("Share of what it can carry"));
        assert!(!wood.contains("legend") && !wood.contains("stroke-opacity=\".6\""));
        assert!(share.matches("stroke-opacity=\".6\"").count() > 10);
        assert!(share.len() < 250_000, "{} bytes", share.len());
    }
}

#[test]
fn a_named_scale_is_kept_whatever_the_chair() {
    for chair in chairs() {
        for (turn, tilt) in [(-32.0, 18.0), (0.0, 0.0), (70.0, 45.0)] {
            let view =
                View { turn, tilt, held: Some(Held { scale: 0.25, focus: [0.0; 2] }), ..View::default() };
            let scene = scene(&chair, &view);
            let camera = Camera::new(math::radians(turn), math::radians(tilt));
            let at = |z: f64| scene.frame.spot(&camera, crestrail_geometry::Vec3::new(0.0, 0.0, z));
            assert!((at(0.0) - Point::new(400.0, 400.0)).hypot2() < 1e-18, "{view:?}");
            let rise = at(0.0).y - at(1000.0).y;
            assert!((rise - 250.0 * camera.up.z).abs() < 1e-6, "{rise} px for a metre, {view:?}");
        }
    }
    assert!(View { held: Some(Held { scale: 0.0, focus: [0.0; 2] }), ..View::default() }.checked().is_err());
}
