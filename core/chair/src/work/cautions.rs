//! What can hurt somebody at a step.

use super::{Caution, PRACTICE};

const fn caution(say: &'static str, source: &'static str) -> Caution {
    Caution { say, source }
}

/// At machines with cutters.
pub(super) const MACHINES: Caution = caution(
    "Guard every machine, use push sticks, keep hands out of the line of the cutter, and do not feed a piece shorter than the machine's maker allows. Local rules and licensed practice come first.",
    PRACTICE,
);

/// At every saw, plane and paper.
pub(super) const DUST: Caution = caution(
    "Wood dust causes cancer of the nose. Extract it where it is made and wear a mask that filters fine dust.",
    "IARC Group 1, monographs 62 and 100C",
);

/// Noise of planer and router.
pub(super) const NOISE: Caution = caution(
    "From 85 dB(A) over a day hearing protection must be worn; planers and routers are louder.",
    "Directive 2003/10/EC, upper exposure action value",
);

pub(super) const CHISELS: Caution =
    caution("Keep both hands behind the edge, clamp the work, and cut away from the body.", PRACTICE);

pub(super) const SHORT_PIECES: Caution =
    caution("Saw tapers and curves on a carrier that holds the piece, never by hand alone.", PRACTICE);

pub(super) const GLUE: Caution = caution(
    "Glue irritates skin and eyes: wear gloves, air the room, and follow its safety data sheet.",
    PRACTICE,
);

pub(super) const SOLVENTS: Caution = caution(
    "Solvents of finishes burn and their vapour harms: air the room, no flame and no sparks, gloves on; follow the safety data sheet.",
    PRACTICE,
);

pub(super) const RAGS: Caution = caution(
    "Rags wet with linseed or tung oil can catch fire by themselves within hours: spread them flat outdoors to dry, or keep them under water in a lidded metal can.",
    "university laboratory safety notes",
);

pub(super) const STAPLES: Caution = caution("Eye protection for staples and stretched cord.", PRACTICE);

pub(super) const TRIAL: Caution = caution(
    "A chair that breaks or tips hurts somebody. Before one is sold, have a trial chair tested after the standard for its use.",
    "EN 12520 at home, EN 16139 in public places, EN 1022 for tipping, EN 17191 or EN 1729 for children",
);
