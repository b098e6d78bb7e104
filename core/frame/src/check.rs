//! Numbers and indices before anything is computed from them.

use crate::loads::LoadCase;
use crate::model::{Frame, Section, Springs};
use crate::trouble::Trouble;

/// Sizes between which no product or quotient of the crate runs out of the range of numbers.
const LEAST: f64 = 1e-30;
const MOST: f64 = 1e30;

/// All but what a member's length and axes show.
pub(crate) fn frame(frame: &Frame) -> Result<(), Trouble> {
    for (index, node) in frame.nodes.iter().enumerate() {
        within(|| format!("nodes[{index}]"), node)?;
    }
    if frame.members.is_empty() {
        return Err(Trouble::new("members", "The frame has no members, so nothing can carry a load."));
    }
    for (index, member) in frame.members.iter().enumerate() {
        let at = |name: &str| format!("members[{index}].{name}");
        node(|| at("i"), member.i, frame)?;
        node(|| at("j"), member.j, frame)?;
        if member.i == member.j {
            return Err(Trouble::new(at("j"), format!("The member begins and ends at node {}.", member.i)));
        }
        section(at, &member.section)?;
        within(|| at("up"), &member.up)?;
        springs(|axis| at(&format!("springs_i.{axis}")), &member.springs_i)?;
        springs(|axis| at(&format!("springs_j.{axis}")), &member.springs_j)?;
    }
    supports(frame)
}

fn supports(frame: &Frame) -> Result<(), Trouble> {
    let mut held = vec![false; frame.nodes.len()];
    for (index, support) in frame.supports.iter().enumerate() {
        let at = || format!("supports[{index}].node");
        node(at, support.node, frame)?;
        if core::mem::replace(&mut held[support.node], true) {
            return Err(Trouble::new(
                at(),
                format!("Node {} has a support already; join the two.", support.node),
            ));
        }
    }
    Ok(())
}

fn section(at: impl Fn(&str) -> String, section: &Section) -> Result<(), Trouble> {
    let Section { e, g, area, iy, iz, torsion, shear_y, shear_z } = *section;
    let needed = [("e", e), ("g", g), ("area", area), ("iy", iy), ("iz", iz), ("torsion", torsion)];
    let optional = [("shear_y", shear_y), ("shear_z", shear_z)];
    let given = optional.into_iter().filter_map(|(name, value)| Some((name, value?)));
    needed.into_iter().chain(given).try_for_each(|(name, value)| positive(|| at(name), value))
}

/// Springs are above zero; `at` names the place of an axis.
pub(crate) fn springs(at: impl Fn(&str) -> String, springs: &Springs) -> Result<(), Trouble> {
    let axes = [("x", springs.x), ("y", springs.y), ("z", springs.z)];
    let mut given = axes.into_iter().filter_map(|(axis, value)| Some((axis, value?)));
    given.try_for_each(|(axis, value)| positive(|| at(axis), value))
}

/// Loads on what the frame has.
pub(crate) fn case(case: &LoadCase, nodes: usize, members: usize) -> Result<(), Trouble> {
    for (index, load) in case.nodes.iter().enumerate() {
        let at = |name: &str| format!("loads[{index}].{name}");
        known(|| at("node"), "node", load.node, nodes)?;
        within(|| at("force"), &load.force)?;
        within(|| at("moment"), &load.moment)?;
    }
    for (index, load) in case.members.iter().enumerate() {
        let at = |name: &str| format!("uniform_loads[{index}].{name}");
        known(|| at("member"), "member", load.member, members)?;
        within(|| at("force"), &load.force)?;
    }
    Ok(())
}

fn node(at: impl Fn() -> String, index: usize, frame: &Frame) -> Result<(), Trouble> {
    known(at, "node", index, frame.nodes.len())
}

/// An index of something there is.
pub(crate) fn known(at: impl Fn() -> String, what: &str, index: usize, count: usize) -> Result<(), Trouble> {
    if index < count {
        return Ok(());
    }
    Err(Trouble::new(at(), format!("There is no {what} {index}; the frame has {count}, counted from 0.")))
}

fn positive(at: impl Fn() -> String, value: f64) -> Result<(), Trouble> {
    if (LEAST..=MOST).contains(&value) {
        return Ok(());
    }
    Err(Trouble::new(
        at(),
        format!("This is {value:?}; it must be a number above zero ({LEAST:e} to {MOST:e})."),
    ))
}

fn within(at: impl Fn() -> String, values: &[f64; 3]) -> Result<(), Trouble> {
    match values.iter().find(|value| !(-MOST..=MOST).contains(*value)) {
        None => Ok(()),
        Some(value) => {
            let why = format!("A component is {value:?}; it must be a number within ±{MOST:e}.");
            Err(Trouble::new(at(), why))
        }
    }
}
