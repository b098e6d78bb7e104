//! The steps before and after the chair is put together.

use super::cautions::{CHISELS, DUST, MACHINES, NOISE, RAGS, SHORT_PIECES, SOLVENTS, TRIAL};
use super::{Bench, PRACTICE, Shows, WorkStep, tools};
use crate::assembly::Task;
use crate::part::{Part, PartId, Side};
use crate::shop::{Method, Stage};
use crestrail_sorting::Order as _;

/// Stock, curves, joints, surfaces.
pub(super) fn steps(bench: &Bench<'_>) -> Vec<WorkStep> {
    let mut steps = vec![timber(bench)];
    steps.extend(curves(bench));
    steps.push(joints(bench));
    steps.push(surfaces(bench));
    steps
}

fn sticks<'a>(
    bench: &'a Bench<'_>,
    wanted: impl Fn(&Part) -> bool + 'a,
) -> impl Iterator<Item = PartId> + 'a {
    let of_timber = |part: &&Part| part.material.species().is_some() && !part.id.role.is_small();
    bench.chair.parts.iter().filter(of_timber).filter(move |part| wanted(part)).map(|part| part.id)
}

fn timber(bench: &Bench<'_>) -> WorkStep {
    WorkStep {
        say: vec![
            "Let the boards lie in the workshop until their moisture stands still, then choose them part by part: straight grain for legs and rails, no knot where a joint comes.".to_owned(),
            "Saw to rough length and width after the cutting list. Plane one face and one edge true, mark them, then plane to width and thickness. Last saw both ends to length where the list says so.".to_owned(),
        ],
        letters: bench.letters(sticks(bench, |_| true)),
        tools: lines(&["moisture meter", "saws", "jointer and thickness planer, or bench planes", "square, straightedge, callipers"]),
        checks: vec![
            "Moisture within 1 % of what the design is made at (common practice, no source).".to_owned(),
            format!("Every part square, straight and within {} of its thickness, for that is what joints are gauged from ({PRACTICE}).", bench.lengths.say_fine(0.2)),
            "Left and right parts lie as pairs, their grain mirrored, letters on the faces that will not be seen.".to_owned(),
        ],
        shows: Some(Shows::Blanks(sticks(bench, |_| true).collect())),
        cautions: vec![MACHINES, DUST, NOISE],
        minutes: bench.minutes(Stage::Timber),
        ..WorkStep::new(Stage::Timber, Stage::Timber.name())
    }
}

fn curves(bench: &Bench<'_>) -> Option<WorkStep> {
    let letters = bench.letters(sticks(bench, |part| part.sawn_to_outline));
    (!letters.is_empty()).then(|| WorkStep {
        say: vec![
            "Lay the templates on the planks with the grain along them, mark, saw beside the line and work to it. Cut joints into faces that are still flat before you round an edge.".to_owned(),
        ],
        letters,
        tools: lines(&["templates at full size", "bandsaw or turning saw", "spokeshave, rasp, or router with a template and bearing cutter"]),
        checks: vec![format!("Left and right laid on each other show no gap of more than {} ({PRACTICE}).", bench.lengths.say_fine(0.5))],
        shows: Some(Shows::Shaped(sticks(bench, |part| part.sawn_to_outline).collect())),
        cautions: vec![MACHINES, SHORT_PIECES, DUST],
        minutes: bench.minutes(Stage::Shaping),
        ..WorkStep::new(Stage::Shaping, Stage::Shaping.name())
    })
}

fn joints(bench: &Bench<'_>) -> WorkStep {
    let joints = &bench.chair.joints;
    let jointed = |part: &Part| joints.iter().any(|j| j.guest == part.id || j.host == part.id);
    let mut say = vec![
        "Cut a trial joint in offcuts of the same timber first. Mortises before tenons: a tenon is fitted to its mortise. All numbers stand in the list of joints.".to_owned(),
    ];
    let pegs: usize = joints.iter().map(|j| j.pegs.len()).sum();
    if pegs > 0 {
        say.push("Bore the holes for pegs through the empty mortises now, with waste in them so that nothing breaks out; the tenons are marked through them when they stand in their mortises.".to_owned());
    }
    let by_hand = bench.rates().is_some_and(|rates| rates.method == Method::Hand);
    WorkStep {
        say,
        letters: bench.letters(sticks(bench, jointed)),
        tools: tools::for_joints(bench),
        checks: lines(&[
            "A tenon goes in by hand or with light taps and holds its own weight (common practice, no source).",
            "Shoulders close all round; the mortise is deeper than the tenon by the gap for glue that the list tells.",
        ]),
        cautions: if by_hand { vec![CHISELS, DUST] } else { vec![MACHINES, CHISELS, DUST, NOISE] },
        minutes: bench.minutes(Stage::Joints),
        shows: corner(bench).map(Shows::Jointed),
        ..WorkStep::new(Stage::Joints, Stage::Joints.name())
    }
}

