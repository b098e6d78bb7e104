//! Openings that could trap a finger.

use crate::chair::Chair;
use crate::climate::{Change, Climate};
use crate::finding::{About, Finding, Topic, Verdict};
use crate::part::{Part, Role};
use crestrail_geometry::Vec3;
use crestrail_phrases::{phrase, say, word};

/// Openings from 7 to 12 mm trap fingers unless they are shallower than 10 mm.
const TRAP: core::ops::Range<f64> = 7.0..12.0;
const SHALLOW: f64 = 10.0;
const SOURCE: &str = phrase(
    "extract of EN 12520 on finger traps (written for openings in rigid parts; taken here for the gaps of a seat and of laths)",
);

/// A gap is one only where slats lie beside each other for more than this, mm.
const BESIDE: f64 = 1.0;

/// Pieces with gaps that fingers reach.
struct Row {
    role: Role,
    subject: &'static str,
    /// Whose gaps, in a sentence.
    whose: &'static str,
    /// The knob that makes them wider.
    knob: &'static str,
}

const ROWS: [Row; 2] = [
    Row {
        role: Role::SeatSlat,
        subject: phrase("gaps between seat slats"),
        whose: phrase("the seat"),
        knob: "seat_slat_gap",
    },
    Row {
        role: Role::Lath,
        subject: phrase("gaps between laths"),
        whose: phrase("the laths"),
        knob: "laths",
    },
];

/// The gaps between the slats of the seat, whichever way they run, and between the laths of the back, over the year.
pub(super) fn findings(chair: &Chair, climate: &Climate) -> Vec<Finding> {
    ROWS.iter().filter_map(|row| of(row, chair, climate)).collect()
}

fn of(row: &Row, chair: &Chair, climate: &Climate) -> Option<Finding> {
    let pieces: Vec<&Part> = chair.parts.iter().filter(|p| p.id.role == row.role).collect();
    let moves = most(&pieces, climate);
    let year = |made| Year { made, narrow: made - moves.damp.max(0.0), wide: made - moves.dry.min(0.0) };
    let worst = gaps(&pieces).into_iter().map(year).max_by(|a, b| a.nearness().total_cmp(&b.nearness()))?;
    Some(finding(row, worst, pieces.iter().map(|p| p.size.thickness).fold(0.0, f64::max)))
}

/// How the widest piece moves over the year; wood that no equation is known for is told among what moves, and here its
/// gaps stay as they were made.
fn most(pieces: &[&Part], climate: &Climate) -> Change {
    let each = pieces.iter().filter_map(|p| climate.change(p.material.species()?, p.size.width).ok());
    each.max_by(|a, b| a.most().total_cmp(&b.most())).unwrap_or(Change { dry: 0.0, damp: 0.0 })
}

/// A gap over the year, mm: its neighbours are held in their middles, so it takes what one piece swells or shrinks.
#[derive(Clone, Copy)]
struct Year {
    made: f64,
    narrow: f64,
    wide: f64,
}

impl Year {
    /// The width of the year that is nearest to the middle of the trapping range.
    fn worst(self) -> f64 {
        ((TRAP.start + TRAP.end) / 2.0).clamp(self.narrow, self.wide)
    }

    /// Larger the nearer that width is to the middle of the range.
    fn nearness(self) -> f64 {
        -(self.worst() - (TRAP.start + TRAP.end) / 2.0).abs()
    }
}

/// Between each slat and the next beside it.
pub(super) fn gaps(slats: &[&Part]) -> Vec<f64> {
    let Some(first) = slats.first() else { return Vec::new() };
    let (along, across) = (first.place.x, first.place.y);
    let strips: Vec<Strip> = slats.iter().map(|slat| Strip::of(slat, along, across)).collect();
    let next = |one: &Strip| {
        let beyond = |other: &&Strip| other.across.0 >= one.across.1 - BESIDE && one.lies_beside(other);
        let gap = |other: &Strip| other.across.0 - one.across.1;
        strips.iter().filter(beyond).map(gap).min_by(f64::total_cmp)
    };
    strips.iter().filter_map(next).collect()
}

/// Where a slat lies, measured along and across all of them.
struct Strip {
    along: (f64, f64),
    across: (f64, f64),
}

