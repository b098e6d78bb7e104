//! Whether a solid seat can swell and shrink with the seasons, and whether cord has room on its rails.

use crate::chair::Chair;
use crate::finding::{AtLeast, Finding, Topic, Verdict};
use crate::material::Material;
use crate::part::{Part, Role, Side};
use crate::seating::{BOARD_CLEAR, MOISTURE, button};
use crestrail_geometry::{Body, Vec3};
use crestrail_timber::Species;

const SOURCE: &str = "Wood Handbook (FPL-GTR-190), Eq. 13-2 and Table 13-5: change = size × coefficient × change of moisture, here tangential, the greater; moisture from 6 % (30 % relative humidity) to 12 % (65 %), Eq. 4-5; the board may have been made at either. The play: common practice, no source";

/// What is found about a board or a weave; nothing about other seats.
pub(super) fn findings(chair: &Chair) -> Vec<Finding> {
    board(chair).into_iter().chain(cord(chair)).collect()
}

/// How the board moves on its buttons and beside the legs.
fn board(chair: &Chair) -> Vec<Finding> {
    let board = chair.parts.iter().find(|p| p.id.role == Role::SeatBoard);
    let board = board.and_then(|part| Some((part, part.material.species()?)));
    let Some((part, species)) = board else { return Vec::new() };
    let fixed = fixed_at(chair, part);
    let buttons = chair.parts.iter().filter(|p| p.id.role == Role::Button);
    let buttons = buttons.map(|b| part.place.local_point(b.place.origin).y - fixed);
    let notches = notches(part).into_iter().map(|y| y - fixed);
    let board = Board { part, species };
    [
        farthest(buttons).map(|d| board.finding("seat board on its buttons", d, button::MOVES)),
        farthest(notches).map(|d| board.finding("seat board beside the legs", d, BOARD_CLEAR)),
    ]
    .into_iter()
    .flatten()
    .collect()
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

struct Board<'a> {
    part: &'a Part,
    species: &'static Species,
}

impl Board<'_> {
    /// Change of a distance across the grain between the driest and the dampest, mm.
    fn moves(&self, distance: f64) -> f64 {
        distance * self.species.movement.tangential * (MOISTURE.1 - MOISTURE.0)
    }

    fn finding(&self, subject: &str, distance: f64, play: f64) -> Finding {
        let value = self.moves(distance);
        let limit = AtLeast { sound: 1.0, close: 0.8 };
        let room = play / value.max(1e-9);
        let whole = self.moves(self.part.size.width);
        let say = format!(
            "Over a year the seat board of {}, {:.0} mm across the grain, changes its depth by up to {whole:.1} mm. Here it moves by up to {value:.1} mm and has {play:.0} mm of room.",
            self.species.name, self.part.size.width
        );
        Finding {
            subject: subject.to_owned(),
            topic: Topic::Movement,
            plain: String::new(),
            knob: Some("seat_depth"),
            say,
            value,
            limit: play,
            unit: "mm",
            verdict: limit.verdict(room),
            used: value / play,
            source: SOURCE,
        }
    }
}

/// Whether the rails lie so far behind the faces of the legs that the cord on them does not stand out.
fn cord(chair: &Chair) -> Option<Finding> {
    let thickness = chair.parts.iter().find_map(|part| match part.material {
        Material::Cord { thickness, .. } => Some(thickness),
        _ => None,
    })?;
    let outer = [(Role::FrontRail, -Vec3::Y), (Role::SideRail, Vec3::X)];
    let value =
        outer.into_iter().filter_map(|(role, out)| set_back(chair, role, out)).min_by(f64::total_cmp)?;
    let limit = AtLeast { sound: thickness - LEVEL, close: 0.0 };
    let say = match limit.verdict(value) {
        Verdict::Sound => {
            format!("The rails lie {value:.1} mm behind the legs; cord of {thickness} mm does not stand out.")
        }
        _ => format!(
            "The rails lie {value:.1} mm behind the legs; cord of {thickness} mm stands out from the legs' faces by {:.1} mm.",
            thickness - value
        ),
    };
    Some(Finding {
        subject: "cord round the rails".to_owned(),
        topic: Topic::Movement,
        plain: String::new(),
        knob: Some("set_back"),
        say,
        value,
        limit: thickness,
        unit: "mm",
        verdict: limit.verdict(value),
        used: limit.used(value),
        source: "common practice, no source",
    })
}

