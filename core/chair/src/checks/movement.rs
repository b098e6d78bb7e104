//! What the seasons do to wood that swells and shrinks across its grain: the board of the seat, gaps between slats and laths, panels in
//! their grooves, and wide tenons in legs, which do not move along theirs.

mod gaps;

use crate::chair::Chair;
use crate::climate::{Change, Climate};
use crate::finding::{About, AtLeast, AtMost, Finding, Topic, Verdict};
use crate::housing::Cut;
use crate::joint::{Kind, Tongue};
use crate::joints::rules;
use crate::part::{Part, Role, Side};
use crate::seating::{BOARD_CLEAR, button};
use crestrail_geometry::Body;
use crestrail_phrases::{phrase, say, word};
use crestrail_timber::{OutOfRange, Species};

const SOURCE: &str = phrase(
    "Wood Handbook (FPL-GTR-190), Eq. 13-2 and 13-3 with Tables 4-3 and 13-5, tangential, the greater; moisture by Eq. 4-5. The humidity of the place and the play: common practice, no source",
);
const TENON_SOURCE: &str = phrase(
    "Wood Handbook (FPL-GTR-190), Eq. 13-2 and 13-3; the limit is derived here from tenons of 75 to 100 mm in a heated house (common practice, no source)",
);

/// The room a moving part must have, as a multiple of what it moves.
const ROOM: AtLeast = AtLeast { sound: 1.0, close: 0.8 };

/// How much of a panel must stay in its groove at each side, mm (common practice, no source).
const HOLD: f64 = 2.0;

/// What a glued tenon may move in its leg, mm: widths of 75 and 100 mm, as for joints, of flatsawn red oak (0.00369) for 3 %, half of a heated house's year.
const TENON: AtMost =
    AtMost { sound: rules::TWIN_FROM * 0.003_69 * 3.0, close: rules::WIDEST_TENON * 0.003_69 * 3.0 };

/// What is found about all that moves; nothing about chairs in which nothing does.
pub(super) fn findings(chair: &Chair, climate: &Climate) -> Vec<Finding> {
    all(chair, climate).unwrap_or_else(|outside| vec![not_worked_out(&outside)])
}

fn all(chair: &Chair, climate: &Climate) -> Result<Vec<Finding>, OutOfRange> {
    let mut found = board(chair, climate)?;
    found.extend(gaps::findings(chair, climate)?);
    found.extend(panel(chair, climate)?);
    found.extend(tenon(chair, climate)?);
    Ok(found)
}

/// Wood so damp or so dry that no equation is known for it is no reason to be silent.
fn not_worked_out(outside: &OutOfRange) -> Finding {
    Finding {
        verdict: Verdict::Fails,
        used: 100.0,
        ..finding(
            phrase("movement of the wood"),
            say!("It cannot be worked out: {outside}"),
            0.0,
            0.0,
            Some("made_at"),
        )
    }
}

/// How the board moves on its buttons and beside the legs.
fn board(chair: &Chair, climate: &Climate) -> Result<Vec<Finding>, OutOfRange> {
    let Some((part, species)) = timber_of(chair, Role::SeatBoard).next() else { return Ok(Vec::new()) };
    let fixed = fixed_at(chair, part);
    let buttons = chair.parts.iter().filter(|p| p.id.role == Role::Button);
    let buttons = buttons.map(|b| part.place.local_point(b.place.origin).y - fixed);
    let notches = notches(part).into_iter().map(|y| y - fixed);
    let found = |subject: &'static str, far: Option<f64>, play: f64| -> Result<_, OutOfRange> {
        let Some(far) = far else { return Ok(None) };
        let change = climate.change(species, far)?;
        let whole = climate.change(species, part.size.width)?;
        let say = say!(
            "The seat board of {}, {:.0} mm across the grain, {}. Here it moves by up to {:.1} mm either way and has {play:.0} mm of room.",
            word(species.name),
            part.size.width,
            over_the_year(whole),
            change.most()
        );
        Ok(Some(finding(subject, say, change.most(), play, Some("seat_depth"))))
    };
    let both = [
        found(phrase("seat board on its buttons"), farthest(buttons), button::MOVES),
        found(phrase("seat board beside the legs"), farthest(notches), BOARD_CLEAR),
    ];
    both.into_iter().filter_map(Result::transpose).collect()
}

