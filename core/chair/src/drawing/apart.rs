//! How far each part stands from home when the chair is taken apart: the order of assembly, all of
//! its steps at once.

use crate::assembly::{Step, Task};
use crate::chair::Chair;
use crate::joint::Joint;
use crate::part::{PartId, Role};
use crestrail_geometry::Vec3;
use crestrail_sorting::Order as _;
use std::collections::BTreeMap;

/// How far tenons and parts that lie on others stand clear at full spread, mm: enough to see every tenon.
const CLEAR: f64 = 105.0;

/// Shifts this near to each other are one, mm.
const SAME: f64 = 1e-6;

/// How far pegs stand clear of their holes, mm.
const PEG_CLEAR: f64 = 40.0;

/// How far and where each part has moved at full spread, in the order of the chair's parts, mm.
pub fn shifts(chair: &Chair) -> Vec<Vec3> {
    underway(chair, 0.0)
}

/// The same while the chair is put together, when so many steps are done, the last of them perhaps in part.
pub(super) fn underway(chair: &Chair, done: f64) -> Vec<Vec3> {
    let mut shifts = Shifts { by_part: BTreeMap::new(), group: BTreeMap::new(), chair, done };
    for step in &chair.assembly.steps {
        shifts.take(step);
    }
    shifts.let_pegs_follow();
    chair.parts.iter().map(|part| shifts.of(part.id)).collect()
}

struct Shifts<'a> {
    /// How many steps of the order are done.
    done: f64,
    by_part: BTreeMap<PartId, Vec3>,
    /// For each part that is already joined to others, the first of them.
    group: BTreeMap<PartId, PartId>,
    chair: &'a Chair,
}

impl Shifts<'_> {
    fn of(&self, id: PartId) -> Vec3 {
        self.by_part.get(&id).copied().unwrap_or(Vec3::ZERO)
    }

    /// Draws apart what a step puts together.
    fn take(&mut self, step: &Step) {
        if step.task == Task::Peg {
            return;
        }
        let mut moved = if step.task == Task::Join { self.aligned(step) } else { Vec::new() };
        let left = self.left(step);
        for m in &step.moves {
            let away = m.direction * -((m.by + CLEAR) * m.rank as f64 * left);
            moved.extend(m.goes_in.iter().map(|&id| (id, away)));
        }
        for (id, by) in moved {
            *self.by_part.entry(id).or_default() += by;
        }
        for m in &step.moves {
            let all = || m.goes_in.iter().chain(&m.into).copied();
            let Some(first) = all().map(|id| self.group_of(id)).min() else { continue };
            self.group.extend(all().map(|id| (id, first)));
        }
    }

    /// The share of a step that is still to be done.
    fn left(&self, step: &Step) -> f64 {
        (step.number as f64 - self.done).clamp(0.0, 1.0)
    }

    /// The same of the step in which a peg or wedge is driven.
    fn left_of(&self, id: PartId) -> f64 {
        let mut steps = self.chair.assembly.steps.iter().filter(|step| step.task == Task::Peg);
        steps
            .find(|step| step.moves.iter().any(|m| m.goes_in.contains(&id)))
            .map_or(1.0, |step| self.left(step))
    }

    fn group_of(&self, id: PartId) -> PartId {
        self.group.get(&id).copied().unwrap_or(id)
    }

    /// Parts that go between frames which are themselves drawn apart follow what they join, aside from
    /// the line of the step, so that their tenons still point to their mortises; frames that are already
    /// joined do so only where all that they join has gone the same way.
    fn aligned(&self, step: &Step) -> Vec<(PartId, Vec3)> {
        let Some(line) = step.moves.first().map(|m| m.direction) else { return Vec::new() };
        let mut joined: BTreeMap<PartId, Vec<Vec3>> = BTreeMap::new();
        let taking = taking_part(step);
        let takes_part = |id: PartId| taking.binary_search(&id).is_ok();
        let parts: Vec<PartId> =
            self.chair.parts.iter().map(|part| part.id).filter(|&id| takes_part(id)).collect();
        for &id in &parts {
            let group = self.group_of(id);
            let others = self.partners(id).filter(|&o| takes_part(o) && self.group_of(o) != group);
            let asides = others.map(|other| self.of(other)).map(|by| by - line * line.dot(by));
            joined.entry(group).or_default().extend(asides);
        }
        let follow = |id: PartId| {
            let group = self.group_of(id);
            let asides = joined.get(&group)?;
            let mean = asides.iter().fold(Vec3::ZERO, |sum, by| sum + *by) / asides.len().max(1) as f64;
            let agree = asides.iter().all(|by| (*by - mean).length() < SAME);
            (agree || !self.group.contains_key(&id)).then_some((id, mean))
        };
        parts.into_iter().filter_map(follow).collect()
    }

    /// The parts that a part is joined to.
    fn partners(&self, id: PartId) -> impl Iterator<Item = PartId> + '_ {
        self.chair.joints.iter().filter_map(move |joint| match joint {
            Joint { guest, host, .. } if *guest == id => Some(*host),
            Joint { guest, host, .. } if *host == id => Some(*guest),
            _ => None,
        })
    }

    /// Pegs and wedges come out of their holes, and go where their holes go.
    fn let_pegs_follow(&mut self) {
        for joint in &self.chair.joints {
            let host = self.of(joint.host);
            for peg in &joint.pegs {
                let away = peg.place.x * (-(peg.length + PEG_CLEAR) * self.left_of(peg.id));
                self.by_part.insert(peg.id, host + away);
            }
            for wedge in joint.inserts.iter().filter(|insert| insert.id.role == Role::Wedge) {
                let away = wedge.place.x * ((wedge.size[0] + PEG_CLEAR) * self.left_of(wedge.id));
                self.by_part.insert(wedge.id, host + away);
            }
        }
    }
}

/// All parts that a step moves or joins others to, in order.
fn taking_part(step: &Step) -> Vec<PartId> {
    let mut parts: Vec<PartId> =
        step.moves.iter().flat_map(|m| m.goes_in.iter().chain(&m.into)).copied().collect();
    parts.order();
    parts.dedup();
    parts
}
