//! Openings that could trap a finger.

use crate::chair::Chair;
use crate::finding::{Finding, Verdict};
use crate::part::{Part, Role};
use crestrail_geometry::Vec3;

/// Openings from 7 to 12 mm trap fingers unless they are shallower than 10 mm.
const TRAP: core::ops::Range<f64> = 7.0..12.0;
const SHALLOW: f64 = 10.0;
const SOURCE: &str = "extract of EN 12520 on finger traps (written for openings in rigid parts; taken here for the gaps of a seat)";

/// The gaps between the slats of the seat.
pub(super) fn findings(chair: &Chair) -> Vec<Finding> {
    let slats: Vec<&Part> = chair.parts.iter().filter(|p| p.id.role == Role::SeatSlat).collect();
    let gaps = slats.windows(2).map(|pair| front_edge(pair[1]) - back_edge(pair[0]));
    let worst = gaps.max_by(|a, b| nearness(*a).total_cmp(&nearness(*b)));
    worst.map(|gap| finding(gap, slats[0].size.thickness)).into_iter().collect()
}

fn front_edge(slat: &Part) -> f64 {
    slat.place.point(Vec3::Y * (-slat.size.width / 2.0)).y
}

fn back_edge(slat: &Part) -> f64 {
    slat.place.point(Vec3::Y * (slat.size.width / 2.0)).y
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
