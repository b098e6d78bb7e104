//! Findings: the result of one check, with its limit and source.

use crate::part::Role;
use crestrail_sorting::Order as _;
use serde::Serialize;

/// How a value stands to its limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// Within the limit with room to spare.
    Sound,
    /// Near the limit or a little past a rule of the trade.
    Close,
    /// Past the limit.
    Fails,
}

/// What a check is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Topic {
    /// Whether joints and members hold.
    Strength,
    /// Whether it tips over.
    Tipping,
    /// Whether it fits the sitter.
    Fit,
    /// Whether wood can swell and shrink.
    Movement,
    /// Whether a joint leaves its parts whole.
    Joints,
    /// Whether it can be put together, and what had to give way.
    Making,
    /// Whether it traps or pinches.
    Safety,
}

/// Which thing of the chair a check looks at, for the sentence that a customer reads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum About {
    /// The chair, or what the subject alone tells.
    Chair,
    /// A joint: its guest and its host.
    Joint(Role, Role),
    /// A part.
    Part(Role),
    /// A way to fall, in the language that is spoken.
    Way(&'static str),
}

/// The result of one check.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Finding {
    /// What was looked at, such as `side rail in back leg`.
    pub subject: String,
    /// What it is about.
    pub topic: Topic,
    /// The thing that it looks at.
    #[serde(skip)]
    pub about: About,
    /// What it means, in a sentence for somebody who knows nothing about joints.
    pub plain: String,
    /// The knob that mends it.
    pub knob: Option<&'static str>,
    /// What was found, in a sentence for a maker, with its figures.
    pub say: String,
    /// The value found.
    pub value: f64,
    /// The value at which it turns from sound to close.
    pub limit: f64,
    /// Unit of both.
    pub unit: &'static str,
    /// How it stands.
    pub verdict: Verdict,
    /// Share of the limit used: 1 is at the limit, more is past it.
    pub used: f64,
    /// Where the limit comes from.
    pub source: &'static str,
}

/// A limit a value must not fall below: sound from `sound` on, close from `close` on.
#[derive(Clone, Copy, Debug)]
pub(crate) struct AtLeast {
    pub(crate) sound: f64,
    pub(crate) close: f64,
}

impl AtLeast {
    pub(crate) fn verdict(self, value: f64) -> Verdict {
        match value {
            v if v >= self.sound => Verdict::Sound,
            v if v >= self.close => Verdict::Close,
            _ => Verdict::Fails,
        }
    }

    /// Share of the limit used; a value of nothing uses a hundred times the limit, not infinity.
    pub(crate) fn used(self, value: f64) -> f64 {
        self.sound / value.max(self.sound / 100.0)
    }
}

/// A limit a value must not pass: sound up to `sound`, close up to `close`.
#[derive(Clone, Copy, Debug)]
pub(crate) struct AtMost {
    pub(crate) sound: f64,
    pub(crate) close: f64,
}

impl AtMost {
    pub(crate) fn verdict(self, value: f64) -> Verdict {
        match value {
            v if v <= self.sound => Verdict::Sound,
            v if v <= self.close => Verdict::Close,
            _ => Verdict::Fails,
        }
    }

    /// Share of the limit used.
    pub(crate) fn used(self, value: f64) -> f64 {
        value / self.sound
    }
}

/// Puts the worst first: by verdict, then by the share of the limit used, then by subject.
pub(crate) fn sort(findings: &mut [Finding]) {
    findings.order_by(|a, b| {
        let worst = b.verdict.cmp(&a.verdict).then(b.used.total_cmp(&a.used));
        worst.then_with(|| a.subject.cmp(&b.subject))
    });
}
