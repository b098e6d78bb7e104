//! The words on a template.

use crate::chair::Chair;
use crate::length::Lengths;
use crate::part::{Part, Side};
use crestrail_geometry::Vec3;

/// Letter, name and how many.
pub(super) fn heading(chair: &Chair, part: &Part) -> String {
    let count = chair.parts.iter().filter(|other| other.letter == part.letter).count();
    let mut name = part.id.role.name().to_owned();
    if let Some(first) = name.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    let copies = match (count, part.id.side) {
        (0 | 1, _) => String::new(),
        (2, Side::Right) => ", right and left".to_owned(),
        (_, Side::Right) => format!(", {count}: right and left"),
        _ => format!(", {count} alike"),
    };
    format!("{}  {name}{copies}", part.letter)
}

/// Timber, size, and what to do for the other hand.
pub(super) fn lines(chair: &Chair, part: &Part, lengths: Lengths) -> Vec<String> {
    let size = lengths.by(&[part.size.length, part.size.width, part.size.thickness]);
    let mut lines =
        vec![format!("{}, {size} {}, between shoulders and ends", part.material.name(), lengths.unit())];
    lines.extend(lengths.note());
    if part.id.side == Side::Right {
        lines.push("Drawn for the right of the chair; for the left turn the template over.".to_owned());
    }
    let (solid, hidden) = ("Full thin lines: cut from this face.", "Dashed: from another face.");
    if chair.joints.iter().any(|joint| joint.host == part.id) {
        lines.push(format!("{solid} {hidden}"));
    }
    lines
}

/// From where a part in its chair is looked at, by the axis that is nearest to the line of sight.
pub(super) fn seen_from(toward: Vec3) -> &'static str {
    let sides = [
        (toward.x, "seen from the right"),
        (-toward.x, "seen from the left"),
        (-toward.y, "seen from the front"),
        (toward.y, "seen from the back"),
        (toward.z, "seen from above"),
        (-toward.z, "seen from below"),
    ];
    sides.into_iter().fold(sides[0], |best, side| if side.0 > best.0 { side } else { best }).1
}
