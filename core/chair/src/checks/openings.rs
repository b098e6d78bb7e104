//! Openings that could trap a finger.

use crate::chair::Chair;
use crate::finding::{Finding, Topic, Verdict};
use crate::part::{Part, Role};
use crestrail_geometry::Vec3;

/// Openings from 7 to 12 mm trap fingers unless they are shallower than 10 mm.
const TRAP: core::ops::Range<f64> = 7.0..12.0;
const SHALLOW: f64 = 10.0;
const SOURCE: &str = "extract of EN 12520 on finger traps (written for openings in rigid parts; taken here for the gaps of a seat)";

/// A gap is one only where slats lie beside each other for more than this, mm.
const BESIDE: f64 = 1.0;

/// The gaps between the slats of the seat, whichever way they run.
pub(super) fn findings(chair: &Chair) -> Vec<Finding> {
    let slats = seat_slats(chair);
    let worst = gaps(&slats).into_iter().max_by(|a, b| nearness(*a).total_cmp(&nearness(*b)));
    worst.map(|gap| finding(gap, slats[0].size.thickness)).into_iter().collect()
}

fn seat_slats(chair: &Chair) -> Vec<&Part> {
    chair.parts.iter().filter(|p| p.id.role == Role::SeatSlat).collect()
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

/// Larger the nearer a gap is to the middle of the trapping range.
fn nearness(gap: f64) -> f64 {
    -(gap - (TRAP.start + TRAP.end) / 2.0).abs()
}

fn finding(gap: f64, depth: f64) -> Finding {
    let traps = TRAP.contains(&gap) && depth >= SHALLOW;
    let say = if traps {
        format!("The gaps of the seat are {gap:.1} mm wide; openings from 7 to 12 mm can trap a finger.")
    } else {
        format!("The gaps of the seat are {gap:.1} mm wide, outside the 7 to 12 mm that can trap a finger.")
    };
    let (verdict, used) = if traps { (Verdict::Close, 1.05) } else { (Verdict::Sound, 0.5) };
    Finding {
        subject: "gaps between seat slats".to_owned(),
        topic: Topic::Safety,
        plain: String::new(),
        knob: Some("seat_slat_gap"),
        say,
        value: gap,
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
    use serde_json::json;

    fn found(seat: &str, gap: f64) -> Vec<Finding> {
        let design = Design::from_value(&json!({"seat": seat, "seat_slat_gap": gap})).unwrap();
        findings(&Chair::resolve(&design, &Bench::default()).unwrap())
    }

    #[test]
    fn gaps_are_those_of_the_knob_both_ways() {
        for seat in ["across", "lengthwise"] {
            for (gap, verdict) in [(5.0, Verdict::Sound), (9.0, Verdict::Close), (14.0, Verdict::Sound)] {
                let found = found(seat, gap);
                assert!((found[0].value - gap).abs() < 1e-6, "{seat} {gap}: {}", found[0].value);
                assert_eq!(found[0].verdict, verdict, "{seat} {gap}");
            }
        }
        assert!(found("board", 9.0).is_empty());
    }
}
