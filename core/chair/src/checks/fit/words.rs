//! What a row of the table of fit means, for a customer and for a maker.

use super::item::Item;
use super::row::FitRow;
use crate::finding::Verdict;
use crestrail_phrases::{phrase, say, word};

/// What is wrong: a little more than wanted, a little less, too much, too little. Whole sentences, since other languages
/// say it otherwise of each thing.
fn wrong(item: Item) -> [&'static str; 4] {
    match item {
        Item::SeatHeight => [
            phrase("The seat is a little high: feet may not rest flat."),
            phrase("The seat is a little low: the knees come up."),
            phrase("The seat is too high: feet may not rest flat."),
            phrase("The seat is too low: the knees come up."),
        ],
        Item::SeatDepth => [
            phrase("The seat is a little deep: its edge may press behind the knees."),
            phrase("The seat is a little shallow: it carries little of the thighs."),
            phrase("The seat is too deep: its edge may press behind the knees."),
            phrase("The seat is too shallow: it carries little of the thighs."),
        ],
        Item::SeatWidth => [
            phrase("The seat is a little wide."),
            phrase("The seat is a little narrow for the hips."),
            phrase("The seat is too wide."),
            phrase("The seat is too narrow for the hips."),
        ],
        Item::BetweenArms => [
            phrase("The space between the arms is a little wide."),
            phrase("The space between the arms is a little narrow for the hips."),
            phrase("The space between the arms is too wide."),
            phrase("The space between the arms is too narrow for the hips."),
        ],
        Item::BackAngle => [
            phrase("The back is a little far back: one lies more than sits."),
            phrase("The back is a little upright to lean on."),
            phrase("The back is too far back: one lies more than sits."),
            phrase("The back is too upright to lean on."),
        ],
        Item::Lumbar => [
            phrase("What supports the small of the back is a little high."),
            phrase("What supports the small of the back is a little low."),
            phrase("What supports the small of the back is too high."),
            phrase("What supports the small of the back is too low."),
        ],
        Item::ArmHeight => [
            phrase("The arms are a little high: they lift the shoulders."),
            phrase("The arms are a little low for the elbows to rest on."),
            phrase("The arms are too high: they lift the shoulders."),
            phrase("The arms are too low for the elbows to rest on."),
        ],
        Item::SeatToTable => [
            phrase("The table is a little high above the seat: shoulders go up."),
            phrase("The table is a little low above the seat: one stoops."),
            phrase("The table is too high above the seat: shoulders go up."),
            phrase("The table is too low above the seat: one stoops."),
        ],
        Item::ThighRoom => [
            phrase("The room for the thighs under the table is a little large."),
            phrase(
                "The room for the thighs under the table is a little small: some legs do not go under it.",
            ),
            phrase("The room for the thighs under the table is too large."),
            phrase("The room for the thighs under the table is too small: some legs do not go under it."),
        ],
        Item::KneeRoom => [
            phrase("The room for the knees under the table is a little large."),
            phrase(
                "The room for the knees under the table is a little small: some knees do not go under it.",
            ),
            phrase("The room for the knees under the table is too large."),
            phrase("The room for the knees under the table is too small: some knees do not go under it."),
        ],
        Item::ArmsUnderTable => [
            phrase("The room for the arms under the table is a little large."),
            phrase(
                "The room for the arms under the table is a little small: the chair cannot be pushed under it.",
            ),
            phrase("The room for the arms under the table is too large."),
            phrase(
                "The room for the arms under the table is too small: the chair cannot be pushed under it.",
            ),
        ],
        Item::SitterWeight => [
            phrase("The sitter is a little heavy: strength is checked for a lighter user."),
            phrase("The sitter is a little light."),
            phrase("The sitter is too heavy: strength is checked for a lighter user."),
            phrase("The sitter is too light."),
        ],
    }
}

