//! Checks of the resolved chair.

mod assembly;
mod joinery;
mod openings;
mod seat;
mod settled;

use crate::chair::Chair;
use crate::finding::{self, Finding};

/// All findings, the worst first.
///
/// `pegged` says whether the design asks for pegs.
pub fn findings(chair: &Chair, pegged: bool) -> Vec<Finding> {
    let mut findings = joinery::findings(chair, pegged);
    findings.extend(openings::findings(chair));
    findings.extend(assembly::findings(chair));
    findings.extend(seat::findings(chair));
    findings.extend(settled::findings(chair));
    finding::sort(&mut findings);
    findings
}
