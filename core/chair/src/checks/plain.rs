//! What a finding means, for a customer.

use crate::finding::{About, Finding, Topic, Verdict};
use crate::part::Role;
use crate::service::Service;
use crestrail_phrases::{say, word};

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
            word("This joint leaves its pieces of wood whole."),
            word("This joint leaves less wood than makers like; look at it together."),
            word("This joint leaves too little wood; change the size that is named."),
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
    let is_back = finding.about == About::Part(Role::Lath);
    match (is_back, verdict) {
        (true, Verdict::Sound) => say!("The gaps of the back do not catch fingers."),
        (true, Verdict::Close) => say!("The gaps of the back could catch a finger."),
        (true, Verdict::Fails) => say!("The gaps of the back catch fingers."),
        (false, Verdict::Sound) => say!("The gaps of the seat do not catch fingers."),
        (false, Verdict::Close) => say!("The gaps of the seat could catch a finger."),
        (false, Verdict::Fails) => say!("The gaps of the seat catch fingers."),
    }
}

/// Of boards, gaps and panels, or of a wide tenon in its leg.
fn movement(finding: &Finding, verdict: Verdict) -> String {
    if matches!(finding.about, About::Joint(..)) {
        return pick(
            verdict,
            word("The widest tenon is not so wide that the seasons would work it loose."),
            word(
                "The widest tenon swells and shrinks rather much in its leg; after years it may come loose.",
            ),
            word(
                "The widest tenon swells and shrinks too much in its leg; it may come loose or split the wood.",
            ),
        );
    }
    let what = &finding.subject;
    match verdict {
        Verdict::Sound => {
            say!("The {what} can swell and shrink with the seasons where the chair will stand.")
        }
        Verdict::Close => say!("The {what} can only just swell and shrink as the seasons ask for it."),
        Verdict::Fails => say!(
            "The {what} cannot swell and shrink as the seasons ask for it; the wood may split or push the chair apart."
        ),
    }
}

fn strength(finding: &Finding, service: &Service, verdict: Verdict) -> String {
    let user = service.user;
    let (guest, host) = match finding.about {
        About::Joint(guest, host) => (guest.name(), host.name()),
        About::Part(role) => return strength_of(role.name(), user, verdict),
        About::Chair | About::Way(_) => return strength_of(&finding.subject, user, verdict),
    };
    match verdict {
        Verdict::Sound => {
            say!("By this calculation the joint of {guest} and {host} holds a user of {user:.0} kg.")
        }
        Verdict::Close => say!(
            "The joint of {guest} and {host} should hold a user of {user:.0} kg, but the calculation is not sure enough; make it stronger or have it tested."
        ),
        Verdict::Fails => {
            say!(
                "By this calculation the joint of {guest} and {host} is too weak for a user of {user:.0} kg."
            )
        }
    }
}

fn strength_of(part: &str, user: f64, verdict: Verdict) -> String {
    match verdict {
        Verdict::Sound => say!("By this calculation the {part} holds a user of {user:.0} kg."),
        Verdict::Close => say!(
            "The {part} should hold a user of {user:.0} kg, but the calculation is not sure enough; make it stronger or have it tested."
        ),
        Verdict::Fails => say!("By this calculation the {part} is too weak for a user of {user:.0} kg."),
    }
}

fn tipping(finding: &Finding, service: &Service, verdict: Verdict) -> String {
    let About::Way(way) = finding.about else { return String::new() };
    let user = service.user;
    match verdict {
        Verdict::Sound => say!("It does not tip {way} in ordinary use by a user of {user:.0} kg."),
        Verdict::Close => say!("It only just does not tip {way} with a user of {user:.0} kg."),
        Verdict::Fails => say!("It could tip {way} with a user of {user:.0} kg."),
    }
}

fn making(finding: &Finding, verdict: Verdict) -> String {
    match (finding.knob, verdict) {
        (_, Verdict::Fails) => say!("This chair cannot be put together as it is."),
        (Some(_), Verdict::Close) => {
            say!("A size you chose had no room, so the nearest that has was taken.")
        }
        _ => say!("The chair can be put together."),
    }
}
