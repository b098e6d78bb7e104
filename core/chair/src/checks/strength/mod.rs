//! Whether joints and members hold: the chair as a frame of beams with springs for its joints, under loads named after
//! published tests.
//!
//! The frame is read off the resolved parts and joints alone. Slats, boards, pads and panels carry their load to the
//! frame and stiffen nothing: on the safe side. How stiff a joint of this size is hardly anybody has measured, so
//! every load is tried with joints from soft to rigid and the worst counts.

mod capacity;
mod cases;
mod frame;
mod known;
mod members;
mod stops;
mod timber;

use super::Share;
use super::sitting::Sitting;
use crate::chair::Chair;
use crate::finding::{About, AtMost, Finding, Topic, Verdict};
use crate::joint::Joint;
use crate::part::{PartId, Role};
use crate::service::Service;
use capacity::Capacity;
use cases::Case;
use crestrail_frame::{Solution, Structure, Trouble};
use crestrail_phrases::{phrase, say, word};
use frame::Model;
use known::Question;
use members::Limits;
use timber::Held;

/// Rotational stiffness of joints that is tried, N·mm/rad; `None` is rigid. Furniture joints lie between 2 and
/// 20 kNm/rad (from memory, low confidence); the nearest measured is 19.4 kNm/rad for a round tenon of 2 in.
const STIFFNESS: [Option<f64>; 4] = [Some(3e6), Some(8e6), Some(20e6), None];

/// The ends of that range. Of the parts of 150 random chairs that used more than 0.3 of their strength the joints between
/// brought more than the ends did to 5 in 100, by 0.1 % there and by 6 % at most, and no other verdict.
const EXTREMES: [Option<f64>; 2] = [STIFFNESS[0], STIFFNESS[3]];

/// Sound while the joint would hold though it were 35 % weaker than computed; close up to what is computed.
pub(super) const LIMIT: AtMost = AtMost { sound: 0.74, close: 1.0 };

/// Where wood is so damp that it tells: words for a finding.
fn in_damp(moisture: f64) -> String {
    if moisture.round() > 12.0 {
        say!(" in the dampest weeks ({moisture:.0} % of moisture)")
    } else {
        String::new()
    }
}

/// The worst that was found of one joint or one part.
#[derive(Clone, Debug, PartialEq)]
struct Worst {
    /// Share of the capacity used.
    share: f64,
    /// Demand and capacity in the unit of the finding.
    demand: f64,
    capacity: f64,
    case: &'static str,
}

/// What is found about joints and members; a single finding says so where the frame cannot be worked out.
pub(super) fn findings(chair: &Chair, sitting: &Sitting, service: &Service) -> Vec<Finding> {
    found(chair, sitting, service, &STIFFNESS, |_| true)
}

/// Of the same what fails, with the softest joints and rigid ones alone: for a search that must be quick (see `EXTREMES`).
pub(super) fn failures(chair: &Chair, sitting: &Sitting, service: &Service) -> Vec<Finding> {
    found(chair, sitting, service, &EXTREMES, |worst| LIMIT.verdict(worst.share) == Verdict::Fails)
}

fn found(
    chair: &Chair,
    sitting: &Sitting,
    service: &Service,
    tried: &[Option<f64>],
    wanted: impl Fn(&Worst) -> bool,
) -> Vec<Finding> {
    let model = Model::of(chair, sitting);
    let cases = cases::all(&model, sitting, service);
    let timber = match timber::of(&model.beams, &service.climate) {
        Ok(timber) => timber,
        Err(outside) => return vec![not_worked_out(outside.to_string())],
    };
    match Found::of(&model, &timber, &cases, tried) {
        Ok(found) => {
            let damp = in_damp(service.climate.damp);
            let worst = found.worst(&model).into_iter().filter(|(_, worst)| wanted(worst));
            worst.map(|(of, worst)| of.finding(worst, &damp)).collect()
        }
        Err(Trouble { place, why }) => vec![not_worked_out(format!("{place}: {why}"))],
    }
}