/// Whether the widest panel has room to swell in the grooves of its stiles and stays in them when it shrinks.
fn panel(chair: &Chair, climate: &Climate) -> Result<Option<Finding>, OutOfRange> {
    let each = timber_of(chair, Role::Panel).filter(|(part, _)| part.id.side != Side::Left);
    let worst = each.max_by(|(a, _), (b, _)| a.size.width.total_cmp(&b.size.width));
    let Some((part, species)) = worst else { return Ok(None) };
    let of_rail = |role| matches!(role, Role::LowerBackRail | Role::CrestRail);
    let groove =
        chair.housings.iter().find(|h| h.guest == part.id && h.cut == Cut::Groove && of_rail(h.host.role));
    let Some(groove) = groove else { return Ok(None) };
    let change = climate.change(species, part.size.width)?;
    let swells = groove.length - part.size.width;
    let shrinks = 2.0 * (groove.depth - HOLD) - swells;
    let (moves, room) = if change.damp * shrinks >= -change.dry * swells {
        (change.damp, swells)
    } else {
        (-change.dry, shrinks)
    };
    let say = say!(
        "The panel of {}, {:.0} mm wide, {}; it has {swells:.1} mm to swell and stays in its grooves until it is {shrinks:.1} mm narrower. Glue it nowhere but in the middle.",
        word(species.name),
        part.size.width,
        over_the_year(change)
    );
    Ok(Some(finding(phrase("panel in its grooves"), say, moves.max(0.0), room, Some("fill_thickness"))))
}

/// The glued tenon that moves most in its leg.
fn tenon(chair: &Chair, climate: &Climate) -> Result<Option<Finding>, OutOfRange> {
    let glued = chair.joints.iter().filter(|joint| joint.kind != Kind::Dowels && joint.is_right());
    let moves = glued.filter_map(|joint| {
        let species = chair.part(joint.guest)?.material.species()?;
        let width = joint.tenon.tongues.iter().map(Tongue::width).max_by(f64::total_cmp)?;
        Some(climate.change(species, width).map(|change| (joint, width, species, change)))
    });
    let each = moves.collect::<Result<Vec<_>, _>>()?;
    let worst = each.into_iter().max_by(|a, b| a.3.most().total_cmp(&b.3.most()));
    let Some((joint, width, species, change)) = worst else { return Ok(None) };
    let name = say!("{} in {}", joint.guest.role.name(), joint.host.role.name());
    let value = change.most();
    let say = say!(
        "The widest tenon, {width:.0} mm of {}, {}; the leg beside it does not.",
        word(species.name),
        over_the_year(change)
    );
    Ok(Some(Finding {
        subject: name,
        about: About::Joint(joint.guest.role, joint.host.role),
        verdict: TENON.verdict(value),
        used: TENON.used(value),
        limit: TENON.sound,
        source: TENON_SOURCE,
        ..finding("", say, value, TENON.sound, width_of(joint.guest.role))
    }))
}

/// The knob of a part's width.
fn width_of(role: Role) -> Option<&'static str> {
    match role {
        Role::FrontRail | Role::SideRail | Role::BackRail => Some("rail_width"),
        Role::LowerBackRail | Role::CrestRail => Some("back_rail_width"),
        Role::BackSlat => Some("back_fill"),
        _ => None,
    }
}

fn over_the_year(change: Change) -> String {
    let part = |mm: f64| match mm {
        mm if mm >= 0.05 => say!("grows by {mm:.1} mm"),
        mm if mm <= -0.05 => say!("shrinks by {:.1} mm", -mm),
        _ => say!("stays as it was made"),
    };
    say!("{} in the driest weeks and {} in the dampest", part(change.dry), part(change.damp))
}

fn finding(subject: &'static str, say: String, moves: f64, room: f64, knob: Option<&'static str>) -> Finding {
    let verdict: Verdict = ROOM.verdict(room / moves.max(1e-9));
    Finding {
        subject: word(subject).to_owned(),
        topic: Topic::Movement,
        about: About::Chair,
        plain: String::new(),
        knob,
        say,
        value: moves,
        limit: room,
        unit: "mm",
        verdict,
        used: moves / room.max(moves / 100.0).max(1e-9),
        source: SOURCE,
    }
}

fn timber_of(chair: &Chair, role: Role) -> impl Iterator<Item = (&Part, &'static Species)> {
    let parts = chair.parts.iter().filter(move |part| part.id.role == role);
    parts.filter_map(|part| Some((part, part.material.species()?)))
}

fn farthest(distances: impl Iterator<Item = f64>) -> Option<f64> {
    distances.map(f64::abs).max_by(f64::total_cmp)
}

/// Where the tight buttons of the side rails hold the board: in its own frame, across its grain.
fn fixed_at(chair: &Chair, board: &Part) -> f64 {
    let tight = chair.housings.iter().filter(|h| h.host.role == Role::SideRail);
    let tight = tight.filter_map(|h| chair.part(h.guest)).find(|p| p.id.role == Role::Button);
    tight.map_or(0.0, |p| board.place.local_point(p.place.origin).y)
}

