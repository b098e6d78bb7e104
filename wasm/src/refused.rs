//! Why a request has no answer: a value that is not taken, or a chair that cannot be built.

use crestrail_chair::refusal::Refusal;
use crestrail_chair::unbuildable::Unbuildable;
use serde::{Serialize, Serializer};
use serde_json::json;

/// The two kinds of refusal.
pub(crate) enum Refused {
    /// A field is not as it must be.
    Field(Refusal),
    /// The design cannot be built.
    Clash(Unbuildable),
}

impl From<Refusal> for Refused {
    fn from(refusal: Refusal) -> Self {
        Self::Field(refusal)
    }
}

impl From<Unbuildable> for Refused {
    fn from(clash: Unbuildable) -> Self {
        Self::Clash(clash)
    }
}

impl Serialize for Refused {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Field(refusal) => refusal.serialize(to),
            Self::Clash(Unbuildable { stage, knobs, why, .. }) => {
                json!({ "where": "build", "stage": stage, "knobs": knobs, "why": why }).serialize(to)
            }
        }
    }
}
