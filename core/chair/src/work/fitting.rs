//! The steps of putting together, in the order that was proven.

use super::cautions::{DUST, GLUE, STAPLES};
use super::clamps::{clamps, closed};
use super::seat::spacing;
use super::square::tapes;
use super::{Bench, PRACTICE, Shows, WorkStep};
use crate::assembly::{Step, Task};
use crate::lists::{AssemblyRow, assembly_steps};
use crate::part::PartId;
use crate::shop::{Operation, Stage};
use crestrail_sorting::Order as _;

/// Dry fit, then frame by frame with its pegs.
pub(super) fn frame(bench: &Bench<'_>) -> Vec<WorkStep> {
    let mut steps = vec![dry_fit(bench)];
    steps.extend(told(bench, |task| matches!(task, Task::Join | Task::Peg)).map(
        |(step, row)| match step.task {
            Task::Peg => pegs(bench, step, row),
            _ => glue_up(bench, step, row),
        },
    ));
    steps
}

/// What is laid on, screwed down or woven when the finish is dry; each takes of the hours of the seat what is spent on the
/// parts that come in it.
pub(super) fn seat(bench: &Bench<'_>) -> Vec<WorkStep> {
    let own: Vec<(&Step, AssemblyRow)> =
        told(bench, |task| matches!(task, Task::Lay | Task::Weave)).collect();
    let mut hours = vec![0.0; own.len()];
    for row in bench.rows(Stage::Seat) {
        let laid = |step: &Step| {
            let ids = step.moves.iter().flat_map(|m| &m.goes_in);
            ids.filter_map(|id| bench.chair.part(*id)).filter(|part| row.parts.contains(&part.letter)).count()
        };
        let counts: Vec<f64> = own.iter().map(|(step, _)| laid(step) as f64).collect();
        let all: f64 = counts.iter().sum();
        // What is counted by no part of these steps, such as ledges that were glued in before, is made ready in the last.
        let last = |i: usize| if i + 1 == own.len() { 1.0 } else { 0.0 };
        for (i, count) in counts.into_iter().enumerate() {
            hours[i] += row.hours * if all > 0.0 { count / all } else { last(i) };
        }
    }
    let minutes = hours.into_iter().map(|hours: f64| (hours * 60.0).round());
    let minutes = minutes.map(|minutes| bench.labour.map(|_| minutes).filter(|minutes| *minutes > 0.0));
    let steps = own.into_iter().zip(minutes);
    steps.map(|((step, row), minutes)| WorkStep { minutes, ..seated(bench, step, row) }).collect()
}

