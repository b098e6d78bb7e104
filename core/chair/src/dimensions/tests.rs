//! Dimension lines of chairs of every kind, from all sides.

use super::boxes::{about, meet};
use super::place::angle_figure;
use super::*;
use crate::choices::{Choice, Family};
use crate::drawing::DimensionRoom;
use crate::joints::Bench;
use kurbo::{Point, Rect};
use serde_json::json;

const FIGURE: [f64; 2] = [62.0, 22.0];

fn resolved(design: &Design) -> Chair {
    Chair::resolve(design, &Bench::default()).expect("it can be built")
}

fn view(turn: f64, tilt: f64, width: f64, height: f64) -> View {
    let room = DimensionRoom { figure: FIGURE, clear: vec![[width - 120.0, 0.0, width, 40.0]] };
    View { turn, tilt, width, height, dimensions: Some(room), ..View::default() }
}

/// Designs with every knob that a dimension belongs to.
fn designs() -> Vec<Design> {
    let mut all: Vec<Design> = Family::ALL.iter().map(|row| Design::of(row.0)).collect();
    let slanted = [("splay", 2.0), ("front_splay", 3.0), ("seat_slope", 3.0), ("rake", 15.0), ("kick", 4.0)];
    let turned = |design: Design| {
        slanted
            .iter()
            .fold(design, |design, (knob, value)| design.with(knob, &json!(value)).expect("in range"))
    };
    all.push(turned(Design::of(Family::SideChair)));
    let laths = Design::of(Family::SideChair).with("back", &json!("laths")).expect("a back");
    all.push(laths.with("stretchers", &json!("box")).expect("stretchers"));
    all
}

fn views() -> Vec<View> {
    let turns = (0..24).map(|k| -180.0 + 15.0 * f64::from(k));
    let looks = turns.flat_map(|turn| [-8.0, 0.0, 18.0, 50.0, 90.0].map(|tilt| (turn, tilt)));
    looks
        .flat_map(|(turn, tilt)| [(360.0, 300.0), (720.0, 640.0)].map(|(w, h)| view(turn, tilt, w, h)))
        .collect()
}

fn point([x, y]: Spot) -> Point {
    Point::new(x, y)
}

#[test]
fn figures_and_grips_stay_within_the_picture_and_never_meet() {
    let mut counted = 0;
    for design in designs() {
        let chair = resolved(&design);
        for view in views() {
            let rows = dimensions(&chair, &design, &view).rows;
            let paper = Rect::new(0.0, 0.0, view.width, view.height);
            let figures: Vec<Rect> =
                rows.iter().map(|row| about(point(row.label), figure(row.kind))).collect();
            let grips: Vec<Rect> = rows
                .iter()
                .filter(|row| row.kind != Kind::Count)
                .flat_map(|row| row.tracks.iter().map(|track| about(at(track, row.value), [24.0; 2])))
                .collect();
            let boxes: Vec<&Rect> = figures.iter().chain(&grips).collect();
            for (i, &a) in boxes.iter().enumerate() {
                assert!(paper.union(*a) == paper, "out of the picture: {rows:?} {view:?}");
                for &b in &boxes[i + 1..] {
                    assert!(!meet(*a, *b), "two meet: {rows:?} {view:?}");
                }
            }
            counted += rows.len();
        }
    }
    assert!(counted > 3000, "{counted}");
}

fn figure(kind: Kind) -> [f64; 2] {
    if kind == Kind::Angle { angle_figure(FIGURE) } else { FIGURE }
}

fn at(track: &[[f64; 3]], value: f64) -> Point {
    let pair = track.windows(2).find(|pair| value <= pair[1][0]).expect("within the track");
    let share = (value - pair[0][0]) / (pair[1][0] - pair[0][0]);
    let spot = |row: [f64; 3]| Point::new(row[1], row[2]);
    spot(pair[0]).lerp(spot(pair[1]), share)
}

/// What a drag relies on: the end of a line is where its track said that it would be, while the picture is held.
#[test]
fn ends_go_where_their_tracks_say() {
    let mut tried = std::collections::BTreeSet::new();
    for design in designs() {
        let chair = resolved(&design);
        for (turn, tilt) in [(-32.0, 18.0), (0.0, 0.0), (-90.0, 0.0), (90.0, 0.0), (40.0, 30.0), (180.0, 0.0)]
        {
            let look = view(turn, tilt, 900.0, 800.0);
            let first = dimensions(&chair, &design, &look);
            for row in first.rows.iter().filter(|row| row.kind != Kind::Count) {
                let by = if row.kind == Kind::Angle { 1.5 } else { 11.0 };
                let Ok(other) = design.with(row.knob, &json!(row.value + by)) else { continue };
                let Ok(turned) = Chair::resolve(&other, &Bench::default()) else { continue };
                let held = View { held: Some(first.held), ..look.clone() };
                let then = dimensions(&turned, &other, &held);
                let Some(moved) = then.rows.iter().find(|then| then.knob == row.knob) else { continue };
                for (before, after) in row.tracks.iter().zip(&moved.tracks) {
                    let (told, is) = (at(before, row.value + by), at(after, row.value + by));
                    // Lines beside a silhouette that grows step aside; along the line itself the end is where it was told.
                    let way = at(before, row.value + by) - at(before, row.value);
                    let along = (told - is).dot(way) / way.hypot2().sqrt().max(1e-9);
                    let most = if row.kind == Kind::Angle { 7.0 } else { 0.5 };
                    assert!(along.abs() < most, "{} at {turn}: {told:?} {is:?}", row.knob);
                }
                tried.insert(row.knob);
            }
        }
    }
    let most = ["seat_width", "seat_depth", "seat_height", "back_height", "rake", "kick", "seat_slope"];
    assert!(most.iter().all(|knob| tried.contains(knob)), "{tried:?}");
}

/// By hand: a line of 450 mm straight up, seen from straight in front.
#[test]
fn a_height_is_as_long_as_the_scale_says() {
    let design = Design::default();
    let chair = resolved(&design);
    let told = dimensions(&chair, &design, &view(0.0, 0.0, 800.0, 800.0));
    let row = told.rows.iter().find(|row| row.knob == "seat_height").expect("a height");
    let far = (point(row.line[1]) - point(row.line[0])).hypot2().sqrt();
    assert!((far - design.seat_height() * told.held.scale).abs() < 0.2, "{far} {told:?}");
    assert!((row.line[0][0] - row.line[1][0]).abs() < 0.2);
}

#[test]
fn views_tell_what_they_show_squarely() {
    let names = |design: &Design, turn: f64, tilt: f64| -> Vec<&str> {
        let rows = dimensions(&resolved(design), design, &view(turn, tilt, 1000.0, 800.0)).rows;
        rows.iter().map(|row| row.knob).collect()
    };
    let design = Design::default();
    assert_eq!(names(&design, -32.0, 18.0), ["seat_width", "seat_depth", "seat_height"]);
    let front = names(&design, 0.0, 0.0);
    assert!(
        ["seat_width", "seat_height", "back_height", "back_slats"].iter().all(|k| front.contains(k)),
        "{front:?}"
    );
    let side = names(&design, -90.0, 0.0);
    assert!(["seat_depth", "rake", "kick", "seat_slope"].iter().all(|k| side.contains(k)), "{side:?}");
    assert!(!names(&design, 0.0, 90.0).contains(&"seat_height"), "seen from above");
    let apart = View { spread: 0.5, ..view(0.0, 0.0, 800.0, 800.0) };
    assert!(dimensions(&resolved(&design), &design, &apart).rows.is_empty());
}
