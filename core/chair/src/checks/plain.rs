//! What a finding means, for a customer.

use crate::finding::{Finding, Topic, Verdict};
use crate::service::Service;

/// The sentence for a customer.
pub(super) fn of(finding: &Finding, service: &Service) -> String {
    let verdict = finding.verdict;
    match finding.topic {
        Topic::Strength => strength(finding, service, verdict),
        Topic::Tipping => tipping(finding, service, verdict),
        Topic::Fit => finding.plain.clone(),
        Topic::Movement => movement(finding, verdict),
        Topic::Joints => pick(
            verdict,
            "This joint leaves its pieces of wood whole.",
            "This joint leaves less wood than makers like; look at it together.",
            "This joint leaves too little wood; change the size that is named.",
        ),
        Topic::Making => making(finding, verdict),
        Topic::Safety => safety(finding, verdict),
    }
}

fn pick(verdict: Verdict, sound: &str, close: &str, fails: &str) -> String {
    match verdict {
        Verdict::Sound => sound,
        Verdict::Close => close,
        Verdict::Fails => fails,
    }
    .to_owned()
}

fn safety(finding: &Finding, verdict: Verdict) -> String {
    let whose = if finding.subject.contains("laths") { "the back" } else { "the seat" };
    let does = pick(verdict, "do not catch", "could catch", "catch");
    let fingers = if verdict == Verdict::Close { "a finger" } else { "fingers" };
    format!("The gaps of {whose} {does} {fingers}.")
}

/// Of boards, gaps and panels, or of a wide tenon in its leg.
fn movement(finding: &Finding, verdict: Verdict) -> String {
    if finding.subject.contains(" in ") {
        return pick(
            verdict,
            "The widest tenon is not so wide that the seasons would work it loose.",
            "The widest tenon swells and shrinks rather much in its leg; after years it may come loose.",
            "The widest tenon swells and shrinks too much in its leg; it may come loose or split the wood.",
        );
    }
    let what = bare(&finding.subject);
    match verdict {
        Verdict::Sound => {
            format!("The {what} can swell and shrink with the seasons where the chair will stand.")
        }
        Verdict::Close => format!("The {what} can only just swell and shrink as the seasons ask for it."),
        Verdict::Fails => format!(
            "The {what} cannot swell and shrink as the seasons ask for it; the wood may split or push the chair apart."
        ),
    }
}

fn strength(finding: &Finding, service: &Service, verdict: Verdict) -> String {
    let what = finding.subject.trim_start_matches("strength of ");
    let user = service.user;
    match verdict {
        Verdict::Sound => format!("By this calculation the {} holds a user of {user:.0} kg.", bare(what)),
        Verdict::Close => format!(
            "The {} should hold a user of {user:.0} kg, but the calculation is not sure enough; make it stronger or have it tested.",
            bare(what)
        ),
        Verdict::Fails => {
            format!("By this calculation the {} is too weak for a user of {user:.0} kg.", bare(what))
        }
    }
}

/// `side rail in back leg` is the joint of the two; `the back leg` is a piece of wood.
fn bare(what: &str) -> String {
    match what.split_once(" in ") {
        Some((guest, host)) => format!("joint of {guest} and {host}"),
        None => what.trim_start_matches("the ").to_owned(),
    }
}

fn tipping(finding: &Finding, service: &Service, verdict: Verdict) -> String {
    let way = finding.subject.trim_start_matches("tipping ");
    let user = service.user;
    match verdict {
        Verdict::Sound => format!("It does not tip {way} in ordinary use by a user of {user:.0} kg."),
        Verdict::Close => format!("It only just does not tip {way} with a user of {user:.0} kg."),
        Verdict::Fails => format!("It could tip {way} with a user of {user:.0} kg."),
    }
}

fn making(finding: &Finding, verdict: Verdict) -> String {
    match (finding.knob, verdict) {
        (_, Verdict::Fails) => "This chair cannot be put together as it is.".to_owned(),
        (Some(_), Verdict::Close) => {
            "A size you chose had no room, so the nearest that has was taken.".to_owned()
        }
        _ => "The chair can be put together.".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn joints_and_pieces_are_named() {
        assert_eq!(bare("side rail in back leg"), "joint of side rail and back leg");
        assert_eq!(bare("the back leg"), "back leg");
    }
}
