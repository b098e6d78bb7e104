//! Kinds of joint.

use crestrail_phrases::word;

/// How a joint is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// A tenon that ends inside its host.
    Blind,
    /// A blind tenon with a haunch towards the host's end.
    Haunched,
    /// A tenon that goes through its host and is wedged from outside.
    Through,
    /// A tenon with a shoulder on one face only.
    BareFaced,
    /// Two tenons one above the other.
    Twin,
    /// A separate tenon in two mortises.
    Loose,
    /// A pair of dowels.
    Dowels,
}

impl Kind {
    /// What a maker calls it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Blind => word("blind tenon"),
            Self::Haunched => word("haunched tenon"),
            Self::Through => word("through tenon, wedged"),
            Self::BareFaced => word("bare-faced tenon"),
            Self::Twin => word("twin tenons"),
            Self::Loose => word("loose tenon"),
            Self::Dowels => word("pair of dowels"),
        }
    }

    /// Whether the guest itself carries no tenon.
    pub fn is_separate(self) -> bool {
        matches!(self, Self::Loose | Self::Dowels)
    }

    /// Whether pegs hold it: wedges hold a through tenon, and a peg through the host would not hold the guest
    /// of a loose tenon or of dowels.
    pub fn can_be_pegged(self) -> bool {
        !self.is_separate() && self != Self::Through
    }
}