/// The worst share of each part and of its own joints, in the order of the chair's parts.
pub(super) fn shares(chair: &Chair, sitting: &Sitting, service: &Service) -> Vec<Option<Share>> {
    let model = Model::of(chair, sitting);
    let cases = cases::all(&model, sitting, service);
    let mut shares: Vec<Option<Share>> = vec![None; chair.parts.len()];
    let Ok(timber) = timber::of(&model.beams, &service.climate) else { return shares };
    let Ok(found) = Found::of(&model, &timber, &cases, &STIFFNESS) else { return shares };
    let joints = model.seats.iter().zip(&found.seats).map(|(seat, worst)| (seat.joint.guest, worst));
    let parts = model.beams.iter().zip(&found.beams).map(|(beam, worst)| (beam.part.id, worst));
    for (part, worst) in joints.chain(parts) {
        if let Some(place) = chair.place_of(part) {
            let used = shares[place].map_or(worst.share, |known| known.used.max(worst.share));
            shares[place] = Some(Share { used, verdict: LIMIT.verdict(used) });
        }
    }
    shares
}

/// The worst of every joint and of every beam, in the order of the model.
#[derive(Clone, Debug, PartialEq)]
struct Found {
    seats: Vec<Worst>,
    beams: Vec<Worst>,
}

impl Found {
    fn of(
        model: &Model<'_>,
        timber: &[Held],
        cases: &[Case],
        tried: &[Option<f64>],
    ) -> Result<Self, Trouble> {
        let capacities: Vec<Capacity> =
            model.seats.iter().map(|seat| capacity::mean(seat.joint, timber[seat.member])).collect();
        let limits: Vec<Limits> =
            model.beams.iter().zip(timber).map(|(beam, timber)| Limits::of(beam, *timber)).collect();
        if *tried != STIFFNESS {
            // A search asks for another chair each time.
            return Self::worked_out(model, &capacities, &limits, cases, tried);
        }
        let question = Question::of(model, &capacities, &limits, cases);
        if let Some(found) = known::recall(&question) {
            return Ok(found);
        }
        let found = Self::worked_out(model, &capacities, &limits, cases, tried)?;
        known::keep(question, &found);
        Ok(found)
    }

    fn worked_out(
        model: &Model<'_>,
        capacities: &[Capacity],
        limits: &[Limits],
        cases: &[Case],
        tried: &[Option<f64>],
    ) -> Result<Self, Trouble> {
        let none = Worst { share: 0.0, demand: 0.0, capacity: 0.0, case: "" };
        let mut found =
            Self { seats: vec![none.clone(); model.seats.len()], beams: vec![none; model.beams.len()] };
        for standing in stops::standing(model, cases) {
            let mut frame = model.frame.clone();
            frame.supports.clone_from(&standing.supports);
            let mut structure = Structure::new(&frame)?;
            for &stiffness in tried {
                model.soften(&mut structure, stiffness)?;
                let stiff = structure.factorise()?;
                let solutions = stiff.solve_all(&standing.loads(&stiff)?)?;
                for (stopped, solution) in standing.cases.iter().zip(&solutions) {
                    found.take(model, capacities, limits, stopped.case, solution);
                }
            }
        }
        Ok(found)
    }

    fn take(
        &mut self,
        model: &Model<'_>,
        capacities: &[Capacity],
        limits: &[Limits],
        case: &Case,
        solution: &Solution,
    ) {
        for ((seat, capacity), known) in model.seats.iter().zip(capacities).zip(&mut self.seats) {
            known.worsen(capacity::used(capacity, seat, &solution.members[seat.member], case));
        }
        for ((limits, forces), known) in limits.iter().zip(&solution.members).zip(&mut self.beams) {
            known.worsen(members::of(limits, forces, case));
        }
    }

