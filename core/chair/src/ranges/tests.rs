use super::*;
use crate::report::service;
use serde_json::{Value, json};

fn search(values: &Value) -> (Design, RangeSearch) {
    let design = Design::from_value(values).unwrap();
    let search = RangeSearch::new(&design, &Bench::default()).unwrap();
    (design, search)
}

fn all(values: &Value) -> Vec<SafeRange> {
    let (_, mut search) = search(values);
    let found = search.step(usize::MAX);
    assert!(search.is_done());
    found
}

fn span(ranges: &[SafeRange], knob: &str) -> (End, End) {
    match &ranges.iter().find(|range| range.knob == knob).unwrap_or_else(|| panic!("no {knob}")).holds {
        Holds::Span { low, high } => (low.clone(), high.clone()),
        Holds::Picks(_) => panic!("{knob} is a choice"),
    }
}

/// Whether a whole chair with the knob there can be built and has no failing check.
fn whole_holds(design: &Design, knob: &str, value: f64) -> bool {
    let Ok(design) = design.with(knob, &json!(value)) else { return false };
    let Ok(chair) = Chair::resolve(&design, &Bench::default()) else { return false };
    crate::checks::findings(&chair, &service(&design)).iter().all(|f| !fails(f.verdict))
}

#[test]
fn thin_rails_fail_and_the_range_says_by_which_check() {
    let ranges = all(&json!({}));
    let (low, high) = span(&ranges, "rail_width");
    let stop = low.stop.unwrap();
    assert_eq!(stop.value, Some(low.value - 1.0));
    assert!(stop.subject.is_some() && !stop.say.is_empty(), "{stop:?}");
    assert!(low.value < 57.0 && high.value > 57.0);
}

/// Every end is true of whole chairs too: the last value holds, the one after does not.
#[test]
fn ends_are_those_of_whole_chairs() {
    let design = Design::default();
    for range in all(&json!({})) {
        let Holds::Span { low, high } = &range.holds else { continue };
        for end in [low, high] {
            assert!(whole_holds(&design, range.knob, end.value), "{} at {}", range.knob, end.value);
            if let Some(value) = end.stop.as_ref().and_then(|stop| stop.value) {
                assert!(!whole_holds(&design, range.knob, value), "{} at {value}", range.knob);
            }
        }
    }
}

#[test]
fn every_knob_that_applies_has_one_range() {
    let (design, mut search) = search(&json!({"family": "stool"}));
    let ranges = search.step(usize::MAX);
    let names: Vec<&str> = ranges.iter().map(|range| range.knob).collect();
    assert_eq!(names, knobs(&design).iter().map(|knob| knob.name).collect::<Vec<_>>());
    assert!(!names.contains(&"back_slats") && !names.contains(&"family") && names.contains(&"seat_height"));
}

#[test]
fn a_search_in_slices_finds_the_same() {
    let (_, mut search) = search(&json!({}));
    let mut found = Vec::new();
    while !search.is_done() {
        let before = search.tried();
        found.extend(search.step(7));
        assert!(search.tried() - before <= 7);
    }
    assert_eq!(found, all(&json!({})));
}

/// What fails already does not close the ranges of all knobs.
#[test]
fn only_what_fails_in_addition_ends_a_range() {
    let values = json!({"rail_width": 40, "user": "kg150"});
    let (_, search) = search(&values);
    assert!(search.failing() > 0);
    let (low, high) = span(&all(&values), "seat_height");
    assert!(low.value < high.value, "{low:?} {high:?}");
}

#[test]
fn a_grid_begins_beside_the_present_value() {
    let values = |grid: &seek::Seek| grid.wanted();
    let knob = Design::default().knobs().iter().find(|knob| knob.name == "seat_height").unwrap();
    let between = Design::from_value(&json!({"seat_height": 380.4})).unwrap();
    assert_eq!(values(&Seek::new(knob, &between)), Some(json!(380.0)));
    let least = Design::from_value(&json!({"seat_height": 519})).unwrap();
    let mut seek = Seek::new(knob, &least);
    for _ in 0..3 {
        seek.learn(None);
    }
    assert_eq!(values(&seek), Some(json!(520.0)));
}