impl Strip {
    fn of(slat: &Part, along: Vec3, across: Vec3) -> Self {
        let middle = slat.place.origin;
        let range = |axis: Vec3, from: f64, to: f64| (middle.dot(axis) + from, middle.dot(axis) + to);
        let half = slat.size.length / 2.0;
        // What stays of the width at the ends of a sawn piece; the frame of a left one may be turned.
        let [low, high] = slat.core;
        let (from, to) = if slat.place.y.dot(across) < 0.0 { (-high, -low) } else { (low, high) };
        Self { along: range(along, -half, half), across: range(across, from, to) }
    }

    fn lies_beside(&self, other: &Self) -> bool {
        self.along.1.min(other.along.1) - self.along.0.max(other.along.0) > BESIDE
    }
}

fn finding(row: &Row, year: Year, depth: f64) -> Finding {
    let traps = TRAP.contains(&year.worst()) && depth >= SHALLOW;
    let (Year { made, narrow, wide }, whose) = (year, word(row.whose));
    let say = if traps {
        say!(
            "The gaps of {whose} are {made:.1} mm wide as made, {narrow:.1} to {wide:.1} mm over the year; openings from 7 to 12 mm can trap a finger."
        )
    } else if depth < SHALLOW {
        say!(
            "The gaps of {whose} are {made:.1} mm wide as made, {narrow:.1} to {wide:.1} mm over the year; openings less than {SHALLOW:.0} mm deep trap no finger."
        )
    } else {
        say!(
            "The gaps of {whose} are {made:.1} mm wide as made, {narrow:.1} to {wide:.1} mm over the year, outside the 7 to 12 mm that can trap a finger."
        )
    };
    let (verdict, used) = if traps { (Verdict::Close, 1.05) } else { (Verdict::Sound, 0.5) };
    Finding {
        subject: word(row.subject).to_owned(),
        topic: Topic::Safety,
        about: About::Part(row.role),
        plain: String::new(),
        knob: Some(row.knob),
        say,
        value: year.worst(),
        limit: TRAP.start,
        unit: "mm",
        verdict,
        used,
        source: SOURCE,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::joints::Bench;
    use crate::report::service;
    use serde_json::{Value, json};

    fn found(values: &Value) -> Vec<Finding> {
        let design = Design::from_value(values).unwrap();
        let chair = Chair::resolve(&design, &Bench::default()).unwrap();
        findings(&chair, &service(&design).climate)
    }

    fn seat(seat: &str, gap: f64, stands: &str) -> Finding {
        found(&json!({"seat": seat, "seat_slat_gap": gap, "stands": stands})).swap_remove(0)
    }

    #[test]
    fn gaps_are_those_of_the_knob_both_ways() {
        for way in ["across", "lengthwise"] {
            for (gap, verdict) in [(5.0, Verdict::Sound), (9.5, Verdict::Close), (14.0, Verdict::Sound)] {
                let found = seat(way, gap, "house");
                assert!(found.say.contains(&format!("{gap:.1} mm wide as made")), "{}", found.say);
                assert_eq!(found.verdict, verdict, "{way} {gap}: {}", found.say);
            }
        }
        assert!(found(&json!({"seat": "board"})).is_empty());
    }

    /// A gap a little wider than what traps swells into it in a damp place: a slat of about 58 mm of white ash (0.00274 for
    /// 1 %) taken from 9 to 16 % grows by 1.1 mm.
    #[test]
    fn the_damp_narrows_a_gap_into_a_trap() {
        assert_eq!(seat("across", 12.5, "even").verdict, Verdict::Sound);
        let damp = seat("across", 12.5, "damp");
        assert_eq!(damp.verdict, Verdict::Close, "{}", damp.say);
        assert!(damp.value < 12.0 && damp.value > 11.0, "{}", damp.say);
    }

    /// And one a little narrower shrinks open in a dry one.
    #[test]
    fn the_dry_opens_a_gap_into_a_trap() {
        assert_eq!(seat("across", 6.5, "even").verdict, Verdict::Sound);
        assert_eq!(seat("across", 6.5, "dry").verdict, Verdict::Close);
    }

    #[test]
    fn laths_are_looked_at_too() {
        let found = found(&json!({"back": "laths", "seat": "board"}));
        assert_eq!(found.len(), 1);
        assert_eq!((found[0].subject.as_str(), found[0].verdict), ("gaps between laths", Verdict::Sound));
    }
}
