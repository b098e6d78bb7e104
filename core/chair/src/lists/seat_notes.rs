//! What the cutting list says about a seat and what is cut for it.

use crate::chair::Chair;
use crate::housing::{Cut, Housing};
use crate::material::Material;
use crate::part::{Part, Role};
use crestrail_geometry::Vec3;
use crestrail_phrases::{say, word};

/// How the grain of a part runs.
pub(super) fn grain(part: &Part) -> &'static str {
    match (part.id.role, part.material) {
        (Role::SeatBoard, _) => word("from side to side"),
        (_, Material::Timber(_)) => word("along the length"),
        (_, Material::Plywood) => word("any way; outer plies along the longer side"),
        (_, Material::Padding | Material::Cord { .. }) => word("none"),
    }
}

/// Notes on a part of a seat, and on a rail that carries one.
pub(super) fn seat_notes(chair: &Chair, part: &Part) -> Vec<String> {
    match part.id.role {
        Role::SeatBoard => vec![
            word("glued up from several boards, grain from side to side; notched round what stands through it; held by buttons, never glued to the rails").to_owned(),
        ],
        Role::Button => vec![
            word("tongue on the end of the grain; one screw up into the board").to_owned(),
        ],
        Role::Ledge => vec![word("screwed and glued inside the rail").to_owned()],
        Role::PadBoard => vec![word("sawn from a sheet, corners notched round the legs").to_owned()],
        Role::Pad => vec![word("foam glued on the pad board, cover turned under and tacked").to_owned()],
        Role::Cord => cord(part.material).into_iter().collect(),
        Role::FrontRail | Role::SideRail | Role::BackRail => rail(chair, part),
        _ => Vec::new(),
    }
}

fn cord(material: Material) -> Option<String> {
    let Material::Cord { thickness, length } = material else { return None };
    let metres = length / 1000.0;
    Some(say!(
        "about {metres:.0} m of cord {thickness} mm thick: over and under the opening and down the outer faces of the rails, a tenth more for crossings and ends; the size is that of the weave"
    ))
}

/// Radius to which the edges of a rail are rounded under cord, mm (common practice, no source).
const ROUNDED: f64 = 5.0;

fn rail(chair: &Chair, part: &Part) -> Vec<String> {
    let slots = chair.housings.iter().filter(|h| h.cut == Cut::Slot && h.host == part.id);
    let slots: Vec<&Housing> = slots.collect();
    let corded = chair.parts.iter().any(|p| p.id.role == Role::Cord);
    let rounded =
        corded.then(|| say!("round all four long edges to {ROUNDED} mm where the cord runs over them"));
    rounded.into_iter().chain(self::slots(chair, part, &slots)).collect()
}

/// Where the slots for buttons are, from the shoulder at the left end seen from inside.
fn slots(chair: &Chair, part: &Part, slots: &[&Housing]) -> Option<String> {
    let first = slots.first()?;
    let below = crate::seating::button::BELOW;
    let mut places: Vec<f64> = slots.iter().filter_map(|h| along(chair, part, h)).collect();
    places.sort_by(f64::total_cmp);
    let places: Vec<String> = places.iter().map(|at| format!("{at:.0}")).collect();
    Some(say!(
        "inside, {} for buttons: {:.1} mm long, {:.1} mm high, {:.0} mm deep, {below:.0} mm below the upper edge, middle {} mm from the shoulder in front or to the left as it stands in the chair",
        if slots.len() == 1 { say!("a slot") } else { say!("{} slots", slots.len()) },
        first.length,
        first.width,
        first.depth,
        places.join(word(" and "))
    ))
}

/// The middle of a button along its rail, from the shoulder at the smaller x of the rail, mm.
fn along(chair: &Chair, part: &Part, slot: &Housing) -> Option<f64> {
    let button = chair.part(slot.guest)?;
    let start = part.stock.exit(Vec3::ZERO, -Vec3::X)?.distance;
    Some(part.place.local_point(button.place.origin).x + start)
}
