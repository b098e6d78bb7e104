//! Pictures of the default chair at many turns.

use super::*;
use crate::design::Design;
use crate::joints::Bench;
use crestrail_sheet::svg;

fn chair() -> Chair {
    Chair::resolve(&Design::default(), &Bench::default()).expect("the default design can be built")
}

fn scene<'a>(chair: &'a Chair, view: &'a View) -> Scene<'a> {
    Scene::of(chair, view)
}

fn views() -> impl Iterator<Item = View> {
    (0..24).flat_map(|k| [0.0, 0.15, 0.5, 1.0].map(|spread| (k, spread))).map(|(k, spread)| View {
        turn: -180.0 + 15.0 * f64::from(k),
        tilt: f64::from(k % 5) * 14.0 - 10.0,
        spread,
        ..View::default()
    })
}

#[test]
fn letters_and_their_lines_never_meet() {
    let chair = chair();
    for view in views() {
        letters::tests::assert_apart(&scene(&chair, &view));
    }
}

#[test]
fn lines_from_letters_end_on_parts_that_carry_them() {
    let chair = chair();
    for view in views() {
        letters::tests::assert_rightly_anchored(&scene(&chair, &view));
    }
}

#[test]
fn every_face_finds_its_order() {
    let chair = chair();
    for view in views() {
        assert_eq!(scene(&chair, &view).picture.unsettled, 0, "{view:?}");
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
    let chair = chair();
    for view in views() {
        let text = svg::write(&exploded(&chair, &view));
        assert!(text.len() < 200_000, "{} bytes: {view:?}", text.len());
        assert!(!text.contains("style"));
        let scene = scene(&chair, &view);
        let points =
            scene.picture.faces.iter().flat_map(|f| &f.rings[0].points).map(|&p| scene.frame.pixel(p));
        assert!(points.into_iter().all(|p| p.x > 0.0 && p.y > 0.0 && p.x < view.width && p.y < view.height));
    }
}

#[test]
fn lines_home_are_drawn_only_when_taken_apart() {
    let chair = chair();
    let ways = |spread: f64| {
        let view = View { spread, letters: false, ..View::default() };
        svg::write(&exploded(&chair, &view)).contains("stroke-dasharray")
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