/// What is right where nothing is wrong.
fn noun(item: Item) -> &'static str {
    match item {
        Item::SeatHeight => phrase("The height of the seat"),
        Item::SeatDepth => phrase("The depth of the seat"),
        Item::SeatWidth => phrase("The width of the seat"),
        Item::BetweenArms => phrase("The width between the arms"),
        Item::BackAngle => phrase("The lean of the back"),
        Item::Lumbar => phrase("The support of the small of the back"),
        Item::ArmHeight => phrase("The height of the arms"),
        Item::SeatToTable => phrase("The height of the table above the seat"),
        Item::ThighRoom => phrase("The room for the thighs under the table"),
        Item::KneeRoom => phrase("The room for the knees under the table"),
        Item::ArmsUnderTable => phrase("The room for the arms under the table"),
        Item::SitterWeight => phrase("The weight for which strength is checked"),
    }
}

/// Whom it suits, said of the part of the body that it touches.
fn suits(item: Item, whom: &str) -> String {
    match item {
        Item::SeatHeight => say!("In shoes, the feet of {whom} rest flat."),
        Item::SeatDepth => say!("It leaves room behind the knees of {whom}."),
        Item::SeatWidth | Item::BetweenArms => say!("It leaves room beside the hips of {whom}."),
        Item::ArmHeight => say!("The elbows of {whom} are no lower than that."),
        Item::ThighRoom => say!("The thighs of {whom} go under it."),
        Item::KneeRoom => say!("The knees of {whom} go under it."),
        _ => say!("It suits {whom}."),
    }
}

/// A sentence or two for somebody who knows nothing about chairs.
pub(super) fn plain(row: &FitRow) -> String {
    let found = found(row);
    let whom = match (&row.people, &row.women, &row.men) {
        (Some(people), ..) => say!("{people} of people like this"),
        (None, Some(women), Some(men)) => say!("{women} of women and {men} of men"),
        _ => return found,
    };
    format!("{found} {}", suits(row.item, &whom))
}

fn found(row: &FitRow) -> String {
    let under = usize::from(!row.at_most.is_some_and(|most| row.chair > most));
    let noun = word(noun(row.item));
    match row.verdict {
        Verdict::Close => word(wrong(row.item)[under]).to_owned(),
        Verdict::Fails => word(wrong(row.item)[2 + under]).to_owned(),
        Verdict::Sound if row.at_most.is_none() || row.item == Item::SitterWeight => {
            say!("{noun} is enough.")
        }
        Verdict::Sound if row.people.is_none() && row.women.is_some() => say!("{noun} is usual."),
        Verdict::Sound => say!("{noun} is right."),
    }
}

/// The same with its figures.
pub(super) fn maker(row: &FitRow) -> String {
    let unit = if row.unit == "°" { "°".to_owned() } else { format!(" {}", row.unit) };
    let wanted = match (row.at_least, row.at_most) {
        (Some(least), Some(most)) => say!("{least:.0} to {most:.0}{unit}"),
        (Some(least), None) => say!("{least:.0}{unit} or more"),
        (None, Some(most)) => say!("{most:.0}{unit} or less"),
        (None, None) => say!("any size"),
    };
    let found = say!("{how}: {:.0}{unit}, {wanted} wanted.", row.chair, how = word(measured_how(row.item)));
    match (&row.women, &row.men) {
        (Some(women), Some(men)) => {
            say!(
                "{found} It suits {women} of women and {men} of men (US soldiers measured in 2012, leaner than most)."
            )
        }
        _ => found,
    }
}

/// Between which points a size is measured.
fn measured_how(item: Item) -> &'static str {
    match item {
        Item::SeatHeight => {
            phrase("Front of the seat under the sitter's weight, above what the feet rest on")
        }
        Item::SeatDepth => phrase("Front edge of the seat to the back, at the seat"),
        Item::SeatWidth => phrase("Width of one place in the middle of its depth"),
        Item::BetweenArms => phrase("Clear between the arms at the narrowest, one place"),
        Item::BackAngle => phrase("Between the seat and the front of the back"),
        Item::Lumbar => phrase("Wood of the back nearest to the small of the back, above the seat"),
        Item::ArmHeight => phrase("Top of the arms above the middle of the seat"),
        Item::SeatToTable => phrase("Front of the seat to the top of the table"),
        Item::ThighRoom => phrase("Front of the seat to the underside of the table"),
        Item::KneeRoom => phrase("What the feet rest on to the underside of the table"),
        Item::ArmsUnderTable => phrase("Top of the arms to the underside of the table"),
        Item::SitterWeight => phrase("Weight of the sitter"),
    }
}
