//! Where the slats of a seat lie.

use super::Bench;
use crate::part::Role;
use crestrail_geometry::Bounds;
use crestrail_sorting::Order as _;

/// Gaps that differ by less are told as one, mm: half of what a rule shows.
const SAME: f64 = 0.25;

/// How far the slats lie from each other, and the first of them from the front rail; nothing of fewer than two.
pub(super) fn spacing(bench: &Bench<'_>) -> Option<String> {
    let mut slats = boxes(bench, Role::SeatSlat);
    let first = slats.first()?;
    let across = first.high.x - first.low.x > first.high.y - first.low.y;
    let ends = |slat: &Bounds| if across { [slat.low.y, slat.high.y] } else { [slat.low.x, slat.high.x] };
    slats.order_by(|a, b| ends(a)[0].total_cmp(&ends(b)[0]));
    // Slats of a bench that lie end to end are one row.
    let mut rows: Vec<[f64; 2]> = Vec::new();
    for [low, high] in slats.iter().map(ends) {
        match rows.last_mut() {
            Some(row) if low < row[1] - SAME => row[1] = row[1].max(high),
            _ => rows.push([low, high]),
        }
    }
    let gaps: Vec<f64> = rows.windows(2).map(|pair| pair[1][0] - pair[0][1]).collect();
    let (least, most) = (gaps.iter().copied().reduce(f64::min)?, gaps.iter().copied().reduce(f64::max)?);
    let lengths = bench.lengths;
    let apart = if most - least < SAME {
        format!("{} apart", lengths.say((least + most) / 2.0))
    } else {
        format!("{} to {} apart", lengths.write(least), lengths.say(most))
    };
    let rail = boxes(bench, Role::FrontRail).into_iter().map(|rail| rail.low.y).reduce(f64::min);
    let place = match rail.filter(|_| across) {
        Some(face) => {
            let out = face - rows[0][0];
            let way = if out < 0.0 { "behind" } else { "out from" };
            format!(
                "the edge of the first one {way} the face of the front rail by {}",
                lengths.say(out.abs())
            )
        }
        None => "evenly about the middle of the seat".to_owned(),
    };
    Some(format!("The slats lie {apart}, {place}; cut a spacer for the gaps."))
}

/// The boxes around all parts of a role, chair space.
fn boxes(bench: &Bench<'_>, role: Role) -> Vec<Bounds> {
    let own = bench.chair.pieces().filter(|(part, _)| part.id.role == role);
    own.map(|(part, body)| body.solid.posed(&part.place).bounds()).collect()
}