fn told<'a>(
    bench: &'a Bench<'_>,
    wanted: impl Fn(Task) -> bool + 'a,
) -> impl Iterator<Item = (&'a Step, AssemblyRow)> + 'a {
    let rows = assembly_steps(bench.chair, bench.lengths);
    bench.chair.assembly.steps.iter().zip(rows).filter(move |(step, _)| wanted(step.task))
}

fn dry_fit(bench: &Bench<'_>) -> WorkStep {
    let joins: Vec<&Step> = bench.chair.assembly.steps.iter().filter(|s| s.task == Task::Join).collect();
    let all: Vec<PartId> = joins.iter().flat_map(|s| everything(s)).collect();
    let count = joins.iter().map(|s| closed(bench, s).count()).sum::<usize>();
    WorkStep {
        say: vec![
            format!("Put all of it together without glue, in the order of the steps below, with the clamps that they name. {count} joints must close under light pressure."),
            "Take it apart again in the opposite order. Whatever had to be forced is eased now, not when the glue is on.".to_owned(),
        ],
        letters: bench.letters(all.iter().copied()),
        tools: vec!["clamps of all steps, with pads".to_owned(), "tape or stick for diagonals, square, winding sticks".to_owned(), "rubber mallet".to_owned()],
        tapes: tapes(bench, &all),
        checks: vec![
            format!("Every shoulder is closed all round, and no feeler of {} goes in ({PRACTICE}).", bench.lengths.say_fine(0.1)),
            "No twist: winding sticks over the rails, or all feet on a flat plate.".to_owned(),
            "All clamps are set to their openings and lie ready in the order of the steps.".to_owned(),
        ],
        minutes: bench.minutes_of(Operation::DryFit, 1.0),
        shows: Some(Shows::Together(all)),
        ..WorkStep::new(Stage::Assembly, "Dry fit")
    }
}

/// All parts of a step.
fn everything(step: &Step) -> Vec<PartId> {
    let mut all: Vec<PartId> =
        step.moves.iter().flat_map(|m| m.goes_in.iter().chain(&m.into).copied()).collect();
    all.order();
    all.dedup();
    all
}

fn glue_up(bench: &Bench<'_>, step: &Step, row: AssemblyRow) -> WorkStep {
    let clamps = clamps(bench, step);
    let joints = closed(bench, step).count();
    let stages = bench.chair.assembly.steps.iter().filter(|s| s.task == Task::Join).count().max(1);
    let mut say = vec![row.say];
    if joints > 0 {
        say.push(format!(
            "Glue on {} of {joints} joint{}: thin on the tenon's cheeks, thin on the walls of the mortise, none on end grain alone. All must be home within the open time that the glue's data sheet gives; for common white glue that is 5 to 10 minutes at 20 °C, less in the warm ({PRACTICE}).",
            if joints == 1 { "the cheeks" } else { "the cheeks of all" },
            if joints == 1 { "" } else { "s" },
        ));
    }
    if !clamps.is_empty() {
        say.push("Draw the clamps up until the shoulders close and no further; their screws lie in line with the part they press on.".to_owned());
    }
    let everything = everything(step);
    let tapes = tapes(bench, &step.whole());
    let mut checks =
        vec!["Shoulders closed all round, glue wiped off with a damp rag before it skins over.".to_owned()];
    if !tapes.is_empty() {
        checks.push("The tape says the lengths above. Where one is too long, slant the clamps along it a little until it agrees (common practice, no source).".to_owned());
    }
    checks.push("No twist while it stands in the clamps.".to_owned());
    WorkStep {
        say,
        letters: bench.letters(everything.into_iter().filter(|id| !id.role.is_small())),
        tools: vec!["glue, brush, damp rag".to_owned(), "rubber mallet".to_owned()],
        clamps,
        tapes,
        checks,
        cautions: vec![GLUE],
        minutes: bench.minutes_of(Operation::GlueUp, 1.0 / stages as f64),
        wait_hours: bench.rates().map(|rates| rates.glue_waits).filter(|h| *h > 0.0 && joints > 0),
        assembly: Some(step.number),
        shows: Some(Shows::Assembly(step.number)),
        ..WorkStep::new(Stage::Assembly, row.title)
    }
}

fn pegs(bench: &Bench<'_>, step: &Step, row: AssemblyRow) -> WorkStep {
    let of = |step: &Step| step.moves.iter().map(|m| m.goes_in.len()).sum::<usize>();
    let all: usize = bench.chair.assembly.steps.iter().filter(|s| s.task == Task::Peg).map(of).sum();
    let mut sizes: Vec<f64> = bench.chair.joints.iter().flat_map(|j| &j.pegs).map(|peg| peg.size).collect();
    sizes.sort_by(f64::total_cmp);
    sizes.dedup();
    let drills = crate::lists::and(&sizes.iter().map(|size| bench.lengths.tool(*size)).collect::<Vec<_>>());
    let mut tools = vec!["hammer, flush saw, chisel".to_owned()];
    if !sizes.is_empty() {
        tools.push(format!("drill {drills} with a stop"));
    }
    WorkStep {
        say: vec![row.say, "Point the pegs a little, drive them with glue on the last third, stop when the sound changes. Saw them off and pare them flush when the glue is hard.".to_owned()],
        letters: row.letters,
        tools,
        checks: vec!["The shoulders have stayed closed; no host has split at a peg.".to_owned()],
        cautions: vec![DUST],
        minutes: bench.minutes_of(Operation::Peg, of(step) as f64 / all.max(1) as f64),
        assembly: Some(step.number),
        shows: Some(Shows::Assembly(step.number)),
        ..WorkStep::new(Stage::Assembly, row.title)
    }
}

fn seated(bench: &Bench<'_>, step: &Step, row: AssemblyRow) -> WorkStep {
    let weaves = step.task == Task::Weave;
    let per_slat = bench.shop.fixings.per_slat;
    let has_slats =
        step.moves.iter().flat_map(|m| &m.goes_in).any(|id| id.role == crate::part::Role::SeatSlat);
    let mut say = vec![row.say];
    if has_slats {
        say.extend(spacing(bench));
    }
    if has_slats && per_slat > 0 {
        say.push(format!("Each slat is held by {per_slat} screws, bored first so that nothing splits, and free to move across its grain."));
    }
    WorkStep {
        say,
        letters: row.letters,
        tools: if weaves {
            vec!["cord, shuttle, clamp to hold the end, tacks".to_owned()]
        } else {
            vec!["drill, countersink, screwdriver".to_owned()]
        },
        checks: vec![
            if weaves {
                "The weave is tight all over: pressed with a thumb it gives evenly."
            } else {
                "Nothing rocks or creaks under a knee; no screw comes through."
            }
            .to_owned(),
            "The chair stands on four feet.".to_owned(),
        ],
        cautions: if weaves { vec![STAPLES] } else { Vec::new() },
        assembly: Some(step.number),
        shows: Some(Shows::Assembly(step.number)),
        ..WorkStep::new(Stage::Seat, row.title)
    }
}
