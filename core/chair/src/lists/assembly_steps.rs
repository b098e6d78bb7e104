//! The order of assembly in words.

use super::spoken::{and, letters, some_of};
use crate::assembly::{Move, Step, Task};
use crate::chair::Chair;
use crate::joint::Joint;
use crate::length::Lengths;
use crate::part::{Part, PartId, Role, Side};
use crestrail_geometry::Vec3;
use crestrail_phrases::{phrase, say, word};
use crestrail_sorting::Order as _;
use serde::Serialize;

/// One step of putting the chair together.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct AssemblyRow {
    /// Counted from 1.
    pub number: usize,
    /// What is made or done.
    pub title: String,
    /// What goes into what, from where and how far, in sentences.
    pub say: String,
    /// Letters of all parts that are moved.
    pub letters: Vec<String>,
}

/// The steps of a chair, in their order, with lengths in sentences written as `lengths` says.
pub fn assembly_steps(chair: &Chair, lengths: Lengths) -> Vec<AssemblyRow> {
    chair.assembly.steps.iter().map(|step| row(chair, step, lengths)).collect()
}

fn row(chair: &Chair, step: &Step, lengths: Lengths) -> AssemblyRow {
    let moves = distinct(step);
    let mut moved: Vec<PartId> = step.moves.iter().flat_map(|m| m.goes_in.iter().copied()).collect();
    moved.order();
    let shown = moved.iter().filter(|id| step.task == Task::Peg || !is_driven(id));
    let (title, say) = match step.task {
        Task::Join => (join_title(step), joined(chair, step, &moves, lengths)),
        Task::Peg => {
            let names = capital(driven_names(&moved));
            (say!("{names} of the {frame}", frame = whole_name(step)), pegged(chair, step))
        }
        Task::Weave => {
            let what = some_of(&parts(chair, &moved));
            let cord = what.replace("woven ", "");
            (capital(&what), say!("Weave {cord} round the rails."))
        }
        Task::Lay => (capital(&some_of(&parts(chair, &moved))), laid(chair, &moves, lengths)),
    };
    AssemblyRow { number: step.number, title, say, letters: letters(shown.filter_map(|id| chair.part(*id))) }
}

/// Whether it is driven when others are home.
fn is_driven(id: &PartId) -> bool {
    matches!(id.role, Role::Peg | Role::Wedge)
}

/// Such as `pegs and wedges`.
fn driven_names(ids: &[PartId]) -> &'static str {
    let has = |role: Role| ids.iter().any(|id| id.role == role);
    match (has(Role::Peg), has(Role::Wedge)) {
        (true, true) => word("pegs and wedges"),
        (false, true) => word("wedges"),
        (_, false) => word("pegs"),
    }
}

fn parts<'a>(chair: &'a Chair, ids: &[PartId]) -> Vec<&'a Part> {
    ids.iter().filter(|id| !is_driven(id)).filter_map(|id| chair.part(*id)).collect()
}

/// The moves without those that mirror one before.
fn distinct(step: &Step) -> Vec<&Move> {
    let mirrors = |a: &Move, b: &Move| {
        a.goes_in.len() == b.goes_in.len() && a.goes_in.iter().all(|id| b.goes_in.contains(&id.mirrored()))
    };
    let moves = step.moves.iter().enumerate();
    moves
        .filter(|(i, m)| !step.moves[..*i].iter().any(|earlier| mirrors(m, earlier)))
        .map(|(_, m)| m)
        .collect()
}

/// Whether the step is done twice, left and right.
fn is_double(step: &Step) -> bool {
    let whole = step.whole();
    step.moves.iter().any(|m| !m.goes_in.iter().any(|id| whole.contains(id)))
}

fn whole_name(step: &Step) -> String {
    frame_name(&step.whole(), is_double(step))
}

