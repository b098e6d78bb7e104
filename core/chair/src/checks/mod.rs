//! Checks of the resolved chair.

mod assembly;
mod cord;
pub mod fit;
mod joinery;
mod movement;
mod openings;
mod plain;
mod settled;
mod sitting;
mod strength;
mod tipping;

use crate::chair::Chair;
use crate::finding::{self, AtMost, Finding, Verdict};
use crate::service::Service;
use crestrail_phrases::word;
use fit::Fit;
use sitting::Sitting;

/// What was checked of a chair in its service.
#[derive(Clone, Debug)]
pub struct Checked {
    /// What was found, the worst first.
    pub findings: Vec<Finding>,
    /// How many findings are sound, whether they are among these or not.
    pub sound: usize,
    /// The table of fit that those about fit come from; nothing for a chair without seat or legs.
    pub fit: Option<Fit>,
}

/// All findings for a chair in its service, the worst first.
pub fn findings(chair: &Chair, service: &Service) -> Vec<Finding> {
    checked(chair, service).findings
}

/// The findings, and the table of fit beside them.
pub fn checked(chair: &Chair, service: &Service) -> Checked {
    told(chair, service, |_| true)
}

/// The same without the findings that are sound, for less: these are only counted.
pub fn doubted(chair: &Chair, service: &Service) -> Checked {
    told(chair, service, |verdict| verdict != Verdict::Sound)
}

/// The findings with a verdict that is wanted; others are not put into words.
fn told(chair: &Chair, service: &Service, wanted: fn(Verdict) -> bool) -> Checked {
    let mut fit = None;
    let mut findings: Vec<Finding> = joinery::findings(chair, service.pegged, wanted).collect();
    findings.extend(openings::findings(chair, &service.climate));
    findings.extend(assembly::findings(chair));
    findings.extend(cord::finding(chair));
    findings.extend(movement::findings(chair, &service.climate));
    findings.extend(settled::findings(chair));
    if let Some(sitting) = Sitting::of(chair) {
        findings.extend(tipping::findings(&sitting, service));
        let table = Fit::of(chair, &sitting, service);
        findings.extend(table.findings());
        fit = Some(table);
        findings.extend(strength::findings(chair, &sitting, service));
    }
    let sound = findings.iter().filter(|finding| finding.verdict == Verdict::Sound).count();
    findings.retain(|finding| wanted(finding.verdict));
    for finding in &mut findings {
        finding.plain = plain::of(finding, service);
        finding.source = word(finding.source);
    }
    finding::sort(&mut findings);
    Checked { findings, sound, fit }
}

/// The first finding that fails and is not `known`, but for strength (see `first_weakness`); quick checks come first, so it need
/// not be the worst.
pub fn first_failure(chair: &Chair, service: &Service, known: impl Fn(&Finding) -> bool) -> Option<Finding> {
    let fails = |found| first_failing(found, &known);
    let sat_on = || {
        let sitting = Sitting::of(chair)?;
        fails(tipping::findings(&sitting, service)).or_else(|| fails(fit::findings(chair, &sitting, service)))
    };
    let found = joinery::failures(chair, service.pegged)
        .find(|finding| !known(finding))
        .or_else(|| fails(openings::findings(chair, &service.climate)))
        .or_else(|| fails(assembly::findings(chair)))
        .or_else(|| fails(movement::findings(chair, &service.climate)))
        .or_else(sat_on)?;
    Some(worded(found, service))
}

/// The first finding about strength that fails and is not `known`, with the softest joints and rigid ones alone: see
/// `strength::EXTREMES`. Of the service it reads the user and the dampest weeks alone.
pub fn first_weakness(chair: &Chair, service: &Service, known: impl Fn(&Finding) -> bool) -> Option<Finding> {
    let sitting = Sitting::of(chair)?;
    let found = first_failing(strength::failures(chair, &sitting, service), known)?;
    Some(worded(found, service))
}

/// The same with what it means, and its source in the language that is spoken.
fn worded(found: Finding, service: &Service) -> Finding {
    Finding { plain: plain::of(&found, service), source: word(found.source), ..found }
}

fn first_failing(found: Vec<Finding>, known: impl Fn(&Finding) -> bool) -> Option<Finding> {
    found.into_iter().find(|finding| finding.verdict == Verdict::Fails && !known(finding))
}

/// Up to where a share used is sound, and up to where close.
pub(crate) const SHARE: AtMost = strength::LIMIT;

/// How much of what it can carry a load uses of a part at most, its tenons with it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Share {
    /// 1 is all of it.
    pub used: f64,
    /// How that stands to the limits of the strength checks.
    pub verdict: Verdict,
}

/// The share used of each part, in the order of the chair's parts; none for parts that the frame does not have,
/// and for all where strength cannot be worked out.
pub fn shares(chair: &Chair, service: &Service) -> Vec<Option<Share>> {
    let none = || vec![None; chair.parts.len()];
    Sitting::of(chair).map_or_else(none, |sitting| strength::shares(chair, &sitting, service))
}