    /// The worst joint of each pair of roles, and the worst part of each role.
    fn worst<'a>(&'a self, model: &'a Model<'_>) -> Vec<(Of<'a>, &'a Worst)> {
        let mut found: Vec<(Of<'a>, &Worst)> = Vec::new();
        let joints = model.seats.iter().map(|seat| Of::Joint(seat.joint)).zip(&self.seats);
        let parts = model.beams.iter().map(|beam| Of::Part(beam.part.id)).zip(&self.beams);
        for (of, worst) in joints.chain(parts) {
            match found.iter_mut().find(|(known, _)| known.roles() == of.roles()) {
                Some((_, known)) if known.share >= worst.share => {}
                Some(known) => *known = (of, worst),
                None => found.push((of, worst)),
            }
        }
        found
    }
}

/// What is worked out of a frame.
#[derive(Clone, Copy)]
enum Of<'a> {
    Joint(&'a Joint),
    Part(PartId),
}

impl Of<'_> {
    /// Of those with the same roles only the worst is told.
    fn roles(&self) -> (Role, Option<Role>) {
        match self {
            Self::Joint(joint) => (joint.guest.role, Some(joint.host.role)),
            Self::Part(part) => (part.role, None),
        }
    }

    fn finding(self, worst: &Worst, damp: &str) -> Finding {
        match self {
            Self::Joint(joint) => joint_finding(joint, worst, damp),
            Self::Part(part) => part_finding(part, worst, damp),
        }
    }
}

impl Worst {
    fn worsen(&mut self, other: Self) {
        if other.share > self.share {
            *self = other;
        }
    }
}

fn joint_finding(joint: &Joint, worst: &Worst, damp: &str) -> Finding {
    let (guest, host) = (joint.guest.role.name(), joint.host.role.name());
    let Worst { demand, capacity, .. } = worst;
    let case = word(worst.case);
    finding(
        say!("strength of {guest} in {host}"),
        About::Joint(joint.guest.role, joint.host.role),
        mends(joint.guest.role),
        say!(
            "Under “{case}” the joint must hold as much as {demand:.0} Nm; it is worked out to hold {capacity:.0} Nm{damp}, give or take 35 %, so {:.0} Nm are sure.",
            capacity * LIMIT.sound
        ),
        worst,
        "Nm",
        capacity::SOURCE,
    )
}

fn part_finding(part: PartId, worst: &Worst, damp: &str) -> Finding {
    let Worst { demand, capacity, .. } = worst;
    let case = word(worst.case);
    finding(
        say!("strength of the {}", part.role.name()),
        About::Part(part.role),
        crate::joints::section_knobs(part.role)[0],
        say!(
            "Under “{case}” the wood is stressed by {demand:.1} MPa at its worst place; {capacity:.1} MPa are allowed{damp}, give or take 25 %, so {:.1} MPa are sure.",
            capacity * LIMIT.sound
        ),
        worst,
        "MPa",
        members::SOURCE,
    )
}

fn finding(
    subject: String,
    about: About,
    knob: &'static str,
    say: String,
    worst: &Worst,
    unit: &'static str,
    source: &'static str,
) -> Finding {
    Finding {
        subject,
        topic: Topic::Strength,
        about,
        plain: String::new(),
        knob: Some(knob),
        say,
        value: worst.demand,
        limit: worst.capacity * LIMIT.sound,
        unit,
        verdict: LIMIT.verdict(worst.share),
        used: LIMIT.used(worst.share),
        source,
    }
}

/// The knob that makes a joint of such a part stronger.
fn mends(guest: Role) -> &'static str {
    match guest {
        Role::FrontRail | Role::SideRail | Role::BackRail => "rail_width",
        Role::SideStretcher | Role::CrossStretcher | Role::FrontStretcher | Role::BackStretcher => {
            "stretcher_width"
        }
        role => crate::joints::section_knobs(role)[0],
    }
}

fn not_worked_out(why: String) -> Finding {
    Finding {
        subject: word("strength").to_owned(),
        topic: Topic::Strength,
        about: About::Chair,
        plain: String::new(),
        knob: None,
        say: say!("Strength cannot be worked out for this chair: {why}"),
        value: 0.0,
        limit: 1.0,
        unit: "",
        verdict: Verdict::Fails,
        used: 100.0,
        source: phrase("the frame of its parts and joints"),
    }
}

#[cfg(test)]
mod tests;
