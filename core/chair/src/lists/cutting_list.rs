//! The cutting list: one row for all parts that are made alike.

use super::mirror::is_own_mirror_image;
use super::seat_notes::{grain, seat_notes};
use super::{Allowances, Finished, Rough};
use crate::chair::{Chair, PartBody};
use crate::material::Material;
use crate::part::{Part, Role, Side};
use crestrail_geometry::Vec3;
use crestrail_phrases::word;
use crestrail_sorting::Order as _;
use crestrail_timber::{ThicknessSystem, TradeThickness, next_thickness};
use serde::Serialize;

/// All parts of one letter.
#[derive(Clone, Debug, Serialize)]
pub struct CuttingRow {
    /// Letter on the drawings and lists.
    pub letter: String,
    /// What a maker calls the part.
    pub part: &'static str,
    /// What it does.
    pub role: Role,
    /// How many.
    pub quantity: u32,
    /// Whether half of them are mirrored: left and right cannot change places.
    pub handed: bool,
    /// Size with the tenons in, mm.
    #[serde(flatten)]
    pub finished: Finished,
    /// Size to saw first, mm.
    pub rough: Rough,
    /// Name of the trade thickness it is sawn from; `None` where the trade has nothing so thick, and for pegs.
    pub trade: Option<&'static str>,
    /// Name of the timber or other material.
    pub timber: &'static str,
    /// How the grain runs.
    pub grain: &'static str,
    /// Volume of one part, its joints cut, mm³; the mean where parts of the letter differ a little.
    pub volume_mm3: f64,
    /// Mass of one part at 12 % moisture, kg.
    pub mass_kg: f64,
    /// What else the sawyer must know; may be empty.
    pub note: String,
    /// What it is made of.
    #[serde(skip)]
    pub material: Material,
    /// The trade thickness with its sizes.
    #[serde(skip)]
    pub trade_thickness: Option<TradeThickness>,
}

/// The cutting list of a chair: by role from the legs to the pegs, then by letter.
pub fn cutting_list(chair: &Chair, allowances: &Allowances, system: ThicknessSystem) -> Vec<CuttingRow> {
    letters(chair).into_iter().map(|group| row(chair, &group, allowances, system)).collect()
}

type Piece<'a> = (&'a Part, &'a PartBody);

fn letters(chair: &Chair) -> Vec<Vec<Piece<'_>>> {
    let mut groups: Vec<Vec<Piece<'_>>> = Vec::new();
    for piece in chair.pieces() {
        match groups.iter_mut().find(|g| g[0].0.letter == piece.0.letter) {
            Some(group) => group.push(piece),
            None => groups.push(vec![piece]),
        }
    }
    groups.order_by(|a, b| {
        let (a, b) = (a[0].0, b[0].0);
        let of = |part: &Part| (part.id.role, part.letter.len());
        of(a).cmp(&of(b)).then_with(|| a.letter.cmp(&b.letter))
    });
    groups
}

