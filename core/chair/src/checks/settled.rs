//! Sizes that were not taken as the knobs ask, because they had no room.

use crate::chair::Chair;
use crate::finding::{About, Finding, Topic, Verdict};
use crate::settle::{Figures, Settled};
use crestrail_phrases::{phrase, say, word};

const SOURCE: &str = phrase("computed from the pieces that stand there");

/// One finding for each wish that gave way.
pub(super) fn findings(chair: &Chair) -> Vec<Finding> {
    chair.settled.iter().map(finding).collect()
}

fn finding(settled: &Settled) -> Finding {
    let subject = subject(settled.knob);
    let (say, value, limit, unit) = match settled.figures {
        Some(Figures { wish, taken, unit }) => {
            let say = say!(
                "{} were asked for, {} taken. {}",
                told(wish, unit),
                told(taken, unit),
                word(settled.why)
            );
            (say, taken, wish, unit)
        }
        None => (word(settled.why).to_owned(), 0.0, 1.0, word("as asked")),
    };
    Finding {
        subject,
        topic: Topic::Making,
        about: About::Chair,
        plain: String::new(),
        knob: Some(settled.knob),
        say,
        value,
        limit,
        unit,
        verdict: Verdict::Close,
        used: 1.0,
        source: SOURCE,
    }
}

/// The sizes that may give way, as findings call them: the names of their knobs without underscores.
const SUBJECTS: [&str; 11] = [
    phrase("arm height"),
    phrase("back clear"),
    phrase("back slats"),
    phrase("back stretcher height"),
    phrase("chamfer"),
    phrase("fill thickness"),
    phrase("front stretcher height"),
    phrase("rail thickness"),
    phrase("stance"),
    phrase("stretcher height"),
    phrase("stretcher thickness"),
];

fn subject(knob: &str) -> String {
    let plain = knob.replace('_', " ");
    SUBJECTS.iter().find(|subject| **subject == plain).map_or(plain, |subject| word(subject).to_owned())
}

fn told(value: f64, unit: &str) -> String {
    let value = (value * 10.0).round() / 10.0;
    if unit.is_empty() { say!("{value}") } else { say!("{value} {unit}") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::joints::Bench;
    use serde_json::{Value, json};

    fn found(values: &Value) -> Vec<Finding> {
        findings(&Chair::resolve(&Design::from_value(values).unwrap(), &Bench::default()).unwrap())
    }

    #[test]
    fn what_gave_way_says_its_figures_and_its_knob() {
        assert_eq!(found(&json!({})), []);
        let slats = found(&json!({"back_slats": 6, "back_height": 360, "back_fill": 40}));
        assert_eq!(
            (slats[0].knob, slats[0].limit, slats[0].verdict),
            (Some("back_slats"), 6.0, Verdict::Close)
        );
        let start = format!("6 were asked for, {} taken. More slats", slats[0].value);
        assert!(slats[0].say.starts_with(&start), "{}", slats[0].say);
        let rails = found(&json!({"front_leg": 40, "set_back": 5, "rail_thickness": 38}));
        assert_eq!(rails[0].knob, Some("rail_thickness"));
        assert!(rails[0].say.starts_with("38 mm were asked for, 31.5 mm taken."), "{}", rails[0].say);
    }
}
