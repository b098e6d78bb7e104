use super::findings;
use crate::chair::Chair;
use crate::design::Design;
use crate::finding::{Finding, Verdict};
use crate::joints::Bench;
use serde_json::{Value, json};

fn of(values: &Value) -> Vec<Finding> {
    let design = Design::from_value(values).expect("values within limits");
    let chair = Chair::resolve(&design, &Bench::default()).expect("can be built");
    findings(&chair, true, |_| true).collect()
}

fn find<'a>(found: &'a [Finding], subject: &str, words: &str) -> &'a Finding {
    found.iter().find(|f| f.subject == subject && f.say.contains(words)).expect(words)
}

/// FACTS, joint proportions: a mitred tenon reaches to b − e on its middle, less half of the gap of 1 mm along
/// the tenon. Leg b = 41, rail 24 thick and 4 set back, so e = 4 + 12 = 16; the tenon is 8.9 thick in a cutter
/// of 9, and its longer side is half of that longer; behind it are 1.5 mm for glue.
#[test]
fn the_wall_of_a_mitred_joint_by_hand() {
    let found = of(&json!({"narrowing": 0}));
    let wall = find(&found, "front rail in front leg", "beside and behind");
    let by_hand = 41.0 - (41.0 - 16.0 - 0.5 * 2.0_f64.sqrt() + 8.9 / 2.0) - 1.5;
    assert!((wall.value - by_hand).abs() < 2e-3, "{} {by_hand}", wall.value);
    assert_eq!(wall.verdict, Verdict::Sound);
}

#[test]
fn a_drawn_peg_stands_nearer_to_the_shoulder_of_the_tenon() {
    let straight = of(&json!({}));
    let drawn = of(&json!({"peg_way": "drawn", "draw": 1.5}));
    let value = |found: &[Finding]| find(found, "side rail in front leg", "from the shoulder").value;
    assert!((value(&straight) - value(&drawn) - 1.5).abs() < 1e-9);
}

#[test]
fn a_wish_that_gives_way_is_told() {
    let found = of(&json!({"rail_joint": "twin", "rail_width": 40}));
    let told = find(&found, "front rail in front leg", "wished");
    assert_eq!((told.verdict, told.knob), (Verdict::Close, Some("rail_joint")));
    assert!(told.say.contains("too narrow for two tenons"), "{}", told.say);
}

/// 75 to 100 mm is what the trade allows: a high rail asked to be one tenon comes near it.
#[test]
fn wide_tenons_are_told() {
    let found = of(&json!({"rail_joint": "blind", "rail_width": 110, "seat_height": 500}));
    let wide = find(&found, "side rail in back leg", "mm wide");
    assert_eq!(wide.verdict, Verdict::Close);
    assert!(wide.value > 75.0 && wide.value <= 100.0, "{}", wide.value);
}
