//! The order of assembly in words.

use super::spoken::{and, letters, some_of};
use crate::assembly::{Move, Step, Task};
use crate::chair::Chair;
use crate::part::{Part, PartId, Role, Side};
use crestrail_geometry::Vec3;
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

/// The steps of a chair, in their order.
pub fn assembly_steps(chair: &Chair) -> Vec<AssemblyRow> {
    chair.assembly.steps.iter().map(|step| row(chair, step)).collect()
}

fn row(chair: &Chair, step: &Step) -> AssemblyRow {
    let moves = distinct(step);
    let mut moved: Vec<PartId> = step.moves.iter().flat_map(|m| m.goes_in.iter().copied()).collect();
    moved.sort_unstable();
    let shown = moved.iter().filter(|id| step.task == Task::Peg || !is_driven(id));
    let (title, say) = match step.task {
        Task::Join => (join_title(step), joined(chair, step, &moves)),
        Task::Peg => {
            (format!("{} of the {}", capital(&driven_names(&moved)), whole_name(step)), pegged(chair, step))
        }
        Task::Weave => {
            let what = some_of(&parts(chair, &moved));
            (capital(&what), format!("Weave {what} round the rails."))
        }
        Task::Lay => (capital(&some_of(&parts(chair, &moved))), laid(chair, &moves)),
    };
    AssemblyRow { number: step.number, title, say, letters: letters(shown.filter_map(|id| chair.part(*id))) }
}

/// Whether it is driven when others are home.
fn is_driven(id: &PartId) -> bool {
    matches!(id.role, Role::Peg | Role::Wedge)
}

