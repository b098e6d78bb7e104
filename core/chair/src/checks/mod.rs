//! Checks of the resolved chair.

mod assembly;
pub mod fit;
mod joinery;
mod openings;
mod plain;
mod seat;
mod settled;
mod sitting;
mod strength;
mod tipping;

use crate::chair::Chair;
use crate::finding::{self, Finding};
use crate::service::Service;
use sitting::Sitting;

/// All findings for a chair in its service, the worst first.
pub fn findings(chair: &Chair, service: &Service) -> Vec<Finding> {
    let mut findings = joinery::findings(chair, service.pegged);
    findings.extend(openings::findings(chair));
    findings.extend(assembly::findings(chair));
    findings.extend(seat::findings(chair));
    findings.extend(settled::findings(chair));
    if let Some(sitting) = Sitting::of(chair) {
        findings.extend(tipping::findings(&sitting, service));
        findings.extend(fit::findings(chair, &sitting, service));
        findings.extend(strength::findings(chair, &sitting, service));
    }
    for finding in &mut findings {
        finding.plain = plain::of(finding, service);
    }
    finding::sort(&mut findings);
    findings
}
