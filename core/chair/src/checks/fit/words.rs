//! What a row of the table of fit means, for a customer and for a maker.

use super::item::Item;
use super::row::FitRow;
use crate::finding::Verdict;

/// What is looked at, with its verb; what it is when it is more than wanted, and when it is less.
fn phrases(item: Item) -> (&'static str, &'static str, &'static str) {
    match item {
        Item::SeatHeight => ("The seat is", "high: feet may not rest flat", "low: the knees come up"),
        Item::SeatDepth => (
            "The seat is",
            "deep: its edge may press behind the knees",
            "shallow: it carries little of the thighs",
        ),
        Item::SeatWidth => ("The seat is", "wide", "narrow for the hips"),
        Item::BetweenArms => ("The space between the arms is", "wide", "narrow for the hips"),
        Item::BackAngle => ("The back is", "far back: one lies more than sits", "upright to lean on"),
        Item::Lumbar => ("What supports the small of the back is", "high", "low"),
        Item::ArmHeight => ("The arms are", "high: they lift the shoulders", "low for the elbows to rest on"),
        Item::SeatToTable => {
            ("The table is", "high above the seat: shoulders go up", "low above the seat: one stoops")
        }
        Item::ThighRoom => {
            ("The room for the thighs under the table is", "large", "small: some legs do not go under it")
        }
        Item::KneeRoom => {
            ("The room for the knees under the table is", "large", "small: some knees do not go under it")
        }
        Item::ArmsUnderTable => (
            "The room for the arms under the table is",
            "large",
            "small: the chair cannot be pushed under it",
        ),
        Item::SitterWeight => ("The sitter is", "heavy: strength is checked for a lighter user", "light"),
    }
}

/// What is right where nothing is wrong.
fn noun(item: Item) -> &'static str {
    match item {
        Item::SeatHeight => "The height of the seat",
        Item::SeatDepth => "The depth of the seat",
        Item::SeatWidth => "The width of the seat",
        Item::BetweenArms => "The width between the arms",
        Item::BackAngle => "The lean of the back",
        Item::Lumbar => "The support of the small of the back",
        Item::ArmHeight => "The height of the arms",
        Item::SeatToTable => "The height of the table above the seat",
        Item::ThighRoom => "The room for the thighs under the table",
        Item::KneeRoom => "The room for the knees under the table",
        Item::ArmsUnderTable => "The room for the arms under the table",
        Item::SitterWeight => "The weight for which strength is checked",
    }
}

/// Whom it suits, said of the part of the body that it touches.
fn suits(item: Item, whom: &str) -> String {
    match item {
        Item::SeatHeight => format!("In shoes, the feet of {whom} rest flat."),
        Item::SeatDepth => format!("It leaves room behind the knees of {whom}."),
        Item::SeatWidth | Item::BetweenArms => format!("It leaves room beside the hips of {whom}."),
        Item::ArmHeight => format!("The elbows of {whom} are no lower than that."),
        Item::ThighRoom => format!("The thighs of {whom} go under it."),
        Item::KneeRoom => format!("The knees of {whom} go under it."),
        _ => format!("It suits {whom}."),
    }
}

/// A sentence or two for somebody who knows nothing about chairs.
pub(super) fn plain(row: &FitRow) -> String {
    let found = found(row);
    let whom = match (&row.people, &row.women, &row.men) {
        (Some(people), ..) => format!("{people} of people like this"),
        (None, Some(women), Some(men)) => format!("{women} of women and {men} of men"),
        _ => return found,
    };
    format!("{found} {}", suits(row.item, &whom))
}

fn found(row: &FitRow) -> String {
    let (subject, over, under) = phrases(row.item);
    let too = if row.at_most.is_some_and(|most| row.chair > most) { over } else { under };
    match row.verdict {
        Verdict::Close => format!("{subject} a little {too}."),
        Verdict::Fails => format!("{subject} too {too}."),
        Verdict::Sound if row.at_most.is_none() || row.item == Item::SitterWeight => {
            format!("{} is enough.", noun(row.item))
        }
        Verdict::Sound if row.people.is_none() && row.women.is_some() => {
            format!("{} is usual.", noun(row.item))
        }
        Verdict::Sound => format!("{} is right.", noun(row.item)),
    }
}

/// The same with its figures.
pub(super) fn maker(row: &FitRow) -> String {
    let unit = if row.unit == "°" { "°".to_owned() } else { format!(" {}", row.unit) };
    let wanted = match (row.at_least, row.at_most) {
        (Some(least), Some(most)) => format!("{least:.0} to {most:.0}{unit}"),
        (Some(least), None) => format!("{least:.0}{unit} or more"),
        (None, Some(most)) => format!("{most:.0}{unit} or less"),
        (None, None) => "any size".to_owned(),
    };
    let found = format!("{}: {:.0}{unit}, {wanted} wanted.", measured_how(row.item), row.chair);
    match (&row.women, &row.men) {
        (Some(women), Some(men)) => {
            format!(
                "{found} It suits {women} of women and {men} of men (US soldiers measured in 2012, leaner than most)."
            )
        }
        _ => found,
    }
}

/// Between which points a size is measured.
fn measured_how(item: Item) -> &'static str {
    match item {
        Item::SeatHeight => "Front of the seat under the sitter's weight, above what the feet rest on",
        Item::SeatDepth => "Front edge of the seat to the back, at the seat",
        Item::SeatWidth => "Width of one place in the middle of its depth",
        Item::BetweenArms => "Clear between the arms at the narrowest, one place",
        Item::BackAngle => "Between the seat and the front of the back",
        Item::Lumbar => "Wood of the back nearest to the small of the back, above the seat",
        Item::ArmHeight => "Top of the arms above the middle of the seat",
        Item::SeatToTable => "Front of the seat to the top of the table",
        Item::ThighRoom => "Front of the seat to the underside of the table",
        Item::KneeRoom => "What the feet rest on to the underside of the table",
        Item::ArmsUnderTable => "Top of the arms to the underside of the table",
        Item::SitterWeight => "Weight of the sitter",
    }
}