/// Such as `pegs and wedges`.
fn driven_names(ids: &[PartId]) -> String {
    let has = |role: Role| ids.iter().any(|id| id.role == role);
    let names = [Role::Peg, Role::Wedge].into_iter().filter(|role| has(*role));
    and(&names.map(|role| format!("{}s", role.name())).collect::<Vec<_>>())
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

/// All parts that a step leaves joined to its first move.
fn whole(step: &Step) -> Vec<PartId> {
    let mut all: Vec<PartId> = Vec::new();
    for m in &step.moves {
        let ids = || m.goes_in.iter().chain(&m.into);
        if all.is_empty() || ids().any(|id| all.contains(id)) {
            all.extend(ids());
        }
    }
    all
}

/// Whether the step is done twice, left and right.
fn is_double(step: &Step) -> bool {
    let whole = whole(step);
    step.moves.iter().any(|m| !m.goes_in.iter().any(|id| whole.contains(id)))
}

fn whole_name(step: &Step) -> String {
    let name = frame_name(&whole(step));
    if is_double(step) { format!("{name}s") } else { name }
}

/// What a maker calls parts that are joined.
fn frame_name(ids: &[PartId]) -> String {
    let has = |role: Role, side: Side| ids.iter().any(|id| id.role == role && id.side == side);
    let both = |role: Role| has(role, Side::Left) && has(role, Side::Right);
    let any = |role: Role| has(role, Side::Left) || has(role, Side::Right);
    match () {
        () if both(Role::FrontLeg) && both(Role::BackLeg) => "chair frame".to_owned(),
        () if both(Role::FrontLeg) => "front frame".to_owned(),
        () if both(Role::BackLeg) => "back frame".to_owned(),
        () if any(Role::FrontLeg) && any(Role::BackLeg) => "side frame".to_owned(),
        () => {
            let mut names: Vec<&str> = Vec::new();
            let roles = ids.iter().filter(|id| !is_driven(id)).map(|id| id.role);
            roles.for_each(|role| {
                if !names.contains(&role.name()) {
                    names.push(role.name());
                }
            });
            format!("frame of {}", and(&names.iter().map(ToString::to_string).collect::<Vec<_>>()))
        }
    }
}

fn join_title(step: &Step) -> String {
    let name = frame_name(&whole(step));
    if is_double(step) { format!("Two {name}s, left and right") } else { capital(&name) }
}

fn joined(chair: &Chair, step: &Step, moves: &[&Move]) -> String {
    let mut told: Vec<String> = moves.iter().map(|m| brought(chair, m)).collect();
    if is_double(step) {
        told.push("Make the other one as its mirror image.".to_owned());
    } else if moves.len() < step.moves.len() {
        told.push("The other side goes on in the same way, from the other side.".to_owned());
    }
    told.join(" ")
}

/// Such as `Push the back leg (B) onto the side rail (D) from behind, the last 36 mm with its tenons.`
fn brought(chair: &Chair, m: &Move) -> String {
    let moved = parts(chair, &m.goes_in);
    let what = if moved.len() > 1 && has_joints_within(chair, &m.goes_in) {
        let side = match moved[0].id.side {
            Side::Right if moved.iter().all(|p| p.id.side == Side::Right) => "right ",
            Side::Left if moved.iter().all(|p| p.id.side == Side::Left) => "left ",
            _ => "",
        };
        format!("the {side}{}", frame_name(&m.goes_in))
    } else {
        some_of(&moved)
    };
    let crossing = || {
        chair.joints.iter().filter(|joint| {
            (m.goes_in.contains(&joint.guest) && m.into.contains(&joint.host))
                || (m.goes_in.contains(&joint.host) && m.into.contains(&joint.guest))
        })
    };
    let met = |id: &&PartId| crossing().any(|joint| joint.guest == **id || joint.host == **id);
    let partners: Vec<PartId> = m.into.iter().filter(met).copied().collect();
    let enters = crossing().all(|joint| m.goes_in.contains(&joint.guest));
    let to = if enters { "into" } else { "onto" };
    let slide =
        if m.by > 0.0 { format!("; the tenons slide the last {:.0} mm", m.by) } else { String::new() };
    let others = if partners.is_empty() { parts(chair, &m.into) } else { parts(chair, &partners) };
    format!("Push {what} {to} {} {}{slide}.{}", some_of(&others), from(m.direction), first_from(m))
}

fn has_joints_within(chair: &Chair, ids: &[PartId]) -> bool {
    chair.joints.iter().any(|joint| ids.contains(&joint.guest) && ids.contains(&joint.host))
}

/// Such as `Drive 22 pegs (P1, P2): 11 from the front, 11 from behind.`
fn pegged(chair: &Chair, step: &Step) -> String {
    let ids = || step.moves.iter().flat_map(|m| &m.goes_in);
    let letters = letters(ids().filter_map(|id| chair.part(*id)));
    let ways: Vec<String> =
        step.moves.iter().map(|m| format!("{} {}", m.goes_in.len(), from(m.direction))).collect();
    let names = driven_names(&ids().copied().collect::<Vec<_>>());
    format!("Drive {} {names} ({}): {}.", ids().count(), letters.join(", "), and(&ways))
}

fn laid(chair: &Chair, moves: &[&Move]) -> String {
    let told = moves.iter().map(|m| {
        let what = some_of(&parts(chair, &m.goes_in));
        match m.before {
            None => format!("Bring {what} into place {}.", from(m.direction)),
            Some(before) => format!(
                "Bring {what} over its place {}, then the last {:.0} mm {}.",
                from(before),
                m.by,
                from(m.direction)
            ),
        }
    });
    told.collect::<Vec<_>>().join(" ")
}

fn first_from(m: &Move) -> String {
    m.before.map(|before| format!(" It first comes to its place {}.", from(before))).unwrap_or_default()
}

/// Where something comes from that moves this way; askew beyond a fifteenth of a right angle's cosine.
fn from(direction: Vec3) -> String {
    let back = -direction;
    let sides = [
        (Vec3::X, "from the right"),
        (-Vec3::X, "from the left"),
        (-Vec3::Y, "from the front"),
        (Vec3::Y, "from behind"),
        (Vec3::Z, "from above"),
        (-Vec3::Z, "from below"),
    ];
    let nearest = sides.into_iter().max_by(|a, b| a.0.dot(back).total_cmp(&b.0.dot(back)));
    let Some((side, words)) = nearest else { return String::new() };
    // Within 5° nobody sees a slant.
    if side.dot(back) > 0.996 { words.to_owned() } else { format!("{words}, at a slant") }
}

fn capital(text: &str) -> String {
    let bare = text.strip_prefix("the ").unwrap_or(text);
    let mut letters = bare.chars();
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
        let rows = assembly_steps(&chair);
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
