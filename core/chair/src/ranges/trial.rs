//! One trial: a knob at another value.

use super::{Stop, fails};
use crate::chair::Chair;
use crate::checks::{findings, first_failure, first_weakness};
use crate::design::Design;
use crate::finding::{Finding, Topic};
use crate::joints::Bench;
use crate::knob::Knob;
use crate::report::service;
use crate::service::Service;
use crate::sketch::Sketcher;
use crate::unbuildable::Unbuildable;
use serde_json::Value;

/// The design that is turned, its chair, and what fails in it.
#[derive(Debug)]
pub(super) struct Trial {
    design: Design,
    bench: Bench,
    sketcher: Sketcher,
    known: Vec<(Topic, String, &'static str)>,
    same: Chair,
    service: Service,
    /// What is too weak in the same chair for the same user in the same damp, but for what is known.
    weak: Option<Finding>,
}

impl Trial {
    pub(super) fn new(design: &Design, bench: &Bench, chair: Chair) -> Result<Self, Unbuildable> {
        let service = service(design);
        let found = findings(&chair, &service);
        let known = found.into_iter().filter(|f| fails(f.verdict)).map(|f| (f.topic, f.subject, f.unit));
        let known = known.collect();
        let sketcher = Sketcher::new(chair);
        let same = sketcher.chair(design, bench)?;
        let mut trial =
            Self { design: design.clone(), bench: bench.clone(), sketcher, known, same, service, weak: None };
        trial.weak = trial.too_weak(&trial.same, &trial.service);
        Ok(trial)
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
        let service = service(&design);
        if !knob.shapes() {
            return self.fails_as_it_is(&service).map(failed);
        }
        match self.sketcher.chair(&design, &self.bench) {
            Err(clash) => Some(refused(clash.why)),
            Ok(chair) => first_failure(&chair, &service, |f| self.knows(f))
                .or_else(|| self.too_weak(&chair, &service))
                .map(failed),
        }
    }

    /// The first failure of the same chair in another service.
    fn fails_as_it_is(&self, service: &Service) -> Option<Finding> {
        first_failure(&self.same, service, |f| self.knows(f)).or_else(|| {
            let strains = |s: &Service| (s.user, s.climate.damp);
            let same = strains(service) == strains(&self.service);
            if same { self.weak.clone() } else { self.too_weak(&self.same, service) }
        })
    }

    fn too_weak(&self, chair: &Chair, service: &Service) -> Option<Finding> {
        first_weakness(chair, service, |f| self.knows(f))
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