/// What a maker calls parts that are joined.
fn frame_name(ids: &[PartId], many: bool) -> String {
    let has = |role: Role, side: Side| ids.iter().any(|id| id.role == role && id.side == side);
    let both = |role: Role| has(role, Side::Left) && has(role, Side::Right);
    let front_to_back = |side: Side| has(Role::FrontLeg, side) && has(Role::BackLeg, side);
    let kind = match () {
        () if both(Role::FrontLeg) && both(Role::BackLeg) => {
            Some([phrase("chair frame"), phrase("chair frames")])
        }
        () if both(Role::FrontLeg) => Some([phrase("front frame"), phrase("front frames")]),
        () if both(Role::BackLeg) => Some([phrase("back frame"), phrase("back frames")]),
        () if front_to_back(Side::Left) || front_to_back(Side::Right) => {
            Some([phrase("side frame"), phrase("side frames")])
        }
        () if front_to_back(Side::Middle) => Some([phrase("middle frame"), phrase("middle frames")]),
        () => None,
    };
    if let Some(kind) = kind {
        return word(kind[usize::from(many)]).to_owned();
    }
    let mut names: Vec<String> = Vec::new();
    for id in ids.iter().filter(|id| !is_driven(id)) {
        let name = id.role.name().to_owned();
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let names = and(&names);
    if many { say!("frames of {names}") } else { say!("frame of {names}") }
}

fn join_title(step: &Step) -> String {
    let name = whole_name(step);
    if is_double(step) { say!("Two {name}, left and right") } else { capital(&name) }
}

fn joined(chair: &Chair, step: &Step, moves: &[&Move], lengths: Lengths) -> String {
    let mut told: Vec<String> = moves.iter().map(|m| brought(chair, m, lengths)).collect();
    told.extend(lying_between(chair, step));
    if is_double(step) {
        told.push(say!("Make the other one as its mirror image."));
    } else if moves.len() < step.moves.len() {
        told.push(say!("The other side goes on in the same way, from the other side."));
    }
    told.join(" ")
}

/// Such as `Push the back leg (B) onto the side rail (D) from behind, the last 36 mm with its tenons.`
fn brought(chair: &Chair, m: &Move, lengths: Lengths) -> String {
    let moved = parts(chair, &m.goes_in);
    let what = if moved.len() > 1 && has_joints_within(chair, &m.goes_in) {
        let frame = frame_name(&m.goes_in, false);
        match moved[0].id.side {
            Side::Right if moved.iter().all(|p| p.id.side == Side::Right) => say!("the right {frame}"),
            Side::Left if moved.iter().all(|p| p.id.side == Side::Left) => say!("the left {frame}"),
            _ => say!("the {frame}"),
        }
    } else {
        some_of(&moved)
    };
    let crosses = |joint: &&Joint| {
        (m.goes_in.contains(&joint.guest) && m.into.contains(&joint.host))
            || (m.goes_in.contains(&joint.host) && m.into.contains(&joint.guest))
    };
    let crossing: Vec<&Joint> = chair.joints.iter().filter(crosses).collect();
    // A loose tenon or dowel that goes in lies in both parts of its joint.
    let lies_in = |joint: &&Joint| joint.inserts.iter().any(|insert| m.goes_in.contains(&insert.id));
    let dowelled: Vec<&Joint> = chair.joints.iter().filter(lies_in).collect();
    let met = |id: &&PartId| {
        crossing.iter().chain(&dowelled).any(|joint| joint.guest == **id || joint.host == **id)
    };
    let partners: Vec<PartId> = m.into.iter().filter(met).copied().collect();
    let enters = crossing.iter().all(|joint| m.goes_in.contains(&joint.guest));
    let others = if partners.is_empty() { parts(chair, &m.into) } else { parts(chair, &partners) };
    let (others, way, by) = (some_of(&others), from(m.direction), lengths.tape(m.by));
    let mut told = match (enters, m.by > 0.0) {
        (true, true) => {
            say!("Push {what} into {others} {way}; they slide in each other the last {by}.")
        }
        (true, false) => say!("Push {what} into {others} {way}."),
        (false, true) => {
            say!("Push {what} onto {others} {way}; they slide in each other the last {by}.")
        }
        (false, false) => say!("Push {what} onto {others} {way}."),
    };
    told.push_str(&first_from(m));
    told
}

/// Parts that no joint holds and that the others enclose.
fn lying_between(chair: &Chair, step: &Step) -> Option<String> {
    let first = step.moves.first()?;
    let is_held = |id: &PartId| {
        chair.joints.iter().any(|j| j.guest == *id || j.host == *id || j.inserts.iter().any(|i| i.id == *id))
    };
    let free: Vec<PartId> = first.into.iter().filter(|id| !is_held(id) && !is_driven(id)).copied().collect();
    let free = parts(chair, &free);
    let what = first_capital(&some_of(&free));
    match free.len() {
        0 => None,
        1 => Some(say!("{what} goes in between.")),
        _ => Some(say!("{what} go in between.")),
    }
}

fn has_joints_within(chair: &Chair, ids: &[PartId]) -> bool {
    chair.joints.iter().any(|joint| ids.contains(&joint.guest) && ids.contains(&joint.host))
}

/// Such as `Drive 22 pegs (P1, P2): 11 from the front, 11 from behind.`
fn pegged(chair: &Chair, step: &Step) -> String {
    let ids = || step.moves.iter().flat_map(|m| &m.goes_in);
    let letters = letters(ids().filter_map(|id| chair.part(*id)));
    let ways: Vec<String> =
        step.moves.iter().map(|m| say!("{} {}", m.goes_in.len(), from(m.direction))).collect();
    let names = driven_names(&ids().copied().collect::<Vec<_>>());
    let (count, letters, ways) = (ids().count(), letters.join(", "), and(&ways));
    say!("Drive {count} {names} ({letters}): {ways}.")
}

fn laid(chair: &Chair, moves: &[&Move], lengths: Lengths) -> String {
    let told = moves.iter().map(|m| {
        let what = some_of(&parts(chair, &m.goes_in));
        match m.before {
            None => say!("Bring {what} into place {way}.", way = from(m.direction)),
            Some(before) => say!(
                "Bring {what} close {before}, then the last {by} {way}.",
                before = from(before),
                by = lengths.tape(m.by),
                way = from(m.direction)
            ),
        }
    });
    told.collect::<Vec<_>>().join(" ")
}

fn first_from(m: &Move) -> String {
    m.before.map(|before| say!(" It first comes to its place {way}.", way = from(before))).unwrap_or_default()
}

/// Where something comes from that moves this way; askew beyond a fifteenth of a right angle's cosine.
fn from(direction: Vec3) -> String {
    let back = -direction;
    let sides = [
        (Vec3::X, phrase("from the right")),
        (-Vec3::X, phrase("from the left")),
        (-Vec3::Y, phrase("from the front")),
        (Vec3::Y, phrase("from behind")),
        (Vec3::Z, phrase("from above")),
        (-Vec3::Z, phrase("from below")),
    ];
    let nearest = sides.into_iter().max_by(|a, b| a.0.dot(back).total_cmp(&b.0.dot(back)));
    let Some((side, words)) = nearest else { return String::new() };
    // Within 5° nobody sees a slant.
    let way = word(words);
    if side.dot(back) > 0.996 { way.to_owned() } else { say!("{way}, at a slant") }
}

fn capital(text: &str) -> String {
    first_capital(text.strip_prefix("the ").unwrap_or(text))
}

fn first_capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::joints::Bench;

    #[test]
    fn the_default_chair_is_told_in_order() {
        let chair = Chair::resolve(&Design::default(), &Bench::default()).unwrap();
        let rows = assembly_steps(&chair, Lengths::Millimetres);
        rows.iter().for_each(|row| println!("{} {}: {} {:?}", row.number, row.title, row.say, row.letters));
        assert_eq!(rows[0].title, "Two side frames, left and right");
        assert_eq!(rows[0].letters, ["A", "B"]);
        let first = "Push the 2 back legs (B) onto";
        assert!(!rows[0].say.contains(first) && rows[0].say.contains("from behind"), "{}", rows[0].say);
        assert!(rows.iter().all(|row| !row.letters.is_empty() && row.say.ends_with('.')));
        assert!(rows.last().is_some_and(|row| row.say.ends_with("into place from above.")));
    }

    #[test]
    fn slants_are_told() {
        assert_eq!(from(-Vec3::Z), "from above");
        assert_eq!(from(Vec3::new(-0.8, 0.0, 0.6)), "from the right, at a slant");
    }
}
