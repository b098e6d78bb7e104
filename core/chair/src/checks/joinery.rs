//! Whether each mortise leaves its host whole, and each tenon is long enough, holds and can be pegged.

mod host;
mod pegs;
mod tenon;
mod wish;

use crate::chair::Chair;
use crate::finding::{self, AtLeast, AtMost, Finding, Topic, Verdict};
use crate::joint::Joint;
use crate::joints::section_knobs;
use crate::part::Role;
use crestrail_phrases::{phrase, say};

const COMMON: &str = phrase("common practice, no source");

/// All of them; in words are those alone with a verdict that is to be `worded`.
pub(super) fn findings(
    chair: &Chair,
    pegged: bool,
    worded: fn(Verdict) -> bool,
) -> impl Iterator<Item = Finding> {
    found(chair, pegged, worded)
}

/// Those that fail, the first first; nobody is told the others, so they are not put into words.
pub(super) fn failures(chair: &Chair, pegged: bool) -> impl Iterator<Item = Finding> {
    let fails = |verdict| verdict == Verdict::Fails;
    found(chair, pegged, fails).filter(move |finding| fails(finding.verdict))
}

fn found(chair: &Chair, pegged: bool, worded: fn(Verdict) -> bool) -> impl Iterator<Item = Finding> {
    let right = chair.joints.iter().filter(|joint| joint.is_right());
    right.flat_map(move |joint| of(chair, joint, pegged, worded))
}

fn of(chair: &Chair, joint: &Joint, pegged: bool, worded: fn(Verdict) -> bool) -> Vec<Finding> {
    let about = About { chair, joint, subject: subject(joint), worded };
    let mut found = about.of_the_host();
    found.extend(about.of_the_tenon());
    found.extend(about.of_the_pegs(pegged));
    found.extend(about.given_way());
    found
}

/// Such as `side rail in back leg`; parts of which there are many, with their number.
fn subject(joint: &Joint) -> String {
    let many = matches!(joint.guest.role, Role::BackSlat | Role::Lath | Role::Stile);
    let number = if many { format!(" {}", joint.guest.number) } else { String::new() };
    say!("{}{number} in {}", joint.guest.role.name(), joint.host.role.name())
}

/// A joint with the words for its findings.
struct About<'a> {
    chair: &'a Chair,
    joint: &'a Joint,
    subject: String,
    /// Whether a finding with this verdict is told.
    worded: fn(Verdict) -> bool,
}

/// What a finding says of its value.
struct Told<S: FnOnce() -> String> {
    value: f64,
    unit: &'static str,
    say: S,
    source: &'static str,
    knob: &'static str,
}

impl About<'_> {
    fn host_name(&self) -> &'static str {
        self.joint.host.role.name()
    }

    fn host_knob(&self) -> &'static str {
        section_knobs(self.joint.host.role)[0]
    }

    fn guest_knob(&self) -> &'static str {
        let knobs = section_knobs(self.joint.guest.role);
        knobs[knobs.len() - 1]
    }

    /// Whether it only holds what stands between the rails of a back, which carries little.
    fn is_fill(&self) -> bool {
        matches!(self.joint.guest.role, Role::Lath | Role::Splat | Role::Stile)
    }

    fn at_least(&self, limit: AtLeast, told: Told<impl FnOnce() -> String>) -> Finding {
        let value = told.value;
        self.finding(limit.sound, limit.verdict(value), limit.used(value), told)
    }

    fn finding(
        &self,
        limit: f64,
        verdict: Verdict,
        used: f64,
        told: Told<impl FnOnce() -> String>,
    ) -> Finding {
        let Told { value, unit, say, source, knob } = told;
        let worded = (self.worded)(verdict);
        Finding {
            subject: self.subject.clone(),
            topic: Topic::Joints,
            about: finding::About::Joint(self.joint.guest.role, self.joint.host.role),
            plain: String::new(),
            knob: Some(knob),
            say: if worded { say() } else { String::new() },
            value,
            limit,
            unit,
            verdict,
            used,
            source,
        }
    }

    fn at_most(&self, limit: AtMost, told: Told<impl FnOnce() -> String>) -> Finding {
        let value = told.value;
        self.finding(limit.sound, limit.verdict(value), limit.used(value), told)
    }
}

#[cfg(test)]
mod tests;