/// The leg with the most joints on the right, and what enters it.
fn corner(bench: &Bench<'_>) -> Option<Vec<PartId>> {
    let joints = &bench.chair.joints;
    let entering = |id: PartId| joints.iter().filter(move |joint| joint.host == id);
    let legs = bench.chair.parts.iter().filter(|part| part.id.side == Side::Right);
    // Of several with as many the first stays.
    let most = legs
        .map(|part| part.id)
        .reduce(|best, id| if entering(id).count() > entering(best).count() { id } else { best })?;
    let mut all: Vec<PartId> = entering(most).map(|joint| joint.guest).collect();
    all.order();
    all.dedup();
    (!all.is_empty()).then(|| core::iter::once(most).chain(all).collect())
}

/// What stands together before seat and pad are laid on.
fn framed(bench: &Bench<'_>) -> Vec<PartId> {
    let joined = bench.chair.assembly.steps.iter().filter(|step| matches!(step.task, Task::Join | Task::Peg));
    let all = joined.flat_map(|step| &step.moves).flat_map(|m| m.goes_in.iter().chain(&m.into).copied());
    let mut all: Vec<PartId> = all.collect();
    all.order();
    all.dedup();
    all
}

fn surfaces(bench: &Bench<'_>) -> WorkStep {
    WorkStep {
        say: vec![
            "Scrape or plane all faces that stay in sight, then sand along the grain. Keep away from shoulders and from where they meet: a face that is rounded there leaves a gap. Break all edges that a hand can touch.".to_owned(),
        ],
        letters: bench.letters(sticks(bench, |_| true)),
        tools: lines(&["scraper or smoothing plane", "abrasives 120 to 180 or finer (common practice, no source)", "extraction"]),
        checks: lines(&["Side light shows no mark of a machine.", "No sharp edge is left where somebody sits, leans or lifts the chair."]),
        cautions: vec![DUST],
        minutes: bench.minutes(Stage::Surface),
        shows: Some(Shows::Jointed(sticks(bench, |_| true).collect())),
        ..WorkStep::new(Stage::Surface, Stage::Surface.name())
    }
}

/// Coats of finish.
pub(super) fn finish(bench: &Bench<'_>) -> WorkStep {
    let coats = bench.shop.finish.coats;
    let many = if coats == 1 { "One coat".to_owned() } else { format!("{coats} coats") };
    WorkStep {
        say: vec![
            format!(
                "{many}, each thin, wiped or brushed along the grain; rub down lightly between them. How long a coat takes to dry, and at what warmth, its maker's data sheet says."
            ),
            "Try the whole finish on an offcut first. Keep it off faces that are still to be glued."
                .to_owned(),
        ],
        letters: bench.letters(sticks(bench, |_| true)),
        tools: lines(&[
            "finish, brush or lint-free rags",
            "fine abrasive for rubbing down",
            "metal can with a lid and water for rags",
        ]),
        checks: lines(&[
            "No glue shows as a pale spot: wet the chair with water before the first coat and scrape what shows.",
            "The chair stands on four feet on a flat plate; a foot that is proud is pared before it is finished.",
        ]),
        cautions: vec![SOLVENTS, RAGS, TRIAL],
        minutes: bench.minutes(Stage::Finish),
        shows: Some(Shows::Together(framed(bench))),
        wait_hours: bench.rates().map(|rates| rates.coat_waits * f64::from(coats)).filter(|h| *h > 0.0),
        ..WorkStep::new(Stage::Finish, Stage::Finish.name())
    }
}

fn lines(words: &[&str]) -> Vec<String> {
    words.iter().map(|w| (*w).to_owned()).collect()
}
