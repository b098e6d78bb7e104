//! At which size each row of the table of fit is best, and which knob brings it there.

use crate::checks::fit::{FitRow, Item};
use crate::choices::{Arms, Back, Sits};
use crate::design::Design;
use crate::finding::Verdict;
use crestrail_sitter::Range;

/// A knob and by how much to turn it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Move {
    pub(super) knob: &'static str,
    pub(super) by: f64,
}

/// The sizes in the order in which they are brought in: those that others stand on first.
const ORDER: [Item; 8] = [
    Item::SeatToTable,
    Item::SeatHeight,
    Item::SeatDepth,
    Item::SeatWidth,
    Item::BetweenArms,
    Item::BackAngle,
    Item::ArmHeight,
    Item::Lumbar,
];
/// How many steps there are.
pub(super) const STEPS: usize = ORDER.len();

/// Seat for grown-ups at large, mm: 430 to 440 with a table of 735 (Joyce).
const SEAT_FOR_ALL: f64 = 430.0;
/// A seat for one person ends so much before where 50 mm would be left behind the likeliest knee: one standard deviation of people as
/// tall (ANSUR II), so that five of six have that room, mm.
const SHORTER: f64 = 20.0;
/// A seat so much shorter than that is lengthened, mm (no source).
const SHORT: f64 = 25.0;
/// Kept inside a range where there is room, mm or degrees: knobs have steps.
const INSIDE: f64 = 2.0;

/// What to turn for one step, if anything lacks.
pub(super) fn wish(step: usize, rows: &[FitRow], design: &Design) -> Option<Move> {
    let row = find(rows, *ORDER.get(step)?)?;
    match row.item {
        Item::SeatToTable => table(row, rows),
        Item::SeatHeight => seat(row, rows, design),
        Item::SeatDepth => depth(row, design).map(|by| Move { knob: row.knob, by }),
        Item::SeatWidth | Item::BetweenArms => {
            into(row).map(|by| Move { knob: row.knob, by: by * places(design) })
        }
        Item::ArmHeight => arms(row, rows, design),
        Item::Lumbar => lumbar(row, design),
        _ => into(row).map(|by| Move { knob: row.knob, by }),
    }
}

fn find(rows: &[FitRow], item: Item) -> Option<&FitRow> {
    rows.iter().find(|row| row.item == item)
}

fn places(design: &Design) -> f64 {
    (design.places() as usize + 1) as f64
}

/// By how much a size that is not sound has to grow to lie inside what is wanted.
fn into(row: &FitRow) -> Option<f64> {
    (row.verdict != Verdict::Sound).then(|| inside(row.wanted(), row.chair) - row.chair)
}

/// The size in the range nearest to `near`, a little off its ends.
fn inside(range: Range, near: f64) -> f64 {
    match (range.at_least, range.at_most) {
        (Some(least), Some(most)) => {
            let off = INSIDE.min((most - least) / 2.0).max(0.0);
            near.max(least + off).min(most - off)
        }
        (Some(least), None) => near.max(least + INSIDE),
        (None, Some(most)) => near.min(most - INSIDE),
        (None, None) => near,
    }
}

/// On a high chair the seat follows the worktop and the footrest the sitter; on others the seat follows the sitter.
fn table(row: &FitRow, rows: &[FitRow]) -> Option<Move> {
    is_high(rows).then(|| into(row)).flatten().map(|by| Move { knob: row.knob, by: -by })
}

fn is_high(rows: &[FitRow]) -> bool {
    find(rows, Item::SeatHeight).is_some_and(|row| row.knob != "seat_height")
}

fn seat(row: &FitRow, rows: &[FitRow], design: &Design) -> Option<Move> {
    if is_high(rows) {
        return into(row).map(|by| Move { knob: row.knob, by: -by });
    }
    let wanted = row.wanted();
    let best = match (design.sits(), wanted.at_least, wanted.at_most) {
        (Sits::Adults, ..) => SEAT_FOR_ALL,
        (_, Some(least), Some(most)) => (least + most) / 2.0,
        _ => row.chair,
    };
    let shared = [Item::ThighRoom, Item::SeatToTable].into_iter().fold(wanted, |range, item| {
        find(rows, item).map_or(range, |other| nearest(range, seats_for(other, row.chair)))
    });
    let by = inside(shared, best) - row.chair;
    (by.abs() >= 0.5).then_some(Move { knob: row.knob, by })
}

/// The heights of the seat at which a size above it is as wanted.
fn seats_for(above: &FitRow, seat: f64) -> Range {
    let top = seat + above.chair;
    Range { at_least: above.at_most.map(|most| top - most), at_most: above.at_least.map(|least| top - least) }
}

/// What both allow; where they share nothing, the size in the first that is nearest to the other.
fn nearest(first: Range, other: Range) -> Range {
    let both = first.and(other);
    if holds_any(both) {
        return both;
    }
    let towards = if other.at_most < first.at_least { first.at_least } else { first.at_most };
    let size = towards.map(|end| inside(first, end));
    Range { at_least: size, at_most: size }
}

fn holds_any(range: Range) -> bool {
    range.at_least.zip(range.at_most).is_none_or(|(least, most)| least <= most)
}

/// Grown-ups at large get a depth that is sound; one person the depth that carries the thighs.
fn depth(row: &FitRow, design: &Design) -> Option<f64> {
    let most = row.at_most?;
    if design.sits() == Sits::Adults || row.at_least.is_some() {
        return into(row);
    }
    let best = most - SHORTER;
    let off = best - row.chair;
    (row.verdict != Verdict::Sound || off > SHORT).then_some(off).filter(|off| off.abs() >= 0.5)
}

/// Arms under the elbows, and under the table where both can be.
fn arms(row: &FitRow, rows: &[FitRow], design: &Design) -> Option<Move> {
    if design.arms() == Arms::None {
        return None;
    }
    let under =
        find(rows, Item::ArmsUnderTable).and_then(|table| Some(row.chair + table.chair - table.at_least?));
    let both = under.map_or(row.wanted(), |most| row.wanted().and(Range::up_to(most)));
    let range = if holds_any(both) { both } else { row.wanted() };
    let by = inside(range, row.chair) - row.chair;
    (!range.holds(row.chair) && by.abs() >= 0.5).then_some(Move { knob: row.knob, by })
}

/// The lowest piece of the back moves with its share of the back's height.
fn lumbar(row: &FitRow, design: &Design) -> Option<Move> {
    if design.back() == Back::Open {
        return None;
    }
    let percent = into(row)? / (design.back_height() / 100.0);
    // A step of the knob at least: the range is several steps wide.
    Some(Move { knob: row.knob, by: percent.signum() * percent.abs().max(1.0) })
}