/// Edges along the grain that are no outer edge: the ends of notches, in the board's frame.
fn notches(board: &Part) -> Vec<f64> {
    let Body::Prism(prism) = &board.stock else { return Vec::new() };
    let half = board.size.width / 2.0 - 1e-6;
    let pairs = prism.outline.iter().zip(prism.outline.iter().cycle().skip(1));
    pairs.filter(|(a, b)| (a.y - b.y).abs() < 1e-6 && a.y.abs() < half).map(|(a, _)| a.y).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::choices::Stands;
    use crate::design::Design;
    use crate::joints::Bench;
    use crate::report::service;
    use serde_json::{Value, json};

    pub(super) fn of(values: Value) -> Vec<Finding> {
        let design = Design::from_value(&values).unwrap();
        let chair = Chair::resolve(&design, &Bench::default()).unwrap();
        findings(&chair, &service(&design).climate)
    }

    pub(super) fn named(values: Value, subject: &str) -> Finding {
        of(values).into_iter().find(|f| f.subject == subject).unwrap_or_else(|| panic!("no {subject}"))
    }

    /// All places lie within the range of the equation, and the dampest is the last word of the handbook's map plus the tropics.
    #[test]
    fn the_places() {
        for (stands, dry, damp) in [
            (Stands::House, 6.2, 12.0),
            (Stands::Even, 8.5, 11.0),
            (Stands::Damp, 9.2, 16.0),
            (Stands::Dry, 3.6, 8.5),
        ] {
            let climate = Climate::of(stands.humidity(), 9.0);
            assert!((climate.dry - dry).abs() < 0.25 && (climate.damp - damp).abs() < 0.25, "{climate:?}");
        }
    }

    /// Two findings where legs stand in notches, one without a back, none without a board; each beside the widest tenon.
    #[test]
    fn a_board_is_judged_and_nothing_else() {
        let boards = |values| of(values).iter().filter(|f| f.subject.contains("board")).count();
        assert_eq!(boards(json!({"seat": "board"})), 2);
        assert_eq!(boards(json!({"family": "stool", "seat": "board"})), 1);
        assert_eq!(boards(json!({"seat": "across"})), 0);
    }

    /// A board made dry and taken to a damp place has no room left: its wood is trapped. In an even room it is sound.
    #[test]
    fn the_place_and_the_making_decide() {
        let board = |stands: &str, made: f64| {
            let values = json!({"seat": "board", "species": "beech_american", "seat_depth": 500, "stands": stands, "made_at": made});
            named(values, phrase("seat board on its buttons"))
        };
        assert_eq!(board("damp", 6.0).verdict, Verdict::Fails);
        assert_eq!(board("even", 9.5).verdict, Verdict::Sound);
        assert!(board("damp", 12.0).value < board("damp", 6.0).value);
        assert!(board("damp", 6.0).say.contains("grows by"), "{}", board("damp", 6.0).say);
    }

    #[test]
    fn a_panel_stays_in_its_grooves_or_does_not() {
        let panel = |family: &str, stands: &str, made: f64| {
            named(
                json!({"family": family, "back": "panel", "stands": stands, "made_at": made, "species": "beech_american"}),
                phrase("panel in its grooves"),
            )
        };
        assert_eq!(panel("side_chair", "house", 9.0).verdict, Verdict::Sound);
        assert!(
            panel("side_chair", "damp", 6.0).say.contains("6.0 mm to swell"),
            "{}",
            panel("side_chair", "damp", 6.0).say
        );
        assert!(panel("side_chair", "damp", 5.0).used > panel("side_chair", "house", 9.0).used);
        // Made damp and taken to dry air it shrinks, and that is what counts.
        let dry = panel("side_chair", "dry", 16.0);
        assert!((dry.limit - 10.0).abs() < 1e-6, "{}", dry.say);
    }

    /// Wood damper than any equation knows is told, not passed over.
    #[test]
    fn what_cannot_be_worked_out_is_told() {
        let chair = Chair::resolve(&Design::from_value(&json!({})).unwrap(), &Bench::default()).unwrap();
        let found = findings(&chair, &Climate { dry: 6.0, damp: 12.0, made: 80.0 });
        assert_eq!((found.len(), found[0].verdict), (1, Verdict::Fails));
        assert!(found[0].say.contains("moisture is 80 %"), "{}", found[0].say);
    }

    /// A high rail's tenon moves more than a low one's, and a twin tenon as one of its tongues.
    #[test]
    fn wide_tenons_move() {
        let tenon = |values: Value| of(values).into_iter().find(|f| f.source == TENON_SOURCE).unwrap();
        let (low, high) =
            (tenon(json!({"rail_width": 60})), tenon(json!({"rail_width": 110, "rail_joint": "blind"})));
        assert!(high.value > low.value, "{} {}", low.say, high.say);
        let damp = tenon(
            json!({"rail_width": 110, "rail_joint": "blind", "stands": "damp", "made_at": 5, "species": "beech_american"}),
        );
        assert_eq!(damp.verdict, Verdict::Fails, "{}", damp.say);
        let twin = tenon(json!({"rail_width": 110, "rail_joint": "twin"}));
        assert!(twin.value < high.value, "{} {}", twin.say, high.say);
    }
}
