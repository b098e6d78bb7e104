//! What a chair is meant to serve: told to the checks outright, since nothing about it shows in the chair.

use crate::climate::Climate;
use crestrail_sitter::Sitter;

/// Who uses the chair, and how its joints are meant to be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Service {
    /// Mass of the heaviest user, kg.
    pub user: f64,
    /// Whether pegs are asked for.
    pub pegged: bool,
    /// For whom its sizes are meant.
    pub sitter: Sitter,
    /// The table it stands at, if any.
    pub table: Option<TableAt>,
    /// Where it will stand.
    pub climate: Climate,
}

/// A table or worktop; mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TableAt {
    /// Height of its top above the floor.
    pub top: f64,
    /// Height of the lowest edge above the legs of whoever sits there: of the top, or of the rail under it.
    pub underside: f64,
}

/// The mass for which the loads of published tests are written, kg (EN 12520 and EN 1022: users up to 110 kg).
pub const TEST_USER: f64 = 110.0;

impl Service {
    /// What tests take where the seasons do not matter: 30 and 65 % of relative humidity, made at 9 %.
    #[cfg(test)]
    pub(crate) const HOUSE: Climate = Climate { dry: 6.2, damp: 12.0, made: 9.0 };

    /// How much of a published load this user stands for: loads grow in proportion to mass (derived here; the
    /// standards for contract use ask for more by steps).
    pub fn share(&self) -> f64 {
        self.user / TEST_USER
    }
}