/// Whatever stands at a knob that is said not to shape the chair, its parts and joints are the same, to the last bit.
#[test]
fn knobs_that_do_not_shape_the_chair_leave_it_alone() {
    let timber = |design: &Design| {
        let timber = crate::resolve::timber(design, &Bench::default()).unwrap();
        format!("{:?} {:?} {:?} {:?}", timber.parts, timber.joints, timber.housings, timber.settled)
    };
    for (family, _) in <crate::choices::Family as crate::choices::Choice>::ALL {
        let design = Design::of(*family);
        let same = timber(&design);
        let mut tried = 0;
        for knob in design.knobs().iter().filter(|knob| !knob.shapes()) {
            let values: Vec<Value> = match knob.kind {
                Kind::Range { min, max, .. } => vec![json!(min), json!(max)],
                Kind::Count { min, max, .. } => vec![json!(min), json!(max)],
                Kind::Choice { .. } => knob.picks().iter().map(|pick| json!(pick.name)).collect(),
            };
            for value in values {
                tried += 1;
                assert!(timber(&design.with(knob.name, &value).unwrap()) == same, "{} at {value}", knob.name);
            }
        }
        assert!(tried > 10);
        let other = if design.seat_height() > 450.0 { 440.0 } else { 460.0 };
        if let Ok(other) = design.with("seat_height", &json!(other)) {
            assert!(timber(&other) != same);
        }
    }
}

/// Steps beyond which a plain scan of a knob would take too long.
const SHORT: f64 = 24.0;

/// What fails in a whole chair with the knob there, by all checks; one line where it cannot be built.
fn whole_failures(design: &Design, knob: &Knob, value: &Value) -> Vec<(Option<Topic>, Option<String>)> {
    let design = design.with(knob.name, value).unwrap();
    match Chair::resolve(&design, &Bench::default()) {
        Err(_) => vec![(None, None)],
        Ok(chair) => {
            let found = crate::checks::findings(&chair, &service(&design)).into_iter();
            found.filter(|f| fails(f.verdict)).map(|f| (Some(f.topic), Some(f.subject))).collect()
        }
    }
}

/// Every value of every short knob, one after the other on whole chairs: the range ends where the scan first fails, by a
/// check that fails there.
#[test]
fn ranges_are_those_of_a_plain_scan() {
    let mut scanned = 0;
    for values in [
        json!({"rail_width": 50, "user": "kg125"}),
        json!({"family": "stool", "seat_height": 450}),
        json!({"family": "armchair", "rail_width": 40, "user": "kg150"}),
        json!({"family": "bench_two", "species": "pine_scots"}),
    ] {
        let (design, mut search) = search(&values);
        for range in search.step(usize::MAX) {
            let knob = design.knobs().iter().find(|knob| knob.name == range.knob).unwrap();
            scanned += scan(&design, knob, &range.holds);
        }
    }
    assert!(scanned > 300, "{scanned} values");
}

/// Scans one knob; the number of values.
fn scan(design: &Design, knob: &Knob, holds: &Holds) -> usize {
    let known = whole_failures(design, knob, &design.to_map()[knob.name]);
    let fresh = |value: &Value| -> Vec<_> {
        whole_failures(design, knob, value).into_iter().filter(|one| !known.contains(one)).collect()
    };
    let stopped_by = |stop: &Stop, value: &Value| {
        let by = (stop.topic, stop.subject.clone());
        assert!(fresh(value).contains(&by), "{} at {value}: {by:?} does not fail", knob.name);
    };
    match (holds, knob.kind) {
        (Holds::Picks(picks), _) => {
            for pick in picks {
                match &pick.stop {
                    None => assert_eq!(fresh(&json!(pick.name)), [], "{} {}", knob.name, pick.name),
                    Some(stop) => stopped_by(stop, &json!(pick.name)),
                }
            }
            picks.len()
        }
        (Holds::Span { low, high }, Kind::Range { min, max, step, .. }) if (max - min) / step <= SHORT => {
            let count = ((max - min) / step).round() as usize;
            let grid = (0..=count).map(|k| min + step * k as f64);
            for value in grid.filter(|value| (low.value..=high.value).contains(value)) {
                assert_eq!(fresh(&json!(value)), [], "{} at {value}", knob.name);
            }
            for (end, limit) in [(low, min), (high, max)] {
                let Some(stop) = &end.stop else {
                    assert_eq!(end.value, limit, "{} ends without a reason", knob.name);
                    continue;
                };
                let beyond = stop.value.unwrap();
                assert!((beyond - end.value).abs() < step + 1e-6, "{}: {end:?}", knob.name);
                stopped_by(stop, &json!(beyond));
            }
            count + 1
        }
        (Holds::Span { .. }, _) => 0,
    }
}
