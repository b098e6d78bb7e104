//! Best fit: piece after piece into the free rectangle that it fills best, which is then split in two.
//! It fills odd rests that strips leave, and is the measure that no plan may be worse than.

use super::layout::{Area, Placed};
use super::strips::{Laid, Way};

/// Fills free areas in the order of the ways; with `long`, what is left is split so that one part is as
/// large as can be.
pub(super) fn fill(
    mut free: Vec<Area>,
    ways: &[Way],
    order: &[usize],
    values: &[i64],
    limits: &[u32],
    long: bool,
) -> Laid {
    let mut left = limits.to_vec();
    let mut laid = Laid::default();
    for &row in order {
        while left[row] > 0 {
            let Some((place, way)) = tightest(&free, ways, row) else { break };
            let area = free.swap_remove(place);
            laid.placed.push(Placed { row, at: area.at, size: way.size });
            laid.value += values[row];
            left[row] -= 1;
            free.extend(split(area, way, long));
        }
    }
    laid
}

/// The free area and way with least room left on the tighter side.
fn tightest(free: &[Area], ways: &[Way], row: usize) -> Option<(usize, Way)> {
    let mut best: Option<((i64, i64), (usize, Way))> = None;
    for way in ways.iter().filter(|w| w.row == row) {
        for (place, area) in free.iter().enumerate() {
            let over = [area.size[0] - way.size[0], area.size[1] - way.size[1]];
            let rank = (over[0].min(over[1]), over[0].max(over[1]));
            if rank.0 >= 0 && best.is_none_or(|b| rank < b.0) {
                best = Some((rank, (place, *way)));
            }
        }
    }
    best.map(|b| b.1)
}

fn split(area: Area, way: Way, long: bool) -> Vec<Area> {
    let over = [area.size[0] - way.size[0], area.size[1] - way.size[1]];
    // Cut across first: the part to the right keeps the full width.
    let across = (over[0] * area.size[1] > over[1] * area.size[0]) == long;
    let right = Area {
        at: [area.at[0] + way.size[0], area.at[1]],
        size: [over[0], if across { area.size[1] } else { way.size[1] }],
    };
    let above = Area {
        at: [area.at[0], area.at[1] + way.size[1]],
        size: [if across { way.size[0] } else { area.size[0] }, over[1]],
    };
    [right, above].into_iter().filter(|a| a.size[0] > 0 && a.size[1] > 0).collect()
}
