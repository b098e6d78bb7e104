use super::*;
use crate::design::Design;
use crate::joints::Bench;
use crestrail_sitter::Sitter;
use serde_json::{Value, json};

const ADULT: Service =
    Service { user: 110.0, pegged: true, sitter: Sitter::Adults, table: None, climate: Service::HOUSE };

fn found(values: &Value, user: f64) -> Vec<Finding> {
    let chair = Chair::resolve(&Design::from_value(values).unwrap(), &Bench::default()).unwrap();
    findings(&chair, &Sitting::of(&chair).unwrap(), &Service { user, ..ADULT })
}

fn used(found: &[Finding], subject: &str) -> f64 {
    found.iter().find(|f| f.subject == subject).unwrap_or_else(|| panic!("no {subject}")).used
}

/// What a maker expects: thin rails are worse, stretchers and thick legs help, heavy people strain it more.
#[test]
fn what_strengthens_and_what_weakens() {
    let rails = |values: Value| used(&found(&values, 110.0), "strength of side rail in back leg");
    let plain = rails(json!({}));
    assert!(rails(json!({"rail_width": 42})) > plain && rails(json!({"rail_width": 84})) < plain);
    assert!(rails(json!({"stretchers": "none"})) > plain);
    let heavy = used(&found(&json!({}), 150.0), "strength of side rail in back leg");
    assert!(heavy > plain);
}