fn row(chair: &Chair, group: &[Piece<'_>], allowances: &Allowances, system: ThicknessSystem) -> CuttingRow {
    let part = group[0].0;
    let role = part.id.role;
    let finished = finished(group);
    let volume_mm3 = group.iter().map(|(_, body)| body.volume).sum::<f64>() / group.len() as f64;
    let rough = rough(part, finished, allowances);
    let buys_board = is_sawn(part);
    let trade_thickness = next_thickness(system, rough.thickness).filter(|_| buys_board);
    let handed = is_handed(group);
    CuttingRow {
        letter: part.letter.clone(),
        part: role.name(),
        role,
        quantity: u32::try_from(group.len()).unwrap_or(u32::MAX),
        handed,
        finished,
        rough,
        trade: trade_thickness.map(|t| t.name),
        timber: part.material.name(),
        grain: grain(part),
        volume_mm3,
        mass_kg: part.material.mass(volume_mm3),
        note: note(chair, part, handed, buys_board && trade_thickness.is_none()),
        material: part.material,
        trade_thickness,
    }
}

/// The box around the finished solid in the part's own frame is the stick that holds it: slanted shoulders
/// and mitred tenons included. Of parts that share a letter but differ a little, as pegs may, the largest counts.
/// A part sawn to an outline keeps the plank's thickness, however narrow it is.
fn finished(group: &[Piece<'_>]) -> Finished {
    let sizes = group.iter().map(|(_, body)| body.solid.bounds().size());
    let size = sizes.fold(Vec3::ZERO, |a, b| Vec3::new(a.x.max(b.x), a.y.max(b.y), a.z.max(b.z)));
    let turned = size.z > size.y && !group[0].0.sawn_to_outline;
    let (width, thickness) = if turned { (size.z, size.y) } else { (size.y, size.z) };
    Finished { length: size.x, width, thickness }
}

/// Whether such parts, where they are of timber, are sawn from boards: pegs and dowels come as rods, wedges from
/// offcuts.
pub(crate) fn is_sawn_from_board(role: Role) -> bool {
    !comes_as_rod(role) && role != Role::Wedge
}

/// Whether it is cut from a rod of its own section.
fn comes_as_rod(role: Role) -> bool {
    matches!(role, Role::Peg | Role::Dowel)
}

/// The only way from finished to rough. Pegs and dowels come as rods of their own section: pegs are sawn longer,
/// driven and then trimmed, dowels are cut to length (common practice, no source). Wedges are split from offcuts.
/// What is no timber is cut to size.
fn rough(part: &Part, finished: Finished, allowances: &Allowances) -> Rough {
    let Finished { length, width, thickness } = finished;
    let role = part.id.role;
    if part.material.species().is_none() || matches!(role, Role::Dowel | Role::Wedge) {
        return Rough { length, width, thickness };
    }
    let length = length + allowances.length;
    if part.id.role == Role::Peg {
        return Rough { length, width, thickness };
    }
    Rough { length, width: width + allowances.width, thickness: thickness + allowances.thickness }
}

/// Whether it is sawn from boards.
fn is_sawn(part: &Part) -> bool {
    is_sawn_from_board(part.id.role) && part.material.species().is_some()
}

fn is_handed(group: &[Piece<'_>]) -> bool {
    let stands = |side: Side| group.iter().any(|(part, _)| part.id.side == side);
    let twins = stands(Side::Left) && stands(Side::Right) && !group[0].0.id.role.is_small();
    twins && !is_own_mirror_image(&group[0].1.solid)
}

fn note(chair: &Chair, part: &Part, handed: bool, too_thick: bool) -> String {
    let mut notes: Vec<&str> = Vec::new();
    if part.sawn_to_outline {
        notes.push(word("sawn to outline from a plank"));
    }
    if handed {
        notes.push(word("left and right mirrored"));
    }
    match part.id.role {
        Role::Peg => notes.push(word("cut over length, driven, trimmed")),
        Role::Wedge => notes.push(word("split from an offcut, driven, trimmed")),
        Role::Dowel => notes.push(word("cut from dowel rod")),
        Role::LooseTenon => notes.push(word("edges rounded to the ends of the mortises")),
        _ => {}
    }
    if too_thick {
        notes.push(word("thicker than any trade size: order it specially or glue it up"));
    }
    let seat = seat_notes(chair, part);
    notes.extend(seat.iter().map(String::as_str));
    notes.join("; ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::joints::Bench;
    use crate::lists::sample::{ALLOWANCES, chair};

    fn rows() -> Vec<CuttingRow> {
        cutting_list(&chair(), &ALLOWANCES, ThicknessSystem::Continental)
    }

    #[test]
    fn rows_group_parts_by_letter() {
        let told: Vec<_> = rows().iter().map(|r| (r.letter.clone(), r.part, r.quantity)).collect();
        let named = |l: &str, p, q| (l.to_owned(), p, q);
        assert_eq!(
            told,
            [
                named("A", "front leg", 2),
                named("B", "back leg", 2),
                named("C", "front rail", 1),
                named("D", "seat slat", 3),
                named("E", "peg", 4)
            ]
        );
    }

    /// The rail is 380 mm between its shoulders and has a tenon of 30 mm at each end.
    #[test]
    fn tenons_lengthen_the_row() {
        let rail = &rows()[2];
        assert_eq!(rail.finished, Finished { length: 440.0, width: 64.0, thickness: 24.0 });
        assert_eq!(rail.rough, Rough { length: 470.0, width: 69.0, thickness: 28.0 });
        assert_eq!(rail.trade, Some("32 mm"));
    }

    /// 380 × 64 × 24 between shoulders and two tenons of 30 × 44 × 9 in ash at 672 kg/m³.
    #[test]
    fn volume_and_mass_are_of_one_part() {
        let rail = &rows()[2];
        let by_hand = 380.0 * 64.0 * 24.0 + 2.0 * 30.0 * 44.0 * 9.0;
        assert!((rail.volume_mm3 - by_hand).abs() < 1e-6);
        assert!((rail.mass_kg - by_hand * 672e-9).abs() < 1e-12);
    }

    #[test]
    fn notes_say_what_the_sawyer_must_know() {
        let rows = rows();
        assert_eq!((rows[0].handed, rows[0].note.as_str()), (false, ""));
        assert!(rows[1].handed);
        assert_eq!(rows[1].note, "sawn to outline from a plank; left and right mirrored");
        assert_eq!(rows[4].note, "cut over length, driven, trimmed");
        assert_eq!((rows[4].trade, rows[4].rough.width), (None, 6.0));
    }

    /// The back leg is 36 mm thick whatever the outline; the slat lies flat.
    #[test]
    fn thickness_is_that_of_the_plank() {
        let rows = rows();
        assert_eq!(rows[1].finished.thickness, 36.0);
        assert_eq!(rows[3].finished, Finished { length: 420.0, width: 55.0, thickness: 16.0 });
    }

    /// On a real chair: each part is in one row, and no row is shorter than its part between shoulders.
    #[test]
    fn every_part_of_the_default_chair_is_listed_once() {
        let chair = Chair::resolve(&Design::default(), &Bench::default()).expect("the default can be built");
        let rows = cutting_list(&chair, &ALLOWANCES, ThicknessSystem::Quarters);
        assert_eq!(rows.iter().map(|r| r.quantity as usize).sum::<usize>(), chair.parts.len());
        let mass: f64 = rows.iter().map(|r| f64::from(r.quantity) * r.mass_kg).sum();
        let volume: f64 = chair.bodies.iter().map(|b| b.volume).sum();
        assert!((mass - chair.parts[0].material.mass(volume)).abs() < 1e-9);
        for (part, _) in chair.pieces() {
            let row = rows.iter().find(|r| r.letter == part.letter).expect("a row");
            assert!(row.finished.length > part.size.length - 1e-6, "{}", part.id);
            assert!((row.finished.thickness - part.size.thickness).abs() < 1e-6, "{}", part.id);
            assert!(
                row.volume_mm3 < row.finished.length * row.finished.width * row.finished.thickness + 1e-6
            );
        }
    }

    /// Tenons of the front rail of the default chair enter both legs; the list adds both.
    #[test]
    fn tenons_of_the_default_chair_lengthen_their_rows() {
        let chair = Chair::resolve(&Design::default(), &Bench::default()).expect("the default can be built");
        let rows = cutting_list(&chair, &ALLOWANCES, ThicknessSystem::Quarters);
        let rail = rows.iter().find(|r| r.role == Role::FrontRail).expect("a front rail");
        let part = chair.parts.iter().find(|p| p.id.role == Role::FrontRail).expect("a front rail");
        let tenons: f64 = chair.joints.iter().filter(|j| j.guest == part.id).map(|j| j.tenon.length).sum();
        assert!((rail.finished.length - part.size.length - tenons).abs() < 1e-6);
    }

    #[test]
    fn what_no_trade_thickness_holds_is_said() {
        let huge = Allowances { thickness: 90.0, ..ALLOWANCES };
        let leg = &cutting_list(&chair(), &huge, ThicknessSystem::Continental)[0];
        assert_eq!(leg.trade, None);
        assert!(leg.note.contains("glue it up"));
    }

    fn seat_rows(seat: &str) -> Vec<CuttingRow> {
        let design = Design::from_value(&serde_json::json!({ "seat": seat })).expect("a design");
        let chair = Chair::resolve(&design, &Bench::default()).expect("it can be built");
        cutting_list(&chair, &ALLOWANCES, ThicknessSystem::Continental)
    }

    fn row_of(rows: &[CuttingRow], role: Role) -> &CuttingRow {
        rows.iter().find(|r| r.role == role).expect("a row")
    }

    #[test]
    fn seats_tell_the_maker_what_to_cut() {
        let board = seat_rows("board");
        let row = row_of(&board, Role::SeatBoard);
        assert_eq!((row.grain, row.trade), ("from side to side", Some("20 mm")));
        assert!(row.note.starts_with("glued up from several boards"));
        let rail = row_of(&board, Role::FrontRail);
        assert!(
            rail.note.contains("2 slots for buttons: 24.6 mm long, 6.6 mm high, 12 mm deep"),
            "{}",
            rail.note
        );
        let cord = seat_rows("cord");
        assert!(row_of(&cord, Role::SideRail).note.contains("round all four long edges"));
        assert!(row_of(&cord, Role::Cord).note.contains("m of cord 4 mm thick"));
        assert!(row_of(&seat_rows("across"), Role::SideRail).note.find("round").is_none());
    }

    /// Plywood, padding and cord are cut to size and not bought as boards.
    #[test]
    fn other_materials_are_not_sawn_from_boards() {
        for (seat, role, material) in [
            ("pad", Role::PadBoard, "plywood"),
            ("pad", Role::Pad, "foam and cover"),
            ("cord", Role::Cord, "cord"),
        ] {
            let rows = seat_rows(seat);
            let row = row_of(&rows, role);
            assert_eq!((row.timber, row.trade), (material, None));
            assert_eq!(row.rough.width, row.finished.width);
            assert!(!row.note.contains("thicker than any trade size"));
        }
    }
}
