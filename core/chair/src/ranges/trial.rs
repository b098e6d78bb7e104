//! One trial: a knob at another value.

use super::{Stop, fails};
use crate::chair::Chair;
use crate::checks::{findings, first_failure};
use crate::design::Design;
use crate::finding::{Finding, Topic};
use crate::joints::Bench;
use crate::knob::Knob;
use crate::report::service;
use crate::service::Service;
use crate::sketch::Sketcher;
use serde_json::Value;

/// The design that is turned, its chair, and what fails in it.
#[derive(Debug)]
pub(super) struct Trial {
    design: Design,
    bench: Bench,
    sketcher: Sketcher,
    known: Vec<(Topic, String, &'static str)>,
}

impl Trial {
    pub(super) fn new(design: &Design, bench: &Bench, chair: Chair, service: Service) -> Self {
        let found = findings(&chair, &service);
        let known = found.into_iter().filter(|f| fails(f.verdict)).map(|f| (f.topic, f.subject, f.unit));
        Self {
            design: design.clone(),
            bench: bench.clone(),
            known: known.collect(),
            sketcher: Sketcher::new(chair),
        }
    }

    pub(super) fn design(&self) -> &Design {
        &self.design
    }

    pub(super) fn failing(&self) -> usize {
        self.known.len()
    }

    /// Why the knob cannot stand at the value; none where nothing more goes wrong there.
    pub(super) fn stop(&self, knob: &Knob, value: &Value) -> Option<Stop> {
        let design = match self.design.with(knob.name, value) {
            Ok(design) => design,
            Err(refusal) => return Some(refused(refusal.why)),
        };
        match self.sketcher.chair(&design, &self.bench) {
            Err(clash) => Some(refused(clash.why)),
            Ok(chair) => first_failure(&chair, &service(&design), |f| self.knows(f)).map(failed),
        }
    }

    fn knows(&self, finding: &Finding) -> bool {
        self.known.iter().any(|(topic, subject, unit)| {
            (*topic, subject, *unit) == (finding.topic, &finding.subject, finding.unit)
        })
    }
}

fn refused(why: String) -> Stop {
    Stop { value: None, subject: None, topic: None, say: why }
}

fn failed(finding: Finding) -> Stop {
    Stop { value: None, subject: Some(finding.subject), topic: Some(finding.topic), say: finding.plain }
}
