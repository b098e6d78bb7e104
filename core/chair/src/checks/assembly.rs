//! Whether the chair can be put together.

use crate::assembly::Blocked;
use crate::chair::Chair;
use crate::finding::{About, Finding, Topic, Verdict};
use crate::joints::section_knobs;
use crestrail_phrases::{phrase, say, word};

const SOURCE: &str = phrase("computed by moving the finished solids");

/// One finding: the order is found, or what stands in its way.
pub(super) fn findings(chair: &Chair) -> Vec<Finding> {
    let blocked = chair.assembly.blocked.as_ref();
    let steps = chair.assembly.steps.len();
    let say = match blocked {
        None => say!(
            "The chair goes together in {steps} steps; in each the parts were moved as solids, and nothing is in the way."
        ),
        Some(blocked) => told(blocked),
    };
    let stuck = blocked.map_or(0, |blocked| blocked.parts.len());
    let (verdict, used) = if stuck == 0 { (Verdict::Sound, 0.0) } else { (Verdict::Fails, 2.0) };
    let first = blocked.and_then(|blocked| blocked.joints.first());
    let knob = first.and_then(|(guest, _)| section_knobs(guest.role).first().copied());
    let subject = word("order of assembly").to_owned();
    let (value, limit) = (stuck as f64, 0.0);
    vec![Finding {
        subject,
        topic: Topic::Making,
        about: About::Chair,
        plain: String::new(),
        knob,
        say,
        value,
        limit,
        unit: word("parts"),
        verdict,
        used,
        source: SOURCE,
    }]
}

fn told(blocked: &Blocked) -> String {
    let parts: Vec<String> = blocked.parts.iter().map(ToString::to_string).collect();
    let joints: Vec<String> = blocked.joints.iter().map(|(guest, host)| say!("{guest} in {host}")).collect();
    let parts = parts.join("; ");
    match joints.is_empty() {
        true => say!("It cannot be put together: no straight movement brings these into place: {parts}."),
        false => say!(
            "It cannot be put together: no straight movement brings these into place: {parts}. What stands in the way: {}.",
            joints.join("; ")
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::joints::Bench;

    #[test]
    fn what_blocks_is_named() {
        let mut chair = Chair::resolve(&Design::default(), &Bench::default()).unwrap();
        let sound = findings(&chair);
        assert_eq!((sound.len(), sound[0].verdict), (1, Verdict::Sound));
        let joint = &chair.joints[0];
        let (guest, host) = (joint.guest, joint.host);
        chair.assembly.blocked = Some(Blocked { parts: vec![guest, host], joints: vec![(guest, host)] });
        let fails = findings(&chair);
        assert_eq!(fails[0].verdict, Verdict::Fails);
        assert_eq!(fails[0].knob, Some(section_knobs(guest.role)[0]));
        assert!(fails[0].say.contains(&format!("{guest} in {host}")), "{}", fails[0].say);
    }
}
