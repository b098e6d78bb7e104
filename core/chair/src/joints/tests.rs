//! Whole chairs: every kind of joint, every way at a corner, and what random designs come to.

mod overlap;
mod random;

use super::Bench;
use crate::chair::Chair;
use crate::design::Design;
use crate::joint::{Joint, Kind, Way};
use crate::part::Role;
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
    assert_eq!(overlap::first(chair), None);
}

fn between(chair: &Chair, guest: Role, host: Role) -> &Joint {
    chair.joints.iter().find(|j| j.guest.role == guest && j.host.role == host).expect("such a joint")
}

#[test]
fn random_designs_are_seldom_refused() {
    let mut random = Random::new(7);
    let (count, bench) = (1500, Bench::default());
    let mut refused = Vec::new();
    for _ in 0..count {
        let design = random.design();
        if let Err(error) = Chair::check(&design, &bench) {
            refused.push(format!("{:?} {}", error.stage, error.why));
        }
    }
    println!("{refused:#?} {count}");
    assert!(refused.len() * 50 <= count, "{} of {count}: {refused:#?}", refused.len());
}

#[test]
fn random_chairs_do_not_overlap_in_their_joints() {
    let mut random = Random::new(23);
    for _ in 0..400 {
        let design = random.design();
        if let Ok(chair) = Chair::resolve(&design, &Bench::default()) {
            let found = overlap::first(&chair);
            assert_eq!(found, None, "{:?}", design.differences());
        }
    }
}