/// Sizes are compared to this, mm.
const LEVEL: f64 = 1e-6;

/// How far from the shoulder leg and rail are measured, so that a slanting rail stays beside them, mm.
const INSIDE: f64 = 5.0;

/// How far the outer face of a rail lies behind the face of the front leg that it joins, mm.
fn set_back(chair: &Chair, role: Role, out: Vec3) -> Option<f64> {
    let joint = chair.joints.iter().find(|j| {
        j.guest.role == role
            && j.guest.side != Side::Left
            && j.host.role == Role::FrontLeg
            && j.host.number == 1
    })?;
    let (rail, leg) = (chair.part(joint.guest)?, chair.part(joint.host)?);
    let (mouth, inside) = (joint.mouth.origin, joint.mouth.x * INSIDE);
    let face = leg.exit(mouth + inside, out)?.distance;
    Some(face - rail.exit(mouth - inside, out)?.distance)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::joints::Bench;
    use serde_json::json;

    fn chair(values: serde_json::Value) -> Chair {
        Chair::resolve(&Design::from_value(&values).unwrap(), &Bench::default()).unwrap()
    }

    /// By the handbook's formula: 200 mm of American beech, 0.00431 for 1 %, 6 %: 5.172 mm.
    #[test]
    fn movement_by_hand() {
        let beech = crestrail_timber::species("beech_american").unwrap();
        let chair = chair(json!({"seat": "board"}));
        let part = chair.parts.iter().find(|p| p.id.role == Role::SeatBoard).unwrap();
        assert!((Board { part, species: beech }.moves(200.0) - 5.172).abs() < 1e-9);
        assert!(part.place.y.y > 0.99, "the grain runs from side to side");
    }

    /// Two findings where legs stand in notches, one without a back, none without a board.
    #[test]
    fn a_board_is_judged_and_nothing_else() {
        assert_eq!(findings(&chair(json!({"seat": "board"}))).len(), 2);
        assert_eq!(findings(&chair(json!({"family": "stool", "seat": "board"}))).len(), 1);
        assert!(findings(&chair(json!({"seat": "across"}))).is_empty());
    }

    /// Teak hardly moves; beech on a deep seat moves more than the room beside the legs.
    #[test]
    fn the_timber_and_the_depth_decide() {
        let worst = |species: &str, depth: f64| {
            let found = findings(&chair(json!({"seat": "board", "species": species, "seat_depth": depth})));
            found.into_iter().map(|f| f.used).fold(0.0, f64::max)
        };
        let (teak, beech) = (worst("teak", 446.0), worst("beech_american", 446.0));
        assert!(teak < beech && beech < worst("beech_american", 540.0));
        let verdicts =
            |species| findings(&chair(json!({"seat": "board", "species": species, "seat_depth": 540})));
        assert!(verdicts("teak").iter().all(|f| f.verdict == Verdict::Sound));
        assert!(verdicts("beech_american").iter().any(|f| f.verdict != Verdict::Sound));
    }

    /// Cord stands out by as much as it is thicker than the rails are set back.
    #[test]
    fn thick_cord_on_flush_rails_stands_out() {
        for (set_back, thickness, verdict) in
            [(4.0, 4.0, Verdict::Sound), (2.0, 3.0, Verdict::Close), (5.0, 6.0, Verdict::Close)]
        {
            let found = findings(&chair(json!({"seat": "cord", "set_back": set_back, "cord": thickness})));
            assert_eq!(found.len(), 1);
            assert!((found[0].value - set_back).abs() < 0.5, "{}", found[0].say);
            assert_eq!(found[0].verdict, verdict, "{}", found[0].say);
        }
    }
}
